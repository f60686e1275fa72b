package lcc

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Laws of how a study is written down: split items and another order change nothing.

// splitItems is a study with each item of a lump sum told as two items.
func splitItems(s *Study, share decimal.Decimal) *Study {
	twin := *s
	twin.Inputs = slices.Clone(s.Inputs)
	twin.Systems = slices.Clone(s.Systems)
	split := func(items []Item) []Item {
		var out []Item
		for _, it := range items {
			in, part, rest := s.Inputs[it.Price], it, it
			whole := in.Likely
			in.Likely = whole.Mul(share)
			part.Price, part.Name = twin.Add(in), it.Name+" (part)"
			in.Likely = whole.Sub(whole.Mul(share))
			rest.Price, rest.Name = twin.Add(in), it.Name+" (rest)"
			out = append(out, part, rest)
		}
		return out
	}
	for i := range twin.Systems {
		y := &twin.Systems[i]
		y.First, y.Annual, y.Periodic, y.Removal = split(y.First), split(y.Annual), split(y.Periodic), split(y.Removal)
		if y.Recoat != nil {
			r := *y.Recoat
			r.Costs = split(r.Costs)
			y.Recoat = &r
		}
	}
	return &twin
}

func TestSplittingAnItemInTwoChangesNothing(t *testing.T) {
	checkChoices(t, 2, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		share := decimal.New(int64(d.upTo(1500)), -3)
		r, split := evaluated(t, s), evaluated(t, splitItems(s, share))
		for i, a := range r.Alternatives {
			b := split.Alternatives[i]
			lines := len(a.Ledger)
			if !within(s, a.LCC, b.LCC, 2*lines) || !within(s, a.First, b.First, 2*lines) ||
				!within(s, a.Residual.PV, b.Residual.PV, 2*lines) {
				t.Fatalf("%d lines: %s, with each item in two %s", lines, a.LCC, b.LCC)
			}
			for c := range NumCategories {
				if !within(s, a.ByCategory[c], b.ByCategory[c], 2*lines) {
					t.Fatalf("%s: %s, with each item in two %s", c, a.ByCategory[c], b.ByCategory[c])
				}
			}
		}
	})
}

// turned is a study with its items, systems and alternatives in the reverse order.
func turned(s *Study) *Study {
	twin := *s
	last := len(s.Systems) - 1
	reverse := func(items []Item) []Item {
		items = slices.Clone(items)
		slices.Reverse(items)
		return items
	}
	twin.Systems = nil
	for i := last; i >= 0; i-- {
		y := s.Systems[i]
		y.Then = last - y.Then
		y.First, y.Annual, y.Periodic, y.Removal = reverse(y.First), reverse(y.Annual), reverse(y.Periodic), reverse(y.Removal)
		if y.Recoat != nil {
			r := *y.Recoat
			r.Costs = reverse(r.Costs)
			y.Recoat = &r
		}
		twin.Systems = append(twin.Systems, y)
	}
	twin.Alternatives = nil
	for i := len(s.Alternatives) - 1; i >= 0; i-- {
		a := s.Alternatives[i]
		a.Start = last - a.Start
		if a.Wait != nil {
			a.Wait = &Wait{On: last - a.Wait.On, Years: a.Wait.Years}
		}
		twin.Alternatives = append(twin.Alternatives, a)
	}
	return &twin
}

// The order in which items, systems and alternatives are written does not
// matter to any figure.
func TestOrderDoesNotMatter(t *testing.T) {
	checkStudies(t, 2, func(t *rapid.T, s *Study) {
		r, back := evaluated(t, s), evaluated(t, turned(s))
		last := len(s.Systems) - 1
		for i, a := range r.Alternatives {
			b := back.Alternatives[len(r.Alternatives)-1-i]
			if len(a.Ledger) != len(b.Ledger) || !slices.EqualFunc(figures(a), figures(b), decimal.Decimal.Equal) {
				t.Fatalf("%s: %s, in the other order %s", a.Alternative.Name, figures(a), figures(b))
			}
			for j, e := range a.Interventions {
				f := b.Interventions[j]
				if f.System = last - f.System; e.Year != f.Year || e.System != f.System || e.Recoat != f.Recoat || !e.PV.Equal(f.PV) || !e.Amount.Equal(f.Amount) {
					t.Fatalf("%s: intervention %+v, in the other order %+v", a.Alternative.Name, e, f)
				}
			}
			if c, d := a.AgainstBase, b.AgainstBase; c != nil && (c.Simple != d.Simple || c.Discounted != d.Discounted ||
				!c.SIR.Value.Equal(d.SIR.Value) || !c.AIRR.Value.Equal(d.AIRR.Value)) {
				t.Fatalf("%s: %+v, in the other order %+v", a.Alternative.Name, c, d)
			}
		}
		if len(r.Crossovers) != len(back.Crossovers) {
			t.Fatalf("crossovers %v, in the other order %v", r.Crossovers, back.Crossovers)
		}
		for i, c := range r.Crossovers {
			if !slices.ContainsFunc(back.Crossovers, func(x Crossover) bool { return sameTurned(c, x, len(r.Alternatives)-1) }) {
				t.Fatalf("crossover %d: %+v is not among %+v", i, c, back.Crossovers)
			}
		}
	})
}

// sameTurned compares a crossover with one of the study in reverse order.
func sameTurned(c, x Crossover, last int) bool {
	return c.A == last-x.B && c.B == last-x.A && c.Below == last-x.Below && c.Above == last-x.Above &&
		c.Rate.Sub(x.Rate).Abs().LessThanOrEqual(dec("2e-12"))
}

func figures(o Outcome) []decimal.Decimal {
	out := []decimal.Decimal{o.LCC, o.AnnualWorth, o.WorthPerArea, o.First, o.Residual.Amount, o.Residual.PV}
	return append(out, o.ByCategory[:]...)
}
