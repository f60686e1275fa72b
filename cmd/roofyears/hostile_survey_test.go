package main

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"roofyears/report/html/browsertest"
)

// surveyed is a study with a survey and a take-off whose texts of these keys
// are others; a plane keeps its name where an opening names it.
func surveyed(t *testing.T, change func() string, keys ...string) string {
	t.Helper()
	given, err := os.ReadFile("../../testdata/scenarios/good/survey.yaml")
	require.NoError(t, err)
	var root yaml.Node
	const plain = "discount_rate: 3%"
	require.Contains(t, string(given), plain)
	given = []byte(strings.Replace(string(given), plain, "discount_rate: {low: 2%, likely: 3%, high: 6%}", 1)) // a slider
	require.NoError(t, yaml.Unmarshal(given, &root))
	seen := map[string]bool{}
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		for i, c := range n.Content {
			if n.Kind == yaml.MappingNode && i%2 == 1 && c.Kind == yaml.ScalarNode && slices.Contains(keys, n.Content[i-1].Value) && c.Value != "East slope" {
				seen[n.Content[i-1].Value] = true
				c.Style, c.Tag, c.Value = yaml.DoubleQuotedStyle, "!!str", change()
			}
			walk(c)
		}
	}
	walk(&root)
	require.Len(t, seen, len(keys), "the study has texts of every kind")
	out, err := yaml.Marshal(&root)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "hostile.yaml")
	require.NoError(t, os.WriteFile(path, out, 0o600))
	return path
}

// Every text of a survey and of a take-off at once.
func TestHostileSurveyIsShownAsText(t *testing.T) {
	var all []string
	for _, what := range slices.Sorted(maps.Keys(hostile)) {
		all = append(all, hostile[what])
	}
	text, n, shown := strings.Join(all, " "), 0, []string{}
	path := surveyed(t, func() string {
		n++
		value := fmt.Sprintf("%d %s", n, text)
		shown = append(shown, value)
		return value
	}, "title", "name", "item", "source", "by", "found_by", "step", "note", "colour")
	page := pageOf(t, path)
	p := browsertest.Open(t, page, browsertest.Options{Width: 360, Height: 740})
	told := browsertest.Eval[string](p, everyText)
	for i, s := range shown {
		assert.True(t, strings.Contains(told, s), "text %d is not shown: %.3s", i+1, s)
	}
	assertHarmless(t, p)
	assertVerifies(t, page)
}
