package report

import (
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// RoofTotals add up rows, to the cent.
type RoofTotals struct {
	Count        int         // rows added, 0 or more
	Alternatives []RoofTotal // by name, in the order of the table
	Lowest       RoofTotal   // each roof's lowest alternative
	None         int         // roofs for which no alternative is eligible
}

// RoofTotal is what one alternative sums up to over all roofs.
type RoofTotal struct {
	LCC, First, Saved MinorSum // in minor units; Saved is against the base case
	Count             int      // roofs that have it
	Lowest            int      // roofs for which it is the lowest
}

// Add adds a row.
func (s *RoofTotals) Add(t *Roofs, r *Roof) {
	if s.Alternatives == nil {
		s.Alternatives = make([]RoofTotal, len(t.alternatives))
	}
	s.Count++
	places := t.places[r.Template]
	for i := range r.Costs {
		s.Alternatives[places[i]].add(t, r, i)
	}
	if r.Answer.Lowest < 0 {
		s.None++
		return
	}
	s.Alternatives[places[r.Answer.Lowest]].Lowest++
	s.Lowest.add(t, r, r.Answer.Lowest)
}

// add adds what an alternative of a roof costs.
func (a *RoofTotal) add(t *Roofs, r *Roof, i int) {
	a.Count++
	saved, _ := t.saved(r, i)
	a.LCC.Add(r.Costs[i].LCC)
	a.First.Add(r.Costs[i].First)
	a.Saved.Add(saved)
}

// join adds another total of the same.
func (a *RoofTotal) join(b *RoofTotal) {
	a.LCC.Join(&b.LCC)
	a.First.Join(&b.First)
	a.Saved.Join(&b.Saved)
	a.Count, a.Lowest = a.Count+b.Count, a.Lowest+b.Lowest
}

// Join adds the totals of other rows.
func (s *RoofTotals) Join(o *RoofTotals) {
	if s.Alternatives == nil {
		s.Alternatives = make([]RoofTotal, len(o.Alternatives))
	}
	s.Count, s.None = s.Count+o.Count, s.None+o.None
	s.Lowest.join(&o.Lowest)
	for i := range o.Alternatives {
		s.Alternatives[i].join(&o.Alternatives[i])
	}
}

// RoofTotalLines tell the totals, a line for the number of roofs and one for
// each alternative.
func (t *Roofs) RoofTotalLines(s *RoofTotals) []string {
	out := []string{Plural(s.Count, "roof")}
	if s.None > 0 {
		out[0] += fmt.Sprintf(", of which %s without an alternative that is not ruled out", grouped(fmt.Sprint(s.None)))
	}
	for i := range s.Alternatives {
		a := &s.Alternatives[i]
		out = append(out, fmt.Sprintf("%s, lowest for %s", t.totalLine(s, t.alternatives[i], a, t.Saves(i)), Plural(a.Lowest, "roof")))
	}
	return append(out, t.totalLine(s, "each roof's lowest", &s.Lowest, t.AnySaves()))
}

// AnySaves tells whether some study has a base case.
func (t *Roofs) AnySaves() bool {
	return slices.ContainsFunc(t.bases, func(base int) bool { return base >= 0 })
}

func (t *Roofs) totalLine(s *RoofTotals, name string, a *RoofTotal, saves bool) string {
	if a.Count < s.Count {
		name += fmt.Sprintf(", of %s", Plural(a.Count, "roof"))
	}
	line := fmt.Sprintf("%s: life-cycle cost %s, first cost %s", name, t.sum(&a.LCC), t.sum(&a.First))
	if saves {
		line += ", net savings " + t.sum(&a.Saved)
	}
	return line
}

// Saves tells whether an alternative has net savings in some study: against
// the base case, which itself has none.
func (t *Roofs) Saves(at int) bool {
	for s, places := range t.places {
		if base := t.bases[s]; base >= 0 && slices.Contains(places, at) && places[base] != at {
			return true
		}
	}
	return false
}

func (t *Roofs) sum(minor *MinorSum) string { return t.AmountOf(minor.Big()) + " " + t.currency() }

// AmountOf is an amount in minor units with the currency's digits.
func (t *Roofs) AmountOf(minor *big.Int) string {
	return decimal.NewFromBigInt(minor, -t.digits()).StringFixed(t.digits())
}
