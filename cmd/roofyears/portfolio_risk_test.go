package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type chancesRow struct {
	ID           string    `json:"id"`
	Chances      []float64 `json:"chances_lowest"`
	Alternatives []struct {
		Standing string `json:"standing"`
	} `json:"alternatives"`
}

func chancesOf(t *testing.T, out string) (rows []chancesRow) {
	t.Helper()
	for _, line := range strings.Split(strings.TrimSpace(out), "\n") {
		var row chancesRow
		require.NoError(t, json.Unmarshal([]byte(line), &row))
		rows = append(rows, row)
	}
	return rows
}

// Each roof has chances that add up to one, on however many processors, and
// the spread of all stands beside the totals.
func TestChancesOfRoofs(t *testing.T) {
	summary := filepath.Join(t.TempDir(), "summary.json")
	args := []string{"--in", "csv", "--format", "ndjson", "--trials", "400", "--seed", "7", "--summary", summary, "example:portfolio", "-"}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	code, one, told := roofs(t, exampleRoofs(t), args...)
	require.Equal(t, exitDone, code, told)
	first := string(mustRead(t, summary))
	runtime.GOMAXPROCS(8)
	_, many, _ := roofs(t, exampleRoofs(t), args...)
	assert.True(t, one == many, "rows do not depend on processors")
	assert.Equal(t, first, string(mustRead(t, summary)))
	_, other, _ := roofs(t, exampleRoofs(t), append([]string{"--seed", "8"}, append(args[:5:5], args[7:]...)...)...)
	assert.NotEqual(t, one, other)

	unsure := 0
	for _, row := range chancesOf(t, one) {
		sum := 0.0
		for _, p := range row.Chances {
			sum += p
			if p > 0.05 && p < 0.95 {
				unsure++
			}
		}
		assert.InDelta(t, 1, sum, 1e-5, row.ID)
	}
	assert.Positive(t, unsure, "some roofs are unsure")
	assert.Contains(t, told, "400 futures; all roofs share the draws of 1 input, and each draws 7 inputs for itself\n")
	assert.Regexp(t, `(?m)^each roof's lowest: life-cycle cost \d+ USD to \d+ USD in 8 of 10 futures, \d+ USD on average; saves in [\d.]+% of them$`, told)
	var s struct {
		Risk struct {
			Trials int      `json:"trials"`
			Common []string `json:"common_inputs"`
			Lowest struct {
				Roofs int `json:"roofs"`
				Cost  struct{ P10, P50, P90, Mean, SD float64 }
			} `json:"each_roofs_lowest"`
		} `json:"risk"`
	}
	require.NoError(t, json.Unmarshal([]byte(first), &s))
	assert.Equal(t, []string{"study.discount_rate"}, s.Risk.Common)
	assert.Equal(t, 400, s.Risk.Trials)
	assert.Equal(t, 40, s.Risk.Lowest.Roofs)
}

// One roof alone, with nothing uncertain in its row, is as sure as its own risk
// says, up to the noise of other draws.
func TestChancesAreThoseOfRisk(t *testing.T) {
	code, out, told := roofs(t, "id\na\n", "--in", "csv", "--format", "ndjson", "--trials", "40000", "example:school", "-")
	require.Equal(t, exitDone, code, told)
	row := chancesOf(t, out)[0]
	var o, e bytes.Buffer
	require.Equal(t, exitDone, run([]string{name, "risk", "--json", "--trials", "40000", "example:school"}, stream{nil, &o, &e}), e.String())
	var own struct {
		Alternatives []struct {
			Name     string  `json:"name"`
			Cheapest float64 `json:"chance_cheapest"`
		} `json:"alternatives"`
	}
	require.NoError(t, json.Unmarshal(o.Bytes(), &own))
	require.Len(t, own.Alternatives, len(row.Chances))
	for i, a := range own.Alternatives {
		noise := 5 * math.Sqrt(2*a.Cheapest*(1-a.Cheapest)/40000)
		assert.InDelta(t, a.Cheapest, row.Chances[i], noise+1e-6, a.Name)
	}
}

// Rows that are read again with their survey, rows of several templates and
// rows with findings have chances too; what is ruled out has none.
func TestChancesOfOtherRoofs(t *testing.T) {
	_, out, told := roofs(t, "id,survey.wet.area,systems.existing.life\na,20000 ft2,\nb,,3\n", "--in", "csv", "--format", "ndjson", "--trials", "200", "example:cold-store", "-")
	for _, row := range chancesOf(t, out) {
		assert.NotEmpty(t, row.Chances, told)
	}
	_, out, told = roofs(t, "id,findings.wet_share\na,60%\nb,\n", "--in", "csv", "--format", "ndjson", "--trials", "200", "../../testdata/scenarios/good/findings-all.yaml", "-")
	rows := chancesOf(t, out)
	require.Len(t, rows, 2, told)
	for i, a := range rows[0].Alternatives {
		if a.Standing == "ruled out" {
			assert.Zero(t, rows[0].Chances[i])
		}
	}
	assert.Contains(t, fmt.Sprint(rows[0].Alternatives), "ruled out")
	other := otherTemplate(t, "name: Restore,", "name: Coat,")
	code, out, told := roofs(t, "id,template\na,\nb,x\n", "--in", "csv", "--format", "csv", "--trials", "100", "--template", "x="+other, "example:portfolio", "-")
	require.Equal(t, exitDone, code, told)
	assert.Contains(t, out, "Coat: chance_lowest")
	assert.NotContains(t, told, "futures", "common draws of two templates are not the same, so nothing is said of both together")

	for _, n := range []string{"-1", "1000001"} {
		code, _, told := roofs(t, "id\na\n", "--in", "csv", "--trials", n, "example:portfolio", "-")
		assert.Equal(t, exitUsage, code)
		assert.Contains(t, told, "expected 1 to 1000000")
	}
}
