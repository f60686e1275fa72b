package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// No rule of axe-core is broken, in both themes, wide and narrow, with script
// and without, folded or unfolded.
func TestRoofsPageBreaksNoAccessibilityRule(t *testing.T) {
	page, _ := budgetedExample(t)
	for name, view := range views(examplePrefix) {
		t.Run(name, func(t *testing.T) {
			p := browsertest.Open(t, page, view)
			browsertest.Eval[bool](p, `document.querySelectorAll("details").forEach((d) => { d.open = true }) || true`)
			for _, f := range p.Audit() {
				assert.Fail(t, "broken", f)
			}
			assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth - window.innerWidth`), 0, "the page is wider than the window")
			assertQuiet(t, p)
		})
	}
}

func TestKeyboardReachesAllOfTheRoofsPage(t *testing.T) {
	page, _ := budgetedExample(t)
	for name, view := range map[string]browsertest.Options{"screen": {}, "phone in the dark": {Width: 360, Height: 740, Dark: true}, "no script": {NoScript: true}} {
		t.Run(name, func(t *testing.T) {
			p := browsertest.Open(t, page, view)
			want := browsertest.Eval[int](p, stops+`.length`)
			if !view.NoScript {
				assert.Greater(t, want, 20, "heads, choices and tables can be reached")
			}
			assertTabbed(t, p, want)
		})
	}
}

func TestOutlineOfTheRoofsPage(t *testing.T) {
	page, _ := budgetedExample(t)
	p := browsertest.Open(t, page, browsertest.Options{})
	browsertest.Eval[bool](p, openAll)
	assert.Empty(t, browsertest.Eval[[]string](p, outline))
	for _, n := range p.Names() {
		if slices.Contains(mustBeNamed, n.Role) {
			assert.NotEmpty(t, strings.TrimSpace(n.Name), "a %s without a name", n.Role)
		}
	}
}

func TestRoofsPageIsStrictAndOffline(t *testing.T) {
	page, _ := budgetedExample(t)
	p := browsertest.Open(t, page, browsertest.Options{})
	policy := browsertest.Eval[string](p, `document.querySelector('meta[http-equiv="Content-Security-Policy"]').content`)
	assert.Regexp(t, strictPolicy, policy)
	assert.Equal(t, 4, strings.Count(strings.Split(policy, ";")[1], "sha256-"), "the library, the charts' script, the button's, the table's")
	assert.Equal(t, 0, browsertest.Eval[int](p, `performance.getEntriesByType("resource").length`))
	assert.NotContains(t, string(mustRead(t, pageOf(t, "example:school"))), "data-sift-host", "a study's page has no script of the table")
}

// The sheets: the first stands alone, heads are repeated, and nothing is
// shrunk, as it would be were a table wider than a sheet.
func TestRoofsPageOnPaper(t *testing.T) {
	for paper, size := range map[string]struct {
		width int    // within the margins, in CSS pixels
		pdf   string // as pdfinfo tells it
	}{"Letter": {940, "792 x 612 pts"}, "A4": {1009, "841.92 x 595.92 pts"}} {
		t.Run(paper, func(t *testing.T) {
			page, _ := budgetedExample(t, "--paper", strings.ToLower(paper))
			assert.LessOrEqual(t, browsertest.Eval[int](browsertest.Open(t, page, browsertest.Options{Width: size.width, Print: true}), `document.documentElement.scrollWidth`), size.width)
			sheets := pdfSheets(t, browsertest.Open(t, page, browsertest.Options{}).PDF(paper))
			for i, text := range sheets {
				assert.Contains(t, text, fmt.Sprintf("page %d of %d", i+1, len(sheets)))
				if strings.Contains(text, "Ellerby") && i > sheetWith(t, sheets, "saves most") {
					assert.Contains(t, text, "Roof Id region built", "the head of the table stands on sheet %d", i+1)
				}
			}
			for _, text := range []string{"40 roofs of Ostermere", "Together, the roofs’ lowest alternatives have", "raises the life-cycle cost by", "Each roof’s lowest 40 40 3,882,510.00 15,864,671.21 3,018,754.00"} {
				assert.Contains(t, sheets[0], text)
			}
			assert.NotContains(t, sheets[0], "The plan has a life-cycle cost of")
			assert.Contains(t, strings.Join(sheets, " "), "Left as they are in 2027 to 2029", "folds are printed open")
		})
	}
}

// A heading and what is said before a table are on the sheet of the table.
func TestNoSheetEndsWithAHeading(t *testing.T) {
	few := strings.Join(strings.SplitAfter(exampleRoofs(t), "\n")[:6], "")
	page, _ := roofsPageFile(t, few, "--in", "csv", "--budget", "2027-2029=300000", "--crew", "2027-2029=40000", "--trials", "50", "example:portfolio", "-")
	for _, paper := range []string{"Letter", "A4"} {
		sheets := pdfSheets(t, browsertest.Open(t, page, browsertest.Options{}).PDF(paper))
		on := sheets[sheetWith(t, sheets, "The plan has works on")]
		assert.Contains(t, on, "Works by year, USD", paper)
		assert.Contains(t, on, "Works of 2027", paper)
	}
}

func TestTextOfTheRoofsPageHasContrast(t *testing.T) {
	page, _ := budgetedExample(t)
	for name, view := range map[string]browsertest.Options{"light": {}, "dark": {Dark: true}, "paper": {Print: true}, "dark without script": {Dark: true, NoScript: true}} {
		all := browsertest.Eval[[]shade](browsertest.Open(t, page, view), shades)
		assert.Empty(t, faint(all), name)
		assert.GreaterOrEqual(t, len(all), 6, name)
	}
}

// hostileRoofs is a table all of whose texts are hostile, two roofs for each.
func hostileRoofs(t *testing.T, texts []string) string {
	t.Helper()
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	require.NoError(t, w.Write([]string{"id", "name", "</th><b>region</b>", "roof.area", hostile["rich text of charts"]}))
	for i, text := range append(texts, texts...) {
		require.NoError(t, w.Write([]string{fmt.Sprintf("%d %s", i, text), text, text, fmt.Sprint(2000 + 900*i), text}))
	}
	w.Flush()
	return b.String()
}

// Ids, names, heads and what is carried through, and the names of alternatives
// are shown as text, in tables, in the map and in what a reader chooses from.
func TestHostileTextOfRoofsIsShownAsText(t *testing.T) {
	all := slices.Sorted(maps.Values(hostile))
	src, _ := scenarios.Example("portfolio")
	study := string(src.Text)
	for i, name := range []string{"Keep patching", "Restore", "Roof over", "Tear off and replace"} {
		require.Equal(t, 1, strings.Count(study, "name: "+name+"\n")+strings.Count(study, "name: "+name+","), name)
		study = strings.Replace(study, "name: "+name, "name: "+strconv.Quote(name+" "+all[i]), 1)
	}
	template := filepath.Join(t.TempDir(), "template.yaml")
	require.NoError(t, os.WriteFile(template, []byte(study), 0o600))
	for part, texts := range [][]string{all[:9], all[9:]} {
		page, _ := roofsPageFile(t, hostileRoofs(t, texts), "--in", "csv", "--budget", "2027=100000", "--trials", "50", template, "-")
		for _, view := range []browsertest.Options{{}, {Width: 360, Height: 740, Dark: true}} {
			t.Run(fmt.Sprint(part, view.Width), func(t *testing.T) { assertHarmlessRoofs(t, browsertest.Open(t, page, view), texts) })
		}
	}
}

// assertHarmlessRoofs looks at what text of a table must never bring about, and
// picks out the roofs of every text.
func assertHarmlessRoofs(t *testing.T, p *browsertest.Page, texts []string) {
	t.Helper()
	browsertest.Eval[bool](p, openAll)
	shown := browsertest.Eval[string](p, everyText) + browsertest.Eval[string](p, live+`.textContent`)
	for i, text := range texts {
		assert.GreaterOrEqual(t, strings.Count(shown, fmt.Sprintf("%d %s", i, text)), 2, "not shown: %q", text)
		told := browsertest.Eval[string](p, `((root) => {
			const select = root.querySelectorAll('select')[0];
			select.value = '=' + `+strconv.Quote(text)+`;
			select.dispatchEvent(new Event('change'));
			return root.querySelector('.told').textContent;
		})(`+live+`)`)
		assert.True(t, strings.HasPrefix(told, fmt.Sprintf("2 of %d roofs: ", 2*len(texts))), "%q: %s", text, told)
	}
	assert.True(t, browsertest.Eval[bool](p, `window.pwned === undefined`), "text of the table ran")
	for _, root := range []string{`document`, live} {
		assert.Equal(t, 0, browsertest.Eval[int](p, root+`.querySelectorAll("img, b, iframe, object, link, base, [onload], [onerror], [onfocus], [autofocus]").length`), "text of the table became markup")
	}
	assert.Equal(t, 4, browsertest.Eval[int](p, `document.querySelectorAll("script:not([type])").length`))
	assert.Equal(t, 0, browsertest.Eval[int](p, `window.__chartErrors`))
	assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth - window.innerWidth`), 0, "the page is wider than the window")
	assert.NotEmpty(t, browsertest.Eval[string](p, tips))
	assertQuiet(t, p)
}

// What turns text or controls a terminal is replaced, which a study file
// refuses and a table does not.
func TestControlCharactersOfRoofsAreReplaced(t *testing.T) {
	table := "id,name,note\n\"R\u202e1\",\"a\x1b[31mred\u2066\",\"two\u2028lines\"\n"
	page, _ := roofsPageFile(t, table, "--in", "csv", "example:portfolio", "-")
	text := string(mustRead(t, page))
	for _, c := range []string{"\u202e", "\x1b", "\u2066", "\u2028"} {
		assert.NotContains(t, strings.Split(text, "<script>")[0], c)
	}
	assert.Contains(t, text, "a\ufffd[31mred\ufffd")
}

// A long name stays within its place on a phone and on paper.
func TestLongestTextOfRoofsFits(t *testing.T) {
	for what, long := range map[string]string{"words": strings.Repeat("roof ", 800), "one word": strings.Repeat("W", 4000)} {
		t.Run(what, func(t *testing.T) {
			page, _ := roofsPageFile(t, fmt.Sprintf("id,name,region\n%s,%s,%s\nR2,b,c\n", long, long, long), "--in", "csv", "--budget", "2027=900000", "--trials", "50", "example:portfolio", "-")
			p := browsertest.Open(t, page, browsertest.Options{Width: 360, Height: 740})
			assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth - window.innerWidth`), 0)
			p = browsertest.Open(t, page, browsertest.Options{Width: 940, Print: true})
			assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth`), 940)
		})
	}
}

