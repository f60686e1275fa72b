package lcc

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// dice is where a random study takes its choices from: the draws of a property
// test, which shrink towards 0, or the bytes of a fuzzer.
type dice interface {
	// upTo gives a whole number from 0 to n.
	upTo(n int) int
}

// drawn are the draws of a property test.
type drawn struct{ t *rapid.T }

func (d drawn) upTo(n int) int { return rapid.IntRange(0, n).Draw(d.t, "choice") }

// draws are those of one hundred of cases. Every hundred has the same seed; it
// passes over as many draws as its number, so that its studies are its own.
func draws(t *rapid.T, hundred int) drawn {
	for range hundred {
		rapid.Uint64().Draw(t, "passed over")
	}
	return drawn{t}
}

// checkStudies checks a property of `hundreds` × 100 random studies.
func checkStudies(t *testing.T, hundreds int, property func(*rapid.T, *Study)) {
	checkChoices(t, hundreds, func(t *rapid.T, d dice) { property(t, randomStudy(d)) })
}

// checkChoices is checkStudies for a property that draws more than a study.
func checkChoices(t *testing.T, hundreds int, property func(*rapid.T, dice)) {
	for i := range hundreds {
		t.Run(fmt.Sprintf("hundred %d", i+1), func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, func(t *rapid.T) { property(t, draws(t, i)) })
		})
	}
}

// evaluated is the result of a study that must have one.
func evaluated(t interface{ Fatalf(string, ...any) }, s *Study) *Result {
	r, err := s.Evaluate()
	if err != nil {
		t.Fatalf("a sound study fails: %v", err)
	}
	return r
}

// maker makes a random study.
type maker struct {
	dice
	*builder
	discount decimal.Decimal
	long     bool // over 60 years: little escalation and ageing, lest amounts outgrow 2⁵³ minor units
	names    int
}

// randomStudy makes a sound study: anything that the types allow, within
// prices, rates and lives that are wilder than those of any roof.
func randomStudy(d dice) *Study { return randomStudyOn(d, Basis(d.upTo(1))) }

func randomStudyOn(d dice, basis Basis) *Study {
	m := maker{dice: d}
	m.discount = m.discountRate()
	m.builder = newStudy(m.period(), m.discount.String())
	m.s.Basis = basis
	m.long = m.s.Period > 60
	m.s.Timing = Timing(m.upTo(1))
	m.s.About.Digits = []int32{2, 0, 3}[m.upTo(2)]
	m.area(decimal.New(int64(1+m.upTo(500_000)), -1).String())
	if basis == Nominal || m.upTo(2) == 0 {
		m.s.Inflation = m.in("study.inflation", Rate, m.rate().String())
	}
	m.escalations()
	for count, i := 1+m.upTo(4), 0; i < count; i++ {
		m.randomSystem(i, count)
	}
	m.alternatives()
	return m.s
}

func (m *maker) between(a, b int) int { return a + m.upTo(b-a) }

func (m *maker) period() int {
	switch m.upTo(40) {
	case 13:
		return 1
	case 29, 31: // seldom: it takes long
		return MaxPeriod
	case 5, 6, 7:
		return m.between(1, 4)
	}
	return m.between(1, 60)
}

func (m *maker) discountRate() decimal.Decimal {
	switch m.upTo(7) {
	case 0:
		return decimal.Zero
	case 1:
		return dec("0.03")
	case 2:
		return dec("-0.015")
	case 3:
		return dec("0.25") // its discount factors are finite decimals
	}
	return decimal.New(int64(m.between(-300, 1500)), -4)
}

func (m *maker) rate() decimal.Decimal {
	if m.long {
		return decimal.New(int64(m.between(-200, 400)), -4)
	}
	switch m.upTo(5) {
	case 0:
		return decimal.Zero
	case 1:
		return m.discount
	case 2:
		return dec("0.21") // its half year is a finite decimal
	case 3:
		return decimal.New(int64(m.between(-20_000, 120_000)), -6)
	}
	return decimal.New(int64(m.between(-300, 1200)), -4)
}

// escalations gives each category no rate, one rate, or one a year.
func (m *maker) escalations() {
	for c := range NumCategories {
		rates := []int{0, 1, m.s.Period}[m.upTo(2)]
		for range rates {
			m.escalate(c, m.rate().String())
		}
	}
}

