package lcc

import (
	"slices"

	"github.com/shopspring/decimal"
)

// Crossover is a discount rate at which two alternatives tie. What is paid
// does not depend on the rate, only what it is worth; so the difference of two
// ledgers is one stream of amounts, and its roots are all the crossovers.
type Crossover struct {
	A, B  int             // indices of the alternatives, A < B
	Rate  decimal.Decimal // fraction, to 12 decimals
	Below int             // the cheaper of the two at rates just below
	Above int             // the cheaper just above; equal to Below where they only touch
}

// ratePlaces is how many decimals a crossover rate carries.
const ratePlaces = 12

// highestShown is the upper end of the rates looked at, unless the study's
// own rates go beyond.
var highestShown = decimal.New(12, -2)

// rateRange is the range of discount rates that a result looks at: 0 to 12 %,
// widened to whole per cents that hold the study's rate and its range.
func (s *Study) rateRange(v Vector) [2]decimal.Decimal {
	in := &s.Inputs[s.Rate]
	least, most := v[s.Rate], v[s.Rate]
	if in.Shape.HasRange() {
		least, most = decimal.Min(least, in.Low), decimal.Max(most, in.High)
	}
	return [2]decimal.Decimal{
		decimal.Min(decimal.Zero, least.RoundFloor(2)),
		decimal.Max(highestShown, most.RoundCeil(2)),
	}
}

// difference is what alternative a pays more than b, by half year. Amounts are
// subtracted exactly, so what both pay is zero.
func (r *Result) difference(a, b int) stream {
	sums := make([]decimal.Decimal, 2*r.Study.Period+1)
	for _, line := range r.Alternatives[a].Ledger {
		sums[line.Time] = sums[line.Time].Add(line.Amount)
	}
	for _, line := range r.Alternatives[b].Ledger {
		sums[line.Time] = sums[line.Time].Sub(line.Amount)
	}
	return scaled(sums, r.Study.About.Digits)
}

// scaled makes a stream of exact amounts: in minor units, so that its entries
// are whole numbers, or in a larger power of ten where float64 has not the
// digits for that. What ties does not depend on it.
func scaled(sums []decimal.Decimal, places int32) stream {
	const most = 15 // digits of a whole number that float64 keeps for sure
	shift := places
	for _, v := range sums {
		shift = min(shift, most-int32(v.NumDigits())-v.Exponent())
	}
	out := make(stream, len(sums))
	for t, v := range sums {
		out[t] = v.Shift(shift).InexactFloat64()
	}
	return out
}

// crossovers finds every tie of any two alternatives in the range of rates,
// in order of rate.
func (r *Result) crossovers() []Crossover {
	lo, hi := r.RateRange[0].InexactFloat64(), r.RateRange[1].InexactFloat64()
	var out []Crossover
	for a := range r.Alternatives {
		for b := a + 1; b < len(r.Alternatives); b++ {
			for _, x := range r.difference(a, b).roots(lo, hi) {
				c := Crossover{A: a, B: b, Rate: decimal.NewFromFloat(x.rate).Round(ratePlaces)}
				c.Below, c.Above = cheaper(a, b, x.before), cheaper(a, b, x.after)
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(x, y Crossover) int { return x.Rate.Cmp(y.Rate) })
	return out
}

// cheaper names the cheaper of two alternatives by the sign of LCC(a) − LCC(b).
func cheaper(a, b int, difference float64) int {
	if difference > 0 {
		return b
	}
	return a
}

// Crosses tells whether the cheaper alternative changes at the tie.
func (c Crossover) Crosses() bool { return c.Below != c.Above }

// Between tells whether the crossover is one of the two alternatives.
func (c Crossover) Between(a, b int) bool {
	return c.A == a && c.B == b || c.A == b && c.B == a
}
