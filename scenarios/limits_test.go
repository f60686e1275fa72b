package scenarios

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Files made to exhaust a reader are refused; that this test ends shows that
// reading them is linear.
func TestBombs(t *testing.T) {
	laughs := "a0: &a0 [ha, ha]\n"
	for i := 1; i <= 9; i++ {
		laughs += fmt.Sprintf("a%d: &a%d [%s*a%d]\n", i, i, strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 9), i-1)
	}
	const size = MaxSize / 4
	fill := func(head, part, tail string) string {
		return head + strings.Repeat(part, (size-len(head)-len(tail))/len(part)) + tail
	}
	many := func(format string) string {
		var b strings.Builder
		for i := 0; b.Len() < size-100; i++ {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	study := "roofyears: 1\nsystems:\n"
	for name, text := range map[string]string{
		"aliases of aliases":         "roofyears: 1\n" + laughs,
		"many aliases of much":       fill("roofyears: 1\nroof: &x ["+strings.Repeat("1,", 200_000)+"]\nalternatives: [", "*x,", "]"),
		"many brackets":              strings.Repeat("[", 200_000),
		"many braces":                strings.Repeat("{a: ", 200_000),
		"many hyphens":               strings.Repeat("- ", 200_000),
		"larger than the limit":      strings.Repeat("roofyears: 1\n", 5<<20/13),
		"a long line":                fill("roofyears: 1\nstudy: [", "x,", "]"),
		"many mistakes in one line":  fill("roofyears: 1\nalternatives: [", "{a: 1},", "]"),
		"many systems":               study + many("  s%d: {}\n"),
		"many keys":                  "roofyears: 1\n" + many("k%d: 1\n"),
		"many texts with commas":     fill("roofyears: 1\nstudy: {title: x", ", a b", "}"),
		"a long name":                fill("roofyears: 1\n? ", "x", "\n: 1"),
		"a long number":              fill("roofyears: 1\nstudy: {period: ", "9", "}"),
		"a long text":                fill("roofyears: 1\nstudy: {title: ", "x", "}"),
		"many rates":                 fill("roofyears: 1\nstudy: {escalation: {fees: [", "x,", "]}}"),
		"comments":                   fill("", "#\n", ""),
		"keys of one item in a list": fill("roofyears: 1\nsystems: {a: {first_costs: [", "{item: 1},", "]}}"),
	} {
		f, diagnostics := Read(Source{Name: "bomb", Text: []byte(text)})
		assert.Nil(t, f, name)
		require.NotEmpty(t, diagnostics, name)
		assert.LessOrEqual(t, len(diagnostics), maxTold+1, name)
		for _, d := range diagnostics {
			assert.Less(t, len(d.String()), 2000, name)
		}
	}
}

func TestListsAreLimited(t *testing.T) {
	list := func(n int, entry string) string { return "[" + strings.Repeat(entry+",", n) + "]" }
	for path, text := range map[string]string{
		"systems.a.first_costs: 501 entries": "systems: {a: {first_costs: " + list(501, "{}") + "}}",
		"alternatives: 51 entries":           "alternatives: " + list(51, "{}"),
		"survey.planes: 101 entries":         "survey: {planes: " + list(101, "{}") + "}",
		"survey.openings: 101 entries":       "survey: {openings: " + list(101, "{}") + "}",
		"survey.penetrations: 101 entries":   "survey: {penetrations: " + list(101, "{}") + "}",
		"survey.gaps: 101 entries":           "survey: {gaps: " + list(101, "{}") + "}",
		"takeoff.steps: 101 entries":         "systems: {a: {}}\ntakeoff: {for: a, steps: " + list(101, "{}") + "}",
	} {
		_, diagnostics := Read(Source{Name: "x", Text: []byte("roofyears: 1\n" + text)})
		assert.Contains(t, told(diagnostics), path)
	}
	var quantities strings.Builder
	for i := range 501 {
		fmt.Fprintf(&quantities, "q%d: 1, ", i)
	}
	_, diagnostics := Read(Source{Name: "x", Text: []byte("roofyears: 1\nroof: {quantities: {" + quantities.String() + "}}")})
	assert.Contains(t, told(diagnostics), "roof.quantities: 501 entries")
}

// Repeating a value a few times is what aliases are for; repeating much of a
// file is refused.
func TestAliasesAreLimitedInSum(t *testing.T) {
	text := func(times int) string {
		return "roofyears: 1\nroof: &x [" + strings.Repeat("1,", 999) + "]\nalternatives: [" + strings.Repeat("*x,", times) + "]"
	}
	_, few := Read(Source{Name: "x", Text: []byte(text(100))})
	assert.NotContains(t, told(few), "aliases repeat more")
	_, many := Read(Source{Name: "x", Text: []byte(text(101))})
	assert.Equal(t, 1, strings.Count(told(many), "aliases repeat more than 100000 values"))
}

// manyUnused is a study with so many quantities that nothing is priced by.
func manyUnused(t testing.TB, n int) []byte {
	text, err := os.ReadFile(filepath.Join(testdata, "odd", "unused.yaml"))
	require.NoError(t, err)
	before, after, found := strings.Cut(string(text), "{seam_length: 9600 ft}\n")
	require.True(t, found)
	for i := range n {
		before += fmt.Sprintf("\n    q%d: 1", i)
	}
	return []byte(before + "\n" + after)
}

// Warnings that are not told are counted as warnings: the study is read.
func TestMoreWarningsThanTold(t *testing.T) {
	for n, last := range map[int]string{
		maxTold - 1: "systems.spare: no alternative comes to this system",
		maxTold:     "many.yaml: warning: 1 more warning is not shown",
		maxTold + 2: "many.yaml: warning: 3 more warnings are not shown",
	} {
		f, diagnostics := Read(Source{Name: "many.yaml", Text: manyUnused(t, n)})
		require.NotNil(t, f)
		assert.Len(t, f.Warnings, n+1)
		require.Len(t, diagnostics, min(n+1, maxTold+1))
		for _, d := range diagnostics {
			assert.Equal(t, Warn, d.Severity)
		}
		assert.Contains(t, diagnostics[len(diagnostics)-1].String(), last)
	}
}
