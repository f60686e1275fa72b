package lcc

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"
)

// publishedBreakEven is the value of a quantity, up to a thousand times its own, at
// which the two alternatives of a study tie. It halves the interval; every
// step is an evaluation of the study.
func publishedBreakEven(r *Result, quantity string) (any, error) {
	ref := r.Study.Find(quantity)
	if ref == NoRef || len(r.Alternatives) != 2 {
		return nil, fmt.Errorf("a break-even needs two alternatives and a quantity %q", quantity)
	}
	v := slices.Clone(r.Inputs)
	sign := func(x decimal.Decimal) (int, error) {
		v[ref] = x
		at, err := r.Study.EvaluateAt(v)
		if err != nil {
			return 0, err
		}
		return at.Difference(0, 1).Sign(), nil
	}
	lo, hi := decimal.Zero, r.Inputs[ref].Mul(decimal.NewFromInt(1000))
	below, err := sign(lo)
	if err != nil {
		return nil, err
	}
	if above, err := sign(hi); err != nil || above == below {
		return nil, fmt.Errorf("no tie of %q up to %s: %v", quantity, hi, err)
	}
	for range 60 {
		mid := lo.Add(hi).Div(decimal.NewFromInt(2)).Round(20)
		at, err := sign(mid)
		if err != nil {
			return nil, err
		}
		if at == below {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi, nil
}
