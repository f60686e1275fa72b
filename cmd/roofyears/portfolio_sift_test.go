package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
)

// live is what the script shows in place of the table of roofs.
const live = `document.querySelector('[data-sift-host="roofs"]').shadowRoot`

// sifting is what a reader sees of it.
type sifting struct {
	Told string
	IDs  []string
	Foot map[string]string
	Sort map[string]string // by head
}

const seen = `((root) => {
	const text = (c) => [...c.childNodes].filter((n) => n.nodeName !== 'SUP').map((n) => n.textContent).join('');
	const heads = [...root.querySelectorAll('thead th')];
	const names = heads.map((h) => h.textContent), id = names.indexOf('Id');
	return {
		Told: root.querySelector('[aria-live]').textContent,
		IDs: [...root.querySelectorAll('tbody tr')].map((r) => r.cells[id].textContent),
		Foot: Object.fromEntries(names.map((n, i) => [n, text(root.querySelector('tfoot tr').cells[i])])),
		Sort: Object.fromEntries(heads.filter((h) => h.ariaSort).map((h) => [h.textContent, h.ariaSort])),
	};
})(` + live + `)`

// choose sets a list of choices by its label, or the field by a text.
func pick(p *browsertest.Page, label, value string) sifting {
	return browsertest.Eval[sifting](p, `((root) => {
		const label = [...root.querySelectorAll('label')].find((l) => l.firstChild.textContent.startsWith('`+label+`'));
		const control = label.querySelector('input, select');
		control.value = '`+value+`';
		control.dispatchEvent(new Event(control.matches('select') ? 'change' : 'input'));
		return `+seen+`;
	})(`+live+`)`)
}

func click(p *browsertest.Page, button string) sifting {
	return browsertest.Eval[sifting](p, `((root) => {
		[...root.querySelectorAll('button')].find((b) => b.textContent === '`+button+`').click();
		return `+seen+`;
	})(`+live+`)`)
}

// sumOf adds up what some roofs have in a column of the page.
func sumOf(t *testing.T, rows []map[string]string, ids []string, head string) decimal.Decimal {
	t.Helper()
	sum := decimal.Zero
	for _, id := range ids {
		for _, row := range rows {
			if row["Id"] == id && row[head] != "base case" {
				sum = sum.Add(number(t, row[head]))
			}
		}
	}
	return sum
}

// Whatever is picked out, the sums are those of the roofs that are shown.
func TestSiftingAddsUpWhatIsShown(t *testing.T) {
	page, _ := budgetedExample(t)
	p := browsertest.Open(t, page, browsertest.Options{})
	rows := tableRows(p, "roofs")
	before := browsertest.Eval[string](p, `document.documentElement.outerHTML`)
	check := func(s sifting, shown int) {
		t.Helper()
		assert.Len(t, s.IDs, shown)
		for _, head := range []string{"First cost", "Life-cycle cost", "Net savings", "Plan area, ft²", "Plan: works 2027–2029"} {
			assert.True(t, sumOf(t, rows, s.IDs, head).Equal(number(t, s.Foot[head])), head)
		}
	}
	s := browsertest.Eval[sifting](p, seen)
	check(s, 40)
	assert.Equal(t, "All 40 roofs: first cost $3,882,510.00, life-cycle cost $15,864,671.21, net savings $3,018,754.00.", s.Told)

	s = pick(p, "region", "=north")
	north := 0
	for _, row := range rows[:40] {
		if row["region"] == "north" {
			north++
		}
	}
	require.Greater(t, north, 5)
	check(s, north)
	assert.True(t, strings.HasPrefix(s.Told, decimal.NewFromInt(int64(north)).String()+" of 40 roofs: first cost $"), s.Told)
	s = pick(p, "Find a roof", "LIBRARY north")
	assert.Less(t, len(s.IDs), north)
	check(s, len(s.IDs))
	for _, id := range s.IDs {
		for _, row := range rows {
			assert.True(t, row["Id"] != id || strings.Contains(row["Roof"], "library") && row["region"] == "north", row)
		}
	}
	s = pick(p, "Find a roof", "no such roof")
	check(s, 0)
	assert.Equal(t, "0 of 40 roofs: first cost $0.00, life-cycle cost $0.00, net savings $0.00.", s.Told)
	s = click(p, "Show all roofs")
	check(s, 40)
	s = pick(p, "Plan: start", "=2028")
	check(s, len(s.IDs))
	assert.NotEmpty(t, s.IDs)
	s = click(p, "Show all roofs")
	check(pick(p, "Lowest alternative", "=Keep patching"), 12)
	assert.Equal(t, before, browsertest.Eval[string](p, `document.documentElement.outerHTML`), "what is picked out leaves no trace in the page")
	assertQuiet(t, p)
}

