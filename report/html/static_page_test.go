package html

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/report/html/browsertest"
)

// staticExamples writes the pages of the examples with the command.
func staticExamples(t *testing.T) []string {
	t.Helper()
	dir := t.TempDir()
	command := filepath.Join(dir, "roofyears")
	out, err := exec.Command("go", "build", "-o", command, "roofyears/cmd/roofyears").CombinedOutput()
	require.NoError(t, err, string(out))
	var pages []string
	for _, example := range []string{"school", "cold-store"} {
		page := filepath.Join(dir, example+".html")
		out, err := exec.Command(command, "report", "example:"+example, "-o", page).CombinedOutput()
		require.NoError(t, err, string(out))
		pages = append(pages, page)
	}
	return pages
}

// flaws looks at every plot of a page for what a static chart must not do, as
// the browser lays it out.
const flaws = `(() => {
	const out = [], near = 0.5;
	for (const plot of document.querySelectorAll('.plot')) {
		const say = (what) => out.push(plot.dataset.chart + ': ' + what);
		const svg = plot.querySelector(':scope > svg.static');
		if (!svg) { say('no drawing'); continue; }
		const frame = svg.getBoundingClientRect();
		if (frame.width < 300 || frame.height < 100) say('no room');
		if (!svg.querySelector('path.line, path.bar')) say('no series');
		if (svg.querySelector('[style], [id], style, script')) say('more than a drawing');
		const boxes = [...svg.querySelectorAll('text')].map((t) => [t.textContent, t.getBoundingClientRect()]);
		if (boxes.length < 3) say('no text');
		for (const [name, b] of [...boxes, ...[...svg.querySelectorAll('path')].map((p) => [p.getAttribute('class'), p.getBoundingClientRect()])]) {
			if (b.left < frame.left - near || b.right > frame.right + near || b.top < frame.top - near || b.bottom > frame.bottom + near) say('outside: ' + name);
		}
		boxes.forEach(([name, a], i) => boxes.slice(i + 1).forEach(([other, b]) => {
			// The boxes of letters are higher than the letters.
			if (a.left < b.right - near && b.left < a.right - near && a.top + 3 < b.bottom - 3 && b.top + 3 < a.bottom - 3) say(name + ' touches ' + other);
		}));
	}
	return out;
})()`

const (
	countPlots  = `document.querySelectorAll('.plot').length`
	countStatic = `document.querySelectorAll('svg.static').length`
)

func assertNoComplaint(t *testing.T, p *browsertest.Page) {
	t.Helper()
	assert.Empty(t, p.Requests(), "network requests")
	assert.Empty(t, p.ConsoleErrors(), "console errors")
	assert.Empty(t, p.Violations(), "policy violations")
}

