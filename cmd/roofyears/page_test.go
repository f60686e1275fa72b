package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// pageOf writes the page of a study with the command, and gives its path.
func pageOf(t *testing.T, study string) string {
	t.Helper()
	page := filepath.Join(t.TempDir(), "page.html")
	var errs bytes.Buffer
	code := run([]string{name, "report", study, "-o", page}, stream{nil, &bytes.Buffer{}, &errs})
	require.Equal(t, exitDone, code, errs.String())
	return page
}

// assertQuiet looks at what a good page never does.
func assertQuiet(t *testing.T, p *browsertest.Page) {
	t.Helper()
	assert.Empty(t, p.Requests(), "network requests")
	assert.Empty(t, p.ConsoleErrors(), "console errors")
	assert.Empty(t, p.Violations(), "policy violations")
}

// drawn gives how many charts the page has and how many show something.
func drawn(p *browsertest.Page) (places, shown int) {
	places = browsertest.Eval[int](p, `document.querySelectorAll(".plot").length`)
	shown = browsertest.Eval[int](p, `[...document.querySelectorAll(".plot svg")].filter(s => s.querySelectorAll("path").length > 5).length`)
	return places, shown
}

func TestPageInABrowser(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		page := pageOf(t, examplePrefix+example)
		for _, view := range []struct {
			name string
			browsertest.Options
		}{
			{"screen", browsertest.Options{}},
			{"phone in the dark", browsertest.Options{Width: 360, Height: 740, Dark: true}},
			{"print", browsertest.Options{Print: true}},
		} {
			t.Run(example+"/"+view.name, func(t *testing.T) {
				p := browsertest.Open(t, page, view.Options)
				places, shown := drawn(p)
				assert.Equal(t, 11, places, "charts: cumulated, payments of four alternatives, categories, rate curve, swings, chances, costs, difference")
				assert.Equal(t, places, shown, "charts drawn")
				assert.Equal(t, 0, browsertest.Eval[int](p, `window.__chartErrors`))
				assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth - window.innerWidth`), 0, "the page is wider than the window")
				assertQuiet(t, p)
			})
		}
	}
}

func TestPageWithoutScript(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:school"), browsertest.Options{NoScript: true})
	text := browsertest.Eval[string](p, `document.body.innerText`)
	assert.Contains(t, text, "has the lowest life-cycle cost")
	assert.Contains(t, text, "Savings-to-investment ratio")
	assert.Equal(t, 10, browsertest.Eval[int](p, `document.querySelectorAll("details table").length`),
		"tables of six figures, four ledgers")
	assert.Empty(t, p.Requests())
	assert.Empty(t, p.ConsoleErrors())
}

func TestPrintedPage(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:cold-store"), browsertest.Options{})
	line := ledgerAmount(t, "cold-store")
	for _, paper := range []string{"A4", "Letter"} {
		text := pdfText(t, p.PDF(paper))
		assert.True(t, regexp.MustCompile(`page 1 of \d+`).MatchString(text), "pages are numbered")
		assert.True(t, strings.Contains(text, line), "ledgers are printed open")
		assert.True(t, strings.Contains(text, "Cumulated present value, USD"), "charts are printed, with their text")
	}
}

// ledgerAmount is an amount that only the last ledger of an example shows.
func ledgerAmount(t *testing.T, example string) string {
	t.Helper()
	doc := documentOf(t, example)
	_, tables := gathered(doc)
	rows := tables["ledger-4"].Rows
	cells := rows[len(rows)/2].Cells
	return cells[len(cells)-2].Show(doc.Currency)
}

// pdfText reads the text of a printed page.
func pdfText(t *testing.T, pdf []byte) string {
	t.Helper()
	cmd := exec.Command("pdftotext", "-layout", "-", "-")
	cmd.Stdin = bytes.NewReader(pdf)
	out, err := cmd.Output()
	require.NoError(t, err, "pdftotext is of the Debian package poppler-utils")
	return strings.Join(strings.Fields(string(out)), " ")
}

// hostile is text that would run, or break the page, if any writer took it
// for markup, script, a chart library's function or its rich text.
const hostile = `</script><img src=x onerror=window.pwned=1>__f__window.pwned=1__f__{{.}}{a|b}"'&<b>`

func TestHostileTextIsShownAsText(t *testing.T) {
	quoted := "'" + strings.ReplaceAll(hostile, "'", "''") + "'"
	src, ok := scenarios.Example("cold-store")
	require.True(t, ok)
	study := string(src.Text)
	for _, old := range []string{"Cold store, main roof (invented example)", "Quillmere Cold Storage", "Elastomeric restoration", "Set up and protect", "owner's capital plan 2026"} {
		require.Contains(t, study, old)
		study = strings.ReplaceAll(study, " "+old, " "+quoted)
	}
	study = strings.ReplaceAll(study, "{name: Restore,", "{name: "+quoted+",")
	path := filepath.Join(t.TempDir(), "hostile.yaml")
	require.NoError(t, os.WriteFile(path, []byte(study), 0o600))

	p := browsertest.Open(t, pageOf(t, path), browsertest.Options{})
	assert.Equal(t, hostile, browsertest.Eval[string](p, `document.title`))
	assert.Equal(t, hostile, browsertest.Eval[string](p, `document.querySelector("h1").textContent`))
	whatIf := browsertest.Eval[string](p, inWhatIf+`.textContent`)
	assert.Contains(t, whatIf, "“"+hostile+"”")
	assert.Equal(t, 0, browsertest.Eval[int](p, inWhatIf+`.querySelectorAll("img, b, script").length`), "text of the study became markup")
	browsertest.Eval[string](p, ends)
	assert.True(t, browsertest.Eval[bool](p, `window.pwned === undefined`), "text of the study ran")
	assert.Equal(t, 0, browsertest.Eval[int](p, `document.querySelectorAll("img, b").length`), "text of the study became markup")
	places, shown := drawn(p)
	assert.Equal(t, places, shown)
	assertQuiet(t, p)
}
