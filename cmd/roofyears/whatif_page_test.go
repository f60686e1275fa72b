package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

const ruledOut = ", ruled_out: {rule: deck, finding: wet}}"

// The sentence says so when nothing may be chosen, when there is one choice
// only, and when two cost the same.
func TestWhatIfSentences(t *testing.T) {
	for name, c := range map[string]struct {
		study string
		want  string
	}{
		"none": {variant(t, "cold-store", "base_case: true}", "base_case: true"+ruledOut, "start: restoration}", "start: restoration"+ruledOut,
			"start: recover}", "start: recover"+ruledOut, "start: tear_off}", "start: tear_off"+ruledOut),
			"Every alternative is ruled out, so none is called the lowest."},
		"one left": {variant(t, "cold-store", "base_case: true}", "base_case: true"+ruledOut, "start: recover}", "start: recover"+ruledOut, "start: tear_off}", "start: tear_off"+ruledOut),
			"“Restore” is the only alternative that is not ruled out: with the study’s values it costs $705,177.95."},
		"alone": {variant(t, "cold-store", "  - {name: Restore, start: restoration}\n", "", "  - {name: Roof over, start: recover}\n", "", "  - {name: Tear off and replace, start: tear_off}", ""),
			"“Keep patching” is the only alternative of this study: with the study’s values it costs $1,213,118.74."},
		"tie": {variant(t, "cold-store", "  - {name: Roof over, start: recover}", "  - {name: Again, start: restoration}"),
			"With the study’s values “Restore” and “Again” tie to the last digit: each costs $705,177.95."},
		"open": {"example:school", "With the study’s values “Tear off and replace” costs least, $69,225.22 less than “Keep patching”. “Tear off and replace” is not yet shown to be allowed: one finding is open."},
		"open, and alone": {variant(t, "school", "base_case: true}", "base_case: true"+ruledOut, "start: restoration}", "start: restoration"+ruledOut),
			"“Tear off and replace” is the only alternative that is not ruled out: with the study’s values it costs $828,684.78. “Tear off and replace” is not yet shown to be allowed: one finding is open."},
		"open, and a tie": {variant(t, "school", "  - {name: Restore, start: restoration}", "  - {name: Tear off too, start: tear_off}"),
			"With the study’s values “Tear off too” and “Tear off and replace” tie to the last digit: each costs $828,684.78. “Tear off too” is not yet shown to be allowed: one finding is open. “Tear off and replace” is not yet shown to be allowed: one finding is open."},
		"plain": {"example:cold-store", "With the study’s values “Restore” costs least, $368,699.39 less than “Roof over”."},
	} {
		p := browsertest.Open(t, pageOf(t, c.study), browsertest.Options{})
		assert.Equal(t, c.want, browsertest.Eval[string](p, `(`+inWhatIf+`.querySelector('.sentence') || document.body).textContent`), name)
		assertQuiet(t, p)
	}
}

// The standings of the what-if are those of the study: ruled out, open, lowest.
func TestWhatIfStandings(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:school"), browsertest.Options{})
	row := browsertest.Eval[[]string](p, `[...`+inWhatIf+`.querySelector('tbody').lastElementChild.children].map((c) => c.textContent)`)
	assert.Equal(t, []string{"Standing", "not ruled out", "open: 2 findings", "ruled out", "lowest, open: 1 finding"}, row)
}

// inWhatIf is where the what-if of a page stands.
const inWhatIf = `document.getElementById('what-if-host').shadowRoot`

