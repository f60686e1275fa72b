package tax

import (
	"math"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"roofyears/lcc"
	_ "roofyears/lcc/checks" // one seed
)

// maker makes random studies with random tax terms.
type maker struct {
	t *rapid.T
	*builder
	terms *Terms
}

func (m *maker) upTo(n int) int { return rapid.IntRange(0, n).Draw(m.t, "choice") }

// rate is from 0 to so many tenths of a per cent.
func (m *maker) rate(most int) string { return decimal.New(int64(m.upTo(most)), -3).String() }

// randomStudy makes a study on a basis, with terms that may have anything.
func randomStudy(t *rapid.T, basis lcc.Basis) *maker {
	m := &maker{t: t}
	m.builder = newStudy(basis, 2+m.upTo(48), m.rate(120), m.rate(80))
	m.s.Timing = lcc.Timing(m.upTo(1))
	m.s.About.Digits = []int32{2, 0, 3}[m.upTo(2)]
	m.s.About.BaseDate = []string{"2026-01-01", "2026-06-30", "2027-12-15"}[m.upTo(2)]
	m.terms = m.randomTerms()
	for range 2 + m.upTo(2) {
		m.randomSystem()
	}
	for i := range m.s.Systems {
		m.s.Systems[i].Then = i + m.upTo(len(m.s.Systems)-1-i)
		m.alternative(i)
	}
	if m.terms.TornOff == WrittenOff {
		m.terms.TearOffs = []int{m.upTo(len(m.s.Systems) - 1)}
	}
	for range m.upTo(2) {
		m.terms.Credits = append(m.terms.Credits, Credit{
			Name: "credit", System: m.upTo(len(m.s.Systems) - 1), Amount: decimal.New(int64(1+m.upTo(9_000_000)), -2),
			Until: m.upTo(10), Reduces: dec(m.rate(1000)), Taxed: m.upTo(1) == 1,
		})
	}
	return m
}

func (m *maker) randomTerms() *Terms {
	out := &Terms{
		Rate: TaxRate{All: dec(m.rate(600))}, TornOff: Fate(1 + m.upTo(1)), AtEnd: Fate(1 + m.upTo(1)), Residual: m.upTo(1) == 1,
		Limit: decimal.NewFromInt(int64(m.upTo(200_000))),
	}
	out.Treatment = []Treatment{{Way: NotDeducted}, {Way: Expensed}}
	for range 3 {
		by := Schedule{Table: Table(m.upTo(5))}
		if by.Table == StraightLine {
			by.Years = 1 + m.upTo(40)
		}
		out.Treatment = append(out.Treatment, Treatment{Way: Depreciated, AtOnce: m.upTo(2) == 0, By: by})
	}
	if m.upTo(1) == 1 {
		out.Existing = &Existing{Basis: decimal.New(int64(1+m.upTo(9_000_000)), -2), Years: 1 + m.upTo(30)}
	}
	return out
}

func (m *maker) randomSystem() {
	some := func(list func(string, int) []lcc.Item) []lcc.Item {
		if m.upTo(3) == 0 {
			return nil
		}
		amount := decimal.New(int64(m.upTo(20_000_000)-1_000_000), -2).String()
		return list(amount, 1+m.upTo(len(m.terms.Treatment)-1))
	}
	life := decimal.New(int64(10+m.upTo(300)), -1).String()
	m.system(life, func(y *lcc.System) {
		y.First = append(some(m.cost), some(m.cost)...)
		y.Annual, y.Removal = some(m.yearly), some(m.yearly)
		y.Periodic = some(m.yearly)
		for i := range y.Periodic {
			y.Periodic[i].Every = 1 + m.upTo(6)
		}
		y.Residual.Mode = []lcc.ResidualMode{lcc.Prorated, lcc.NoResidual}[m.upTo(1)]
		if m.upTo(1) == 1 {
			y.Recoat = &lcc.Recoating{AtMost: 1 + m.upTo(2), Life: m.in(lcc.Years, life), Costs: some(m.cost)}
		}
	})
}

// The deductions of every vintage add up to its basis, to the minor unit.
func TestDepreciationAddsUpToTheBasis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := randomStudy(t, lcc.Basis(rapid.IntRange(0, 1).Draw(t, "basis")))
		for _, o := range m.after(m.terms).Alternatives {
			sums := make([]decimal.Decimal, len(o.Vintages))
			for _, line := range o.Lines {
				if line.Vintage >= 0 {
					sums[line.Vintage] = sums[line.Vintage].Add(line.Deduction)
				}
			}
			for i, v := range o.Vintages {
				assert.True(t, v.Basis.Add(v.AtOnce).Equal(sums[i]), "%+v: %s", v, sums[i])
				assert.True(t, v.Paid.Equal(v.Basis.Add(v.AtOnce).Add(v.Reduced)))
			}
		}
	})
}

