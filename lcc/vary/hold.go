package vary

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Hold says for which values of one input an alternative costs least of some
// alternatives, the other inputs held.
type Hold struct {
	In        lcc.Ref
	Low, High decimal.Decimal // the range looked at
	Crossings []Crossing      // every tie of the alternative with a rival in the range
	Within    []Interval      // where it costs least, in order
}

// Interval is a stretch of an input's values. An end that is no end of the
// range looked at is a crossing with a rival.
type Interval struct {
	From, To       decimal.Decimal
	FromTie, ToTie *Crossing // nil at an end of the range
}

// Always tells whether the alternative costs least in the whole range.
func (h Hold) Always() bool {
	return len(h.Within) == 1 && h.Within[0].FromTie == nil && h.Within[0].ToTie == nil
}

// Holds finds, for every input that matters to a break-even, where an
// alternative costs least of itself and its rivals: inputs with a range, and
// every price, life and rate in any case.
func Holds(r *lcc.Result, alternative int, rivals []int) ([]Hold, error) {
	var out []Hold
	for i := range r.Study.Inputs {
		h, err := hold(r, lcc.Ref(i), alternative, rivals)
		if err != nil {
			return nil, err
		}
		out = append(out, h)
	}
	return out, nil
}

// span is the range in which break-even values of an input are looked for:
// wider than what the file states, since the question is how far the input
// could move before the answer changes.
func span(r *lcc.Result, in lcc.Ref) (low, high decimal.Decimal) {
	input := &r.Study.Inputs[in]
	likely := r.Inputs[in]
	top := decimal.Max(likely, input.High)
	switch input.Unit {
	case lcc.Rate:
		low, high = rateSpan(r, in)
	case lcc.Years:
		// A life longer than the study period and a half changes little but
		// the residual value.
		low, high = decimal.NewFromInt(1), decimal.Max(decimal.NewFromInt(2).Mul(top), decimal.NewFromInt(int64(r.Study.Period)))
		low = decimal.Min(low, likely)
	default:
		low, high = decimal.Zero, decimal.NewFromInt(10).Mul(top)
		if likely.IsNegative() { // a credit
			low, high = decimal.NewFromInt(10).Mul(decimal.Min(likely, input.Low)), decimal.Zero
		}
		if low.Equal(high) { // nothing is stated: any amount
			high = decimal.NewFromInt(1_000_000)
		}
		if input.Unit == lcc.Area {
			low = likely.Shift(-3)
		}
	}
	if input.Shape.HasRange() {
		low, high = decimal.Min(low, input.Low), decimal.Max(high, input.High)
	}
	return low, high
}

// rateSpan is −5 % to 15 % for escalation and ageing, and the range of the
// rate curve for the discount rate.
func rateSpan(r *lcc.Result, in lcc.Ref) (low, high decimal.Decimal) {
	if in == r.Study.Rate {
		return r.RateRange[0], r.RateRange[1]
	}
	low, high = decimal.New(-5, -2), decimal.New(15, -2)
	return decimal.Min(low, r.Inputs[in]), decimal.Max(high, r.Inputs[in])
}

// hold looks at one input.
func hold(r *lcc.Result, in lcc.Ref, alternative int, rivals []int) (Hold, error) {
	h := Hold{In: in}
	h.Low, h.High = span(r, in)
	for _, rival := range rivals {
		a, b := min(alternative, rival), max(alternative, rival)
		ties, err := r.Ties(in, a, b, h.Low, h.High)
		if err != nil {
			return h, err
		}
		for _, tie := range ties {
			if tie.Below != tie.Above {
				h.Crossings = append(h.Crossings, Crossing{a, b, tie})
			}
		}
	}
	slices.SortStableFunc(h.Crossings, func(x, y Crossing) int { return x.At.Cmp(y.At) })
	h.within(r, alternative, rivals)
	return h, nil
}

// within finds the stretches by counting the rivals that are cheaper: known
// at the study's own value, and changed by one at every crossing.
func (h *Hold) within(r *lcc.Result, alternative int, rivals []int) {
	now := r.Inputs[h.In]
	cheaper := map[int]bool{} // rivals cheaper than the alternative at Low
	for _, rival := range rivals {
		cheaper[rival] = r.Difference(rival, alternative).IsNegative()
	}
	// Back from the study's own value to Low.
	for i := len(h.Crossings) - 1; i >= 0; i-- {
		c := &h.Crossings[i]
		if below(c, now) {
			cheaper[c.A+c.B-alternative] = c.Below != alternative
		}
	}
	var open *Interval
	if none(cheaper) {
		open = &Interval{From: h.Low}
	}
	for i := range h.Crossings {
		c := &h.Crossings[i]
		cheaper[c.A+c.B-alternative] = c.Above != alternative
		switch holds := none(cheaper); {
		case open != nil && !holds:
			open.To, open.ToTie = c.At, c
			h.Within = append(h.Within, *open)
			open = nil
		case open == nil && holds:
			open = &Interval{From: c.At, FromTie: c}
		}
	}
	if open != nil {
		open.To = h.High
		h.Within = append(h.Within, *open)
	}
}

// below tells whether a crossing lies below the study's own value. A step at
// a life of n years lies above a life of just n.
func below(c *Crossing, now decimal.Decimal) bool { return c.At.LessThan(now) }

func none(cheaper map[int]bool) bool {
	for _, yes := range cheaper {
		if yes {
			return false
		}
	}
	return true
}
