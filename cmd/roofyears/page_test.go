package main

import (
	"bytes"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// pageOf writes the page of a study with the command, and gives its path.
func pageOf(t *testing.T, study string, flags ...string) string {
	t.Helper()
	page := filepath.Join(t.TempDir(), "page.html")
	var errs bytes.Buffer
	code := run(append([]string{name, "report", study, "-o", page}, flags...), stream{nil, &bytes.Buffer{}, &errs})
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
				assert.Equal(t, 12, places, "charts: parts, cumulated, payments of four alternatives, categories, rate curve, swings, chances, costs, difference")
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
	assert.Equal(t, 13, browsertest.Eval[int](p, `document.querySelectorAll("details table").length`),
		"tables of six figures, what rules say of three works, four ledgers")
	assert.Empty(t, p.Requests())
	assert.Empty(t, p.ConsoleErrors())
}
