package main

import (
	"bytes"
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

func TestPrintedPage(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		for _, paper := range []string{"A4", "Letter"} {
			t.Run(example+"/"+paper, func(t *testing.T) {
				p := browsertest.Open(t, pageOf(t, examplePrefix+example, "--paper", strings.ToLower(paper)), browsertest.Options{})
				sheets := pdfSheets(t, p.PDF(paper))
				doc := documentOf(t, example)
				for i, text := range sheets {
					assert.Contains(t, text, fmt.Sprintf("page %d of %d", i+1, len(sheets)))
				}
				assertFirstSheet(t, doc, sheets)
				assertWholeCharts(t, doc, sheets)
				assertAppendices(t, sheets)
				assert.True(t, strings.Contains(strings.Join(sheets, " "), ledgerAmount(t, example)), "ledgers are printed open")
			})
		}
	}
}

// assertFirstSheet checks that the first sheet stands alone, and that it holds
// nothing else.
func assertFirstSheet(t *testing.T, doc *report.Document, sheets []string) {
	t.Helper()
	for _, f := range doc.Facts {
		for _, word := range strings.Fields(f.Label + " " + f.Text) { // a long text wraps beside the letterhead
			assert.Contains(t, sheets[0], word)
		}
	}
	for _, text := range []string{"What costs the owner least", "has the lowest life-cycle cost", "Savings-to-investment ratio (SIR)",
		"What the life-cycle costs are made of", "Later work", "Present value, USD"} {
		assert.Contains(t, sheets[0], text)
	}
	assert.NotContains(t, sheets[0], "means work on the roof")
	assert.Contains(t, sheets[1], "means work on the roof")
}

// assertWholeCharts checks that a chart's title and what stands below it are
// on one sheet.
func assertWholeCharts(t *testing.T, doc *report.Document, sheets []string) {
	t.Helper()
	figures, _ := gathered(doc)
	main := sheets[1:sheetWith(t, sheets, "Appendix A:")]
	for i, text := range main {
		titles := 0
		for _, f := range figures[1:] { // the first stands on the first sheet, without the sentence
			titles += strings.Count(text, f.Title)
		}
		assert.Equal(t, titles, strings.Count(text, "The numbers of this chart are in"), "charts on sheet %d", i+2)
	}
}

func assertAppendices(t *testing.T, sheets []string) {
	t.Helper()
	cautions, numbers, ledgers := sheetWith(t, sheets, "replaces no survey"), sheetWith(t, sheets, "Appendix A:"), sheetWith(t, sheets, "Appendix B:")
	assert.Less(t, cautions, numbers)
	assert.Less(t, numbers, ledgers)
	rules := slices.IndexFunc(sheets, func(s string) bool { return strings.Contains(s, "Appendix C:") })
	if rules < 0 { // a study without findings
		rules = len(sheets)
	}
	assert.Less(t, ledgers, rules)
	for i := ledgers; i < rules; i++ {
		assert.Contains(t, sheets[i], "Year Item Category Kind", "the head of the table stands on sheet %d", i+1)
	}
}

func sheetWith(t *testing.T, sheets []string, text string) int {
	t.Helper()
	for i, s := range sheets {
		if strings.Contains(s, text) {
			return i
		}
	}
	require.Fail(t, "no sheet has "+text)
	return 0
}

// ledgerAmount is an amount that only the last ledger of an example shows.
func ledgerAmount(t *testing.T, example string) string {
	t.Helper()
	doc := documentOf(t, example)
	_, tables := gathered(doc)
	rows := tables["ledger-4"].Rows
	cells := rows[len(rows)-2].Cells
	return cells[len(cells)-2].Show(doc.Currency)
}

// pdfSheets reads the text of a printed page, sheet by sheet.
func pdfSheets(t *testing.T, pdf []byte) []string {
	t.Helper()
	cmd := exec.Command("pdftotext", "-layout", "-", "-")
	cmd.Stdin = bytes.NewReader(pdf)
	out, err := cmd.Output()
	require.NoError(t, err, "pdftotext is of the Debian package poppler-utils")
	sheets := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	for i, s := range sheets {
		sheets[i] = strings.Join(strings.Fields(s), " ")
	}
	return sheets
}
