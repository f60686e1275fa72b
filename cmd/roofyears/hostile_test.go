package main

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// hostile is text that would run, break the page or disappear, if any writer took it for more than
// text.
var hostile = map[string]string{
	"element":             `<script>window.pwned=1</script>`,
	"end of a script":     `</script><script>window.pwned=1</script><!--`,
	"handler":             `<img src=x onerror=window.pwned=1>`,
	"end of a value":      `" onfocus=window.pwned=1 autofocus x='`,
	"drawing":             `</title></svg><svg onload=window.pwned=1>`,
	"address":             `javascript:window.pwned=1`,
	"function of charts":  `__f__window.pwned=1__f__`,
	"template":            `{{.}}{{printf "%s" .Doc}}{{end}}`,
	"script's template":   "${window.pwned=1}`${window.pwned=1}`",
	"style":               `*/}</style>body{display:none}/*`,
	"end of data":         `]]>--><!DOCTYPE x>`,
	"rich text of charts": `{a|b}{b}{c}{@0}`,
	"entities":            `&lt;b&gt;&amp;amp;&#x3c;b&#62;`,
	"format":              `%s%d%!v(MISSING)\n\u003c\x3c`,
	"names of objects":    `__proto__ constructor null NaN`,
	"from right to left":  "\u05e9\u05dc\u05d5\u05dd \u200f(12%)\u061c \u0633\u0642\u0641",
	"without width":       "a\u200bb\u00adc\u2060d\u0301\u0301\u0301",
}

// textKeys are the keys of a study file that hold text.
var textKeys = []string{"title", "prepared_for", "prepared_by", "name", "item", "source", "rule", "finding"}

// namesItem tells a key whose value is the name of a first cost.
func namesItem(place, key string) bool {
	return strings.Contains(place, ".eligibility") && strings.HasSuffix(key, "_by")
}

// onFindings tells a text that only rules look at: the page shows it where a verdict rests on it.
func onFindings(place string) bool {
	return strings.Contains(place, ".findings.") || strings.Contains(place, ".eligibility.")
}

// fields finds every text of a study, by its place.
func fields(n *yaml.Node, place string, found func(place, key string, text *yaml.Node)) {
	for i, c := range n.Content {
		switch {
		case n.Kind == yaml.MappingNode && i%2 == 1:
			key := n.Content[i-1].Value
			if c.Kind == yaml.ScalarNode && (slices.Contains(textKeys, key) || namesItem(place, key)) {
				found(place+"."+key, key, c)
			}
			fields(c, place+"."+key, found)
		case n.Kind != yaml.MappingNode:
			fields(c, fmt.Sprintf("%s[%d]", place, i+1), found)
		}
	}
}

// rewritten is the school example, which has a text of every kind, with a ruling by hand and with the texts that change
// gives.
func rewritten(t *testing.T, change func(place, key, old string) string) string {
	t.Helper()
	src, ok := scenarios.Example("school")
	require.True(t, ok)
	var root yaml.Node
	const plain = "start: recover}"
	require.Contains(t, string(src.Text), plain)
	study := strings.Replace(string(src.Text), plain, "start: recover, ruled_out: {rule: owner's rule, finding: letter, source: owner}}", 1)
	require.NoError(t, yaml.Unmarshal([]byte(study), &root))
	seen, renamed := map[string]bool{}, map[string]string{} // items, by system and old name
	fields(&root, "", func(place, key string, text *yaml.Node) {
		system, _, _ := strings.Cut(strings.Replace(place, ".eligibility.", ".first_costs", 1), ".first_costs")
		text.Style, text.Tag = yaml.DoubleQuotedStyle, "!!str"
		if namesItem(place, key) {
			text.Value = renamed[system+text.Value]
			return
		}
		seen[key] = true
		old := text.Value
		text.Value = change(place, key, old)
		if strings.HasSuffix(place, ".item") && strings.Contains(place, ".first_costs") {
			renamed[system+old] = text.Value
		}
	})
	require.Len(t, seen, len(textKeys), "the example has texts of every kind")
	out, err := yaml.Marshal(&root)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "hostile.yaml")
	require.NoError(t, os.WriteFile(path, out, 0o600))
	return path
}

// everyText is all text of the page, and the names that are read aloud, without what is no text.
const everyText = `(() => {
	const copy = document.body.cloneNode(true);
	copy.querySelectorAll('script').forEach((s) => s.remove());
	return copy.textContent + [...document.querySelectorAll('[aria-label]')].map((e) => e.getAttribute('aria-label')).join('\n');
})()`

