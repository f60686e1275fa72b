package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/risk"
	"roofyears/lcc/vary"
)

// Each of these was read aloud.
func TestHeadingsAreTrueAtTheEdges(t *testing.T) {
	keep := choice{name: "Keep", work: lcc.WorkExisting, yearly: 10_000}
	out := func(c choice) choice { c.ruledOut = "unsafe"; return c }
	restore := choice{name: "Restore", work: lcc.WorkRestore, first: 40_000, yearly: 1000}
	for _, c := range []struct {
		name    string
		choices []choice
		want    []string // compare, events, cost, next
	}{
		{"restoring wins", []choice{keep, restore}, []string{
			"Side by side, “Restore” costs least",
			"“Restore” means work on the roof in 2026",
			"“Restore” costs $40,000.00 at the start, and $48,530.20 over 10 years",
			"The owner should have the roof surveyed before signing"}},
		{"keeping wins", []choice{{name: "Keep", work: lcc.WorkExisting, yearly: 100}, restore}, []string{
			"Side by side, “Keep” costs least",
			"“Keep” means no work on the roof within the study period",
			"“Keep” costs nothing at the start, and $853.02 over 10 years",
			"The owner should keep the roof up, and look again"}},
		{"a tie for practical purposes", []choice{keep, {name: "Restore", work: lcc.WorkRestore, first: 84_000}}, []string{
			"Side by side, “Restore” and “Keep” are too close to call",
			"“Restore” means work on the roof in 2026",
			"“Restore” costs $84,000.00 at the start, and $84,000.00 over 10 years",
			"The owner should let something else than cost decide"}},
		{"a tie to the cent", []choice{{name: "Roof over", work: lcc.WorkRecover, first: 500}, {name: "Tear off", work: lcc.WorkTearOff, first: 500}}, []string{
			"Side by side, “Roof over” and “Tear off” cost the same",
			"“Roof over” means work on the roof in 2026",
			"“Roof over” costs $500.00 at the start, and $500.00 over 10 years",
			"The owner should let something else than cost decide"}},
		{"one alternative", []choice{keep}, []string{
			"There is one alternative, and nothing beside it",
			"“Keep” means no work on the roof within the study period",
			"“Keep” costs nothing at the start, and $85,302.04 over 10 years",
			"The owner should price another choice before deciding"}},
		{"one eligible", []choice{keep, out(restore)}, []string{
			"Side by side, only “Keep” may be chosen",
			"“Keep” means no work on the roof within the study period",
			"“Keep” costs nothing at the start, and $85,302.04 over 10 years",
			"The owner should price another choice before deciding"}},
		{"nothing eligible", []choice{out(keep), out(restore)}, []string{
			"None of the alternatives may be chosen",
			"Each choice means other work on this roof",
			"What each alternative costs at the start, and over 10 years",
			"The owner should not choose on these figures"}},
		{"a grant", []choice{keep, {name: "Tear off", work: lcc.WorkTearOff, first: -500}}, []string{
			"Side by side, “Tear off” costs least",
			"“Tear off” means work on the roof in 2026",
			"“Tear off” costs less than nothing at the start, and -$500.00 over 10 years",
			"The owner should have code, deck and asbestos settled before signing"}},
		{"roofing over", []choice{keep, {name: "Roof over", work: lcc.WorkRecover, first: 500}}, []string{
			"Side by side, “Roof over” costs least",
			"“Roof over” means work on the roof in 2026",
			"“Roof over” costs $500.00 at the start, and $500.00 over 10 years",
			"The owner should have layers, water and structure checked before signing"}},
		{"another kind of work", []choice{keep, {name: "Something", first: 500}}, []string{
			"Side by side, “Something” costs least",
			"“Something” means work on the roof in 2026",
			"“Something” costs $500.00 at the start, and $500.00 over 10 years",
			"The owner should settle what is open before signing"}},
	} {
		x := tell(studyOf(t, 3, c.choices...))
		assert.Equal(t, c.want, []string{x.compareHeading(), x.eventsHeading(), x.costHeading(), x.nextHeading()}, c.name)
	}
}

func TestManyRenewalsAreCounted(t *testing.T) {
	in := studyOf(t, 3, choice{name: "Coat", work: lcc.WorkRestore, first: 10})
	s := in.Result.Study
	s.Inputs[s.Systems[0].Life].Likely = one
	r, err := s.Evaluate()
	require.NoError(t, err)
	assert.Equal(t, "“Coat” means work on the roof 10 times in 10 years, first in 2026", tell(Study{Result: r}).eventsHeading())
}

