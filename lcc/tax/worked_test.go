package tax

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/lcc"
)

// worked is a comparison that is worked by hand below: nominal, 8 % before tax, no inflation, 4 years,
// a tax rate of 25 %, so 8 % × (1 − 25 %) = 6 % after tax. Present-value factors at 6 %:
//
//	year     1            2            3            4            sum
//	factor   0.943396226  0.889996440  0.839619283  0.792093663  3.465105613
//
// “Coat” costs 40,000 and 1,000 a year, all expensed. “Replace” costs 100,000, depreciated by straight
// line over 10 years, and 200 a year, expensed; it lasts 20 years, so 16/20 is left. It tears off the old
// roof, of which 8,000 are not yet deducted, 1,000 a year for 8 years. At the end all basis is written off
// and the residual value is taxed.
func worked() (*builder, *Terms) {
	b := newStudy(lcc.Nominal, 4, "0.08", "0")
	coat := b.system("10", func(y *lcc.System) { y.First, y.Annual = b.cost("40000", 1), b.yearly("1000", 1) })
	replace := b.system("20", func(y *lcc.System) {
		y.First, y.Annual = b.cost("100000", 2), b.yearly("200", 1)
		y.Residual.Mode = lcc.Prorated
	})
	b.alternative(coat)
	b.alternative(replace)
	return b, &Terms{
		Rate:      TaxRate{All: dec("0.25")},
		Treatment: []Treatment{{Way: Expensed}, {Way: Depreciated, By: Schedule{Years: 10}}},
		TornOff:   WrittenOff, TearOffs: []int{replace}, AtEnd: WrittenOff, Residual: true,
		Existing: &Existing{Basis: dec("8000"), Years: 8},
	}
}

func TestAfterTaxIsAsWorkedByHand(t *testing.T) {
	b, terms := worked()
	r := b.after(terms)
	assert.Equal(t, "0.06", r.AfterTax.String())
	pv := func(i int, kind Kind, cost lcc.Kind) string {
		return r.Alternatives[i].Sum(func(l Line) bool { return l.Kind == kind && l.Cost == cost }).String()
	}

	// Coat, before tax at 6 %: 40,000 + (943.40 + 890.00 + 839.62 + 792.09) = 43,465.11.
	coat := &r.Alternatives[0]
	assert.Equal(t, "43465.11", coat.Costs.String())
	// 40,000 × 25 % = 10,000 in year 1: × 0.943396226 = 9,433.96.
	assert.Equal(t, "-9433.96", pv(0, Expense, lcc.FirstCost))
	// 1,000 × 25 % = 250 a year: 235.85 + 222.50 + 209.90 + 198.02 = 866.27.
	assert.Equal(t, "-866.27", pv(0, Expense, lcc.Annual))
	// The old roof stays: 1,000 a year, the same; 4,000 are left at the end: × 25 % × 0.792093663 = 792.09.
	assert.Equal(t, "-866.27", pv(0, Depreciation, lcc.FirstCost))
	assert.Equal(t, "-792.09", pv(0, EndOfStudy, lcc.FirstCost))
	// 43,465.11 − 9,433.96 − 866.27 − 866.27 − 792.09 = 31,506.52; ÷ 3.465105613 = 9,092.51 a year.
	assert.Equal(t, "31506.52", coat.LCC.String())
	assert.Equal(t, "9092.51", coat.AnnualWorth.String())
	assert.Nil(t, coat.NetSavings)

	// Replace, before tax at 6 %: 100,000 + (188.68 + 178.00 + 167.92 + 158.42) − 80,000 × 0.792093663
	// = 100,000 + 693.02 − 63,367.49 = 37,325.53.
	replace := &r.Alternatives[1]
	assert.Equal(t, "37325.53", replace.Costs.String())
	// 100,000 ÷ 10 × 25 % = 2,500 a year: 2,358.49 + 2,224.99 + 2,099.05 + 1,980.23 = 8,662.76.
	own := func(l Line) bool { return l.Kind == Depreciation && l.System != BeforeStudy }
	assert.Equal(t, "-8662.76", replace.Sum(own).String())
	// 200 × 25 % = 50 a year: 47.17 + 44.50 + 41.98 + 39.60 = 173.25.
	assert.Equal(t, "-173.25", pv(1, Expense, lcc.Annual))
	// The old roof is torn off at the start: 8,000 × 25 % = 2,000 in year 1, × 0.943396226 = 1,886.79.
	assert.Equal(t, []string{"1: 8000"}, replace.of(TornOff))
	assert.Equal(t, "-1886.79", pv(1, TornOff, lcc.FirstCost))
	// 100,000 − 4 × 10,000 = 60,000 are left: × 25 % × 0.792093663 = 11,881.40.
	assert.Equal(t, "-11881.4", pv(1, EndOfStudy, lcc.FirstCost))
	// Residual value 80,000 × 25 % = 20,000, × 0.792093663 = 15,841.87; with the 60,000 written off, the gain
	// of 20,000 is taxed.
	assert.Equal(t, "15841.87", pv(1, ResidualTaxed, lcc.ResidualValue))
	// 37,325.53 − 8,662.76 − 173.25 − 1,886.79 − 11,881.40 + 15,841.87 = 30,563.20.
	assert.Equal(t, "30563.2", replace.LCC.String())
	// 31,506.52 − 30,563.20 = 943.32.
	assert.Equal(t, "943.32", replace.NetSavings.String())
	assert.Equal(t, 1, r.Lowest)
}

// Kept basis is deducted after the study as before, and the residual value is not taxed.
func TestBasisThatIsKeptIsDeductedAfterTheStudy(t *testing.T) {
	b, terms := worked()
	terms.AtEnd, terms.Residual, terms.TornOff, terms.TearOffs = Kept, false, Kept, nil
	replace := &b.after(terms).Alternatives[1]
	assert.Equal(t, []string{
		"1: 1000", "1: 10000", "2: 1000", "2: 10000", "3: 1000", "3: 10000", "4: 1000", "4: 10000", "5: 1000", "5: 10000",
		"6: 1000", "6: 10000", "7: 1000", "7: 10000", "8: 1000", "8: 10000", "9: 10000", "10: 10000"}, replace.of(Depreciation))
	// 2,500 × 7.360087 = 18,400.22 over 10 years; 250 × 6.209794 = 1,552.45 over 8, whose lines, each rounded, add
	// up to 1,552.43. 37,325.53 − 173.25 − 18,400.22 − 1,552.43 = 17,199.63.
	assert.Equal(t, "17199.63", replace.LCC.String())
}
