package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
)

const taxFile = "../../testdata/scenarios/good/tax.yaml"

// after is the answer after tax, by alternative.
func after(t *testing.T, study string) object {
	t.Helper()
	return keys(t, answerOf(t, study)["after_tax"], "tax_rate", "discount_rate", "discount_rate_nominal", "discount_rate_derived",
		"terms", "lowest", "runner_up", "margin", "alternatives")
}

// From the file to the answer, the comparison that is worked by hand in lcc/tax.
func TestAfterTaxFromTheFile(t *testing.T) {
	a := after(t, "../../testdata/scenarios/good/tax-worked.yaml")
	assert.Equal(t, "Replace", a["lowest"])
	assert.Equal(t, "943.32", amount(t, a["margin"]).String())
	for i, want := range []string{"31506.52", "30563.2"} {
		assert.Equal(t, want, amount(t, a["alternatives"].([]any)[i].(object)["life_cycle_cost"]).String())
	}
}

// The figures after tax add up, and stand beside those before tax, which are those of the study without tax terms.
func TestAfterTaxAddsUp(t *testing.T) {
	for _, alt := range after(t, taxFile)["alternatives"].([]any) {
		o := keys(t, alt, "name", "costs_before_tax", "tax", "life_cycle_cost", "annual_worth", "net_savings", "ledger", "vintages", "years")
		sum := decimal.Zero
		for _, v := range o["ledger"].([]any) {
			line := keys(t, v, "year", "kind", "system", "cost", "item", "vintage", "deduction", "amount", "present_value")
			sum = sum.Add(amount(t, line["present_value"]))
		}
		assert.True(t, sum.Equal(amount(t, o["tax"])))
		assert.True(t, amount(t, o["costs_before_tax"]).Add(sum).Equal(amount(t, o["life_cycle_cost"])))
		assertVintages(t, o)
		assertTaxYears(t, o)
	}
}

// assertVintages compares the deductions of each basis with the lines of the
// ledger that name it.
func assertVintages(t *testing.T, o object) {
	t.Helper()
	posted := map[string]decimal.Decimal{}
	place := func(vintage, year, kind any) string { return fmt.Sprint(vintage, year, kind) }
	for _, v := range o["ledger"].([]any) {
		if line := v.(object); line["vintage"] != nil {
			posted[place(line["vintage"], line["year"], line["kind"])] = amount(t, line["deduction"])
		}
	}
	require.NotEmpty(t, o["vintages"])
	for i, v := range o["vintages"].([]any) {
		vintage := keys(t, v, "vintage", "system", "cost", "paid", "reduced_by_credits", "deducted_at_once", "basis", "schedule", "first_year", "torn_off", "deductions")
		assert.Equal(t, json.Number(fmt.Sprint(i+1)), vintage["vintage"])
		keys(t, vintage["schedule"], "table", "years", "month")
		basis, atOnce := amount(t, vintage["basis"]), amount(t, vintage["deducted_at_once"])
		assert.True(t, basis.Equal(amount(t, vintage["paid"]).Sub(amount(t, vintage["reduced_by_credits"])).Sub(atOnce)))
		left := basis.Add(atOnce)
		for _, d := range vintage["deductions"].([]any) {
			deduction := keys(t, d, "year", "kind", "deduction", "left")
			at, size := place(vintage["vintage"], deduction["year"], deduction["kind"]), amount(t, deduction["deduction"])
			assert.True(t, posted[at].Equal(size), at)
			delete(posted, at)
			left = left.Sub(size)
			assert.True(t, left.Equal(amount(t, deduction["left"])), "of a basis whose part at once comes first")
		}
		assert.True(t, left.IsZero(), "the deductions add up to the basis")
	}
	assert.Empty(t, posted, "every deduction of a basis is told with it")
}

// assertTaxYears adds up the years: their present values are the life-cycle
// cost, and what is in each is in the ledger.
func assertTaxYears(t *testing.T, o object) {
	t.Helper()
	taxed, deducted := map[json.Number]decimal.Decimal{}, map[json.Number]decimal.Decimal{}
	for _, v := range o["ledger"].([]any) {
		line := v.(object)
		year := line["year"].(json.Number)
		taxed[year], deducted[year] = taxed[year].Add(amount(t, line["amount"])), deducted[year].Add(amount(t, line["deduction"]))
	}
	sum := decimal.Zero
	for _, v := range o["years"].([]any) {
		year := keys(t, v, "year", "costs", "deducted", "depreciation", "written_off", "income", "tax", "present_value")
		sum = sum.Add(amount(t, year["present_value"]))
		at := year["year"].(json.Number)
		assert.True(t, taxed[at].Equal(amount(t, year["tax"])), "%s", at)
		less := amount(t, year["deducted"]).Add(amount(t, year["depreciation"])).Add(amount(t, year["written_off"])).Sub(amount(t, year["income"]))
		assert.True(t, deducted[at].Equal(less), "%s", at)
		delete(taxed, at)
	}
	assert.Empty(t, taxed)
	assert.True(t, sum.Equal(amount(t, o["life_cycle_cost"])))
}

