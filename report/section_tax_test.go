package report

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/tax"
)

// taxed is a study after tax: 5 % before tax on a basis, inflation of 2 %, all costs with one treatment.
func taxed(t *testing.T, basis lcc.Basis, terms tax.Terms, choices ...choice) *teller {
	t.Helper()
	in := studyOf(t, 5, choices...)
	s := in.Result.Study
	s.Basis, s.Inflation = basis, s.Add(lcc.Input{Unit: lcc.Rate, Likely: decimal.New(2, -2)})
	for i := range s.Systems {
		for _, items := range [][]lcc.Item{s.Systems[i].First, s.Systems[i].Annual} {
			for k := range items {
				items[k].Tax = 1
			}
		}
	}
	r, err := s.Evaluate()
	require.NoError(t, err)
	if terms.Treatment == nil {
		terms.Treatment = []tax.Treatment{{Way: tax.Expensed}}
	}
	if terms.Rate.All.IsZero() {
		terms.Rate.All = decimal.New(25, -2)
	}
	in.Result = r
	in.Tax, err = tax.Evaluate(r, &terms)
	require.NoError(t, err)
	return tell(in)
}

var (
	coatIt     = choice{name: "Coat", work: lcc.WorkRestore, first: 100_000}
	keepOn     = choice{name: "Keep", work: lcc.WorkExisting, yearly: 20_000}
	keepLonger = choice{name: "Keep", work: lcc.WorkExisting, yearly: 11_100}
)

// Each of these was read aloud.
func TestTaxHeadings(t *testing.T) {
	ruled := coatIt
	ruled.ruledOut = "wet"
	long := tax.Terms{Treatment: []tax.Treatment{{Way: tax.NotDeducted}}}
	for _, c := range []struct {
		name    string
		terms   tax.Terms
		choices []choice
		want    string
	}{
		{"the same", tax.Terms{}, []choice{keepOn, coatIt}, "After tax, “Coat” still costs least: $60,861.68 less than “Keep”"},
		{"a tie", tax.Terms{}, []choice{keepLonger, coatIt}, "After tax, “Coat” and “Keep” cost nearly the same"},
		{"one", tax.Terms{}, []choice{coatIt}, "After tax, “Coat” costs $75,903.61 over 10 years"},
		{"another", long, []choice{keepLonger, {name: "Coat", work: lcc.WorkRestore, first: 98_000}}, "After tax, “Coat” costs least, not “Keep”"},
		{"none", tax.Terms{}, []choice{ruled}, "After tax, too, none of the alternatives may be chosen"},
	} {
		assert.Equal(t, c.want, taxed(t, lcc.Nominal, c.terms, c.choices...).taxHeading(), c.name)
	}
}

// The figures before tax say so where others come out lowest after it.
func TestTaxPointer(t *testing.T) {
	assert.Empty(t, taxed(t, lcc.Nominal, tax.Terms{}, keepOn, coatIt).taxPointer())
	long := tax.Terms{Treatment: []tax.Treatment{{Way: tax.NotDeducted}}}
	changed := taxed(t, lcc.Nominal, long, keepLonger, choice{name: "Coat", work: lcc.WorkRestore, first: 98_000}).taxPointer()
	require.Len(t, changed, 1)
	assert.Equal(t, "All of this is before tax. After tax, on the terms that the study states, “Coat” comes out lowest: see the section on tax.", changed[0].(Paragraph).Text)
}

func TestTaxDiscountText(t *testing.T) {
	stated := decimal.New(3, -2)
	after := " All figures after tax use it, and no figures before tax do."
	for _, c := range []struct {
		name  string
		basis lcc.Basis
		terms tax.Terms
		want  string
	}{
		{"derived, nominal", lcc.Nominal, tax.Terms{}, "After-tax discount rate: 3.75% nominal, derived: 5% less 25% of it as tax."},
		{"derived, real", lcc.Real, tax.Terms{}, "After-tax discount rate: 3.2598% real, derived: 5% real is 7.1% nominal with inflation of 2%; less 25% of tax, 5.325% nominal, which is 3.2598% real."},
		{"stated, nominal", lcc.Nominal, tax.Terms{AfterTax: &stated}, "After-tax discount rate: 3% nominal, as the study states."},
		{"stated, real", lcc.Real, tax.Terms{AfterTax: &stated}, "After-tax discount rate: 3% real, as the study states; with inflation of 2%, 5.06% nominal."},
	} {
		assert.Equal(t, c.want+after, taxed(t, c.basis, c.terms, coatIt).taxDiscountText(), c.name)
	}
}

