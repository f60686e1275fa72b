package tax

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// roof is a study of one roof that is replaced by itself every 5 years over 12.
func roof(cost string, edit func(*lcc.System)) *builder {
	b := newStudy(lcc.Nominal, 12, "0.08", "0")
	b.alternative(b.system("5", func(y *lcc.System) {
		if y.First = b.cost(cost, 1); edit != nil {
			edit(y)
		}
	}))
	return b
}

func depreciated(years int) *Terms {
	return &Terms{
		Rate: TaxRate{All: dec("0.25")}, Treatment: []Treatment{{Way: Depreciated, By: Schedule{Years: years}}},
		TornOff: Kept, AtEnd: Kept,
	}
}

// Section 179 in small: of 4,300,000 bought in a year, 2,200,000 at most are deducted at once, since the
// limit of 2,500,000 is less by what exceeds 4,000,000. The owner states the limit that is left.
func TestAtOnceUpToTheLimitOfTheYear(t *testing.T) {
	p := readPublished(t).Immediate
	limit := dec(p.Limit).Sub(dec(p.Purchases).Sub(dec(p.Threshold)))
	assert.Equal(t, p.Most, limit.String())
	terms := depreciated(10)
	terms.Treatment[0].AtOnce, terms.Limit = true, limit
	o := &roof(p.Purchases, nil).after(terms).Alternatives[0]
	assert.Equal(t, []string{"1: 2200000", "6: 2200000", "11: 2200000"}, o.of(AtOnce))
	assert.Equal(t, "2100000", o.Vintages[0].Basis.String())
	assert.Equal(t, "1: 210000", o.of(Depreciation)[0])
}

// Two costs of one year share its limit in the order of the ledger.
func TestCostsOfAYearShareTheLimit(t *testing.T) {
	terms := depreciated(10)
	terms.Treatment = append(terms.Treatment, Treatment{Way: Depreciated, AtOnce: true, By: Schedule{Years: 4}})
	terms.Treatment[0].AtOnce, terms.Limit = true, dec("1500")
	b := roof("1000", nil)
	b.s.Systems[0].Life = b.in(lcc.Years, "20")
	b.s.Systems[0].First = append(b.s.Systems[0].First, b.cost("800", 2)...)
	assert.Equal(t, []string{"1: 1000", "1: 500"}, b.after(terms).Alternatives[0].of(AtOnce))
}

func TestTornOffRoofs(t *testing.T) {
	terms := depreciated(10)
	b := roof("1000", nil)
	kept := &b.after(terms).Alternatives[0]
	assert.Empty(t, kept.of(TornOff))
	assert.Len(t, kept.of(Depreciation), 30, "three roofs, ten years each")

	terms.TornOff, terms.TearOffs = WrittenOff, []int{0}
	written := &b.after(terms).Alternatives[0]
	assert.Equal(t, []string{"6: 500", "11: 500"}, written.of(TornOff))
	assert.Len(t, written.of(Depreciation), 5+5+10)
	assert.Equal(t, 5, written.Vintages[0].TornOff)
	assert.Equal(t, 10, written.Vintages[1].TornOff)
	assert.Equal(t, -1, written.Vintages[2].TornOff)
}

// Coats go with the roof that they are on, when something tears it off; a recoat tears nothing off.
func TestRecoatsTearNothingOff(t *testing.T) {
	terms := depreciated(10)
	terms.TornOff, terms.TearOffs = WrittenOff, []int{0}
	b := roof("1000", nil)
	b.s.Systems[0].Recoat = &lcc.Recoating{AtMost: 1, Life: b.s.Systems[0].Life, Costs: b.cost("300", 1)}
	o := &b.after(terms).Alternatives[0]
	assert.Equal(t, []string{"11: 150"}, o.of(TornOff), "the first roof is deducted after 10 years; of the recoat, 5 years are left")
}

