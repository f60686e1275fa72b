package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/tax"
)

// A text that goes on with "tax" in braces is read as text, as before there
// was a key of that name.
func TestTaxInATextIsNoKey(t *testing.T) {
	f := altered(t, "/good/waits.yaml", "{item: Scrap,", "{item: Scrap, tax included,")
	assert.Equal(t, "Scrap, tax included", f.Study.Systems[0].Removal[0].Name)
	assert.Nil(t, f.Tax)
}

// The most particular treatment that is stated counts: beside the cost, for the
// list in its system, for the list.
func TestTreatmentsOfCosts(t *testing.T) {
	f, diagnostics := read(t, testdata+"/good/tax.yaml")
	require.NotNil(t, f, told(diagnostics))
	at := func(place int) tax.Treatment { return f.Tax.Treatment[place-1] }
	expensed := tax.Treatment{Way: tax.Expensed}
	coat, roof := &f.Study.Systems[1], &f.Study.Systems[2]
	assert.Equal(t, expensed, at(coat.First[0].Tax))
	assert.Equal(t, tax.Treatment{Way: tax.Depreciated, By: tax.Schedule{Years: 15}}, at(coat.First[1].Tax))
	assert.Equal(t, expensed, at(coat.Recoat.Costs[0].Tax))
	assert.Equal(t, expensed, at(roof.First[0].Tax))
	assert.Equal(t, tax.Treatment{Way: tax.Depreciated, AtOnce: true, By: tax.Schedule{Table: tax.MACRS39}}, at(roof.First[1].Tax))
	assert.Equal(t, tax.Treatment{}, at(roof.First[2].Tax))
	assert.Equal(t, expensed, at(roof.Removal[0].Tax))
}

func TestTaxTermsAreRead(t *testing.T) {
	f, diagnostics := read(t, testdata+"/good/tax.yaml")
	require.NotNil(t, f, told(diagnostics))
	terms := f.Tax
	assert.Equal(t, "0.2574", terms.Rate.All.String())
	assert.True(t, terms.Rate.StateDeducted)
	assert.Nil(t, terms.AfterTax)
	assert.Equal(t, tax.WrittenOff, terms.TornOff)
	assert.Equal(t, []int{2}, terms.TearOffs)
	assert.Equal(t, tax.Kept, terms.AtEnd)
	assert.False(t, terms.Residual)
	assert.Equal(t, "64000", terms.Existing.Basis.String())
	assert.Equal(t, 16, terms.Existing.Years)
	assert.Equal(t, "100000", terms.Limit.String())
	require.Len(t, terms.Credits, 1)
	assert.Equal(t, 2, terms.Credits[0].Until)
	assert.Equal(t, "1", terms.Credits[0].Reduces.String())
	assert.Equal(t, "terms invented for this example", terms.Source)
}

func TestAStatedAfterTaxDiscountRate(t *testing.T) {
	f := altered(t, "/good/tax.yaml", "after_tax_discount_rate: derived", "after_tax_discount_rate: 3.25%")
	assert.Equal(t, "0.0325", f.Tax.AfterTax.String())
}

// Costs that a take-off and a reflective surface add have the treatment of their list; a step may state its own.
func TestDerivedCostsAreTreated(t *testing.T) {
	f := altered(t, "/bad/tax-no-treatment-derived.yaml", "{recoat: expensed}", "{first_costs: macrs_39_year, annual_costs: expensed}",
		"labour: 9}", "labour: 9, tax_treatment: macrs_15_year}")
	roof := &f.Study.Systems[0]
	assert.Equal(t, tax.MACRS15, f.Tax.Treatment[roof.First[0].Tax-1].By.Table)
	require.Len(t, roof.Annual, 2)
	for _, it := range roof.Annual {
		assert.Equal(t, tax.Expensed, f.Tax.Treatment[it.Tax-1].Way)
	}
}

// altered reads a study of testdata in which texts, in pairs, are replaced by
// others once.
func altered(t *testing.T, file string, pairs ...string) *File {
	t.Helper()
	src, err := Load(testdata + file)
	require.NoError(t, err)
	text := string(src.Text)
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, text, pairs[i])
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	src.Text = []byte(text)
	f, diagnostics := Read(src)
	require.NotNil(t, f, told(diagnostics))
	return f
}