func TestTaxRateText(t *testing.T) {
	assert.Equal(t, "Tax rate: 25% of taxable income, all income taxes together.", taxed(t, lcc.Nominal, tax.Terms{}, coatIt).taxRateText())
	split := tax.Terms{Rate: tax.Combined(decimal.New(21, -2), decimal.New(6, -2), true)}
	assert.Equal(t, "Tax rate: 25.74% of taxable income, from 21% federal and 6% state tax; state tax is deducted from what federal tax is paid on.",
		taxed(t, lcc.Nominal, split, coatIt).taxRateText())
	split.Rate = tax.Combined(decimal.New(21, -2), decimal.New(6, -2), false)
	assert.Contains(t, taxed(t, lcc.Nominal, split, coatIt).taxRateText(), "27% of taxable income")
}

func TestTaxTermsInWords(t *testing.T) {
	straight := []tax.Treatment{{Way: tax.Depreciated, AtOnce: true, By: tax.Schedule{Years: 15}}}
	terms := taxed(t, lcc.Nominal, tax.Terms{
		Treatment: straight, TornOff: tax.WrittenOff, TearOffs: []int{0}, AtEnd: tax.WrittenOff, Residual: true, Limit: decimal.NewFromInt(1000),
		Existing: &tax.Existing{Basis: decimal.NewFromInt(5000), Years: 1},
		Credits:  []tax.Credit{{Name: "Rebate", Amount: decimal.NewFromInt(900), Until: 3, Taxed: true}},
	}, coatIt).taxTerms()
	assert.Equal(t, []string{
		"Deducted at once: up to $1,000.00 in a year, in money of that year; the work of a year shares the limit in the order of the ledger.",
		"The roof that is there: $5,000.00 of its basis is left, deducted in equal amounts over 1 year (no source given).",
		"When a roof is torn off: what is left of the basis of all that is on the roof is deducted in the year in which it is taken off. These take it off: “Coat”.",
		"At the end of the study, year 10: what is left of basis is written off against the residual value, as if the roof were disposed of; the gain over it is taxed, and a loss saves tax.",
		"“Rebate”: $900.00 for installing “Coat” up to year 3; it does not lessen what may be deducted and is taxed as income (no source given).",
	}, terms[2:])
	terms = taxed(t, lcc.Nominal, tax.Terms{Residual: true}, coatIt).taxTerms()
	assert.Equal(t, []string{
		"The roof that is there: no remaining basis is stated, so nothing of it is deducted.",
		"At the end of the study, year 10: no basis is left; the residual value is taxed in full, so that it counts net of tax as the costs do.",
	}, terms[2:])
}

// Who decides is said first, and what writing off the old roof brings with it.
func TestTaxCautions(t *testing.T) {
	written := taxed(t, lcc.Nominal, tax.Terms{TornOff: tax.WrittenOff, AtEnd: tax.Kept}, coatIt).taxCautions()
	assert.Contains(t, written[0], "The owner’s accountant and tax adviser decide.")
	assert.Contains(t, written[1], "has to capitalise the roof that replaces it")
	kept := taxed(t, lcc.Nominal, tax.Terms{TornOff: tax.Kept, AtEnd: tax.Kept}, coatIt).taxCautions()
	assert.Contains(t, kept[1], "goes on being depreciated here")
}

// A residual value that is not taxed is said to flatter, one that is taxed to
// be taxed at a rate that may not be the right one.
func TestTaxCautionsOfAResidualValue(t *testing.T) {
	for _, c := range []struct {
		taxed bool
		want  string
	}{{false, "flatters work done late"}, {true, "taxed here at the one tax rate of the study"}} {
		teller := taxed(t, lcc.Nominal, tax.Terms{Residual: c.taxed}, coatIt)
		assert.NotContains(t, strings.Join(teller.taxCautions(), "\n"), "Residual value:")
		teller.Alternatives[0].Residual.Amount = decimal.NewFromInt(-500)
		assert.Contains(t, strings.Join(teller.taxCautions(), "\n"), c.want)
	}
}