// The map's points differ in colour and in shape, drawn by the script and
// without it, and a point tells its roof.
func TestMapOfRoofs(t *testing.T) {
	page, _ := roofsPageFile(t, manyAlternatives(), "--in", "csv", "example:portfolio", "-")
	still := browsertest.Open(t, page, browsertest.Options{NoScript: true})
	shapes := browsertest.Eval[[]string](still, `[...document.querySelectorAll('[data-chart="savings-map"] svg.static path.bar, [data-chart="savings-map"] svg.static path.hollow')].map((p) => p.getAttribute('class'))`)
	classes := map[string]bool{}
	for _, c := range shapes {
		classes[c] = true
	}
	assert.Greater(t, len(classes), 1, "series differ: %v", shapes)
	p := browsertest.Open(t, page, browsertest.Options{})
	tip := browsertest.Eval[string](p, `(async () => {
		const plot = document.querySelector('[data-chart="savings-map"]');
		echarts.getInstanceByDom(plot).dispatchAction({type: 'showTip', seriesIndex: 0, dataIndex: 0});
		await new Promise((done) => setTimeout(done, 200));
		return [...plot.querySelectorAll('text')].map((t) => t.textContent).join(' | ');
	})()`)
	first := tableRows(p, "roofs")[0]
	assert.Contains(t, tip, first["Roof"])
	assert.Contains(t, tip, "First cost, USD: $"+first["First cost"])
	assert.Contains(t, tip, "Net savings against the base case, USD: $"+first["Net savings"])
	assert.Contains(t, browsertest.Eval[string](p, `document.querySelector('[data-chart="savings-map"]').getAttribute('aria-label')`), "“"+first["Roof"]+"”, with a first cost of $"+first["First cost"])
}

// manyAlternatives is a table of which some roofs are dear to restore, so that
// not every roof has the same lowest alternative.
func manyAlternatives() string {
	var b strings.Builder
	b.WriteString("id,roof.area,systems.restoration.first_costs[5].unit_price,systems.existing.annual_costs[1].amount\n")
	for i := range 20 {
		fmt.Fprintf(&b, "R%d,%d,%d,40000\n", i, 9000+1000*i, 3+9*(i%2))
	}
	return b.String()
}

// The page of a template without a base case has no savings, and no map.
func TestRoofsPageWithoutABaseCase(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "scenarios", "odd", "no-base-case.yaml")
	page, _ := roofsPageFile(t, "id\nR1\nR2\n", "--in", "csv", path, "-")
	p := browsertest.Open(t, page, browsertest.Options{})
	assert.Equal(t, 0, browsertest.Eval[int](p, `document.querySelectorAll("#map").length`))
	assert.Contains(t, browsertest.Eval[string](p, `document.body.textContent`), "There is no base case to save against.")
	assert.Equal(t, 2, browsertest.Eval[int](p, live+`.querySelectorAll('tbody tr').length`))
	for _, f := range p.Audit() {
		assert.Fail(t, "broken", f)
	}
	assertQuiet(t, p)
}