func TestStaticChartsOfTheExamples(t *testing.T) {
	for _, page := range staticExamples(t) {
		name := strings.TrimSuffix(filepath.Base(page), ".html")
		for view, o := range map[string]browsertest.Options{
			"screen": {NoScript: true}, "phone in the dark": {NoScript: true, Width: 360, Dark: true}, "print": {NoScript: true, Print: true},
		} {
			t.Run(name+"/"+view, func(t *testing.T) {
				p := browsertest.Open(t, page, o)
				assert.Equal(t, 12, browsertest.Eval[int](p, countPlots))
				assert.Empty(t, browsertest.Eval[[]string](p, flaws))
				assert.Contains(t, browsertest.Eval[string](p, `document.querySelector('#fig-cumulative svg.static').textContent`), "Cumulated present value, USD")
				assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth - innerWidth`), 0, "the page is wider than the window")
				assertNoComplaint(t, p)
			})
		}
		t.Run(name+"/script", func(t *testing.T) {
			p := browsertest.Open(t, page, browsertest.Options{})
			assert.Zero(t, browsertest.Eval[int](p, countStatic))
			assert.Zero(t, browsertest.Eval[int](p, `document.querySelectorAll('.plot[tabindex]').length`))
			assertNoComplaint(t, p)
		})
		t.Run(name+"/size", func(t *testing.T) {
			text, err := os.ReadFile(page)
			require.NoError(t, err)
			size := 0
			for _, s := range bytes.Split(text, []byte(`<svg class="static"`))[1:] {
				size += bytes.Index(s, []byte("</svg>"))
			}
			assert.Less(t, size, 60_000, "bytes of static charts")
			assert.Less(t, len(text), 1_000_000, "bytes of the page")
		})
	}
}

// staticPage writes a page that has one figure of each kind, in which every
// text of a study is the given one.
func staticPage(t *testing.T, s string) string {
	t.Helper()
	cells := report.Section{ID: "figures", Heading: "Figures"}
	for kind := report.Lines; kind <= report.Swing; kind++ {
		f := oneSeries(kind, "100", "-2000", "31000.55")
		f.ID, f.Title, f.Table = fmt.Sprintf("f%d", kind), "Figure", "table"
		f.X.Title, f.Y.Title = s, s
		f.X.Categories = []string{s, "b", s}
		y := decimal.NewFromInt(100)
		f.Marks = []report.Mark{{Label: s, X: decimal.NewFromInt(10)}, {Label: s, X: decimal.NewFromInt(12)}, {Label: s, X: decimal.NewFromInt(5), Y: &y}}
		f.Series[0].Name = s
		for range 9 {
			f.Series = append(f.Series, report.Series{Name: s, Values: numbers("7000", "8000", "-9000")})
		}
		cells.Blocks = append(cells.Blocks, f)
	}
	page := filepath.Join(t.TempDir(), "page.html")
	var out bytes.Buffer
	require.NoError(t, Write(&out, &report.Document{Title: "t", Currency: dollars, Sections: []report.Section{cells}}))
	require.NoError(t, os.WriteFile(page, out.Bytes(), 0o600))
	return page
}

func TestHostileTextInStaticCharts(t *testing.T) {
	for name, s := range map[string]string{
		"markup":        `</text></svg><script>document.title='ran'</script><img src=x onerror="document.title='ran'">"'&amp;{{.}}`,
		"right to left": "\u202eגג ישן\u2067 roof سقف\u202c <b>",
		"long word":     strings.Repeat("W", 10_000),
		"long text":     strings.Repeat("seam & <i>edge</i> ", 600),
		"no width":      strings.Repeat("e\u0301\u200b", 5000),
		"wide":          strings.Repeat("屋根", 5000),
		"controls":      "a\x00b\x1b[31m\u0085c\xff\u2028d",
	} {
		t.Run(name, func(t *testing.T) {
			page := staticPage(t, s)
			p := browsertest.Open(t, page, browsertest.Options{NoScript: true})
			assert.Equal(t, 5, browsertest.Eval[int](p, countStatic))
			assert.Empty(t, browsertest.Eval[[]string](p, flaws))
			assert.Zero(t, browsertest.Eval[int](p, `document.querySelectorAll('.plot :not(svg, path, text)').length`), "text became markup")
			assertNoComplaint(t, p)
			p = browsertest.Open(t, page, browsertest.Options{})
			assert.Equal(t, "t", browsertest.Eval[string](p, `document.title`), "text ran")
			assert.Zero(t, browsertest.Eval[int](p, countStatic))
		})
	}
}

// A chart that the script cannot draw keeps its static drawing, and says so.
func TestStaticChartStaysWhereDrawingFails(t *testing.T) {
	page := staticPage(t, "roof")
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	broken := bytes.Replace(text, []byte(`data-options="f1">{`), []byte(`data-options="f1">{broken`), 1)
	require.NotEqual(t, len(text), len(broken))
	require.NoError(t, os.WriteFile(page, broken, 0o600))
	p := browsertest.Open(t, page, browsertest.Options{})
	assert.Equal(t, 1, browsertest.Eval[int](p, countStatic))
	assert.Equal(t, "This chart could not be drawn; its table below has the same numbers.",
		browsertest.Eval[string](p, `document.querySelector('.plot.failed[data-chart=f1] > p').innerText`))
	assert.True(t, browsertest.Eval[bool](p, `document.querySelector('.plot.failed > svg.static').getBoundingClientRect().height > 100`))
	assert.Equal(t, "1 failed, 4 drawn", browsertest.Eval[string](p, "`${__chartErrors} failed, ${__chartsDrawn} drawn`"))
}
