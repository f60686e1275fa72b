package main

import (
	"encoding/base64"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// saved is a page as a browser saves it, once its scripts have run.
const saved = `document.documentElement.outerHTML`

func TestSavedPageVerifies(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		page := pageOf(t, examplePrefix+example)
		for name, view := range map[string]browsertest.Options{
			"screen": {}, "phone in the dark": {Width: 360, Dark: true}, "print": {Print: true}, "no script": {NoScript: true},
		} {
			t.Run(example+"/"+name, func(t *testing.T) {
				p := browsertest.Open(t, page, view)
				browsertest.Eval[bool](p, `document.querySelectorAll("details").forEach(d => { d.open = true }) || true`)
				text := browsertest.Eval[string](p, saved)
				code, out, errs := verified(t, text)
				assert.Equal(t, exitDone, code, errs)
				assert.Contains(t, out, proved)
				assert.Equal(t, !view.NoScript, strings.Contains(out, "not compared: "), "what a browser drew is told")

				code, _, _ = verified(t, strings.Replace(text, `<td class="num">1`, `<td class="num">2`, 1))
				assert.Equal(t, exitInput, code, "a changed digit of a saved page is found")
			})
		}
	}
}

// A saved page that is opened and saved again is still proved.
func TestPageSavedTwiceVerifies(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:cold-store"), browsertest.Options{})
	path := filepath.Join(t.TempDir(), "saved.html")
	require.NoError(t, os.WriteFile(path, []byte("<!DOCTYPE html>\n"+browsertest.Eval[string](p, saved)), 0o600))
	again := browsertest.Open(t, path, browsertest.Options{})
	assert.Equal(t, 0, browsertest.Eval[int](again, `[...document.querySelectorAll(".plot")].filter(p => p.children.length !== 1).length`),
		"a picture that came with the page stays beside the new one")
	code, out, errs := verified(t, browsertest.Eval[string](again, saved))
	assert.Equal(t, exitDone, code, errs)
	assert.Contains(t, out, proved)
}

// What a browser drew is not compared, so whatever stands there must not cover
// anything else of the page.
func TestForgedDrawingStaysInItsPlace(t *testing.T) {
	const forged = `<div><svg width="640" height="200" overflow="visible"><g transform="scale(9)">` +
		`<rect x="-900" y="-3000" width="9000" height="9000"></rect></g></svg></div>`
	page := string(mustRead(t, pageOf(t, "example:cold-store")))
	from := strings.Index(page, `<svg class="static"`)
	require.Positive(t, from)
	to := from + strings.Index(page[from:], "</svg>") + len("</svg>")
	page = strings.TrimSuffix(page[:from], "\n") + forged + page[to:]
	at := strings.LastIndex(page[:from], ` tabindex="0"`)
	page = page[:at] + strings.Replace(page[at:], ` tabindex="0"`, "", 1)
	code, out, errs := verified(t, page)
	require.Equal(t, exitDone, code, errs)
	require.Contains(t, out, "not compared: what a browser drew of 1 chart")

	path := filepath.Join(t.TempDir(), "forged.html")
	require.NoError(t, os.WriteFile(path, []byte(page), 0o600))
	for name, view := range map[string]browsertest.Options{"screen": {NoScript: true}, "phone": {NoScript: true, Width: 360}, "print": {NoScript: true, Print: true}} {
		p := browsertest.Open(t, path, view)
		assert.Zero(t, browsertest.Eval[int](p, `[...document.querySelectorAll("h1, h2, p, td, th")].filter((e) => {
			e.scrollIntoView({block: "center"});
			const b = e.getBoundingClientRect(), top = document.elementFromPoint(b.left + b.width / 2, b.top + b.height / 2);
			return b.width > 0 && top && top.closest("svg") && !e.contains(top);
		}).length`), name)
	}
}

// caught presses the button and gives what it saves, and under which name.
const caught = `(async () => {
	let blob, name;
	URL.createObjectURL = (b) => { blob = b; return 'data:,'; };
	HTMLAnchorElement.prototype.click = function () { name = this.download; };
	document.getElementById('save-study').click();
	const bytes = new Uint8Array(await blob.arrayBuffer());
	return name + '|' + btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join(''));
})()`

func TestSaveTheStudyGivesEveryByte(t *testing.T) {
	src, ok := scenarios.Example("cold-store")
	require.True(t, ok)
	for name, text := range map[string]string{
		"plain.yaml":             string(src.Text),
		"lines.yml":              "\xef\xbb\xbf" + strings.ReplaceAll(string(src.Text), "\n", "\r\n"),
		`a <b>"&'</script>.yaml`: string(src.Text) + "# é\u202e </script><!-- \n\n  \t\n",
		"no ending":              strings.TrimRight(string(src.Text), "\n"),
	} {
		name = strings.ReplaceAll(name, "/", "\u2215") // as a file may be called
		path := filepath.Join(t.TempDir(), name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		putLogo(t, src, filepath.Dir(path))
		page := pageOf(t, path)
		p := browsertest.Open(t, page, browsertest.Options{})
		assert.True(t, browsertest.Eval[bool](p, `document.getElementById("save-study").offsetHeight > 0`), "the button is shown")
		called, encoded, _ := strings.Cut(browsertest.Eval[string](p, caught), "|")
		got, err := base64.StdEncoding.DecodeString(encoded)
		require.NoError(t, err)
		assert.True(t, text == string(got), name)
		assert.Equal(t, strings.TrimSuffix(strings.TrimSuffix(name, ".yaml"), ".yml"), strings.TrimSuffix(strings.TrimSuffix(called, ".yaml"), ".yml"))
		assert.Regexp(t, `\.ya?ml$`, called)
		assert.Contains(t, browsertest.Eval[string](p, `document.querySelector("#proof").textContent`), name)
		assertQuiet(t, p)

		assertVerifies(t, page)
	}
}

// Pressed for good, the button leads to no request and breaks no rule.
func TestSaveTheStudyIsAllowed(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:school"), browsertest.Options{})
	browsertest.Eval[bool](p, `new Promise((done) => { document.getElementById("save-study").click(); setTimeout(() => done(true), 300); })`)
	assertQuiet(t, p)
	off := browsertest.Open(t, pageOf(t, "example:school"), browsertest.Options{NoScript: true})
	assert.True(t, browsertest.Eval[bool](off, `document.getElementById("save-study").offsetHeight === 0`), "a button that does nothing is not shown")
}
