package scenarios

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNearest(t *testing.T) {
	keys := []string{"life", "name", "then", "residual", "first_costs", "annual_costs"}
	for name, want := range map[string]string{
		"lief": "life", "lives": "life", "thn": "then", "residaul": "residual", "resid": "residual",
		"first_cost": "first_costs", "annual": "annual_costs", "nmae": "name",
		"": "", "x": "", "lxyz": "", "colour": "", strings.Repeat("life", 20): "",
	} {
		assert.Equal(t, want, nearest(name, keys), name)
	}
	assert.Empty(t, nearest("a", []string{"b"}))
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"abc", "", 3}, {"abc", "abc", 0}, {"abc", "acb", 1}, {"abc", "axc", 1}, {"abc", "abcd", 1}, {"kitten", "sitting", 3}} {
		assert.Equal(t, c.want, distance([]rune(c.a), []rune(c.b)), c.a+" "+c.b)
		assert.Equal(t, c.want, distance([]rune(c.b), []rune(c.a)), c.b+" "+c.a)
	}
}

func TestQuotesShortenAndEscape(t *testing.T) {
	assert.Equal(t, `"a\tb\u202e"`, quote("a\tb\u202e"))
	assert.Equal(t, `"`+strings.Repeat("é", 60)+`"`, quote(strings.Repeat("é", 60)))
	assert.Equal(t, `"`+strings.Repeat("é", 60)+`…"`, quote(strings.Repeat("é", 61)))
}

func TestListsAreText(t *testing.T) {
	assert.Equal(t, "there is none", There(nil))
	assert.Equal(t, `there is "a"`, There([]string{"a"}))
	assert.Equal(t, `there are "a b", "c\td", ""`, There([]string{"a b", "c\td", ""}))
	assert.Equal(t, strings.Repeat(`"a", `, 12)+"… (13 in all)", Quoted(slices.Repeat([]string{"a"}, 13)))
	assert.Equal(t, "a, b", some([]string{"a", "", "b"}))
}

func TestALongLineIsShownAroundTheCaret(t *testing.T) {
	line := []rune(strings.Repeat("a", 300) + "X" + strings.Repeat("b", 300))
	shown := strings.Split(excerpt(line, 12, 301), "\n")
	assert.Equal(t, strings.Index(shown[0], "X"), strings.Index(shown[1], "^"))
	assert.Len(t, shown[0], len("   12 | ")+window)
}

// Every synonym is a word of people, not a key that every section has, and
// means keys that there are.
func TestSynonymsMeanKeys(t *testing.T) {
	for word, meant := range synonyms {
		for _, key := range meant {
			assert.NotEmpty(t, homeOf(key), "%s means %s", word, key)
			assert.NotEqual(t, word, key)
		}
	}
}

// Wording: lower case, no full stop, the thing first; an error says what was
// expected or how to mend it.
func TestVoice(t *testing.T) {
	proper := regexp.MustCompile(`^(UTF|YAML)`)
	for _, folder := range []string{"bad", "odd"} {
		for _, file := range files(t, folder) {
			_, diagnostics := read(t, file)
			for _, d := range diagnostics {
				mended := d.Severity != Error || d.Expected != "" || d.Hint != "" || strings.HasSuffix(d.What, "more errors are not shown")
				assert.True(t, mended, "%s: nobody is told what to write: %s", file, d.What)
				for _, text := range []string{d.What, d.Expected, d.Hint} {
					first := strings.SplitN(text, " ", 2)[0]
					assert.False(t, strings.HasSuffix(text, "."), text)
					assert.True(t, first == strings.ToLower(first) || strings.HasPrefix(first, `"`) || proper.MatchString(first), text)
				}
			}
		}
	}
}
