package lcc

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
)

// RandomStudy makes the study that a number stands for, by the choices of the
// property tests, for tests that need the rooms above this one.
func RandomStudy(number uint64) *Study {
	return randomStudy(&tape{state: number << 32, endless: true})
}

// WholeLifeStudies are studies of which a life follows from a film and is one
// of whole years, as long as an alternative waits.
func WholeLifeStudies(t testing.TB) []*Study {
	var all []*Study
	wholeLives(func(film, least, tenths, years int64) {
		s, at := coated(t)
		for name, value := range map[string]decimal.Decimal{"film": decimal.NewFromInt(film), "least": decimal.NewFromInt(least), "wear": decimal.New(tenths, -1)} {
			s.Inputs[at[name]].Likely = value
		}
		if int(years) < s.Period {
			s.Alternatives = append(s.Alternatives, Alternative{Name: "Later", Start: 1, Wait: &Wait{On: 0, Years: int(years)}})
		}
		if len(all)%2 > 0 { // in three coats
			third := s.Add(Input{Path: "third", Unit: Count, Likely: decimal.New(3*tenths, -1)})
			life := &s.Derived[1]
			coat := Term{one, []Factor{{at["film"], Times}, {third, Over}}}
			life.Terms = []Term{coat, coat, coat, life.Terms[1]}
		}
		all = append(all, s)
	})
	return all
}

// Derive makes some quantities and a life of a study follow from new inputs,
// in all ways and with packs, by a number.
func Derive(s *Study, number int) {
	value := func(n int64, places int32) Ref {
		return s.Add(Input{Path: fmt.Sprintf("new %d", len(s.Inputs)), Unit: Count, Likely: decimal.New(n, -places)})
	}
	x, solids, loss, rest := value(int64(1+number%9000), 1), value(int64(30+number%70), 2), value(int64(number%50), 2), value(int64(number%100), 2)
	waited := map[int]bool{} // its life is no shorter than the wait
	for _, a := range s.Alternatives {
		if a.Wait != nil {
			waited[a.Wait.On] = true
		}
	}
	for i := range s.Systems {
		y := &s.Systems[i]
		if s.Inputs[y.Life].Shape == Fixed && !waited[i] {
			film, wear := value(int64(5+number%30), 0), value(int64(40+number%100), 2)
			s.Derived = append(s.Derived, Derivation{In: y.Life, Terms: []Term{
				{one, []Factor{{film, Times}, {wear, Over}}}, {decimal.NewFromInt(-4), []Factor{{wear, Over}}}}})
		}
		for j := range y.First {
			q := s.Add(Input{Path: "quantity", Unit: Count})
			pack := decimal.Zero
			if number%3 > 0 {
				pack = decimal.New(int64(number%37), -1)
			}
			s.Derived = append(s.Derived, Derivation{In: q, Pack: pack, Terms: []Term{
				{decimal.New(123, -2), []Factor{{x, Times}, {solids, Over}, {loss, OverRest}}}, {one, []Factor{{x, Times}, {rest, Rest}}}}})
			y.First[j].Quantity = q
		}
	}
}
