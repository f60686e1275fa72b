package lcc

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/checks"
)

// soundCase is a case that the runner passes; the bad ones are made from it.
const soundCase = `{"id": "x", "title": "level cost", "kind": "study", "convention": "end of year",
	"inputs": {"period": 2, "rate": "0%", "base": "B", "alternatives": [{"name": "A", "annual": 1}, {"name": "B", "first": 3}]},
	"expected": {"A.lcc": 2, "lowest": "A"}, "tolerance": 0}`

// A check that cannot fail is none: the runner refuses every case that would
// compare nothing, or not what it says.
func TestPublishedRunnerRefuses(t *testing.T) {
	n, problems := caseOf(t, soundCase).check()
	assert.Equal(t, 2, n)
	assert.Empty(t, problems)
	for _, bad := range []struct{ name, from, to, problem string }{
		{"a wrong number", `"A.lcc": 2`, `"A.lcc": 2.01`, "0.01 apart"},
		{"a wrong selection", `"lowest": "A"`, `"lowest": "B"`, `published is "B"`},
		{"a wrong sign", `"A.lcc"`, `"-A.lcc"`, "4 apart"},
		{"a number as text", `"A.lcc": 2`, `"A.lcc": "2"`, "no number"},
		{"null for a number", `"A.lcc": 2`, `"A.lcc": null`, "no number"},
		{"a selection as a number", `"lowest": "A"`, `"lowest": 1`, "no selection"},
		{"nothing expected", `{"A.lcc": 2, "lowest": "A"}`, `{}`, "nothing is expected"},
		{"a kind that is not there", `"kind": "study"`, `"kind": "studie"`, "no kind"},
		{"a measure that is not there", `"A.lcc"`, `"A.llc"`, "no measure"},
		{"an alternative that is not there", `"A.lcc"`, `"C.lcc"`, "no alternative"},
		{"a study that is not there", `"A.lcc"`, `"s:A.lcc"`, "no study"},
		{"a year that is not there", `"A.lcc"`, `"A.pv[3]"`, "no year"},
		{"a factor that is not there", `"A.lcc"`, `"G/P,3%,2"`, "no alternative"},
		{"an undefined measure", `"A.lcc"`, `"A.discounted_payback"`, "undefined"},
		{"an undefined ratio", `"A.lcc"`, `"A.airr"`, "undefined"},
		{"a rate of return with no tie", `"A.lcc"`, `"A.irr"`, "0 rates tie"},
		{"no tolerance", `, "tolerance": 0`, ``, "no tolerance"},
		{"a tolerance for nothing", `"tolerance": 0`, `"tolerance": {"lcc": 0, "lccs": 0}`, "no expected value"},
		{"an input that is not read", `"period": 2`, `"period": 2, "perod": 2`, "unknown field"},
		{"an item that is not read", `"annual": 1`, `"annual": 1, "anual": 1`, "unknown field"},
		{"a rate without a unit", `"0%"`, `"0.03"`, "percent"},
		{"a base case that is not there", `"base": "B"`, `"base": "D"`, "is not there"},
		{"years that do not fill the period", `"annual": 1`, `"yearly": [1]`, "1 yearly amounts for 2 years"},
		{"a year beyond the period", `"annual": 1`, `"at": {"3": 1}`, "year 3 of 2"},
		{"two residual values", `"annual": 1`, `"salvage": 1, "residual": 1`, "several residual values"},
		{"a category that is not there", `"annual": 1`, `"annual": 1, "category": "rent"`, "no category"},
		{"a quantity that is not there", `"annual": 1`, `"annual": {"price": 1, "per": "mile"}`, "no quantity"},
		{"a study that cannot be evaluated", `"period": 2`, `"period": 0`, "study period 0"},
		{"no title", `"title": "level cost"`, `"title": ""`, "is missing"},
	} {
		t.Run(bad.name, func(t *testing.T) {
			require.Contains(t, soundCase, bad.from)
			_, problems := caseOf(t, strings.Replace(soundCase, bad.from, bad.to, 1)).check()
			assert.Contains(t, strings.Join(problems, "\n"), bad.problem)
		})
	}
}

func TestPublishedFactorsRefuse(t *testing.T) {
	for _, bad := range []string{"P/Q,3%,2", "P/A,3,2", "P/A,3%,0", "P/A,3%", "x P/A,3%,2", "real(3%)", "unit.lcc", ""} {
		c := publishedCase{ID: "x", Title: "x", Convention: "x", Kind: "factors", Tolerance: json.RawMessage("1000000")}
		c.Expected = map[string]json.RawMessage{bad: json.RawMessage("1")}
		_, problems := c.check()
		assert.NotEmptyf(t, problems, "%q", bad)
	}
}

// Every measure that cases can name is named by one.
func TestPublishedMeasuresAreUsed(t *testing.T) {
	var keys strings.Builder
	for _, file := range publishedFiles(t) {
		for _, c := range file.Cases {
			for key := range c.Expected {
				keys.WriteString(key + "\n")
			}
		}
	}
	for name := range publishedMeasures {
		assert.Contains(t, keys.String(), "."+name+"\n")
	}
	for name := range publishedYearMeasures {
		assert.Contains(t, keys.String(), "."+name+"[")
	}
}

func caseOf(t *testing.T, text string) publishedCase {
	t.Helper()
	var c publishedCase
	require.NoError(t, checks.Strict([]byte(text), &c))
	return c
}
