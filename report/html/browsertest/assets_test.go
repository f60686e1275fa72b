package browsertest

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
)

// The scripts and the style sheet of the report, looked at in a page made by hand under the
// policy of the report.

func asset(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "assets", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func library(t *testing.T) string {
	t.Helper()
	z, err := gzip.NewReader(strings.NewReader(asset(t, "echarts.min.js.gz")))
	if err != nil {
		t.Fatal(err)
	}
	b, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestBundleIsTheRecordedOne(t *testing.T) {
	sum := sha256.Sum256([]byte(library(t)))
	want, _, _ := strings.Cut(asset(t, "bundle/bundle.sha256"), " ")
	if got := hex.EncodeToString(sum[:]); got != want {
		t.Errorf("echarts.min.js has SHA-256 %s, bundle.sha256 says %s", got, want)
	}
}

func TestAssetsNameNothingForbidden(t *testing.T) {
	for name, words := range map[string][]string{
		"boot.js":       {"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function", "setAttribute(", "http", "</script"},
		"chart_text.js": {"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function", "setAttribute(", "http", "</script"},
		"page.css":      {"@import", "url(", "http", "</style"},
	} {
		text := asset(t, name)
		for _, w := range words {
			if strings.Contains(text, w) {
				t.Errorf("%s contains %q", name, w)
			}
		}
	}
}

type chart struct{ id, options string }

// chartPage writes a page with these charts. Its policy is that of the report.
func chartPage(t *testing.T, charts ...chart) string {
	t.Helper()
	lib, boot, css := library(t), asset(t, "chart_text.js")+asset(t, "boot.js"), asset(t, "page.css")
	var b bytes.Buffer
	fmt.Fprintf(&b, `<!doctype html><html lang="en"><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="%s">`,
		html.EscapeString(fmt.Sprintf("default-src 'none'; script-src %s %s; style-src %s; img-src data:; base-uri 'none'; form-action 'none'",
			hash(lib), hash(boot), hash(css))))
	fmt.Fprintf(&b, `<title>charts</title><style>%s</style><main>`, css)
	for _, c := range charts {
		fmt.Fprintf(&b, `<figure class="chart" id="fig-%[1]s"><div class="plot" data-chart="%[1]s" role="img" aria-label="chart"></div>`+
			`<figcaption>c</figcaption></figure><script type="application/json" data-options="%[1]s">%[2]s</script>`, c.id, c.options)
	}
	fmt.Fprintf(&b, `<details class="ledger" data-print="open"><summary>s</summary>ledger</details></main><script>%s</script><script>%s</script>`, lib, boot)
	path := filepath.Join(t.TempDir(), "charts.html")
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func hash(s string) string {
	sum := sha256.Sum256([]byte(s))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

const hints = `"renderHints":{"height":300,"money":{"prefix":"$","suffix":"","digits":2},"x":"year","y":"money"}`

var lines = chart{"lines", `{` + hints + `,"option":{"xAxis":{"type":"value"},"yAxis":{"type":"value","min":-500000,"max":1500000,"interval":500000},
	"series":[{"type":"line","step":"end","name":"Restore","data":[[0,250000],[5,1234567.8]],"markLine":{"data":[{"name":"crossing","xAxis":2}]}},
	{"type":"line","name":"Tear off","color":"var(--s4)","data":[[0,650000],[5,-0.004]]}]}}`}

// texts returns what is written in a chart.
func texts(p *Page, id string) []string {
	return Eval[[]string](p, fmt.Sprintf(`[...document.querySelectorAll('[data-chart=%s] svg text')].map(t => t.textContent.trim())`, id))
}

// showTip opens the tooltip of a chart at a point of its first series.
func showTip(p *Page, id string, point int) {
	Eval[bool](p, fmt.Sprintf(`echarts.getInstanceByDom(document.querySelector('[data-chart=%s]'))
		.dispatchAction({type: 'showTip', seriesIndex: 0, dataIndex: %d}) || true`, id, point))
	settle(p)
}

func wantTexts(t *testing.T, got []string, want ...string) {
	t.Helper()
	for _, w := range want {
		if !slices.Contains(got, w) {
			t.Errorf("the chart does not say %q but %q", w, got)
		}
	}
}

func wantQuiet(t *testing.T, p *Page) {
	t.Helper()
	if r, e, v := p.Requests(), p.ConsoleErrors(), p.Violations(); len(r)+len(e)+len(v) != 0 {
		t.Errorf("requests %q, console errors %q, violations %q", r, e, v)
	}
}

func wantCounts(t *testing.T, p *Page, want string) {
	t.Helper()
	if got := Eval[string](p, `__chartsDrawn + ' drawn, ' + __chartErrors + ' failed'`); got != want {
		t.Errorf("%s; want %s", got, want)
	}
}

func TestChartSaysMoneyAndYears(t *testing.T) {
	p := Open(t, chartPage(t, lines), Options{})
	wantCounts(t, p, "1 drawn, 0 failed")
	wantTexts(t, texts(p, "lines"), "$0", "$500k", "$1.5M", "-$500k", "crossing", "Restore", "Tear off")
	showTip(p, "lines", 1)
	// The tooltip adds its lines to the same picture; a figure that rounds to zero has no sign.
	wantTexts(t, texts(p, "lines"), "Year 5", "Restore: $1,234,567.80", "Tear off: $0.00")
	wantQuiet(t, p)
}

func TestChartSaysPercent(t *testing.T) {
	p := Open(t, chartPage(t, chart{"rate", `{"renderHints":{"x":"percent","y":"percent"},"option":{
		"xAxis":{"type":"value","interval":0.0125,"max":0.025},"yAxis":{"type":"value"},"series":[{"type":"line","data":[[0,0.07],[0.025,0.03]]}]}}`}), Options{})
	wantTexts(t, texts(p, "rate"), "0%", "1.25%", "2.5%")
	wantQuiet(t, p)
}

func TestHostileNamesStayText(t *testing.T) {
	const name = `</script><img src=x onerror=document.title='ran'>{a|b}`
	quoted, err := json.Marshal(name) // as html/template does, with < as \u003c
	if err != nil {
		t.Fatal(err)
	}
	p := Open(t, chartPage(t, chart{"bars", `{` + hints + `,"option":{"xAxis":{"type":"category","data":[` + string(quoted) + `,"b"]},"yAxis":{"type":"value"},
		"series":[{"type":"bar","stack":"s","name":` + string(quoted) + `,"data":[1,2]},{"type":"bar","stack":"s","name":"__proto__","data":[1,2]}]}}`}), Options{})
	showTip(p, "bars", 0)
	wantCounts(t, p, "1 drawn, 0 failed")
	if title := Eval[string](p, `document.title`); title != "charts" {
		t.Error("a name ran as code")
	}
	if all := strings.Join(texts(p, "bars"), "\n"); !strings.Contains(all, "onerror") {
		t.Errorf("the name is not shown: %q", all)
	}
	wantQuiet(t, p)
}

func TestBrokenChartSaysSo(t *testing.T) {
	p := Open(t, chartPage(t, chart{"bad", `{broken`}, lines, chart{"none", `{}`}), Options{})
	wantCounts(t, p, "1 drawn, 2 failed")
	for _, id := range []string{"bad", "none"} {
		got := Eval[string](p, fmt.Sprintf(`document.querySelector('[data-chart=%s]').innerText`, id))
		if got != "This chart could not be drawn; its table below has the same numbers." {
			t.Errorf("%s: %q", id, got)
		}
	}
}

// look tells the width of the plot, the colour of its axis labels and whether the ledger is open.
const look = `[document.querySelector('.plot').style.width, document.querySelector('svg text').getAttribute('fill'),
	document.querySelector('details').open].join()`

func TestPrintIsLightAndFixedAndUndone(t *testing.T) {
	p := Open(t, chartPage(t, lines), Options{Dark: true, Width: 500})
	before := Eval[string](p, look)
	Eval[bool](p, `addEventListener('beforeprint', () => { window.onPaper = `+look+` }) || true`)
	p.PDF("A4")
	if got := Eval[string](p, `window.onPaper`); got != "640px,#55606a,true" {
		t.Errorf("on paper: %s", got)
	}
	if after := Eval[string](p, look); after != before || before != ",#a7b2bc,false" {
		t.Errorf("before printing %s, after it %s", before, after)
	}
	wantQuiet(t, p)
}

func TestChartsFollowThemeAndWindow(t *testing.T) {
	p := Open(t, chartPage(t, lines), Options{Width: 900})
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}})
	resize(p, 360, 800)
	settle(p)
	const state = `[document.querySelector('svg text').getAttribute('fill'),
		document.querySelector('svg').clientWidth === document.querySelector('figure').clientWidth,
		document.documentElement.scrollWidth].join()`
	if got := Eval[string](p, state); got != "#a7b2bc,true,360" {
		t.Errorf("after the change: %s", got)
	}
	wantCounts(t, p, "1 drawn, 0 failed")
	wantQuiet(t, p)
}

// A line across the plot stands at its own place, also between two hundredths, as a discount rate of 6.25% does.
func TestMarkedLineStandsWhereItIsStated(t *testing.T) {
	p := Open(t, chartPage(t, chart{"rate", `{"renderHints":{"x":"percent","y":"money"},"option":{
		"xAxis":{"type":"value","min":0,"max":0.12},"yAxis":{"type":"value"},"series":[{"type":"line","data":[[0,9],[0.12,3]],
		"markLine":{"data":[{"name":"this study","xAxis":0.0625}]}}]}}`}), Options{})
	off := Eval[float64](p, `(() => {
		const plot = document.querySelector('[data-chart=rate]');
		const name = [...plot.querySelectorAll('svg text')].find((e) => e.textContent.trim() === 'this study').getBoundingClientRect();
		const want = echarts.getInstanceByDom(plot).convertToPixel({xAxisIndex: 0}, 0.0625);
		return (name.left + name.right) / 2 - plot.getBoundingClientRect().left - want;
	})()`)
	if math.Abs(off) > 1 {
		t.Errorf("the line stands %.1f pixels from its place", off)
	}
	wantQuiet(t, p)
}

// The axis is seen under bars of no height: nothing in the colour of the paper is drawn over it.
func TestBarsOfNoHeightLeaveTheAxis(t *testing.T) {
	for _, c := range []struct {
		stack string
		want  bool
	}{{"", false}, {`"stack":"s",`, true}} {
		p := Open(t, chartPage(t, chart{"bars", `{` + hints + `,"option":{"xAxis":{"type":"category","data":["0","1","2"]},"yAxis":{"type":"value"},
			"series":[{"type":"bar",` + c.stack + `"name":"a","data":[0,5,0]}]}}`}), Options{})
		got := Eval[bool](p, `[...document.querySelectorAll('[data-chart=bars] svg path')].some((e) => (e.getAttribute('stroke') || '').toLowerCase() ===
			getComputedStyle(document.documentElement).getPropertyValue('--paper').trim().toLowerCase())`)
		if got != c.want {
			t.Errorf("%s: edges in the colour of the paper: %t", c.stack, got)
		}
		wantQuiet(t, p)
	}
}

// A name beside a bar is broken at spaces; the digits of an amount stay together.
func TestAmountsBesideBarsStayWhole(t *testing.T) {
	p := Open(t, chartPage(t, chart{"bars", `{"renderHints":{"x":"money"},"option":{"xAxis":{"type":"value"},
		"yAxis":{"type":"category","data":["Restore in 2 years: $354,247.83","Keep: $1.00"]},"series":[{"type":"bar","stack":"s","name":"a","data":[2,1]}]}}`}),
		Options{Width: 500})
	wantTexts(t, texts(p, "bars"), "$354,247.83", "Keep: $1.00")
	wantQuiet(t, p)
}