func (m *maker) life() string {
	n := m.s.Period
	switch m.upTo(7) {
	case 0:
		return decimal.NewFromInt(int64(m.between(1, n+5))).String()
	case 1:
		return decimal.New(int64(m.between(1, 100*(n+5))), -2).String()
	case 2:
		return decimal.New(int64(m.between(1, 99)), -2).String() // under a year
	case 3:
		return decimal.NewFromInt(int64(n)).String()
	case 4: // just over and just under whole years, nearer than float64 can tell
		return decimal.NewFromInt(int64(m.between(1, n))).Add(dec("1e-18")).String()
	case 5:
		return decimal.NewFromInt(int64(m.between(1, n))).Sub(dec("1e-18")).String()
	case 6:
		return decimal.NewFromInt(int64(10 * n)).String()
	}
	return decimal.New(int64(m.between(1, 20)), 0).String()
}

// amount is money, now and then a credit; three decimals make half cents.
func (m *maker) amount() string {
	switch m.upTo(5) {
	case 0:
		return decimal.New(int64(m.between(-5_000_000, 5_000_000)), -3).String()
	case 1:
		return decimal.New(int64(m.upTo(50_000_000)), -3).String()
	}
	return decimal.New(int64(m.upTo(500_000)), 0).String()
}

// items makes up to `most` items.
func (m *maker) items(most int) []Item {
	var out []Item
	for range m.upTo(most) {
		out = append(out, m.randomItem())
	}
	return out
}

func (m *maker) randomItem() Item {
	var it Item
	switch m.upTo(3) {
	case 0:
		it = m.perArea(decimal.New(int64(m.upTo(20_000)), -3).String())
	case 1:
		it = m.item(decimal.New(int64(m.upTo(90_000)), -2).String())
		it.Quantity = m.in("quantity", Count, decimal.New(int64(m.upTo(400)), -1).String())
	default:
		it = m.item(m.amount())
	}
	m.names++
	it.Name = fmt.Sprintf("item %d", m.names)
	return it.as(Category(m.upTo(int(NumCategories) - 1)))
}

// ageing lets some items grow with age, by either origin.
func (m *maker) ageing(items []Item) []Item {
	fastest := 100
	if m.long {
		fastest = 20
	}
	for i := range items {
		if m.upTo(1) == 1 {
			items[i] = m.growing(items[i], decimal.New(int64(m.between(-fastest/2, fastest)), -3).String())
		}
		items[i].KeepsAge = m.upTo(1) == 1
	}
	return items
}

// randomSystem adds system i of count. It is followed by itself or by a later one.
func (m *maker) randomSystem(i, count int) {
	m.system(fmt.Sprintf("system %d", i+1), m.life(), func(y *System) {
		y.InPlace = m.upTo(3) == 3
		y.First = m.items(3)
		y.Annual = m.ageing(m.items(2))
		y.Periodic = m.ageing(m.items(2))
		for j := range y.Periodic {
			y.Periodic[j].Every = m.between(1, m.s.Period+3)
		}
		y.Removal = m.items(2)
		if m.upTo(1) == 1 {
			y.Recoat = &Recoating{AtMost: m.between(1, 4), Life: m.in("recoat life", Years, m.life()), Costs: m.items(2)}
		}
		y.Residual.Mode = ResidualMode(m.upTo(2))
		if y.Residual.Mode == FixedAmount {
			y.Residual.Amount = m.in("residual", Money, m.amount())
		}
		y.Then = i + m.upTo(count-1-i)
	})
}

func (m *maker) alternatives() {
	base := m.upTo(4) - 1 // none, or one of those that are made
	for i := range 1 + m.upTo(3) {
		m.alternative(fmt.Sprintf("alternative %d", i+1), m.upTo(len(m.s.Systems)-1), func(a *Alternative) {
			a.BaseCase = i == base
			if m.upTo(5) == 5 {
				a.RuledOut = &Ruling{Rule: "deck", Finding: "wet"}
			}
			if m.upTo(2) == 2 {
				a.Wait = m.randomWait()
			}
		})
	}
}

// randomWait waits from no years to the whole life of what it waits on.
func (m *maker) randomWait() *Wait {
	w := Wait{On: m.upTo(len(m.s.Systems) - 1)}
	life := m.s.Inputs[m.s.Systems[w.On].Life].Likely
	longest := min(int(life.IntPart()), m.s.Period-1)
	w.Years = []int{0, longest, m.upTo(longest)}[m.upTo(2)]
	return &w
}
