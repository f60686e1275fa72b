package report

import (
	"fmt"
	"math/big"

	"github.com/shopspring/decimal"
)

// RoofTotals add up rows, to the cent.
type RoofTotals struct {
	Count        int
	Alternatives []RoofTotal // of the study, in its order
	None         int         // roofs for which no alternative is eligible
}

// RoofTotal is what one alternative sums up to over all roofs.
type RoofTotal struct {
	LCC, First, Saved big.Int // in minor units; Saved is against the base case
	Lowest            int     // roofs for which it is the lowest
}

// Add adds a row.
func (s *RoofTotals) Add(t *Roofs, r *Roof) {
	if s.Alternatives == nil {
		s.Alternatives = make([]RoofTotal, len(r.Costs))
	}
	s.Count++
	for i, c := range r.Costs {
		a := &s.Alternatives[i]
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
	s.Alternatives[r.Answer.Lowest].Lowest++
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
		a.Lowest += b.Lowest
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
		line := fmt.Sprintf("%s: life-cycle cost %s, first cost %s", t.study.Alternatives[i].Name, t.sum(&a.LCC), t.sum(&a.First))
		if t.Saves(i) {
			line += ", net savings " + t.sum(&a.Saved)
		}
		out = append(out, fmt.Sprintf("%s, lowest for %s", line, Plural(a.Lowest, "roof")))
	}
	return out
}

// Saves tells whether an alternative has net savings: against the base case,
// which itself has none.
func (t *Roofs) Saves(alternative int) bool { return t.base >= 0 && t.base != alternative }

func (t *Roofs) sum(minor *big.Int) string {
	return t.AmountOf(minor) + " " + t.study.About.Currency
}

// AmountOf is an amount in minor units with the currency's digits.
func (t *Roofs) AmountOf(minor *big.Int) string {
	digits := t.study.About.Digits
	return decimal.NewFromBigInt(minor, -digits).StringFixed(digits)
}
