package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/verify"
	"roofyears/scenarios"
)

// verified runs the verify command on a page.
func verified(t *testing.T, page string) (code int, out, errs string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(path, []byte(page), 0o600))
	var o, e bytes.Buffer
	code = run([]string{name, "verify", path}, stream{nil, &o, &e})
	return code, o.String(), e.String()
}

// assertVerifies holds the page in a file against what its study gives.
func assertVerifies(t *testing.T, page string) {
	t.Helper()
	code, _, errs := verified(t, string(mustRead(t, page)))
	assert.Equal(t, exitDone, code, errs)
}

const proved = "every figure on the page is what its study gives\n"

// quickPage is the page of a study with few trials, so that it is soon made again.
func quickPage(t *testing.T, study string) string {
	t.Helper()
	var out, errs bytes.Buffer
	code := run([]string{name, "report", "--trials", "200", "--seed", "7", "-o", "-", study}, stream{nil, &out, &errs})
	require.Equal(t, exitDone, code, errs.String())
	return out.String()
}

// The parts of a page: the program's own scripts and styles, the carried
// study, and what browsers do not look at: how an element ends.
var (
	program   = regexp.MustCompile(`(?s)<script>.*?</script>|<style>.*?</style>`)
	carriedIn = regexp.MustCompile(`(?s)id="carried-study">.*?</script>`)
	endTag    = regexp.MustCompile(`</[a-z0-9]+>`)
	character = regexp.MustCompile(`[0-9a-z]`)
)

// bare is a page with the program's own scripts and styles cut short, which
// have few figures and most of the bytes.
func bare(page string) string { return program.ReplaceAllString(page, "<script>1</script>") }

// changes is how many random changes a test makes in a page.
const changes = 160

// Any one digit or letter of a page, in what is shown, in what is read aloud,
// in a drawing or in the data of a chart, is found when it is changed. Of a
// digit, the table or the chart is named.
func TestAnyChangedCharacterIsFound(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		t.Run(example, func(t *testing.T) {
			page := bare(quickPage(t, examplePrefix+example))
			t.Parallel()
			digits, letters := characters(page)
			random := rand.New(rand.NewPCG(1, 4))
			for i := range changes {
				at, other := digits[random.IntN(len(digits))], byte('0'+random.IntN(10))
				letter := i%4 == 3
				if letter {
					at, other = letters[random.IntN(len(letters))], byte('a'+random.IntN(26))
				}
				if page[at] == other {
					continue
				}
				found := differences(t, page[:at]+string(other)+page[at+1:], page)
				context := fmt.Sprintf("%q to %c", page[max(0, at-60):min(len(page), at+20)], other)
				if assert.NotEmpty(t, found, context) && !letter {
					assert.Contains(t, found[0].Place, around(page, at), context)
				}
			}
		})
	}
}

// characters gives the places of the digits and the small letters in the body
// of a page that may be changed.
func characters(page string) (digits, letters []int) {
	skipped := append(carriedIn.FindAllStringIndex(page, -1), endTag.FindAllStringIndex(page, -1)...)
	for _, m := range character.FindAllStringIndex(page, -1) {
		at := m[0]
		in := func(span []int) bool { return span[0] <= at && at < span[1] }
		switch {
		case at < strings.Index(page, "<body") || slices.ContainsFunc(skipped, in):
		case page[at] <= '9':
			digits = append(digits, at)
		default:
			letters = append(letters, at)
		}
	}
	return digits, letters
}

// differences compares a page with the one it was made from.
func differences(t *testing.T, page, written string) []verify.Difference {
	t.Helper()
	p, err := verify.Read([]byte(page))
	require.NoError(t, err)
	found, _, err := p.Compare([]byte(written))
	require.NoError(t, err)
	return found
}

// named are the parts of a page that a place names, and how they end.
var named = []struct {
	opens  *regexp.Regexp
	closes string
	name   string
}{
	{regexp.MustCompile(`<table [^>]*id="([^"]*)"[^>]*>`), `</table>`, "table "},
	{regexp.MustCompile(`<script [^>]*data-options="([^"]*)">`), `</script>`, "data of chart "},
	{regexp.MustCompile(`<script [^>]*id="what-if-data"()>`), `</script>`, "data of the what-if"},
}

// around is what the place of a difference must name when a cell or data of a
// chart was changed; "" for other places.
func around(page string, at int) string {
	for _, part := range named {
		opened := part.opens.FindAllStringSubmatchIndex(page[:at], -1)
		if opened == nil {
			continue
		}
		last := opened[len(opened)-1]
		if !strings.Contains(page[last[0]:at], part.closes) {
			if last[2] == last[3] { // there is one of them only
				return part.name
			}
			return fmt.Sprintf("%s%q", part.name, page[last[2]:last[3]])
		}
	}
	return ""
}

