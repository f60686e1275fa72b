package report

import (
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// RoofTotals add up rows, to the cent.
type RoofTotals struct {
	Count        int
	Alternatives []RoofTotal // by name, in the order of the table
	None         int         // roofs for which no alternative is eligible
}

// RoofTotal is what one alternative sums up to over all roofs.
type RoofTotal struct {
	LCC, First, Saved big.Int // in minor units; Saved is against the base case
	Count             int     // roofs that have it
	Lowest            int     // roofs for which it is the lowest
}

// Add adds a row.
func (s *RoofTotals) Add(t *Roofs, r *Roof) {
	if s.Alternatives == nil {
		s.Alternatives = make([]RoofTotal, len(t.alternatives))
	}
	s.Count++
	places := t.places[r.Template]
	for i, c := range r.Costs {
		a := &s.Alternatives[places[i]]
		a.Count++
		saved, _ := t.saved(r, i)
		for _, add := range []struct {
			to    *big.Int
			minor int64
		}{{&a.LCC, c.LCC}, {&a.First, c.First}, {&a.Saved, saved}} {
			var x big.Int
			add.to.Add(add.to, x.SetInt64(add.minor))
		}
	}
	if r.Answer.Lowest < 0 {
		s.None++
		return
	}
	s.Alternatives[places[r.Answer.Lowest]].Lowest++
}

// Join adds the totals of other rows.
func (s *RoofTotals) Join(o *RoofTotals) {
	if s.Alternatives == nil {
		s.Alternatives = make([]RoofTotal, len(o.Alternatives))
	}
	s.Count, s.None = s.Count+o.Count, s.None+o.None
	for i := range o.Alternatives {
		a, b := &s.Alternatives[i], &o.Alternatives[i]
		a.LCC.Add(&a.LCC, &b.LCC)
		a.First.Add(&a.First, &b.First)
		a.Saved.Add(&a.Saved, &b.Saved)
		a.Count, a.Lowest = a.Count+b.Count, a.Lowest+b.Lowest
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
		line := t.alternatives[i]
		if a.Count < s.Count {
			line += fmt.Sprintf(", of %s", Plural(a.Count, "roof"))
		}
		line = fmt.Sprintf("%s: life-cycle cost %s, first cost %s", line, t.sum(&a.LCC), t.sum(&a.First))
		if t.saves(i) {
			line += ", net savings " + t.sum(&a.Saved)
		}
		out = append(out, fmt.Sprintf("%s, lowest for %s", line, Plural(a.Lowest, "roof")))
	}
	return out
}

// saves tells an alternative that has net savings in some study.
func (t *Roofs) saves(at int) bool {
	for s, places := range t.places {
		if base := t.bases[s]; base >= 0 && slices.Contains(places, at) && places[base] != at {
			return true
		}
	}
	return false
}

func (t *Roofs) sum(minor *big.Int) string {
	digits := t.studies[0].About.Digits
	return decimal.NewFromBigInt(minor, -digits).StringFixed(digits) + " " + t.currency()
}
