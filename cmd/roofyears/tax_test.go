package main

import (
	"bytes"
	"encoding/json"
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
		"lowest", "runner_up", "margin", "alternatives")
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
		o := keys(t, alt, "name", "costs_before_tax", "tax", "life_cycle_cost", "annual_worth", "net_savings", "ledger")
		sum := decimal.Zero
		for _, v := range o["ledger"].([]any) {
			line := keys(t, v, "year", "kind", "system", "cost", "item", "vintage", "deduction", "amount", "present_value")
			sum = sum.Add(amount(t, line["present_value"]))
		}
		assert.True(t, sum.Equal(amount(t, o["tax"])))
		assert.True(t, amount(t, o["costs_before_tax"]).Add(sum).Equal(amount(t, o["life_cycle_cost"])))
	}
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
