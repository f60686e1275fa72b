package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/scenarios"
)

const coolRoofFile = "../../testdata/scenarios/good/cool-roof.yaml"

// The working on a page shows the money that the ledger charges, and the page
// verifies.
func TestCoolRoofOnThePage(t *testing.T) {
	study, err := commands{std: stream{nil, &bytes.Buffer{}, &bytes.Buffer{}}}.study(coolRoofFile)
	require.NoError(t, err)
	doc, err := report.Build(study)
	require.NoError(t, err)
	found := 0
	for _, s := range doc.Sections {
		if !strings.HasPrefix(s.ID, "cool-roof") {
			continue
		}
		shown := map[string]string{}
		for _, row := range s.Blocks[1].(report.Table).Rows {
			shown[row.Cells[0].Text] = row.Cells[1].Text
		}
		alternative := study.Result.Alternatives[found+1] // in the order of the systems, after the base case
		for item, label := range map[string]string{scenarios.ItemCoolingSaved: "Yearly cost: cooling saved", scenarios.ItemHeatingLost: "Yearly cost: heating lost"} {
			line := -1
			for i := range alternative.Ledger {
				if l := alternative.Ledger[i]; l.Item == item && l.System == study.CoolRoofs[found].System {
					line = i
					break
				}
			}
			require.GreaterOrEqual(t, line, 0, item)
			base := alternative.Ledger[line].Base
			assert.Equal(t, doc.Currency.Amount(base), shown[label])
			assert.Contains(t, s.Heading, doc.Currency.Amount(base.Abs()))
		}
		found++
	}
	assert.Equal(t, 2, found)
	code, out, errs := verified(t, quickPage(t, coolRoofFile))
	assert.Equal(t, exitDone, code, errs)
	assert.Contains(t, out, proved)
}

// What follows from other inputs is not varied by itself, and is not among
// what may move.
func TestDerivedInputsDoNotMove(t *testing.T) {
	var out, errs bytes.Buffer
	code := run([]string{name, "sensitivity", "--vary", "systems.coating.cool_roof.cooling_saved", "--from", "-9", "--to", "9", coolRoofFile}, stream{nil, &out, &errs})
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, errs.String(), `"systems.coating.cool_roof.cooling_saved" follows from the inputs of the reflective surface; vary one of those`)
	out.Reset()
	require.Equal(t, exitDone, run([]string{name, "break-even", coolRoofFile}, stream{nil, &out, &errs}))
	assert.Contains(t, out.String(), "Price of electricity")
	assert.NotContains(t, out.String(), "Cooling saved by")
}