// assertHarmless looks at what text of a study must never bring about.
func assertHarmless(t *testing.T, p *browsertest.Page) {
	t.Helper()
	assert.True(t, browsertest.Eval[bool](p, `window.pwned === undefined`), "text of the study ran")
	assert.Equal(t, 0, browsertest.Eval[int](p, `document.querySelectorAll("img, b, iframe, object, link, base, [onload], [onerror], [onfocus], [autofocus]").length`), "text of the study became markup")
	assert.Equal(t, 5, browsertest.Eval[int](p, `document.querySelectorAll("script:not([type])").length`), "scripts: the library, the charts', the button's, the two of the what-if")
	assert.Equal(t, 1, browsertest.Eval[int](p, `document.querySelectorAll("style").length`))
	assert.Equal(t, 0, browsertest.Eval[int](p, `window.__chartErrors`))
	assert.LessOrEqual(t, browsertest.Eval[int](p, `document.documentElement.scrollWidth - window.innerWidth`), 0, "the page is wider than the window")
	places, shown := drawn(p)
	assert.Equal(t, places, shown)
	assertQuiet(t, p)
}

// tips opens the tooltip of every chart and gives the text of all pictures.
const tips = `(async () => {
	for (const plot of document.querySelectorAll('.plot')) {
		const chart = echarts.getInstanceByDom(plot);
		if (chart) chart.dispatchAction({type: 'showTip', seriesIndex: 0, dataIndex: 1});
	}
	await new Promise((done) => setTimeout(done, 200));
	return [...document.querySelectorAll('.plot svg')].map((s) => [...s.querySelectorAll('text')].map((t) => t.textContent).join(' ')).join('\n').replace(/\u200b/g, '');
})()`

// Every text of the study at once.
func TestHostileTextIsShownAsText(t *testing.T) {
	for what, text := range hostile {
		t.Run(what, func(t *testing.T) {
			var given []string
			title := ""
			path := rewritten(t, func(place, key, _ string) string {
				if onFindings(place) {
					return text
				}
				given = append(given, fmt.Sprintf("%s %d", text, len(given)))
				if key == "title" {
					title = given[len(given)-1]
				}
				return given[len(given)-1]
			})
			page := pageOf(t, path)
			p := browsertest.Open(t, page, browsertest.Options{Width: 360, Height: 740})
			assert.Equal(t, title, browsertest.Eval[string](p, `document.title`))
			assert.Equal(t, title, browsertest.Eval[string](p, `document.querySelector("h1").textContent`))
			all := browsertest.Eval[string](p, everyText)
			for _, g := range given {
				assert.True(t, strings.Contains(all, g), "not shown: %q", g)
			}
			pictures := browsertest.Eval[string](p, tips)
			assert.Contains(t, pictures, strings.ReplaceAll(text, "\u200b", ""), "names in charts")
			assertHarmless(t, p)

			assertVerifies(t, page)
		})
	}
}

// Every kind of text by itself, with all of it.
func TestHostileTextInOneField(t *testing.T) {
	var all []string
	for _, what := range slices.Sorted(maps.Keys(hostile)) {
		all = append(all, hostile[what])
	}
	text := strings.Join(all, " ")
	for _, field := range textKeys {
		t.Run(field, func(t *testing.T) {
			n := 0
			path := rewritten(t, func(place, key, old string) string {
				switch {
				case key != field:
					return old
				case onFindings(place):
					return text
				}
				n++
				return fmt.Sprintf("%d %s", n, text)
			})
			p := browsertest.Open(t, pageOf(t, path), browsertest.Options{})
			shown := browsertest.Eval[string](p, everyText)
			for i := range n {
				assert.True(t, strings.Contains(shown, fmt.Sprintf("%d %s", i+1, text)), "text %d is not shown", i+1)
			}
			assertHarmless(t, p)
		})
	}
}

// What turns the direction of text, or controls a terminal, is refused in every text, with its place.
func TestControlCharactersAreRefused(t *testing.T) {
	places := map[string]bool{}
	rewritten(t, func(place, _, old string) string { places[place] = true; return old })
	assert.Greater(t, len(places), 50)
	for place := range places {
		for _, c := range []string{"\u202e", "\u202a", "\u2066", "\u2069", "\a", "\x1b[31m", "\u0085", "\u2028", "\x7f", "a\nb", "a\x00b"} {
			path := rewritten(t, func(other, _, old string) string {
				if other == place {
					return old + c + "x"
				}
				return old
			})
			var errs bytes.Buffer
			code := run([]string{name, "check", path}, stream{nil, &bytes.Buffer{}, &errs})
			assert.Equal(t, exitInput, code, "%q in %s", c, place)
			assert.Contains(t, errs.String(), "error: "+strings.TrimPrefix(place, "[1].")+": ", "%q in %s", c, place)
			assert.NotContains(t, errs.String(), c, "what is refused is not written to the terminal")
		}
	}
}