// Arrow keys move a slider, and a button takes all back.
func TestWhatIfByKeyboard(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:school"), browsertest.Options{Width: 360, Height: 740})
	before := browsertest.Eval[string](p, inWhatIf+`.querySelector('table').textContent`)
	browsertest.Eval[bool](p, `(() => { `+inWhatIf+`.querySelector('input').focus(); return true; })()`)
	p.Press("ArrowRight", "ArrowRight", "ArrowLeft", "End", "ArrowLeft")
	assert.Equal(t, "6.25%", browsertest.Eval[string](p, inWhatIf+`.querySelector('input').getAttribute('aria-valuetext')`))
	assert.Equal(t, "6.25%", browsertest.Eval[string](p, inWhatIf+`.querySelector('output').textContent`))
	assert.NotEqual(t, before, browsertest.Eval[string](p, inWhatIf+`.querySelector('table').textContent`))
	assert.Equal(t, "the study’s value: 5%", browsertest.Eval[string](p, inWhatIf+`.querySelector('.slider .own').textContent`))
	assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth - window.innerWidth`), 0)
	browsertest.Eval[bool](p, `(() => { `+inWhatIf+`.querySelector('button').click(); return true; })()`)
	assert.Equal(t, before, browsertest.Eval[string](p, inWhatIf+`.querySelector('table').textContent`))
	labels := `[...` + inWhatIf + `.querySelectorAll('input')].every((i) => i.labels.length === 1 && i.closest('fieldset').querySelector('legend').textContent !== '')`
	assert.True(t, browsertest.Eval[bool](p, labels), "every slider has a label and belongs to a group")
	assertQuiet(t, p)
}

// ends moves every slider to its last position.
const ends = `(() => {
	for (const i of ` + inWhatIf + `.querySelectorAll('input')) { i.value = i.max; i.dispatchEvent(new Event('input')); }
	return document.documentElement.outerHTML;
})()`

// What was tried is neither printed nor saved, and without script nothing of
// it is there.
func TestWhatIfLeavesNoTrace(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		page := pageOf(t, examplePrefix+example)
		p := browsertest.Open(t, page, browsertest.Options{})
		assert.True(t, browsertest.Eval[bool](p, `document.getElementById('what-if').offsetHeight > 300`), "shown on a screen")
		text := browsertest.Eval[string](p, ends)
		code, out, errs := verified(t, text)
		assert.Equal(t, exitDone, code, errs)
		assert.Contains(t, out, proved, "a page saved while something is tried")
		assert.NotContains(t, text, `id="slider-0"`)
		assert.NotContains(t, strings.Join(pdfSheets(t, p.PDF("A4")), " "), "What if?")

		printed := browsertest.Open(t, page, browsertest.Options{Print: true})
		assert.True(t, browsertest.Eval[bool](printed, `document.getElementById('what-if').offsetHeight === 0`))
		path := filepath.Join(t.TempDir(), "saved.html")
		require.NoError(t, os.WriteFile(path, []byte("<!DOCTYPE html>\n"+text), 0o600))
		for _, without := range []string{page, path} {
			off := browsertest.Open(t, without, browsertest.Options{NoScript: true})
			assert.NotContains(t, browsertest.Eval[string](off, `document.body.innerText`), "What if?")
		}
		again := browsertest.Open(t, path, browsertest.Options{})
		assert.Equal(t, -1, browsertest.Eval[int](again, `[...`+inWhatIf+`.querySelectorAll('td .own')].length - 1`), "a saved page starts at the study's values")

		written, err := os.ReadFile(page)
		require.NoError(t, err)
		assert.Less(t, len(written), 1_000_000)
	}
}

// A page whose carried figures are not what its structure gives shows no
// what-if, and verify names what was changed.
func TestWhatIfOfAChangedPage(t *testing.T) {
	written, err := os.ReadFile(pageOf(t, "example:cold-store"))
	require.NoError(t, err)
	for _, c := range []struct{ old, new, place string }{
		{`"lcc":"70517795"`, `"lcc":"70181894"`, "data of the what-if, own[1].lcc"},
		{`"values":["0.03",`, `"values":["0.04",`, "data of the what-if, study.values[0]"},
		{`"at_most":2`, `"at_most":1`, "data of the what-if, study.systems[1].recoat.at_most"},
	} {
		require.Equal(t, 1, strings.Count(string(written), c.old), c.old)
		page := strings.Replace(string(written), c.old, c.new, 1)
		code, _, errs := verified(t, page)
		assert.Equal(t, exitInput, code)
		assert.Contains(t, errs, c.place)
	}
	path := filepath.Join(t.TempDir(), "changed.html")
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(written), `"at_most":2`, `"at_most":1`, 1)), 0o600))
	p := browsertest.Open(t, path, browsertest.Options{})
	assert.True(t, browsertest.Eval[bool](p, `document.getElementById('what-if').offsetHeight === 0`))
	assert.Contains(t, strings.Join(p.ConsoleErrors(), " "), "so nothing is shown")
}
