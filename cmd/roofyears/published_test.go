package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// publishedCase is a case of testdata/published, as far as it is needed here;
// its file names the source.
type publishedCase struct {
	ID        string
	Expected  map[string]any
	Tolerance any
}

// publishedCases reads all cases by their id.
func publishedCases(t *testing.T) map[string]publishedCase {
	t.Helper()
	files, err := filepath.Glob("../../testdata/published/*.json")
	require.NoError(t, err)
	out := map[string]publishedCase{}
	for _, path := range files {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		var source struct{ Cases []publishedCase }
		if json.Unmarshal(text, &source) != nil {
			continue // the list of what is left out
		}
		for _, c := range source.Cases {
			out[c.ID] = c
		}
	}
	return out
}

// Published comparisons of alternatives, as study files through the whole
// chain: file, study, ledger, machine-readable answer. The ledger rounds each
// line to the cent, so half a cent a line is added to the source's tolerance.
func TestPublishedComparisonsAsStudyFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/scenarios/published/*.yaml")
	require.NoError(t, err)
	require.Len(t, files, 6)
	cases := publishedCases(t)
	for _, path := range files {
		id := strings.TrimSuffix(filepath.Base(path), ".yaml")
		t.Run(id, func(t *testing.T) {
			c, found := cases[id]
			require.True(t, found, "there is no published case %q", id)
			answer := answerOf(t, path)
			figures := map[string]object{}
			for _, v := range answer["alternatives"].([]any) {
				figures[v.(object)["name"].(string)] = v.(object)
			}
			for key, want := range c.Expected {
				if key == "lowest" {
					assert.Equal(t, want, answer["answer"].(object)["lowest"])
					continue
				}
				checkPublished(t, c, key, want.(float64), figures)
			}
		})
	}
}

// checkPublished compares one published figure, "A.lcc" or "-A.lcc".
func checkPublished(t *testing.T, c publishedCase, key string, want float64, figures map[string]object) {
	t.Helper()
	name, measure, _ := strings.Cut(strings.TrimPrefix(key, "-"), ".")
	require.Contains(t, figures, name)
	field, known := map[string]string{"lcc": "life_cycle_cost", "annual_worth": "annual_worth"}[measure]
	require.True(t, known, "%s is not looked at", key)
	got := amount(t, figures[name][field]).InexactFloat64()
	if strings.HasPrefix(key, "-") {
		got = -got
	}
	lines := len(figures[name]["ledger"].([]any))
	assert.InDelta(t, want, got, tolerance(t, c, key)+0.005*float64(lines), key)
}

func tolerance(t *testing.T, c publishedCase, key string) float64 {
	t.Helper()
	switch v := c.Tolerance.(type) {
	case float64:
		return v
	case map[string]any:
		return v[key].(float64)
	}
	t.Fatalf("%s has no tolerance", c.ID)
	return 0
}
