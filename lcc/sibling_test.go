package lcc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A sibling costs what a kernel of its own costs at the same inputs, to the
// last bit, and at the rates of the kernel it was made of.
func TestASiblingCostsWhatAKernelOfItsOwnCosts(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		lead := kernelAt(t, s, s.Likely())
		if d.upTo(1) == 0 {
			lead.Refresh()
		}
		var refs []Ref
		for i := range s.Inputs {
			if r := Ref(i); s.Inputs[i].Unit != Rate && !s.IsDerived(r) && d.upTo(2) == 0 {
				refs = append(refs, r)
			}
		}
		sibling := lead.Sibling()
		g := sibling.Group(refs)
		for range 4 {
			v := append([]float64(nil), lead.v...)
			values := make([]float64, len(refs))
			for i, r := range refs {
				values[i] = v[r] * (0.7 + float64(d.upTo(60))/100)
				v[r] = values[i]
			}
			rate := float64(d.upTo(1200)) / 10000
			lead.Set(s.Rate, rate)
			lead.Refresh()
			v[s.Rate] = rate
			sibling.SetGroup(g, values)
			own := s.NewKernel()
			if own.Load(v) != nil {
				continue // a wait longer than a life
			}
			for a := range s.Alternatives {
				if want, got := own.LCC(a), sibling.LCC(a); want != got {
					t.Fatalf("alternative %d costs %v by a sibling, %v by itself", a, got, want)
				}
			}
		}
	})
}

// A sibling that follows a kernel is at its inputs, and not at any of its own.
func TestASiblingFollows(t *testing.T) {
	s := restoreOrTearOff().s
	lead, other := kernelAt(t, s, s.Likely()), kernelAt(t, s, s.Likely())
	other.Set(s.Area, 123)
	other.Set(s.Systems[0].Life, 7)
	sibling := lead.Sibling()
	sibling.Set(s.Systems[0].First[0].Price, 99)
	sibling.Follow(other)
	lead.Refresh()
	for a := range s.Alternatives {
		assert.Equal(t, other.LCC(a), sibling.LCC(a))
		assert.NotEqual(t, lead.LCC(a), sibling.LCC(a))
	}
}

// What grows with age is worth what its years are worth one by one, at rates
// as far apart as may be stated.
func TestTheGrowthTableIsTheSumOfItsYears(t *testing.T) {
	const n = 200
	for _, growth := range []float64{-0.4999, -0.1, 0, 0.03, 0.5, 10} {
		for _, discount := range []float64{-0.4999, -0.01, 0, 0.03, 10} {
			worth := newWorthTable(&Study{Period: n}, nil)
			worth.fill(1/(1+discount), EndOfYear)
			column := func() []float64 { return make([]float64, n+1) }
			table := growthTable{worth: worth, aged: column(), powers: column(), more: column()}
			table.fill(growth)
			b := bundle{running: worth.running, more: table.more, growth: &table, keepsAge: true}
			for _, p := range []Spell{{From: 0, Until: n}, {From: 150, Until: 200}, {From: 199, Until: 200}, {From: 50, Until: 61}, {From: 60, Until: 60}, {Install: 20, From: 31, Until: 44}} {
				want := 0.0
				for year := p.From + 1; year <= p.Until; year++ {
					want += math.Pow(1+growth, float64(year-p.Install-1)) * math.Pow(1+discount, -float64(year))
				}
				assert.InDelta(t, 1, ratio(growingWorth(&b, &p), want), 1e-10, "growth %v, discount %v, %+v", growth, discount, p)
			}
		}
	}
}

// ratio is x/y, and 1 of nothing to nothing.
func ratio(x, y float64) float64 {
	if x == 0 && y == 0 {
		return 1
	}
	return x / y
}
