package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/risk"
)

// sureRoofs are roofs whose lowest alternative has these chances of being the
// cheapest; below nothing, none may be chosen.
func sureRoofs(t *testing.T, chances ...float64) RoofsPage {
	t.Helper()
	study := studyOf(t, 2, patch, coat).Result.Study
	in := tableOf(t, nil, study)
	in.Roofs.chances = true
	for _, p := range chances {
		in.add(t, 0, 1000)
		r := in.Rows[len(in.Rows)-1]
		if p < 0 {
			r.Answer = lcc.RoofAnswer{Lowest: -1, RunnerUp: -1}
			continue
		}
		r.Chances = []float64{1 - p, 1 - p}
		r.Chances[r.Answer.Lowest] = p
	}
	return in
}

// Each of these was read aloud.
func TestHeadingsOfASpread(t *testing.T) {
	const told = " The chance of each roof stands in the table of all roofs."
	for _, c := range []struct {
		name          string
		chances       []float64
		heading, lead string
	}{
		{"one, sure", []float64{1}, "The answer is clear for the roof",
			"The lowest alternative at likely values is also the cheapest in at least 95% of the simulated futures for the roof." + told},
		{"one, unsure", []float64{0.6}, "The answer is not clear for the roof",
			"The lowest alternative at likely values is also the cheapest in more than half of the simulated futures, though not in 95% of them, for the roof." + told},
		{"all sure", []float64{1, 0.95}, "The answer is clear for both roofs",
			"The lowest alternative at likely values is also the cheapest in at least 95% of the simulated futures for both roofs." + told},
		{"none sure", []float64{0.94, 0.7, 0.3}, "The answer is clear for none of three roofs",
			"The lowest alternative at likely values is also the cheapest in more than half of the simulated futures, though not in 95% of them, for two roofs; in half of them or fewer for one: look at that one again before signing." + told},
		{"some of each", []float64{1, 1, 0.8, 0.5, 0.1}, "The answer is clear for two of five roofs",
			"The lowest alternative at likely values is also the cheapest in at least 95% of the simulated futures for two roofs; in more than half of them for one; in half of them or fewer for two: look at those again before signing." + told},
		{"nothing to choose", []float64{-1}, "No roof has an answer to be sure of",
			"No roof has a lowest alternative, so none has a chance to be the cheapest."},
	} {
		in := sureRoofs(t, c.chances...)
		x := tellRoofs(in)
		assert.Equal(t, c.heading, x.spreadHeading(), c.name)
		assert.Equal(t, c.lead, x.sureText(), c.name)
		BuildRoofs(in)
		in.Risk = &risk.RoofsResult{Trials: fewTrials - 1}
		if len(x.Rows[0].Chances) > 0 {
			assert.Equal(t, c.lead+" So few futures tell little about a chance.", tellRoofs(in).sureText(), c.name)
		}
	}
}

// The table has what the simulation gives, in whole units; what is ruled out
// somewhere, and the base case, say so.
func TestSpreadIsWhatWasDrawn(t *testing.T) {
	in := sureRoofs(t, 1, 1)
	cost := risk.Range{Mean: 1000.6, SD: 10.4, P10: 990, P50: 1000, P90: 1010}
	in.Risk = &risk.RoofsResult{
		Trials: 2000, Seed: 7, Roofs: 2, Common: []lcc.Ref{0}, Local: []lcc.Ref{1, 2},
		Alternatives: []risk.RoofsTotal{{Roofs: 2, Cost: cost}, {Roofs: 2, RuledOut: 1, Cost: cost, Saving: risk.Range{Mean: -5.4}, Saves: 0.25}},
		Choices:      []risk.RoofsTotal{{Roofs: 2, Cost: cost, Saving: risk.Range{Mean: 50}, Saves: 1}},
	}
	x := tellRoofs(in)
	table := x.spreadTable()
	var got [][]string
	for _, row := range table.Rows {
		require.Len(t, row.Cells, len(table.Columns))
		var cells []string
		for _, c := range row.Cells {
			cells = append(cells, c.Show(x.cur))
		}
		got = append(got, cells)
	}
	assert.Equal(t, [][]string{
		{"Patch", "1,001", "10", "990", "1,000", "1,010", "base case", "–"},
		{"Coat", "1,001", "10", "990", "1,000", "1,010", "-5", "25%"},
		{"Each roof’s lowest", "1,001", "10", "990", "1,000", "1,010", "50", "100%"},
	}, got)
	assert.Equal(t, "ruled out for 1 roof, whose cost is counted here all the same", table.Rows[1].Cells[0].Note)
	assert.Equal(t, "What all may cost together, over 2,000 futures, seed 7: in each of them all roofs have the draws of one uncertain input in common (rates and prices), and each draws two uncertain inputs for itself, such as lives and quantities. So bad luck with one roof is made up by good luck with another, while a rate meets all of them.", x.futuresText())
	in.Risk.Common, in.Risk.Local = nil, nil
	assert.Equal(t, "What all may cost together, over 2,000 futures, seed 7: nothing in them is uncertain.", tellRoofs(in).futuresText())
	in.Risk.Local = []lcc.Ref{1}
	assert.Equal(t, "What all may cost together, over 2,000 futures, seed 7: each roof draws one uncertain input for itself, such as lives and quantities. So bad luck with one roof is made up by good luck with another.", tellRoofs(in).futuresText())
}
