package main

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// letterheadSeen looks at the head of a page as a browser lays it out.
const letterheadSeen = `(() => {
	const img = document.getElementById('logo'), b = img.getBoundingClientRect();
	const head = document.querySelector('header').getBoundingClientRect(), h1 = document.querySelector('h1').getBoundingClientRect();
	return {
		Width: img.naturalWidth, Alt: img.alt, Inside: b.width > 20 && b.height > 20 && b.left >= head.left && b.right <= head.right + 0.5,
		Right: b.left > head.left + head.width / 2 && Math.abs(b.right - head.right) < 1, Above: b.bottom <= h1.top,
		Wide: document.documentElement.scrollWidth - innerWidth,
		Heading: getComputedStyle(document.querySelector('h2')).color, Rule: getComputedStyle(document.querySelector('header')).borderTopColor,
	};
})()`

type seenLetterhead struct {
	Width, Wide          int
	Alt, Heading, Rule   string
	Inside, Right, Above bool
}

func TestLetterheadInABrowser(t *testing.T) {
	page := pageOf(t, "example:cold-store")
	const accent, heading = "rgb(31, 95, 91)", "rgb(23, 63, 61)"
	for name, view := range map[string]browsertest.Options{
		"screen": {}, "print": {Print: true}, "phone": {Width: 360, Height: 740}, "dark": {Dark: true}, "printed in the dark": {Dark: true, Print: true},
		"no script": {NoScript: true},
	} {
		t.Run(name, func(t *testing.T) {
			p := browsertest.Open(t, page, view)
			seen := browsertest.Eval[seenLetterhead](p, letterheadSeen)
			assert.Equal(t, 240, seen.Width, "the logo is drawn")
			assert.Equal(t, "Logo of Fennick and Orle Roof Restoration", seen.Alt)
			assert.True(t, seen.Inside, "the logo stands within the head")
			assert.LessOrEqual(t, seen.Wide, 0, "the page is wider than the window")
			narrow := view.Width == 360
			assert.Equal(t, !narrow, seen.Right, "at the right")
			assert.Equal(t, narrow, seen.Above, "above the title where there is no room beside it")
			dark := view.Dark && !view.Print
			assert.Equal(t, !dark, seen.Rule == accent, seen.Rule)
			assert.Equal(t, !dark, seen.Heading == heading, seen.Heading)
			assertQuiet(t, p)
		})
	}
}

func TestPrintedLetterhead(t *testing.T) {
	p := browsertest.Open(t, pageOf(t, "example:cold-store"), browsertest.Options{Dark: true})
	text := strings.Join(pdfSheets(t, p.PDF("Letter")), " ")
	for _, part := range []string{"4 Lantern Row, Quillmere", "A note from the preparer", "They are no part of the computation"} {
		assert.Contains(t, text, part)
	}
}

// letterPage writes a page with flags of a letterhead.
func letterPage(t *testing.T, flags ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(append([]string{name, "report", "--trials", "200", "-o", "-", "example:school"}, flags...), stream{nil, &out, &errs})
	require.Equal(t, exitDone, code, errs.String())
	return out.String()
}

// hostileLine is one text that would run, or break the page, in many ways.
const hostileLine = `</script><img src=x onerror=window.pwned=1>__f__window.pwned=1__f__{{.}}{a|b}"'&<b>`

func TestHostileLetterheadIsText(t *testing.T) {
	const turned = "\u200fمكتب السقوف\u200e 4" // marks of direction, no overrides
	text := letterPage(t, "--contact", hostileLine[:80], "--contact", turned, "--note", hostileLine, "--note", "</section></main><style>td{display:none}</style>")
	path := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	p := browsertest.Open(t, path, browsertest.Options{})
	assert.Equal(t, []string{hostileLine[:80], turned}, browsertest.Eval[[]string](p, `[...document.querySelectorAll("#letterhead p")].map(p => p.textContent)`))
	assert.Equal(t, hostileLine, browsertest.Eval[string](p, `document.querySelector("#note p").textContent`))
	assert.True(t, browsertest.Eval[bool](p, `window.pwned === undefined`), "text of the letterhead ran")
	assert.Equal(t, 0, browsertest.Eval[int](p, `document.querySelectorAll("img, b, body style").length`), "text of the letterhead became markup")
	assertQuiet(t, p)
	code, out, errs := verified(t, browsertest.Eval[string](p, saved))
	assert.Equal(t, exitDone, code, errs)
	assert.Contains(t, out, "given with the page: contact, note\n")
}

// putLogo writes the logo that a study names into a folder.
func putLogo(t *testing.T, src scenarios.Source, folder string) {
	t.Helper()
	file, _ := scenarios.Read(src)
	require.NotNil(t, file)
	require.NoError(t, os.WriteFile(filepath.Join(folder, file.Logo.Name), file.Logo.Bytes, 0o600))
}

// logoFile writes a picture of one colour.
func logoFile(t *testing.T, c color.Color) (path string, data []byte) {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, 32, 16))
	for i := range 32 * 16 {
		img.Set(i%32, i/32, c)
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	path = filepath.Join(t.TempDir(), "logo.png")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	return path, b.Bytes()
}

// Another logo in place of the one the page was made with is found, though it
// is a good picture; the bytes stand on the page once.
func TestExchangedLogoIsFound(t *testing.T) {
	path, data := logoFile(t, color.NRGBA{200, 0, 0, 255})
	_, other := logoFile(t, color.NRGBA{0, 0, 200, 255})
	page := letterPage(t, "--logo", path, "--accent", "#1f5f5b")
	encoded := base64.StdEncoding.EncodeToString(data)
	require.Equal(t, 1, strings.Count(page, encoded))
	code, out, errs := verified(t, page)
	require.Equal(t, exitDone, code, errs)
	assert.Contains(t, out, "given with the page: accent\n")

	code, out, errs = verified(t, strings.Replace(page, encoded, base64.StdEncoding.EncodeToString(other), 1))
	assert.Equal(t, exitInput, code)
	assert.Empty(t, out)
	assert.Contains(t, errs, "the logo was changed: its SHA-256 is ")
	assert.Contains(t, errs, "carried study, logo_sha256: ")

	code, _, errs = verified(t, strings.Replace(page, `"accent":"#1f5f5b"`, `"accent":"#1f5f5b; } td { display: none"`, 1))
	assert.Equal(t, exitInput, code)
	assert.Contains(t, errs, "is not a colour")
}

// The largest letterhead that is read leaves a page under a megabyte.
func TestLargestLetterheadKeepsThePageSmall(t *testing.T) {
	random := image.NewNRGBA(image.Rect(0, 0, 90, 90))
	seed := uint32(1)
	for i := range random.Pix {
		seed = seed*1664525 + 1013904223
		random.Pix[i] = byte(seed >> 24)
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, random))
	require.InDelta(t, 32<<10, b.Len(), 1<<10)
	path := filepath.Join(t.TempDir(), "logo.png")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	note := strings.Repeat("x", 600)
	page := letterPage(t, "--logo", path, "--note", note, "--note", note, "--note", note, "--note", note, "--note", note, "--note", note)
	assert.Less(t, len(page), 1_000_000)
}
