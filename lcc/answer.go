package lcc

import "github.com/shopspring/decimal"

// TieShare is the share of the life-cycle cost under which a margin is told
// as a tie for practical purposes: estimates of prices and lives are not that
// good (common practice).
var TieShare = decimal.New(2, -2)

// Answer names the alternative with the lowest life-cycle cost among those
// that nothing rules out.
type Answer struct {
	Lowest   int             // index; −1 when no alternative is eligible
	RunnerUp int             // index of the next eligible one; −1 when there is none
	Margin   decimal.Decimal // LCC(runner-up) − LCC(lowest), 0 or more; 0 without a runner-up
	Tie      bool            // the margin is nothing, or under TieShare of the lowest LCC
	From, To RateBound       // discount rates between which Lowest stays the lowest
}

// RateBound is an end of the rates for which an answer holds.
type RateBound struct {
	Rate decimal.Decimal
	// Rival is the alternative that becomes cheaper beyond; −1 where the
	// answer still holds at the end of the range looked at.
	Rival int
}

// answer finds the answer. A tie to the cent goes to the one that stands
// first in the study.
func (r *Result) answer() Answer {
	a := Answer{Lowest: -1, RunnerUp: -1}
	for i := range r.Alternatives {
		switch {
		case !r.Alternatives[i].Alternative.Eligible():
		case a.Lowest < 0 || r.Difference(i, a.Lowest).IsNegative():
			a.Lowest, a.RunnerUp = i, a.Lowest
		case a.RunnerUp < 0 || r.Difference(i, a.RunnerUp).IsNegative():
			a.RunnerUp = i
		}
	}
	if a.Lowest < 0 {
		return a
	}
	if a.RunnerUp >= 0 {
		a.Margin = r.Difference(a.RunnerUp, a.Lowest)
		a.Tie = a.Margin.IsZero() || a.Margin.LessThan(r.Alternatives[a.Lowest].LCC.Abs().Mul(TieShare))
	}
	a.From, a.To = r.holds(a.Lowest)
	return a
}

// holds gives the rates around the study's own between which an alternative
// stays the lowest of the eligible ones.
func (r *Result) holds(lowest int) (from, to RateBound) {
	from, to = RateBound{r.RateRange[0], -1}, RateBound{r.RateRange[1], -1}
	for _, c := range r.Crossovers {
		rival := c.A + c.B - lowest
		if !c.Between(lowest, rival) || !c.Crosses() || !r.Alternatives[rival].Alternative.Eligible() {
			continue
		}
		switch {
		case c.Below == rival && c.Rate.LessThanOrEqual(r.Rate) && c.Rate.GreaterThan(from.Rate):
			from = RateBound{c.Rate, rival}
		case c.Above == rival && c.Rate.GreaterThanOrEqual(r.Rate) && c.Rate.LessThan(to.Rate):
			to = RateBound{c.Rate, rival}
		}
	}
	return from, to
}
