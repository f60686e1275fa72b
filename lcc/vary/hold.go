package vary

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Holds finds, for every input that does not follow from others, where an
// alternative costs least of itself and its rivals: how far each could move, the
// others held, before the answer changes. What follows from other inputs does
// not move by itself. It fails where lcc.Result.Ties does.
func Holds(r *lcc.Result, alternative int, rivals []int) ([]lcc.Hold, error) {
	search, err := r.TieSearch()
	if err != nil {
		return nil, err
	}
	var out []lcc.Hold
	for i := range r.Study.Inputs {
		if r.Study.IsDerived(lcc.Ref(i)) {
			continue // it moves with what it follows from
		}
		low, high := span(r, lcc.Ref(i))
		h, err := search.Hold(lcc.Ref(i), alternative, rivals, low, high)
		if err != nil {
			return nil, err
		}
		out = append(out, h)
	}
	return out, nil
}

// Rivals lists the eligible alternatives but one.
func Rivals(r *lcc.Result, alternative int) []int {
	var out []int
	for _, a := range r.Study.Eligible() {
		if a != alternative {
			out = append(out, a)
		}
	}
	return out
}

// span is the range in which break-even values of an input are looked for:
// wider than what the file states, since the question is how far the input
// could move before the answer changes. Amounts go from nothing to ten times
// what is stated, lives from a year to the study period or twice what is
// stated, rates from −5 % to 15 %, shares from 0 % to 100 %, and none beyond
// what has a meaning.
// An input that divides, such as the solids of a paint, goes no lower than to
// a hundredth, and of a loss the rest no lower.
func span(r *lcc.Result, in lcc.Ref) (low, high decimal.Decimal) {
	low, high = plainSpan(r, in)
	now, one := r.Inputs[in], decimal.NewFromInt(1)
	switch r.Study.Enters(in) {
	case lcc.Over:
		low = decimal.Max(low, decimal.Min(now, now.Shift(-2)))
	case lcc.OverRest:
		high = decimal.Min(high, one.Sub(one.Sub(now).Shift(-2)))
	}
	return low, high
}

func plainSpan(r *lcc.Result, in lcc.Ref) (low, high decimal.Decimal) {
	input, now := &r.Study.Inputs[in], r.Inputs[in]
	if input.Shape.HasRange() {
		low, high = decimal.Min(now, input.Low), decimal.Max(now, input.High)
	} else {
		low, high = now, now
	}
	switch input.Unit {
	case lcc.Rate:
		from, to := decimal.New(-5, -2), decimal.New(15, -2)
		if in == r.Study.Rate {
			from, to = r.RateRange[0], r.RateRange[1]
		}
		return decimal.Min(low, from), decimal.Max(high, to)
	case lcc.Years:
		most := decimal.Max(high.Mul(decimal.NewFromInt(2)), decimal.NewFromInt(int64(r.Study.Period)))
		return decimal.Min(low, decimal.NewFromInt(1)), most
	case lcc.Area:
		return low.Shift(-3), high.Shift(1)
	}
	if input.UnitText == "%" { // a share of a whole
		return decimal.Min(decimal.Zero, low), decimal.Max(decimal.NewFromInt(1), high)
	}
	low, high = decimal.Min(decimal.Zero, low.Shift(1)), decimal.Max(decimal.Zero, high.Shift(1))
	if low.Equal(high) { // nothing is stated: any amount up to a million
		high = decimal.New(1, 6)
	}
	if input.Most.IsPositive() {
		high = decimal.Min(high, input.Most)
	}
	return low, high
}