func TestHeadingsOfWhatWouldChange(t *testing.T) {
	two := tell(studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting, yearly: 10}, choice{name: "Restore", first: 500}))
	alone := tell(studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting, yearly: 10}))
	flips := vary.Swing{Flips: true}
	assert.Equal(t, "Nothing can change the answer while there is one choice at most", alone.changeHeading(nil, nil))
	assert.Equal(t, "How far each input may move before the answer changes", two.changeHeading(nil, nil))
	assert.Equal(t, "No input changes the answer at an end of its range", two.changeHeading([]vary.Swing{{}}, nil))
	assert.Equal(t, "One input changes the answer at an end of its range", two.changeHeading([]vary.Swing{{}, flips}, nil))
	assert.Equal(t, "Two inputs change the answer at an end of their range", two.changeHeading([]vary.Swing{flips, {}, flips}, nil))
	assert.Equal(t, "12 inputs change the answer at an end of their range", two.changeHeading(make12(flips), nil))
}

// A life may change the answer in the middle of its range and at neither end.
func TestHeadingOfAChangeWithinARange(t *testing.T) {
	x := asked(t)
	in := &x.study.Inputs[rateIn]
	in.Shape, in.Low, in.High = lcc.Triangular, num("0.02"), num("0.06")
	inside := *held(rateIn, "0", "0.12", nil, tie(keepIt, "0.05"))
	outside := *held(rateIn, "0", "0.12", nil, tie(keepIt, "0.07"))
	flips := vary.Swing{Flips: true}
	heading := func(s vary.Swing, holds ...lcc.Hold) string { return x.changeHeading([]vary.Swing{s}, holds) }
	assert.Equal(t, "No input changes the answer at an end of its range", heading(vary.Swing{}, outside))
	assert.Equal(t, "One input changes the answer within its range, though not at an end of it", heading(vary.Swing{}, outside, inside))
	assert.Equal(t, "Two inputs change the answer within their range, though not at an end of it", heading(vary.Swing{}, inside, inside))
	assert.Equal(t, "One input changes the answer at an end of its range", heading(flips, inside))
}

func make12(s vary.Swing) []vary.Swing {
	out := make([]vary.Swing, 12)
	for i := range out {
		out[i] = s
	}
	return out
}

func TestHeadingsOfRisk(t *testing.T) {
	x := tell(studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting, yearly: 10}, choice{name: "Restore", first: 500}))
	r := &risk.Result{Alternatives: make([]risk.Spread, 2), Chosen: 1, Rival: 0}
	assert.Equal(t, "How sure the answer is cannot be said without ranges", x.riskHeading(r))
	r.Influences = make([]risk.Influence, 1)
	r.Alternatives[1].Cheapest = 0.954
	assert.Equal(t, "“Restore” is the cheapest in 95.4% of the simulated futures", x.riskHeading(r))
	r.Alternatives[1].Cheapest = 1
	assert.Equal(t, "“Restore” is the cheapest in 100% of the simulated futures", x.riskHeading(r))
	r.Rival = -1
	assert.Equal(t, "What the alternatives may cost when all that is uncertain moves together", x.riskHeading(r))
}

func TestHeadingsOfSources(t *testing.T) {
	x := tell(studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting, yearly: 10}))
	inputs := x.study.Inputs
	assert.Equal(t, "None of the inputs behind these figures has a source", x.inputsHeading())
	assert.Equal(t, "Ask the preparer for sources before relying on the result.", x.unsourcedText())
	inputs[0].Source = "memo"
	assert.Equal(t, "One of the 4 inputs behind these figures has a source", x.inputsHeading())
	assert.Equal(t, "The others rest on the preparer's word.", x.unsourcedText())
	inputs[1].Source = "memo"
	assert.Equal(t, "2 of the 4 inputs behind these figures have a source", x.inputsHeading())
	inputs[2].Source, inputs[3].Source = "memo", "memo"
	assert.Equal(t, "All inputs behind these figures have a source", x.inputsHeading())
	assert.Equal(t, "It stands beside each of them.", x.unsourcedText())
}

func TestWhatAPresentValueIs(t *testing.T) {
	keep := choice{name: "Keep", work: lcc.WorkExisting, yearly: 10}
	end := " What is left of the roof at the end is deducted. Lower is better."
	assert.Equal(t, "Amounts are present values: what would have to be set aside at the start, growing by 3% a year, to pay for everything up to year 10 (2036)."+end, tell(studyOf(t, 3, keep)).presentValueText())
	assert.Equal(t, "Amounts are plain sums up to year 10 (2036): at a discount rate of 0%, later money counts in full."+end, tell(studyOf(t, 0, keep)).presentValueText())
	assert.Equal(t, "Amounts are present values up to year 10 (2036): at a discount rate of -2%, later money counts for more than money now."+end, tell(studyOf(t, -2, keep)).presentValueText())
}

func TestSmallNumbersAreWords(t *testing.T) {
	assert.Equal(t, []string{"no things", "one thing", "nine things", "10 things"},
		[]string{counted(0, "thing"), counted(1, "thing"), counted(9, "thing"), counted(10, "thing")})
	assert.Equal(t, "This study leaves one thing open", unknownHeading(1))
}