// Names of files may hold what a study may not.
func TestHostileFileNames(t *testing.T) {
	study := string(mustRead(t, rewritten(t, func(_, _, old string) string { return old })))
	for _, called := range []string{
		"a b 'c' \"d\" $(e) `f` ;g.yaml", "-o.yaml", "<img src=x onerror=window.pwned=1>.yaml", "{{.}}${x}__f__window.pwned=1__f__.yaml",
		"\x1b[31mred\a\nnext\u202eright\u2066.yaml",
	} {
		t.Run(called, func(t *testing.T) {
			dir := t.TempDir()
			path, page := filepath.Join(dir, called), filepath.Join(dir, called+".html")
			require.NoError(t, os.WriteFile(path, []byte(study), 0o600))
			var errs bytes.Buffer
			code := run([]string{name, "report", path, "-o", page}, stream{nil, &bytes.Buffer{}, &errs})
			assert.Equal(t, exitDone, code, errs.String())
			assertPlain(t, errs.String())
			p := browsertest.Open(t, page, browsertest.Options{Width: 360})
			assert.Contains(t, browsertest.Eval[string](p, `document.querySelector("#proof").textContent`), called)
			assertHarmless(t, p)

			errs.Reset()
			assert.Equal(t, exitUsage, run([]string{name, "report", path, "-o", path}, stream{nil, &bytes.Buffer{}, &errs}))
			assertPlain(t, errs.String())
			errs.Reset()
			require.NoError(t, os.WriteFile(path, []byte(strings.Replace(study, "period:", "periods:", 1)), 0o600))
			assert.Equal(t, exitInput, run([]string{name, "compare", path}, stream{nil, &bytes.Buffer{}, &errs}))
			assertPlain(t, errs.String())
		})
	}
}

// assertPlain looks for what a terminal would act on; messages have lines, and none is made by a name.
func assertPlain(t *testing.T, said string) {
	t.Helper()
	assert.NotEmpty(t, said)
	for _, r := range said {
		assert.True(t, r == '\n' || unicode.IsPrint(r), "the terminal is sent %U in %q", r, said)
	}
	assert.NotContains(t, said, "\nnext", "a name makes a line")
}

func mustRead(t testing.TB, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return b
}

// The longest text that is read, in words and in one piece, and letters that stand on each other.
func TestLongestTextFitsAPhone(t *testing.T) {
	for what, piece := range map[string]string{"words": "roof ", "one word": "W", "marks": "o\u0301\u0323"} {
		t.Run(what, func(t *testing.T) {
			n := 0
			path := rewritten(t, func(_, key, old string) string {
				n++
				return fmt.Sprintf("%d ", n) + strings.TrimSpace(strings.Repeat(piece, 9990/len([]rune(piece))))
			})
			p := browsertest.Open(t, pageOf(t, path), browsertest.Options{Width: 360, Height: 740})
			browsertest.Eval[bool](p, openAll)
			assertHarmless(t, p)
		})
	}
}

// turned gives the figures that stand right after a name, but are shown before it, as a name from
// right to left would have it.
const turned = `(() => {
	const out = [];
	for (const e of document.querySelectorAll('main p, main li, main h3, summary')) {
		const node = e.firstChild;
		for (const m of e.childNodes.length === 1 && node.data ? node.data.matchAll(/”\P{L}*?\d/gu) : []) {
			const [quote, digit] = [m.index, m.index + m[0].length - 1].map((i) => {
				const r = new Range();
				r.setStart(node, i);
				r.setEnd(node, i + 1);
				return r.getBoundingClientRect();
			});
			if (quote.top === digit.top && quote.left >= digit.left) out.push(m[0]);
		}
	}
	return out;
})()`

func TestNamesDoNotTurnFigures(t *testing.T) {
	names := []string{"\u05ea\u05d9\u05e7\u05d5\u05df", "\u0627\u0633\u062a\u0628\u062f\u0627\u0644", "Coat\u200f"}
	n := 0
	path := rewritten(t, func(_, key, old string) string {
		if key != "name" {
			return old
		}
		n++
		return fmt.Sprintf("%d %s", n, names[n%len(names)])
	})
	for _, width := range []int{1280, 360} {
		p := browsertest.Open(t, pageOf(t, path), browsertest.Options{Width: width})
		browsertest.Eval[bool](p, openAll)
		assert.Empty(t, browsertest.Eval[[]string](p, turned))
		// Without the isolates the check finds what they prevent.
		browsertest.Eval[any](p, `document.querySelectorAll("p.answer").forEach((e) => { e.textContent = e.textContent.replace(/[\u2068\u2069]/g, ""); })`)
		assert.NotEmpty(t, browsertest.Eval[[]string](p, turned))
		assert.Contains(t, browsertest.Eval[string](p, tips), "\u2069: $", "names in tooltips are isolated too")
	}
}
