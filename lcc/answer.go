package lcc

import (
	"slices"

	"github.com/shopspring/decimal"
)

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
	// Again are further stretches of rates in which Lowest is the lowest.
	Again []Interval
	// Unbacked is the alternative that would be the lowest if no residual value
	// were credited; Lowest itself where the answer does not rest on them.
	Unbacked       int
	UnbackedMargin decimal.Decimal // what Lowest would then cost more than it; 0 where they are one
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
	var a Answer
	a.Lowest, a.RunnerUp = r.Study.Rank(func(i, j int) bool { return r.Difference(i, j).IsNegative() })
	if a.Lowest < 0 {
		return a
	}
	if a.RunnerUp >= 0 {
		a.Margin = r.Difference(a.RunnerUp, a.Lowest)
		a.Tie = IsTie(a.Margin, r.Alternatives[a.Lowest].LCC)
	}
	r.holds(&a)
	r.unbacked(&a)
	return a
}

// Rank finds the lowest of the eligible alternatives and the next one; −1 where
// there is none.
func (s *Study) Rank(less func(i, j int) bool) (lowest, runnerUp int) {
	lowest, runnerUp = -1, -1
	for i := range s.Alternatives {
		switch {
		case !s.Alternatives[i].Eligible():
		case lowest < 0 || less(i, lowest):
			lowest, runnerUp = i, lowest
		case runnerUp < 0 || less(i, runnerUp):
			runnerUp = i
		}
	}
	return lowest, runnerUp
}

// IsTie tells a margin that is nothing, or under TieShare of the lowest
// life-cycle cost.
func IsTie(margin, lowest decimal.Decimal) bool {
	return margin.IsZero() || margin.LessThan(lowest.Abs().Mul(TieShare))
}

// isTieMinor is IsTie of amounts in minor units, within −MaxMinor to MaxMinor.
func isTieMinor(margin, lowest int64) bool {
	return margin == 0 || margin*tieParts < max(lowest, -lowest)*tieShare
}

// tieShare of tieParts is TieShare, in whole numbers of at most some hundreds.
var tieShare, tieParts = TieShare.Rat().Num().Int64(), TieShare.Rat().Denom().Int64()

// unbacked finds the answer without residual values.
func (r *Result) unbacked(a *Answer) {
	without := func(i int) decimal.Decimal { return r.Alternatives[i].LCC.Add(r.Alternatives[i].Residual.PV) }
	a.Unbacked = a.Lowest
	for i := range r.Alternatives {
		if r.Alternatives[i].Alternative.Eligible() && without(i).LessThan(without(a.Unbacked)) {
			a.Unbacked = i
		}
	}
	if a.Unbacked != a.Lowest {
		a.UnbackedMargin = without(a.Lowest).Sub(without(a.Unbacked))
	}
}

// holds finds the discount rates for which the answer is the lowest of the
// eligible alternatives: the stretch around the study's own rate, and others.
func (r *Result) holds(a *Answer) {
	h := Hold{In: r.Study.Rate, Low: r.RateRange[0], High: r.RateRange[1]}
	var rivals []int
	for i := range r.Alternatives {
		if i != a.Lowest && r.Alternatives[i].Alternative.Eligible() {
			rivals = append(rivals, i)
		}
	}
	for _, c := range r.Crossovers {
		rival := c.A + c.B - a.Lowest
		if slices.Contains(rivals, rival) && c.Between(a.Lowest, rival) && c.Crosses() {
			h.Ties = append(h.Ties, Tie{A: c.A, B: c.B, At: c.Rate, Below: c.Below, Above: c.Above})
		}
	}
	h.within(a.Lowest, rivals, func(rival int) bool { return r.Difference(rival, a.Lowest).IsNegative() })
	a.From, a.To = RateBound{r.RateRange[0], -1}, RateBound{r.RateRange[1], -1}
	if rival := r.onlyHere(a.Lowest, rivals); rival >= 0 {
		a.From, a.To = RateBound{r.Rate, rival}, RateBound{r.Rate, rival}
		return
	}
	around := false
	for _, stretch := range h.Within {
		if stretch.From.GreaterThan(r.Rate) || stretch.To.LessThan(r.Rate) {
			a.Again = append(a.Again, stretch)
			continue
		}
		around = true
		a.From, a.To = r.bound(stretch.From, stretch.FromTie, a.Lowest), r.bound(stretch.To, stretch.ToTie, a.Lowest)
	}
	if !around && a.RunnerUp >= 0 { // the lowest by the rounding of lines only
		a.From, a.To = RateBound{r.Rate, a.RunnerUp}, RateBound{r.Rate, a.RunnerUp}
	}
}

// onlyHere finds a rival that ties with the answer at just the study's rate
// and is cheaper on both sides of it; −1 when there is none.
func (r *Result) onlyHere(lowest int, rivals []int) int {
	near := decimal.New(1, -6) // as far as a touch can be told from a near miss
	for _, c := range r.Crossovers {
		rival := c.A + c.B - lowest
		if slices.Contains(rivals, rival) && c.Between(lowest, rival) && !c.Crosses() && c.Below == rival &&
			c.Rate.Sub(r.Rate).Abs().LessThan(near) {
			return rival
		}
	}
	return -1
}

// bound names the rival beyond an end of a stretch; what lies beyond the
// range looked at is not told.
func (r *Result) bound(rate decimal.Decimal, tie *Tie, lowest int) RateBound {
	if tie == nil || rate.Equal(r.RateRange[0]) || rate.Equal(r.RateRange[1]) {
		return RateBound{rate, -1}
	}
	return RateBound{rate, tie.A + tie.B - lowest}
}