// A real study and the nominal one with rates converted exactly have the same tax ledger, line by line,
// and the same costs after tax.
func TestRealAndNominalStudiesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := randomStudy(t, lcc.Real)
		if m.upTo(1) == 1 {
			m.terms.AfterTax = new(decimal.Decimal)
			*m.terms.AfterTax = dec(m.rate(100))
		}
		real := m.after(m.terms)
		inflation := m.s.Inputs[m.s.Inflation].Likely
		nominal, terms := *m.s, *m.terms
		nominal.Basis, nominal.Inputs = lcc.Nominal, slices.Clone(m.s.Inputs)
		nominal.Inputs[nominal.Rate].Likely = lcc.NominalRate(nominal.Inputs[nominal.Rate].Likely, inflation)
		if terms.AfterTax != nil {
			converted := lcc.NominalRate(*terms.AfterTax, inflation)
			terms.AfterTax = &converted
		}
		again := (&builder{&nominal}).after(&terms)
		assert.True(t, real.Nominal.Equal(again.Nominal))
		for i := range real.Alternatives {
			a, b := &real.Alternatives[i], &again.Alternatives[i]
			assert.Equal(t, a.LCC.String(), b.LCC.String())
			assert.Equal(t, a.Costs.String(), b.Costs.String())
			if !assert.Len(t, b.Lines, len(a.Lines)) {
				continue
			}
			for k := range a.Lines {
				assert.Equal(t, a.Lines[k].Amount.String(), b.Lines[k].Amount.String())
				assert.Equal(t, a.Lines[k].PV.String(), b.Lines[k].PV.String())
			}
		}
	})
}

// At a tax rate of nothing, and with a derived discount rate, after tax is before tax.
func TestWithoutTaxNothingChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := randomStudy(t, lcc.Nominal)
		m.terms.Rate.All, m.terms.Credits = decimal.Zero, nil
		r := m.after(m.terms)
		for i := range r.Alternatives {
			assert.Equal(t, r.Before.Alternatives[i].LCC.String(), r.Alternatives[i].LCC.String())
			assert.Equal(t, r.Before.Alternatives[i].AnnualWorth.String(), r.Alternatives[i].AnnualWorth.String())
		}
	})
}

// A second way to the cost after tax, in floating point: cost by cost, share by share, without groups,
// vintages and rounding. Without credits and limits, which depend on order.
func TestAnotherWayGivesTheSameCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := randomStudy(t, lcc.Basis(rapid.IntRange(0, 1).Draw(t, "basis")))
		m.terms.Credits = nil
		for i := range m.terms.Treatment {
			m.terms.Treatment[i].AtOnce = false
		}
		r := m.after(m.terms)
		for i := range r.Alternatives {
			o := &r.Alternatives[i]
			lines := float64(len(o.Lines) + 1)
			assert.InDelta(t, anotherWay(r, i), o.Tax.InexactFloat64(), lines*2*math.Pow10(-int(m.s.About.Digits)), "of %d lines", len(o.Lines))
		}
	})
}

// anotherWay is the present value of tax of an alternative.
func anotherWay(r *Result, alternative int) float64 {
	rate, growth := r.Terms.Rate.All.InexactFloat64(), 1+r.Nominal.InexactFloat64()
	n := r.Before.Study.Period
	saved := func(amount float64, first int, shares []float64) float64 {
		total, left := 0.0, amount
		torn := n + 1000
		for _, p := range r.Before.Alternatives[alternative].Spells {
			if r.Terms.TornOff == WrittenOff && p.Begin == lcc.Installed && slices.Contains(r.Terms.TearOffs, p.System) && (p.From >= first || first == 0) {
				torn = p.From
				break
			}
		}
		first = max(first, 1)
		for i, share := range shares {
			year, now := first+i, amount*share
			if year == torn+1 || year == n && r.Terms.AtEnd == WrittenOff {
				now = left
			}
			total += rate * now / math.Pow(growth, float64(year))
			if left -= now; year == torn+1 || year == n && r.Terms.AtEnd == WrittenOff {
				break
			}
		}
		return total
	}
	tax := 0.0
	for _, line := range r.Before.Alternatives[alternative].Ledger {
		amount, first := line.Current.InexactFloat64(), (int(line.Time)+1)/2
		if line.Kind == lcc.ResidualValue {
			if r.Terms.Residual {
				tax -= rate * amount / math.Pow(growth, float64(n))
			}
			continue
		}
		if line.Kind != lcc.Annual && line.Kind != lcc.Periodic {
			first++
		}
		switch treatment := r.Terms.Treatment[line.Tax-1]; treatment.Way {
		case Expensed:
			tax -= rate * amount / math.Pow(growth, float64(first))
		case Depreciated:
			var shares []float64
			for _, share := range treatment.By.Shares(r.Month) {
				shares = append(shares, share.InexactFloat64())
			}
			tax -= saved(amount, first, shares)
		}
	}
	if e := r.Terms.Existing; e != nil {
		shares := slices.Repeat([]float64{1 / float64(e.Years)}, e.Years)
		tax -= saved(e.Basis.InexactFloat64(), 0, shares)
	}
	return tax
}