// The terms stand there in the words of the study file.
func TestTaxTermsOfTheAnswer(t *testing.T) {
	terms := keys(t, after(t, taxFile)["terms"], "source", "rate_parts", "inflation", "discount_rate_before_tax_nominal", "month_placed_in_service",
		"immediate_limit", "torn_off", "tear_offs", "at_end", "residual_value", "existing_basis", "credits", "treatments")
	rate := func(text string) json.Number { return json.Number(text) }
	assert.Equal(t, object{"federal": rate("0.21000000"), "state": rate("0.06000000"), "state_deducted": true}, terms["rate_parts"])
	assert.Equal(t, []any{rate("0.02500000"), rate("0.07625000"), rate("10"), rate("100000.00")},
		[]any{terms["inflation"], terms["discount_rate_before_tax_nominal"], terms["month_placed_in_service"], terms["immediate_limit"]})
	assert.Equal(t, []any{"written_off", []any{"tear_off"}, "kept", "untaxed", "terms invented for this example"},
		[]any{terms["torn_off"], terms["tear_offs"], terms["at_end"], terms["residual_value"], terms["source"]})
	assert.Equal(t, object{"amount": rate("64000.00"), "years_left": rate("16"), "source": "owner's fixed asset register, 2026"}, terms["existing_basis"])
	assert.Equal(t, []any{object{"item": "Utility rebate", "system": "restoration", "amount": rate("15000.00"), "until": rate("2"),
		"reduces_basis": rate("1.00000000"), "taxed": false, "source": "utility's programme sheet, 2026"}}, terms["credits"])
	treated := map[string]object{}
	for _, v := range terms["treatments"].([]any) {
		of := keys(t, v, "system", "list", "item", "treatment", "immediate", "schedule")
		treated[fmt.Sprint(of["system"], ".", of["list"], ": ", of["item"])] = of
	}
	assert.Len(t, treated, 10)
	assert.Equal(t, object{"table": "macrs_39_year", "years": nil, "month": rate("10")}, treated["tear_off.first_costs: Insulated new roof"]["schedule"])
	assert.Equal(t, true, treated["tear_off.first_costs: Insulated new roof"]["immediate"])
	assert.Equal(t, object{"table": "straight_line", "years": rate("15"), "month": nil}, treated["restoration.first_costs: New curbs"]["schedule"])
	assert.Equal(t, "not_deducted", treated["tear_off.first_costs: Permit fine of an earlier owner"]["treatment"])
	assert.Equal(t, []any{"expensed", nil}, []any{treated["restoration.recoat: Recoat"]["treatment"], treated["restoration.recoat: Recoat"]["schedule"]})
}

// What a study does not state is null; the basis is that of the comparison that
// is worked by hand in lcc/tax.
func TestTaxTermsThatAreNotStated(t *testing.T) {
	a := after(t, "../../testdata/scenarios/good/tax-worked.yaml")
	terms := a["terms"].(object)
	for _, key := range []string{"source", "rate_parts", "immediate_limit"} {
		assert.Nil(t, terms[key], key)
	}
	assert.Empty(t, terms["credits"])
	assert.Equal(t, "taxed", terms["residual_value"])
	var told []string
	for _, v := range a["alternatives"].([]any)[1].(object)["vintages"].([]any) {
		vintage := v.(object)
		told = append(told, fmt.Sprintf("%v %v %v %v", vintage["system"], vintage["cost"], vintage["basis"], vintage["torn_off"]))
		for _, d := range vintage["deductions"].([]any) {
			of := d.(object)
			told = append(told, fmt.Sprintf("%v %v %v %v", of["year"], of["kind"], of["deduction"], of["left"]))
		}
	}
	assert.Equal(t, []string{
		"<nil> <nil> 8000.00 0", "1 torn_off 8000.00 0.00",
		"replacement first 100000.00 <nil>", "1 depreciation 10000.00 90000.00", "2 depreciation 10000.00 80000.00",
		"3 depreciation 10000.00 70000.00", "4 depreciation 10000.00 60000.00", "4 end_of_study 60000.00 0.00",
	}, told)
}