// A column sorts by what it holds: amounts by size, what has none last.
func TestSiftingSorts(t *testing.T) {
	page, _ := budgetedExample(t)
	p := browsertest.Open(t, page, browsertest.Options{})
	rows := map[string]map[string]string{}
	for _, row := range tableRows(p, "roofs") {
		rows[row["Id"]] = row
	}
	for _, head := range []string{"First cost", "Life-cycle cost", "SIR", "Plan area, ft²", "Margin to the next", "Rank by SIR"} {
		for _, way := range []string{"descending", "ascending"} {
			s := click(p, head)
			assert.Equal(t, map[string]string{head: way}, s.Sort)
			var before *decimal.Decimal
			ended := false
			for _, id := range s.IDs {
				shown := rows[id][head]
				if shown == "–" {
					ended = true
					continue
				}
				require.False(t, ended, "what has no figure comes last: %s", head)
				now := number(t, shown)
				if before != nil {
					assert.True(t, before.Equal(now) || before.LessThan(now) == (way == "ascending"), "%s %s: %s before %s", head, way, before, now)
				}
				before = &now
			}
		}
	}
	s := click(p, "region")
	assert.Equal(t, map[string]string{"region": "ascending"}, s.Sort)
	assert.Equal(t, "north", rows[s.IDs[0]]["region"])
	assert.Equal(t, "south", rows[s.IDs[39]]["region"])

	// By keyboard.
	browsertest.Eval[bool](p, live+`.querySelector('thead button').focus() || true`)
	p.Press("Enter")
	s = browsertest.Eval[sifting](p, seen)
	assert.Equal(t, map[string]string{"Roof": "ascending"}, s.Sort)
	assert.Equal(t, "Alder Row archive and depot", rows[s.IDs[0]]["Roof"])
	assert.Empty(t, click(p, "Show all roofs").Sort)
}

// Long tables are listed in part until all are asked for; the sums are of all.
func TestSiftingALongTable(t *testing.T) {
	page, _ := roofsPageFile(t, strings.ReplaceAll(manyRoofs(700), "id,roof.area,note", "id,roof.area,name"), "--in", "csv", "example:portfolio", "-")
	p := browsertest.Open(t, page, browsertest.Options{})
	const listed = live + `.querySelectorAll('tbody tr').length`
	assert.Equal(t, 500, browsertest.Eval[int](p, listed))
	told := browsertest.Eval[string](p, live+`.querySelector('.told').textContent`)
	assert.True(t, strings.HasPrefix(told, "All 700 roofs: "), told)
	assert.Equal(t, tableRows(p, "roofs")[700]["Life-cycle cost"], browsertest.Eval[string](p, live+`.querySelector('tfoot tr').cells[4].textContent`))
	browsertest.Eval[bool](p, live+`.querySelector('.more button').click() || true`)
	assert.Equal(t, 700, browsertest.Eval[int](p, listed))
	assert.True(t, browsertest.Eval[bool](p, live+`.querySelector('.more').hidden`))
}

// On paper, and without script, the table is whole and nothing of the controls
// is to be seen, whatever a reader has picked out.
func TestSiftingIsNotPrinted(t *testing.T) {
	page, _ := budgetedExample(t)
	const state = `[document.querySelector('#roofs').checkVisibility(), document.querySelector('[data-sift-host]').getBoundingClientRect().height > 0]`
	for name, c := range map[string]struct {
		o    browsertest.Options
		want []bool
	}{
		"screen":    {browsertest.Options{}, []bool{false, true}},
		"paper":     {browsertest.Options{Print: true}, []bool{true, false}},
		"no script": {browsertest.Options{NoScript: true}, []bool{true, false}},
	} {
		assert.Equal(t, c.want, browsertest.Eval[[]bool](browsertest.Open(t, page, c.o), state), name)
	}
	p := browsertest.Open(t, page, browsertest.Options{})
	pick(p, "Find a roof", "R01")
	sheets := strings.Join(pdfSheets(t, p.PDF("Letter")), " ")
	for _, id := range []string{"R01", "R07", "R40"} {
		assert.Contains(t, sheets, " "+id+" ")
	}
	assert.NotContains(t, sheets, "Find a roof")
	assert.NotContains(t, sheets, "of 40 roofs:")
}

// A page whose rows do not add up to its totals lets nothing be picked out.
func TestSiftingRefusesAChangedPage(t *testing.T) {
	page, _ := budgetedExample(t)
	text := string(mustRead(t, page))
	require.Contains(t, text, ">3,018,754.00<")
	path := filepath.Join(t.TempDir(), "changed.html")
	require.NoError(t, os.WriteFile(path, []byte(strings.ReplaceAll(text, ">3,018,754.00<", ">3,018,754.01<")), 0o600))
	p := browsertest.Open(t, path, browsertest.Options{})
	assert.True(t, browsertest.Eval[bool](p, `document.querySelector('#roofs').checkVisibility() && !`+live), "the page's own table is shown")
	assert.Contains(t, strings.Join(p.ConsoleErrors(), "\n"), "add up to other totals")
}

// Areas that were converted are shown in hundredths, and the page adds up what
// it shows.
func TestAreasOfRoofsAreShownRounded(t *testing.T) {
	page, _ := roofsPageFile(t, "id,name,roof.area\na,A,4000 m2\nb,B,4000 m2\nc,C,4000 m2\nd,D,3000.5 ft2\n", "--in", "csv", "example:portfolio", "-")
	p := browsertest.Open(t, page, browsertest.Options{})
	areas := map[string]string{}
	for _, row := range tableRows(p, "roofs") {
		areas[row["Id"]] = row["Plan area, ft²"]
	}
	total := "132,167.42" // the exact areas add up to 132,167.425…
	assert.Equal(t, map[string]string{"a": "43,055.64", "b": "43,055.64", "c": "43,055.64", "d": "3,000.5", "": total}, areas)
	assert.Contains(t, browsertest.Eval[string](p, `document.body.textContent`), "4 roofs, "+total+" ft² in plan")
	s := browsertest.Eval[sifting](p, seen)
	assert.True(t, strings.HasPrefix(s.Told, "All 4 roofs: "), s.Told)
	assert.Equal(t, total, s.Foot["Plan area, ft²"])
	assertQuiet(t, p)
}