// The sentences that except the figures after tax end as sentences do.
func TestWhatIsBeforeTaxIsSaidInWholeSentences(t *testing.T) {
	teller := taxed(t, lcc.Nominal, tax.Terms{}, keepOn, coatIt)
	last := func(s Section) string {
		items := s.Blocks[0].(List).Items
		return items[len(items)-1]
	}
	assert.Contains(t, last(cautionsSection(opinionText, teller.butAfterTax())), "The figures here are before tax, but for those after tax.")
	assert.Contains(t, teller.ledgerSection().Blocks[0].(Paragraph).Text, "Every figure of this report, but for those after tax, is one of these lines")
	teller.Tax = nil
	assert.Contains(t, last(cautionsSection(opinionText, teller.butAfterTax())), "The figures here are before tax.")
	assert.Contains(t, teller.ledgerSection().Blocks[0].(Paragraph).Text, "Every figure of this report is one of these lines")
}

// The owner's tax year is not that of the study.
func TestTaxMethodSaysWhichYearIsMeant(t *testing.T) {
	assert.Contains(t, taxed(t, lcc.Nominal, tax.Terms{}, coatIt).taxMethod()[0], "A year of the study stands for a tax year")
}

// Every figure of the comparison is a sum of lines, and the parts are the whole.
func TestTaxTableFoots(t *testing.T) {
	straight := []tax.Treatment{{Way: tax.Depreciated, AtOnce: true, By: tax.Schedule{Table: tax.MACRS39}}}
	for _, end := range []tax.Fate{tax.Kept, tax.WrittenOff} {
		terms := tax.Terms{
			Treatment: straight, TornOff: tax.WrittenOff, TearOffs: []int{1}, AtEnd: end, Residual: end == tax.WrittenOff, Limit: decimal.NewFromInt(1000),
			Existing: &tax.Existing{Basis: decimal.NewFromInt(5000), Years: 20},
			Credits:  []tax.Credit{{Name: "Rebate", System: 1, Amount: decimal.NewFromInt(900), Until: 3, Taxed: true}},
		}
		teller := taxed(t, lcc.Real, terms, keepOn, coatIt)
		table := teller.taxTable("tax", []int{0, 1})
		for column := 1; column <= 2; column++ {
			sum, rows := decimal.Zero, 0
			require.Equal(t, "Costs before tax, at this rate", table.Rows[4].Cells[0].Text)
			for _, row := range table.Rows[4:] {
				if row.Role == Total {
					assert.True(t, sum.Equal(row.Cells[column].Number), "%s and %s", sum, row.Cells[column].Number)
					break
				}
				sum, rows = sum.Add(row.Cells[column].Number), rows+1
			}
			assert.GreaterOrEqual(t, rows, 5)
		}
		for i := range teller.Alternatives {
			years := teller.taxYears(i).Rows
			total := years[len(years)-1].Cells
			assert.True(t, teller.Tax.Alternatives[i].LCC.Equal(total[len(total)-1].Number))
		}
	}
}

func TestVintagesInWords(t *testing.T) {
	straight := []tax.Treatment{{Way: tax.Depreciated, AtOnce: true, By: tax.Schedule{Table: tax.MACRS39}}}
	teller := taxed(t, lcc.Nominal, tax.Terms{Treatment: straight, TornOff: tax.Kept, AtEnd: tax.Kept, Limit: decimal.NewFromInt(10_000)}, coatIt)
	var shown [][]string
	for _, row := range teller.vintageTable(0).Rows {
		var cells []string
		for _, c := range row.Cells {
			cells = append(cells, c.Show(teller.cur))
		}
		shown = append(shown, cells)
	}
	assert.Equal(t, [][]string{
		{"First cost of “Coat”, first deducted in year 1: $100,000.00 paid, of which $10,000.00 at once; depreciated over 39 years (MACRS, mid-month, month 1)", "", "", ""},
		{"1", "at once, within the limit", "10,000.00", "90,000.00"},
		{"1", "depreciation", "2,214.90", "87,785.10"},
		{"2 to 39", "depreciation", "2,307.60", "96.30"},
		{"40", "depreciation", "96.30", "0.00"},
	}, shown)
}
