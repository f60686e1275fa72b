package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// crossings are the values at which two alternatives pass each other.
func crossings(t *testing.T, s *Study, in Ref, low, high string) []float64 {
	t.Helper()
	r, err := s.Evaluate()
	require.NoError(t, err)
	ties, err := r.Ties(in, 0, 1, dec(low), dec(high))
	require.NoError(t, err)
	var out []float64
	for _, tie := range ties {
		if tie.Crosses() {
			out = append(out, tie.At.InexactFloat64())
		}
	}
	return out
}

// assertNear compares two lists, element by element.
func assertNear(t *testing.T, want, got []float64, delta float64) {
	t.Helper()
	require.Len(t, got, len(want), "%v", got)
	assert.InDeltaSlice(t, want, got, delta)
}

// What is derived bends where it comes to nothing. With n openings A costs
// 10,000 + 87·max(0, 2200 − 12n) and B 100·max(0, 2000 − 10n): up to n =
// 183.3 A costs 1400 − 44n more, from there to 200 1000n − 190,000.
func TestATieBeyondWhereAnAreaComesToNothing(t *testing.T) {
	s := &Study{Period: 10, Inflation: NoRef, About: About{Digits: 2, BaseDate: "2026-10-01"}}
	add := func(unit Unit, value string) Ref { return s.Add(Input{Unit: unit, Likely: dec(value)}) }
	s.Rate, s.Area = add(Rate, "0.03"), add(Area, "2000")
	n, developed, surface := add(Count, "25"), add(Area, "0"), add(Area, "0")
	less := func(all, each string) []Term {
		return []Term{
			{Coefficient: dec(all), Factors: []Factor{{add(Count, "1"), Times}}},
			{Coefficient: dec(each), Factors: []Factor{{n, Times}}},
		}
	}
	s.Derived = []Derivation{{In: developed, Terms: less("2200", "-12")}, {In: surface, Terms: less("2000", "-10")}}
	item := func(p, q Ref) Item { return Item{Price: p, Quantity: q, Growth: NoRef} }
	life := add(Years, "10")
	s.Systems = []System{
		{Key: "a", Life: life, First: []Item{item(add(Money, "10000"), NoRef), item(add(Price, "87"), developed)}},
		{Key: "b", Life: life, Then: 1, First: []Item{item(add(Price, "100"), surface)}},
	}
	s.Alternatives = []Alternative{{Name: "A", BaseCase: true}, {Name: "B", Start: 1}}
	assertNear(t, []float64{1400.0 / 44, 190}, crossings(t, s, n, "0", "250"), 1e-7)
	// Bought by the three ft², B passes 10,000 where 99 ft² are left.
	s.Derived[1].Pack = dec("3")
	r, err := s.Evaluate()
	require.NoError(t, err)
	ties := agree(t, r, n, 0, 250, 20_011)
	require.NotEmpty(t, ties)
	assert.InDelta(t, 190.1, ties[len(ties)-1].At.InexactFloat64(), 1e-7)
}

// manyPacks is a roof of a million ft² whose coat takes a quarter of a million
// packs at a film of 200 mil.
func manyPacks(t *testing.T) (*Study, Ref) {
	s, at := coated(t)
	s.Period = 35
	for name, value := range map[string]string{"area": "1000000", "film": "20", "least": "8", "wear": "5", "solids": "0.5", "loss": "0", "factor": "1", "paint": "1", "labour": "0", "roof": "0.2835", "new life": "100"} {
		s.Inputs[at[name]].Likely = dec(value)
	}
	s.Derived[0].Pack = one
	for i := range s.Systems {
		s.Systems[i].Residual.Mode = NoResidual
	}
	return s, at["film"]
}

// A film f lasts (f − 8)/5 years. With work every k years the paint costs
// f·1247 × Σ 1.03^−ik, ik < 35, against 283,500: 22.13 times in every year,
// 1.4000 in years 0 and 31, 1.3883 in years 0 and 32, once above 34 years.
func TestTiesAmongMorePacksThanAreCounted(t *testing.T) {
	s, film := manyPacks(t)
	assertNear(t, []float64{10.27, 13, 162.42, 163, 163.79, 178}, crossings(t, s, film, "0", "200"), 0.01)
}