// withoutTax is the file without its tax section and its treatments.
func withoutTax(t *testing.T) string {
	t.Helper()
	given, err := os.ReadFile(taxFile)
	require.NoError(t, err)
	text, _, found := strings.Cut(string(given), "\ntax:\n")
	require.True(t, found)
	path := t.TempDir() + "/tax.yaml"
	require.NoError(t, os.WriteFile(path, []byte(regexp.MustCompile(`, tax_treatment: ({[^}]*}|\w+)`).ReplaceAllString(text, "")+"\n"), 0o600))
	return path
}

func TestTaxTermsChangeNothingBeforeTax(t *testing.T) {
	with, without := answerOf(t, taxFile), answerOf(t, withoutTax(t))
	assert.NotContains(t, without, "after_tax")
	delete(with, "after_tax")
	assert.Equal(t, without, with)
}

// Without tax terms, as owners who pay no tax have it, nothing is shown of tax but the words of before.
func TestNothingIsShownWithoutTaxTerms(t *testing.T) {
	page, err := os.ReadFile(pageOf(t, withoutTax(t), "--trials", "100"))
	require.NoError(t, err)
	var out, errs bytes.Buffer
	require.Equal(t, exitDone, run([]string{name, "compare", withoutTax(t)}, stream{nil, &out, &errs}), errs.String())
	for _, word := range []string{`id="after-tax`, `id="tax-`, "depreciat", "deduct"} {
		body, _, _ := strings.Cut(string(page), `<script type="application/json"`)
		assert.False(t, strings.Contains(strings.ReplaceAll(body, "is deducted", ""), word), "page: %s", word)
		assert.False(t, strings.Contains(strings.ReplaceAll(out.String(), "is deducted", ""), word), "terminal: %s", word)
	}
}

func TestPageAfterTaxIsProved(t *testing.T) {
	path := pageOf(t, taxFile, "--trials", "100")
	var out, errs bytes.Buffer
	assert.Equal(t, exitDone, run([]string{name, "verify", path}, stream{nil, &out, &errs}), errs.String())

	page, err := os.ReadFile(path)
	require.NoError(t, err)
	start := bytes.Index(page, []byte(`<table class="data" id="tax"`))
	require.Positive(t, start)
	cell := regexp.MustCompile(`>[\d,]+\.\d\d<`).FindIndex(page[start:])
	require.NotNil(t, cell)
	at := start + cell[1] - 2 // the last digit of a cent
	page[at] = '0' + (page[at]-'0'+1)%10
	require.NoError(t, os.WriteFile(path, page, 0o600))
	errs.Reset()
	assert.Equal(t, exitInput, run([]string{name, "verify", path}, stream{nil, &out, &errs}))
	assert.Contains(t, errs.String(), `table "tax"`)
}

// The check of a file tells what it states about tax.
func TestCheckTellsTaxTerms(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitDone, run([]string{name, "check", taxFile}, stream{nil, &out, &errs}), errs.String())
	assert.Contains(t, out.String(), "Tax rate: 25.74% of taxable income")
	assert.Contains(t, out.String(), "First costs: New curbs")
}

// Texts of tax terms are shown as text.
func TestHostileTaxTermsAreShownAsText(t *testing.T) {
	var all []string
	for _, what := range slices.Sorted(maps.Keys(hostile)) {
		all = append(all, hostile[what])
	}
	text := strings.Join(all, " ")
	quoted, err := json.Marshal(text)
	require.NoError(t, err)
	given, err := os.ReadFile(taxFile)
	require.NoError(t, err)
	before, terms, found := strings.Cut(string(given), "\ntax:\n")
	require.True(t, found)
	texts := regexp.MustCompile(`(item|source): ("[^"]*"|[^,}]+)`)
	require.Len(t, texts.FindAllString(terms, -1), 4)
	path := t.TempDir() + "/hostile.yaml"
	terms = texts.ReplaceAllString(terms, "${1}: "+strings.ReplaceAll(string(quoted), "$", "$$"))
	require.NoError(t, os.WriteFile(path, []byte(before+"\ntax:\n"+terms), 0o600))
	p := browsertest.Open(t, pageOf(t, path, "--trials", "100"), browsertest.Options{Width: 360, Height: 740})
	assert.Equal(t, 4, strings.Count(browsertest.Eval[string](p, everyText), text))
	assertHarmless(t, p)
}
