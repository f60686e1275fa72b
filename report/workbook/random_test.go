package workbook

import (
	"fmt"
	"math/rand/v2"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// maker makes a random study.
type maker struct {
	*rand.Rand
	s *lcc.Study
}

// randomStudy makes a sound study: lists of escalation, costs in the middle of
// the year, both bases, ageing, periodic costs, recoats, waits, all kinds of
// residual value, quantities and lives that follow from others, amounts of
// half a unit, alternatives that are ruled out, no base case.
func randomStudy(seed uint64) *lcc.Study {
	m := maker{rand.New(rand.NewPCG(seed, 1)), &lcc.Study{Inflation: lcc.NoRef}}
	m.s.Period = m.pick(1, 2, 7, 15, 20, 25, 30, 40)
	m.s.Basis, m.s.Timing = lcc.Basis(m.IntN(2)), lcc.Timing(m.IntN(2))
	currency := m.IntN(4)
	m.s.About = lcc.About{
		Title: fmt.Sprintf("Random study %d", seed), BaseDate: "2026-10-01", AreaUnit: "m2",
		Currency: []string{"USD", "EUR", "JPY", "BHD"}[currency], Digits: []int32{2, 2, 0, 3}[currency],
	}
	m.s.Rate = m.in("study.discount_rate", lcc.Rate, m.decimal(-150, 1200, 4))
	if m.IntN(5) == 0 {
		m.s.Inputs[m.s.Rate].Likely = decimal.Zero
	}
	m.s.Area = m.in("roof.area", lcc.Area, m.decimal(1000, 90_000, 1))
	if m.s.Basis == lcc.Nominal || m.IntN(2) == 0 {
		m.s.Inflation = m.in("study.inflation", lcc.Rate, m.decimal(-50, 500, 4))
	}
	for c := range lcc.NumCategories {
		for range m.pick(0, 1, m.s.Period) {
			m.s.Escalation[c] = append(m.s.Escalation[c], m.in(fmt.Sprintf("study.escalation.%s[%d]", c, len(m.s.Escalation[c])+1), lcc.Rate, m.decimal(-200, 600, 4)))
		}
	}
	for i, n := 0, 1+m.IntN(4); i < n; i++ {
		m.system(i, n)
	}
	m.alternatives()
	return m.s
}

func (m *maker) pick(of ...int) int { return of[m.IntN(len(of))] }

// decimal is a random number of so many decimals.
func (m *maker) decimal(low, high int64, places int32) decimal.Decimal {
	return decimal.New(low+m.Int64N(high-low+1), -places)
}

func (m *maker) in(path string, unit lcc.Unit, v decimal.Decimal) lcc.Ref {
	return m.s.Add(lcc.Input{Path: path, Label: "The " + path, Unit: unit, Likely: v, Source: []string{"", "invented"}[m.IntN(2)]})
}

// follows adds an input that follows from others: a sum of products, now and
// then in whole packs.
func (m *maker) follows(path string, unit lcc.Unit, pack decimal.Decimal, terms ...lcc.Term) lcc.Ref {
	ref := m.in(path, unit, decimal.Zero)
	m.s.Derived = append(m.s.Derived, lcc.Derivation{In: ref, Terms: terms, Pack: pack})
	m.s.Inputs[ref].Likely = m.s.Likely()[ref]
	return ref
}

func (m *maker) quantity(path string) lcc.Ref {
	if m.IntN(3) > 0 {
		return m.in(path, lcc.Count, m.decimal(0, 4000, 1))
	}
	length, width := m.in(path+".length", lcc.Length, m.decimal(10, 900, 1)), m.in(path+".width", lcc.Length, m.decimal(10, 300, 1))
	cover, loss := m.in(path+".cover", lcc.Count, m.decimal(5, 90, 1)), m.in(path+".loss", lcc.Count, m.decimal(0, 40, 2))
	return m.follows(path, lcc.Count, decimal.New(int64(m.pick(0, 0, 5, 25)), -1),
		lcc.Term{Coefficient: m.decimal(1000, 1300, 3), Factors: []lcc.Factor{{Of: length}, {Of: width}, {Of: cover, How: lcc.Over}, {Of: loss, How: lcc.OverRest}}},
		lcc.Term{Coefficient: m.decimal(-90, 30, 0)})
}

// item is a cost; three decimals make halves of a cent.
func (m *maker) item(path string) lcc.Item {
	it := lcc.Item{Name: "Item " + path, Category: lcc.Category(m.IntN(int(lcc.NumCategories))), Quantity: lcc.NoRef, Growth: lcc.NoRef}
	switch m.IntN(3) {
	case 0:
		it.Price, it.Quantity = m.in(path+".unit_price", lcc.Price, m.decimal(-200, 20_000, 3)), m.s.Area
	case 1:
		it.Price, it.Quantity = m.in(path+".unit_price", lcc.Price, m.decimal(0, 90_000, 2)), m.quantity(path+".quantity")
	default:
		it.Price = m.in(path+".amount", lcc.Money, m.decimal(-900_000, 90_000_000, 3))
	}
	return it
}

func (m *maker) items(path string, most int) []lcc.Item {
	var out []lcc.Item
	for i := range m.IntN(most + 1) {
		out = append(out, m.item(fmt.Sprintf("%s[%d]", path, i+1)))
	}
	return out
}

// running are costs that come again, and may grow with age.
func (m *maker) running(path string, most int) []lcc.Item {
	out := m.items(path, most)
	for i := range out {
		if m.IntN(2) == 0 {
			out[i].Growth = m.in(fmt.Sprintf("%s[%d].growth", path, i+1), lcc.Rate, m.decimal(-40, 90, 3))
		}
		out[i].KeepsAge = m.IntN(2) == 0
	}
	return out
}

func (m *maker) life(path string) lcc.Ref {
	switch m.IntN(5) {
	case 0: // it follows from a film: exactly whole years now and then
		film, wear := m.in(path+".film", lcc.Count, m.decimal(10, 40, 0)), m.in(path+".wear", lcc.Count, m.decimal(1, 4, 0))
		return m.follows(path, lcc.Years, decimal.Zero, lcc.Term{Coefficient: decimal.New(1, 0), Factors: []lcc.Factor{{Of: film}, {Of: wear, How: lcc.Over}}},
			lcc.Term{Coefficient: decimal.New(1, -1)})
	case 1:
		return m.in(path, lcc.Years, m.decimal(50, 4500, 2))
	case 2: // used up at the end of the study, now and then
		return m.in(path, lcc.Years, decimal.NewFromInt(int64(m.s.Period)).DivRound(decimal.NewFromInt(int64(m.pick(1, 2, 4))), 2))
	}
	return m.in(path, lcc.Years, m.decimal(3, 35, 0))
}

func (m *maker) system(i, count int) {
	path := fmt.Sprintf("systems.system_%d", i+1)
	y := lcc.System{Key: path, Name: fmt.Sprintf("System %d", i+1), InPlace: m.IntN(3) == 0, Then: i + m.IntN(count-i)}
	y.Life = m.life(path + ".life")
	y.First, y.Removal = m.items(path+".first_costs", 3), m.items(path+".removal", 2)
	y.Annual, y.Periodic = m.running(path+".annual_costs", 2), m.running(path+".periodic_costs", 2)
	for k := range y.Periodic {
		y.Periodic[k].Every = 1 + m.IntN(12)
	}
	if m.IntN(2) == 0 {
		y.Recoat = &lcc.Recoating{AtMost: 1 + m.IntN(3), Life: m.life(path + ".recoat.life"), Costs: m.items(path+".recoat.costs", 2)}
	}
	if y.Residual.Mode = lcc.ResidualMode(m.pick(0, 0, 1, 2)); y.Residual.Mode == lcc.FixedAmount {
		y.Residual.Amount = m.in(path+".residual", lcc.Money, m.decimal(0, 50_000_000, 3))
	}
	m.s.Systems = append(m.s.Systems, y)
}

func (m *maker) alternatives() {
	base := m.IntN(4) - 1
	for i := range 1 + m.IntN(4) {
		a := lcc.Alternative{Name: fmt.Sprintf("Alternative %d", i+1), Start: m.IntN(len(m.s.Systems)), BaseCase: i == base}
		if m.IntN(5) == 0 {
			a.RuledOut = &lcc.Ruling{Rule: "deck", Finding: "wet"}
		}
		if m.IntN(3) == 0 {
			on := m.IntN(len(m.s.Systems))
			life := m.s.Inputs[m.s.Systems[on].Life].Likely
			a.Wait = &lcc.Wait{On: on, Years: m.IntN(min(int(life.IntPart()), m.s.Period-1) + 1)}
		}
		m.s.Alternatives = append(m.s.Alternatives, a)
	}
}
