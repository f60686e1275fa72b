package main

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"roofyears/report/html/browsertest"
)

// stops are the elements that a keyboard must reach, in the order of the page, the what-if's too.
const stops = `((all) => all(all, document))((all, root) => [...root.querySelectorAll('*')].flatMap((e) =>
	e.shadowRoot ? all(all, e.shadowRoot)
	: e.matches('a[href], button, input, select, textarea, summary, [tabindex="0"]') && !e.disabled && e.checkVisibility({visibilityProperty: true}) ? [e] : []))`

// focused tells where the focus is among the stops, -1 when on none, and what can not be seen of it.
const focused = `((e, all) => {
	const s = getComputedStyle(e), b = e.getBoundingClientRect();
	const seen = s.outlineStyle === 'solid' && parseFloat(s.outlineWidth) >= 2 && s.outlineColor === getComputedStyle(document.querySelector('a[href]')).color;
	const inside = b.bottom > 0 && b.top < innerHeight && b.right > 0 && b.left < innerWidth;
	return {At: all.indexOf(e), What: e.tagName + ' ' + (e.id || e.textContent.slice(0, 30)), Outlined: seen, Inside: inside};
})(document.activeElement.shadowRoot ? document.activeElement.shadowRoot.activeElement : document.activeElement, ` + stops + `)`

type focus struct {
	At               int
	What             string
	Outlined, Inside bool
}

// tabbed presses the tabulator until the focus leaves the page, and gives where it was.
func tabbed(p *browsertest.Page, most int) []focus {
	var out []focus
	for range most + 5 {
		p.Press("Tab")
		f := browsertest.Eval[focus](p, focused)
		for range 40 { // it is scrolled to with the next picture, which a busy machine takes its time for
			if f.Inside {
				break
			}
			time.Sleep(50 * time.Millisecond)
			f = browsertest.Eval[focus](p, focused)
		}
		if f.At < 0 && strings.HasPrefix(f.What, "BODY") {
			break
		}
		out = append(out, f)
	}
	return out
}

// assertTabbed wants so many stops of the tabulator, in the order of the page,
// each shown and in the window.
func assertTabbed(t *testing.T, p *browsertest.Page, want int) {
	t.Helper()
	got := tabbed(p, want)
	assert.Len(t, got, want)
	for i, f := range got {
		assert.Equal(t, i, f.At, "the place of %s", f.What)
		assert.True(t, f.Outlined, "the focus is outlined in the accent: %s", f.What)
		assert.True(t, f.Inside, "the focus is in the window: %s", f.What)
	}
}

// WCAG 2.2, SC 2.1.1, 2.4.3 and 2.4.7: the tabulator reaches everything that can be used, once, from
// top to bottom, and shows where it is.
func TestKeyboardReachesEverything(t *testing.T) {
	for _, study := range []string{"example:cold-store", "odd/one-alternative.yaml"} {
		page := auditedPage(t, study)
		for name, view := range map[string]browsertest.Options{
			"screen": {}, "phone in the dark": {Width: 360, Height: 740, Dark: true}, "no script": {Width: 360, NoScript: true},
		} {
			t.Run(study+"/"+name, func(t *testing.T) {
				p := browsertest.Open(t, page, view)
				browsertest.Eval[bool](p, `document.querySelectorAll("details").forEach((d, i) => { d.open = i % 2 === 0 }) || true`)
				want := browsertest.Eval[int](p, stops+`.length`)
				assert.Greater(t, want, 10, "tables, folds and links can be reached")
				assertTabbed(t, p, want)
			})
		}
	}
}

func TestKeyboardOpensFolds(t *testing.T) {
	for _, noScript := range []bool{false, true} {
		p := browsertest.Open(t, pageOf(t, "example:school"), browsertest.Options{NoScript: noScript})
		const open = `document.querySelector("details").open`
		assert.False(t, browsertest.Eval[bool](p, open))
		browsertest.Eval[any](p, `document.querySelector("summary").focus()`)
		p.Press("Enter")
		assert.True(t, browsertest.Eval[bool](p, open))
	}
}

// mustBeNamed are the roles that say nothing without a name: WCAG 2.2, SC 4.1.2 and 1.1.1.
var mustBeNamed = []string{
	"button", "link", "slider", "textbox", "checkbox", "radio", "combobox", "spinbutton", "image", "img", "figure", "table", "region", "heading",
	"DisclosureTriangle", "columnheader", "rowheader", "RootWebArea",
}

func TestScreenReaderIsToldNames(t *testing.T) {
	for _, study := range auditedStudies {
		page := auditedPage(t, study)
		for name, view := range map[string]browsertest.Options{"script": {}, "no script": {NoScript: true}} {
			t.Run(study+"/"+name, func(t *testing.T) {
				p := browsertest.Open(t, page, view)
				browsertest.Eval[bool](p, `document.querySelectorAll("details").forEach((d) => { d.open = true }) || true`)
				roles := map[string]int{}
				for _, n := range p.Names() {
					roles[n.Role]++
					if slices.Contains(mustBeNamed, n.Role) {
						assert.NotEmpty(t, strings.TrimSpace(n.Name), "a %s without a name", n.Role)
					}
				}
				for _, role := range []string{"banner", "main", "contentinfo"} {
					assert.Equal(t, 1, roles[role], role)
				}
				for _, role := range []string{"table", "image", "region", "heading", "link", "DisclosureTriangle", "columnheader", "rowheader"} {
					assert.NotZero(t, roles[role], role)
				}
			})
		}
	}
}

// outline looks at the order of headings and at what tables need to be read aloud.
const outline = `(() => {
	const out = [];
	let before = 0;
	for (const h of document.querySelectorAll('h1, h2, h3, h4, h5, h6')) {
		const level = Number(h.tagName[1]);
		if (level > before + 1) out.push('from h' + before + ' to h' + level + ': ' + h.textContent);
		if (level === 1 && before) out.push('a second h1: ' + h.textContent);
		before = level;
	}
	if (before === 0) out.push('no headings');
	for (const t of document.querySelectorAll('table')) {
		const say = (what) => out.push(t.id + ': ' + what);
		const caption = document.getElementById(t.getAttribute('aria-labelledby'));
		if (!caption || !caption.textContent.trim() || !caption.checkVisibility()) say('no caption');
		if (!t.tHead || ![...t.tHead.rows].every((r) => [...r.cells].slice(1).every((c) => c.matches('th[scope=col]')))) say('a column without a header');
		for (const th of t.querySelectorAll('th')) if (!th.scope) say('a header without a scope: ' + th.textContent);
		if (t.tBodies[0] && !t.tBodies[0].rows[0].cells[0].matches('th[scope=row], th[scope=rowgroup]')) say('the first row has no header');
	}
	if (document.documentElement.lang !== 'en') out.push('no language');
	const ids = [...document.querySelectorAll('[id]')].map((e) => e.id);
	out.push(...ids.filter((id, i) => ids.indexOf(id) !== i).map((id) => 'the id ' + id + ' twice'));
	for (const a of document.querySelectorAll('a[href^="#"]')) if (!document.getElementById(a.getAttribute('href').slice(1))) out.push('a link to nothing: ' + a.href);
	return out;
})()`

func TestOutlineOfThePage(t *testing.T) {
	for _, study := range auditedStudies {
		p := browsertest.Open(t, auditedPage(t, study), browsertest.Options{})
		browsertest.Eval[bool](p, openAll)
		assert.Empty(t, browsertest.Eval[[]string](p, outline), study)
	}
}
