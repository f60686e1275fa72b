package risk

import (
	"fmt"

	"roofyears/lcc"
)

// oneOff is a study in which each alternative pays one amount at time 0 and
// nothing else, so that a trial's costs are what was drawn. Input 0 is the
// discount rate.
func oneOff(prices ...lcc.Input) *lcc.Study {
	return sums(func(i int) []lcc.Input { return prices[i : i+1] }, len(prices))
}

// sums is oneOff with several amounts to an alternative.
func sums(prices func(alternative int) []lcc.Input, alternatives int) *lcc.Study {
	b := newBuilder(10)
	s := b.s
	s.Rate = b.fixed(lcc.Rate, "0.03")
	s.Area = b.fixed(lcc.Area, "1")
	long := b.fixed(lcc.Years, "100")
	for a := range alternatives {
		y := lcc.System{Key: fmt.Sprintf("system %d", a), Life: long, Then: a, Residual: lcc.Residual{Mode: lcc.NoResidual}}
		for i, in := range prices(a) {
			in.Path = fmt.Sprintf("price %d", a)
			if i > 0 {
				in.Path = fmt.Sprintf("price %d.%d", a, i)
			}
			y.First = append(y.First, b.item(s.Add(in), lcc.NoRef, lcc.Construction)...)
		}
		s.Systems = append(s.Systems, y)
		s.Alternatives = append(s.Alternatives, lcc.Alternative{Name: y.Key, Start: a})
	}
	return s
}

func normalPrice(mean, sd string) lcc.Input {
	return estimate{shape: lcc.Normal, likely: mean, spread: sd}.input(lcc.Money)
}

func fixedPrice(amount string) lcc.Input { return lcc.Input{Unit: lcc.Money, Likely: dec(amount)} }