// Any one letter of what the page carries is found, whether the study can
// still be read or not.
func TestAnyChangedLetterOfTheCarriedStudyIsFound(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		t.Run(example, func(t *testing.T) {
			page := quickPage(t, examplePrefix+example)
			from := strings.Index(page, `id="carried-study">`) + len(`id="carried-study">`)
			to := from + strings.Index(page[from:], "</script>")
			random := rand.New(rand.NewPCG(2, 4))
			const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"
			for range 40 {
				at, other := from+random.IntN(to-from), letters[random.IntN(len(letters))]
				if page[at] == other {
					continue
				}
				code, out, errs := verified(t, page[:at]+string(other)+page[at+1:])
				context := fmt.Sprintf("%q to %c", page[max(from, at-20):at+1], other)
				assert.Equal(t, exitInput, code, "%s\n%s", context, out)
				assert.Regexp(t, "carried study|study it carries", errs, context)
			}
		})
	}
}

func TestChangedTablesAreFound(t *testing.T) {
	page := quickPage(t, "example:school")
	row := regexp.MustCompile(`\n<tr>.*?</tr>`).FindAllStringIndex(page, 2)
	first, second := page[row[0][0]:row[0][1]], page[row[1][0]:row[1][1]]
	cells := regexp.MustCompile(`<td class="num">[^<]*</td>`).FindAllString(page, 2)
	require.NotEqual(t, cells[0], cells[1])
	for name, c := range map[string]struct{ old, new, want string }{
		"row taken out":  {first, "", "the page has nothing there"},
		"row added":      {first, first + first, "the study gives nothing there"},
		"rows swapped":   {first + second, second + first, "another place"},
		"cells swapped":  {cells[0] + cells[1], cells[1] + cells[0], "the page says"},
		"warning hidden": {`<div class="callout">`, `<div class="callout" hidden>`, `attribute "hidden"`},
		"style added":    {`<main>`, `<main><style>td{display:none}</style>`, "style sheet"},
		"verdict turned": {`<td>ruled out</td>`, `<td>pass</td>`, "the page says"},
		"finding closed": {`<td>open</td>`, `<td>pass</td>`, "the page says"},
		"link added":     {`</main>`, `<a href="https://example.invalid">more</a></main>`, "link"},
	} {
		require.Contains(t, page, c.old, name)
		code, out, errs := verified(t, strings.Replace(page, c.old, c.new, 1))
		assert.Equal(t, exitInput, code, name)
		assert.Empty(t, out, name)
		assert.Contains(t, errs, c.want, name)
		assert.Contains(t, errs, "the page is not what its study gives", name)
	}
}

// A study changed with its digest gives other figures, and these are told.
func TestStudyChangedWithItsDigest(t *testing.T) {
	src, ok := scenarios.Example("school")
	require.True(t, ok)
	changed := strings.Replace(string(src.Text), "likely: 5%", "likely: 4.9%", 1)
	require.NotEqual(t, string(src.Text), changed)
	path := filepath.Join(t.TempDir(), src.Name)
	require.NoError(t, os.WriteFile(path, []byte(changed), 0o600))
	page, other := quickPage(t, "example:school"), quickPage(t, path)
	forged := carriedIn.ReplaceAllLiteralString(page, carriedIn.FindString(other))
	code, _, errs := verified(t, forged)
	assert.Equal(t, exitInput, code)
	assert.Contains(t, errs, `row "Life-cycle cost"`)
	assert.Contains(t, errs, "more\n", "no more than fifty are told")
	assert.Equal(t, maxDifferences+2, strings.Count(errs, "\n"))
}

// A page of another version is compared too, and the versions are told.
func TestPageOfAnotherVersion(t *testing.T) {
	page := quickPage(t, "example:school")
	other := strings.ReplaceAll(page, "computed by roofyears "+version(), "computed by roofyears v9.9.9")
	other = strings.ReplaceAll(other, `"version":"`+version()+`"`, `"version":"v9.9.9"`)
	require.NotEqual(t, page, other)
	code, out, errs := verified(t, other)
	assert.Equal(t, exitDone, code, errs)
	assert.Contains(t, out, proved)
	assert.Contains(t, errs, "made by version v9.9.9")
}

// Two runs write the same page.
func TestPageIsDeterministic(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		one, other := quickPage(t, examplePrefix+example), quickPage(t, examplePrefix+example)
		assert.True(t, one == other, example)
	}
}
