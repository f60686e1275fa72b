package main

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
	"roofyears/scenarios/contrast"
)

// shade is text as the browser shows it: each pair of colours once, with an example.
type shade struct {
	Text         string
	Front, Back  []float64 // sRGB, from 0 to 1
	Large, Drawn bool      // large as WCAG 2.2 has it; drawn in a picture
}

// shades walks all text that is to be seen. What lies behind text is the nearest background of an
// element around it, or in a picture the shapes that were drawn before it, at three points of it;
// an edge around letters in the paper's colour counts as what is behind them.
const shades = `(() => {
	const parse = (s) => {
		const n = (s.match(/-?[\d.]+(e-?\d+)?/g) || []).map(Number);
		if (/^rgba?\(/.test(s)) return [n[0] / 255, n[1] / 255, n[2] / 255, n[3] ?? 1];
		if (/^color\(srgb /.test(s)) return [n[0], n[1], n[2], n[3] ?? 1];
		throw new Error('the colour ' + s);
	};
	const over = (a, b) => [0, 1, 2].map((i) => a[i] * a[3] + b[i] * (1 - a[3])).concat(1);
	const opacity = (e) => e ? Number(getComputedStyle(e).opacity) * opacity(e.parentElement) : 1;
	const behind = (e) => {
		if (!e) return [1, 1, 1, 1];
		const c = parse(getComputedStyle(e).backgroundColor);
		return c[3] === 1 ? c : over(c, behind(e.parentElement));
	};
	const shapesUnder = (text, x, y) => {
		let back = behind(text);
		for (const s of text.ownerSVGElement.querySelectorAll('path, rect, circle, polygon, ellipse')) {
			if (!(s.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) continue;
			const style = getComputedStyle(s);
			const m = s.getScreenCTM();
			if (style.fill === 'none' || s.closest('defs, clipPath, mask') || !m || !(m.a * m.d - m.b * m.c)) continue;
			if (!s.isPointInFill(new DOMPoint(x, y).matrixTransform(m.inverse()))) continue;
			if (style.fill.startsWith('url(')) throw new Error('text on a pattern: ' + text.textContent);
			const c = parse(style.fill);
			back = over([c[0], c[1], c[2], c[3] * Number(style.fillOpacity) * opacity(s)], back);
		}
		return back;
	};
	const out = new Map();
	const note = (text, front, back, large, drawn) => {
		const seen = {Text: text.slice(0, 60), Front: over(front, back).slice(0, 3), Back: back.slice(0, 3), Large: large, Drawn: drawn};
		out.set(JSON.stringify([seen.Front, seen.Back, large, drawn]), seen);
	};
	const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	while (walk.nextNode()) {
		const node = walk.currentNode, e = node.parentElement;
		if (!node.data.trim() || e.closest('script, style, svg title') || !e.checkVisibility({visibilityProperty: true})) continue;
		const range = document.createRange();
		range.selectNodeContents(node);
		const box = range.getBoundingClientRect(), style = getComputedStyle(e), size = parseFloat(style.fontSize);
		if (!box.width || !box.height) continue;
		const large = size >= 24 || size >= 18.66 && style.fontWeight >= 700;
		const text = e.closest('text'), fade = opacity(e);
		const front = parse(text ? style.fill : style.color);
		front[3] *= fade;
		if (!text) { note(node.data, front, behind(e), large, false); continue; }
		const halo = style.stroke !== 'none' && parseFloat(style.strokeWidth) >= 2 && style.paintOrder.startsWith('stroke');
		for (const share of halo ? [] : [0.05, 0.5, 0.95]) {
			note(node.data, front, shapesUnder(text, box.left + box.width * share, box.top + box.height / 2), large, true);
		}
		if (halo) note(node.data, front, parse(style.stroke), large, true);
	}
	return [...out.values()];
})()`

// faint gives the text that has too little contrast: WCAG 2.2, SC 1.4.3.
func faint(all []shade) []string {
	var out []string
	for _, s := range all {
		least := contrast.Least
		if s.Large {
			least = contrast.LargeText
		}
		if contrast.Ratio(colour(s.Front), colour(s.Back)) < least {
			out = append(out, s.Text)
		}
	}
	return out
}

// colour takes the parts of a colour from 0 to 1.
func colour(c []float64) contrast.Colour {
	part := func(x float64) uint8 { return uint8(math.Round(x * 255)) }
	return contrast.Colour{R: part(c[0]), G: part(c[1]), B: part(c[2])}
}

// Whatever colours the page makes of its palette, its text can be read on what is behind it.
func TestTextHasContrast(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		page := pageOf(t, examplePrefix+example)
		for name, view := range map[string]browsertest.Options{
			"light": {}, "dark": {Dark: true}, "paper": {Print: true}, "light without script": {NoScript: true}, "dark without script": {Dark: true, NoScript: true},
		} {
			t.Run(example+"/"+name, func(t *testing.T) {
				p := browsertest.Open(t, page, view)
				if !view.NoScript {
					browsertest.Eval[bool](p, openAll)
				} else {
					browsertest.Eval[bool](p, `document.querySelectorAll("details").forEach((d) => { d.open = true }) || true`)
				}
				all := browsertest.Eval[[]shade](p, shades)
				assert.Empty(t, faint(all), "text with too little contrast")
				assert.GreaterOrEqual(t, len(all), 10, "pairs of colours: a page has ink, muted and accent on paper, tints, charts")
				var drawn []string
				for _, s := range all {
					if s.Drawn {
						drawn = append(drawn, s.Text)
					}
				}
				assert.GreaterOrEqual(t, len(drawn), 2, "text in charts is looked at")
			})
		}
	}
}

func TestFaintTextIsFound(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:school"), browsertest.Options{})
	for _, spoil := range []string{
		`document.querySelector("h1").style.color = "#777"`, // large, but 3 is enough
		`document.querySelector("main p").style.color = "#777"`,
		`document.querySelector("figcaption").style.opacity = 0.5`,
		`document.querySelector("svg.timeline .bar").style.fillOpacity = 1`,
		`document.querySelector(".plot svg text").style.fill = "#999"`,
	} {
		before := len(faint(browsertest.Eval[[]shade](p, shades)))
		browsertest.Eval[any](p, spoil)
		found := len(faint(browsertest.Eval[[]shade](p, shades)))
		assert.Equal(t, !strings.Contains(spoil, "h1"), found > before, spoil)
	}
	require.NotEmpty(t, faint(browsertest.Eval[[]shade](p, shades)))
}
