package report

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// storyStudy has a roof that stands for four years, then one of eight; and a
// coating of five years, recoated up to n times. Ten years from 2026.
func storyStudy(t *testing.T, recoats int, wait *lcc.Wait) *teller {
	t.Helper()
	in := studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting}, choice{name: "Coating", work: lcc.WorkRestore, first: 100}, choice{name: "New roof", work: lcc.WorkTearOff, first: 900})
	s := in.Result.Study
	years := func(n int64) lcc.Ref { return s.Add(lcc.Input{Unit: lcc.Years, Likely: decimal.NewFromInt(n)}) }
	s.Systems[0].Life, s.Systems[0].Then = years(4), 2
	s.Systems[1].Life, s.Systems[1].Then = years(3), 2
	s.Systems[2].Life = years(5)
	if recoats > 0 {
		s.Systems[1].Recoat = &lcc.Recoating{AtMost: recoats, Life: years(3), Costs: s.Systems[1].First}
	}
	s.Alternatives[1].Wait = wait
	r, err := s.Evaluate()
	require.NoError(t, err)
	return tell(Study{Result: r})
}

func TestStories(t *testing.T) {
	x := storyStudy(t, 2, nil)
	assert.Equal(t, "“Keep”: what is there now stays until year 4 (2030); new roof in year 4 (2030); the same again in year 9 (2035). At the end of the study the roof was last installed 1 year before.", x.story(0))
	assert.Equal(t, "“Coating”: coating now, recoated in years 3 (2029) and 6 (2032); new roof in year 9 (2035). At the end of the study the roof was last installed 1 year before.", x.story(1))
	assert.Equal(t, "“New roof”: new roof now; the same again in year 5 (2031). At the end of the study the roof was last installed 5 years before.", x.story(2))
	x = storyStudy(t, 1, &lcc.Wait{On: 0, Years: 4})
	assert.Equal(t, "“Coating”: what is there now stays until year 4 (2030); coating in year 4 (2030), recoated in year 7 (2033). At the end of the study the roof was last recoated 3 years before.", x.story(1))
	x = storyStudy(t, 0, &lcc.Wait{On: 0, Years: 0})
	assert.Equal(t, "“Coating”: coating now; new roof in year 3 (2029); the same again in year 8 (2034). At the end of the study the roof was last installed 2 years before.", x.story(1))
	plain := tell(studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting}))
	assert.Equal(t, "“Keep”: what is there now stays to the end of the study. No work is done within the study period.", plain.story(0))
}

func TestWhatToDoNext(t *testing.T) {
	keep := choice{name: "Keep", work: lcc.WorkExisting, yearly: 10_000}
	steps := func(choices ...choice) []string { return tell(studyOf(t, 3, choices...)).nextSteps() }
	last := "Have the owner's accountant confirm the discount rate and how the cost is treated."
	later := "Set money aside for the later work that the table of dated work shows, and keep up the inspections it counts on."

	assert.Equal(t, []string{"Do not choose on these figures: every alternative is ruled out. Have a licensed designer say what may be done to this roof, and price that."},
		steps(choice{name: "Keep", work: lcc.WorkExisting, ruledOut: "unsafe"}))
	assert.Equal(t, []string{"Price at least one other choice before deciding; a study of one alternative shows what it costs, not whether it is the best.",
		"Keep up inspections and repairs; look at the roof and at this comparison again every year.", last}, steps(keep))
	assert.Equal(t, []string{"Have the roof surveyed before signing: moisture, fasteners and seams, rust, and an adhesion test of the coating. Wet or unsound parts change the price, and may rule restoring out.", later, last},
		steps(keep, choice{name: "Restore", work: lcc.WorkRestore, first: 1000}))
	assert.Contains(t, steps(keep, choice{name: "Roof over", work: lcc.WorkRecover, first: 1000})[0], "have the layers counted")
	assert.Contains(t, steps(keep, choice{name: "Tear off", work: lcc.WorkTearOff, first: 1000})[0], "have asbestos ruled out")
	assert.Contains(t, steps(keep, choice{name: "Restore", work: lcc.WorkRestore, first: 85_000})[0], "Let something else than cost decide between “Restore” and “Keep”")
}

func TestWhatIsNotKnown(t *testing.T) {
	keep := choice{name: "Keep", work: lcc.WorkExisting, yearly: 10}
	x := tell(studyOf(t, 3, keep, choice{name: "Tear off", work: lcc.WorkTearOff, first: 1000}))
	assert.Equal(t, []string{"Where any of its 6 inputs comes from: none has a source.",
		"How sure its inputs are: none has a range, so nothing can be said about how sure the answer is.",
		"What it costs to keep up “Tear off”: the study states no annual or periodic cost, as it does for others.",
		"What is not in the file: warranties and their exclusions, insurance, what leaks would cost beyond the costs stated, and taxes."}, x.unknowns())
	x.study.Inputs[0].Source = "memo"
	x.study.Inputs[0].Shape = lcc.Normal
	assert.Equal(t, "Where 5 of its 6 inputs come from: they have no source.", x.unknowns()[0])
	assert.Len(t, x.unknowns(), 3)
	x = tell(studyOf(t, 3, keep, choice{name: "Tear off", work: lcc.WorkTearOff, first: 1000, yearly: 1}))
	assert.Len(t, x.unknowns(), 3, "every roof has upkeep")
	x = tell(studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting}, choice{name: "Tear off", work: lcc.WorkTearOff, first: 1000}))
	assert.Len(t, x.unknowns(), 3, "none has")
	x = tell(studyOf(t, 3, keep, choice{name: "Restore", work: lcc.WorkRestore, first: 1000}))
	assert.Contains(t, x.unknowns()[0], "Whether the roof may be restored")
}