func TestCreditsLessenTheBasis(t *testing.T) {
	terms := depreciated(10)
	terms.Credits = []Credit{{Name: "rebate", Amount: dec("200"), Until: 5, Reduces: dec("0.5")}}
	o := &roof("1000", nil).after(terms).Alternatives[0]
	require.Len(t, o.Vintages, 3)
	for i, basis := range []string{"900", "900", "1000"} {
		assert.Equal(t, basis, o.Vintages[i].Basis.String(), "an installation in year %d", 5*i)
	}
	received := o.Sum(func(l Line) bool { return l.Kind == CreditReceived })
	assert.Equal(t, "-329.67", received.String(), "200 in years 1 and 6 at 6 %: 188.68 + 140.99 = 329.67")
	assert.Empty(t, o.of(CreditTaxed))

	terms.Credits[0].Taxed = true
	o = &roof("1000", nil).after(terms).Alternatives[0]
	assert.Equal(t, []string{"1: -200", "6: -200"}, o.of(CreditTaxed))
}

// A credit takes no more off than was paid.
func TestACreditOverTheCostLeavesNoBasis(t *testing.T) {
	terms := depreciated(10)
	terms.Credits = []Credit{{Name: "rebate", Amount: dec("5000"), Reduces: one}}
	o := &roof("1000", nil).after(terms).Alternatives[0]
	assert.True(t, o.Vintages[0].Basis.IsZero())
	assert.Equal(t, "1000", o.Vintages[1].Basis.String())
}

// A credit beside costs that are depreciated and expensed takes from the first before the second.
func TestACreditTakesFromWhatIsDepreciatedFirst(t *testing.T) {
	terms := depreciated(10)
	terms.Treatment = append(terms.Treatment, Treatment{Way: Expensed})
	terms.Credits = []Credit{{Name: "rebate", Amount: dec("1200"), Reduces: one}}
	b := roof("1000", nil)
	b.s.Systems[0].First = append(b.cost("500", 2), b.s.Systems[0].First...)
	o := &b.after(terms).Alternatives[0]
	assert.True(t, o.Vintages[0].Basis.IsZero())
	assert.Equal(t, "1: 300", o.of(Expense)[0])
}

// Of a basis of a few cents no year takes more than is left.
func TestASmallBasisIsDeductedOnce(t *testing.T) {
	terms := depreciated(0)
	terms.Treatment[0].By = Schedule{Table: MACRS39}
	b := roof("0.20", nil)
	b.s.Systems[0].Life = b.in(lcc.Years, "20")
	o := &b.after(terms).Alternatives[0]
	assert.Len(t, o.of(Depreciation), 20, "a cent a year from year 2 on")
	for _, line := range o.Lines {
		assert.Equal(t, "0.01", line.Deduction.String())
	}
}

// A scrap credit that is depreciated lessens deductions as it came in.
func TestACreditAmongTheCostsIsDepreciatedAsIncome(t *testing.T) {
	b := roof("-1000", nil)
	b.s.Systems[0].Life = b.in(lcc.Years, "20")
	o := &b.after(depreciated(4)).Alternatives[0]
	assert.Equal(t, []string{"1: -250", "2: -250", "3: -250", "4: -250"}, o.of(Depreciation))
	assert.Equal(t, "62.5", o.Lines[0].Amount.String())
}

// What is not deducted leaves no line.
func TestNotDeductedLeavesNoLine(t *testing.T) {
	terms := depreciated(4)
	terms.Treatment[0] = Treatment{Way: NotDeducted}
	o := &roof("1000", nil).after(terms).Alternatives[0]
	assert.Empty(t, o.Lines)
	assert.True(t, o.Tax.IsZero())
}

