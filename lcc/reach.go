package lcc

import "github.com/shopspring/decimal"

// Reached tells of each system whether it stands on the roof at some time of
// an alternative, at a vector whose lives are in range. Shorter lives reach
// no less of a chain.
func (s *Study) Reached(v Vector, alternative int) []bool {
	out := make([]bool, len(s.Systems))
	for w := s.Walk(alternative); ; {
		slot, more := w.Slot()
		if !more {
			return out
		}
		out[w.Next(wholeYears(v[s.LifeAt(slot)])).System] = true
	}
}

// FirstCost is what the first costs of a system come to at base-date prices,
// each item rounded as its ledger line is: what an alternative pays at the
// start that installs the system at time 0.
// A vector from which nothing follows, since it divides by nothing, costs
// nothing.
func (s *Study) FirstCost(v Vector, system int) decimal.Decimal {
	v, err := s.filled(v)
	if err != nil {
		return decimal.Zero
	}
	b := bookkeeper{study: s, v: v}
	sum := decimal.Zero
	items := s.Systems[system].First
	for i := range items {
		sum = sum.Add(toMinor(b.base(&items[i]), s.About.Digits))
	}
	return sum
}
