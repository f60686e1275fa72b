package html

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios/contrast"
)

// palette is the colours of a theme by their names in the style sheet.
type palette map[string]contrast.Colour

var property = regexp.MustCompile(`--([a-z0-9-]+):\s*(#[0-9a-fA-F]{6});`)

// themes reads the two palettes from the style sheet itself.
func themes(t *testing.T) map[string]palette {
	t.Helper()
	out := map[string]palette{}
	for name, start := range map[string]string{"light": "\n:root {", "dark": "  :root:not(.printing) {"} {
		_, rest, found := strings.Cut(styleSheet, start)
		require.True(t, found, "the style sheet has no %q", start)
		block, _, _ := strings.Cut(rest, "}")
		colours := palette{}
		for _, m := range property.FindAllStringSubmatch(block, -1) {
			c, ok := contrast.Parse(m[2])
			require.True(t, ok, m[2])
			colours[m[1]] = c
		}
		out[name] = colours
	}
	require.ElementsMatch(t, names(out["light"]), names(out["dark"]), "both themes set the same colours")
	return out
}

func names(p palette) []string {
	var out []string
	for name := range p {
		out = append(out, name)
	}
	return out
}

var seriesNames = []string{"s1", "s2", "s3", "s4", "s5", "s6", "s7", "s8"}

// Every colour of text on every background: WCAG 2.2, SC 1.4.3. What the page itself makes of them
// is looked at in a browser (TestTextHasContrast of the command).
func TestTextColoursHaveContrast(t *testing.T) {
	for theme, p := range themes(t) {
		for _, text := range []string{"ink", "muted", "accent", "accent-2", "warn"} {
			for _, under := range []string{"paper", "tint", "warn-tint"} {
				wantRatio(t, contrast.Least, p.of(t, text), p.of(t, under), theme+": "+text+" on "+under)
			}
		}
	}
}

// Labels on a series colour stand on a tint of it, of the strength that the style sheet says.
func TestTintsOfSeriesKeepContrast(t *testing.T) {
	for what, rule := range map[string]*regexp.Regexp{
		"cell of a map":        regexp.MustCompile(`td\.hue \{[^}]*color-mix\(in srgb, var\(--c\) (\d+)%, var\(--paper\)\)`),
		"bar of the time line": regexp.MustCompile(`svg\.timeline \.bar \{[^}]*fill-opacity: \.(\d+);`),
	} {
		m := rule.FindStringSubmatch(styleSheet)
		require.NotNil(t, m, "the style sheet does not say how strong the tint of a %s is", what)
		percent, err := strconv.Atoi(m[1])
		require.NoError(t, err)
		for theme, p := range themes(t) {
			for _, s := range seriesNames {
				tinted := p.of(t, s).Over(p.of(t, "paper"), float64(percent)/100)
				wantRatio(t, contrast.Least, p.of(t, "ink"), tinted, theme+": "+what+", "+s)
			}
		}
	}
}

// What is drawn, and the outline of the focus, is told from the paper: WCAG 2.2, SC 1.4.11; the
// focus is outlined in the accent.
func TestDrawnColoursHaveContrast(t *testing.T) {
	require.Regexp(t, `:focus-visible \{ outline: 2px solid var\(--accent\);`, styleSheet)
	for theme, p := range themes(t) {
		for _, drawn := range append([]string{"accent", "warn", "muted"}, seriesNames...) {
			wantRatio(t, contrast.NonText, p.of(t, drawn), p.of(t, "paper"), theme+": "+drawn)
		}
	}
}

func (p palette) of(t *testing.T, name string) contrast.Colour {
	t.Helper()
	c, found := p[name]
	require.True(t, found, "the style sheet sets no --%s", name)
	return c
}

func wantRatio(t *testing.T, least float64, a, b contrast.Colour, what string) {
	t.Helper()
	assert.GreaterOrEqual(t, contrast.Ratio(a, b), least, what)
}