// A wait moves work and its tax effects alike: both lose the same by waiting.
func TestAWaitMovesCostsAndTaxAlike(t *testing.T) {
	b := newStudy(lcc.Nominal, 12, "0.08", "0")
	old := b.system("9", func(y *lcc.System) { y.InPlace = true })
	coat := b.system("50", func(y *lcc.System) { y.First = b.cost("10000", 1) })
	b.alternative(coat)
	b.alternative(coat)
	b.s.Alternatives[1].Wait = &lcc.Wait{On: old, Years: 3}
	r := b.after(&Terms{Rate: TaxRate{All: dec("0.25")}, Treatment: []Treatment{{Way: Expensed}}})
	three := lcc.SinglePresentValue(r.Nominal, 3)
	for _, pair := range [][2]decimal.Decimal{
		{r.Alternatives[0].Costs, r.Alternatives[1].Costs}, {r.Alternatives[0].Tax, r.Alternatives[1].Tax},
	} {
		assert.True(t, pair[0].Mul(three).Sub(pair[1]).Abs().LessThanOrEqual(dec("0.01")), "%s and %s", pair[0], pair[1])
	}
}

func TestCombinedRates(t *testing.T) {
	assert.Equal(t, "0.27", Combined(dec("0.21"), dec("0.06"), false).All.String())
	assert.Equal(t, "0.2574", Combined(dec("0.21"), dec("0.06"), true).All.String(), "0.21 + 0.06 − 0.21 × 0.06")
}

// The after-tax discount rate is derived on the nominal one: 3 % real with 2 % inflation is 5.06 % nominal,
// × (1 − 25 %) = 3.795 %, which is 1.03795/1.02 − 1 = 1.7598 % real.
func TestAfterTaxDiscountRates(t *testing.T) {
	b := newStudy(lcc.Real, 10, "0.03", "0.02")
	b.alternative(b.system("20", func(y *lcc.System) { y.First = b.cost("1000", 1) }))
	terms := depreciated(5)
	r := b.after(terms)
	assert.Equal(t, "0.0506", r.PretaxNominal.String())
	assert.Equal(t, "0.03795", r.Nominal.String())
	assert.Equal(t, "0.017598", r.AfterTax.Round(6).String())

	stated := dec("0.02")
	terms.AfterTax = &stated
	r = b.after(terms)
	assert.Equal(t, "0.02", r.AfterTax.String())
	assert.Equal(t, "0.0404", r.Nominal.String())
}

// A depreciation that is fixed in money of the day is worth less, the higher inflation is.
func TestInflationEatsDepreciation(t *testing.T) {
	saved := decimal.Zero
	for i, inflation := range []string{"0", "0.02", "0.05"} {
		b := newStudy(lcc.Real, 10, "0.03", inflation)
		b.alternative(b.system("20", func(y *lcc.System) { y.First = b.cost("1000", 1) }))
		stated, terms := dec("0.03"), depreciated(10)
		terms.AfterTax = &stated
		now := b.after(terms).Alternatives[0].Tax.Neg()
		assert.True(t, i == 0 || now.LessThan(saved))
		saved = now
	}
}

func TestEvaluateRefuses(t *testing.T) {
	b := roof("1000", nil)
	before, err := b.s.Evaluate()
	require.NoError(t, err)
	b.s.About.BaseDate = "soon"
	_, err = Evaluate(before, depreciated(4))
	assert.Error(t, err)
	b.s.About.BaseDate, b.s.Basis, b.s.Inflation = "2026-01-01", lcc.Real, lcc.NoRef
	_, err = Evaluate(before, depreciated(4))
	assert.ErrorContains(t, err, "inflation")
	b.s.Basis, b.s.Inflation = lcc.Nominal, b.in(lcc.Rate, "0")
	before, err = b.s.Evaluate()
	require.NoError(t, err)
	high, terms := dec("11"), depreciated(4)
	terms.AfterTax = &high
	_, err = Evaluate(before, terms)
	assert.ErrorContains(t, err, "outside the range")
	terms.AfterTax, terms.Treatment = nil, nil
	_, err = Evaluate(before, terms)
	assert.ErrorContains(t, err, `the cost "cost" has no tax treatment`)
}
