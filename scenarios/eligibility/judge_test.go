package eligibility

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

// soundRoof is a roof that may be restored with silicone, all of it found.
func soundRoof() (Findings, Option) {
	f := Findings{
		Coverings: found(1), Covering: found(MetalPanel), Surface: found(SoundSurface), ExistingCoating: found(Uncoated),
		BaseSound: found(true), WaterSoaked: found(false), WetShare: number("0.04"), WetFoundBy: found(InstrumentAndCores),
		Ponding: number("0"), Adhesion: found([]AdhesionTest{test("2.6", 3)}), Rust: found(Rust{Light: dec("0.2")}),
		SectionLoss: found(false), DeckSound: found(true), Code: Found(ListClause, "building department, by telephone"), Asbestos: found(AsbestosNone),
	}
	o := Option{Work: Restore, Coating: found(Silicone), AddedLoad: number("0.2"), WetPartReplaced: found(true)}
	return f, o
}

// judged sorts what the rules say of an option; what does not concern it is left out.
func judged(f Findings, o Option) (ids map[Verdict][]string, says map[string]Judgement) {
	ids, says = map[Verdict][]string{}, map[string]Judgement{}
	for _, j := range Judge(f, o) {
		if j.Verdict != NotConcerned {
			ids[j.Verdict] = append(ids[j.Verdict], j.Rule.ID)
			says[j.Rule.ID] = j
		}
	}
	return ids, says
}

func TestJudgeWithAllFound(t *testing.T) {
	ids, says := judged(soundRoof())
	assert.Equal(t, map[Verdict][]string{
		Pass: {"coating-clause", "moisture-survey", "wet-share", "wet-part", "ponding", "coating-surface", "over-silicone",
			"adhesion", "perforated-panels", "section-loss", "deck", "structure-check", "asbestos"},
		Advice: {"fire-class"},
	}, ids)
	assert.Equal(t, []string{"building department, by telephone", survey}, says["coating-clause"].From)
}

func TestJudgeWithAFailure(t *testing.T) {
	f, o := soundRoof()
	f.WetShare = number("0.34")
	o.WetPartReplaced = found(false)
	f.DeckSound = Known[bool]{}
	ids, says := judged(f, o)
	assert.Equal(t, []string{"wet-share", "wet-part"}, ids[Fail])
	wet := says["wet-share"]
	assert.Equal(t, "34% of the roof area is wet, over the customary threshold of 25%, and no cost line replaces the wet part", wet.Says)
	assert.Contains(t, wet.Rule.Source, "25%")
	assert.Equal(t, []string{survey}, wet.From)
	assert.Equal(t, []string{"deck"}, ids[Open])
	assert.Equal(t, []Need{needDeck}, says["deck"].Needs)
}

// Nothing known rules nothing out and lets nothing pass; without the work every
// rule asks for it.
func TestJudgeWithNothingFound(t *testing.T) {
	ids, _ := judged(Findings{}, Option{Work: Restore})
	assert.NotEmpty(t, ids[Open])
	assert.Empty(t, ids[Fail])
	assert.Empty(t, ids[Pass])
	for _, j := range Judge(Findings{}, Option{}) {
		assert.Equal(t, []Need{needWork}, j.Needs, j.Rule.ID)
	}
}

func TestKeepingConcernsNoRule(t *testing.T) {
	f, o := soundRoof()
	o.Work = Keep
	ids, _ := judged(f, o)
	assert.Empty(t, ids)
}

// verb is one of those that rules are made with.
var verb = regexp.MustCompile(` (is|are|does|needs|holds) `)

func TestRulesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, r.ID)
		assert.False(t, seen[r.ID], "%s stands twice", r.ID)
		seen[r.ID] = true
		assert.Regexp(t, verb, r.Title, r.ID)
		assert.Regexp(t, `^[a-z].*[^.]$`, r.Title, r.ID)
		assert.Regexp(t, `^[^\[]{20,}$`, r.Source, r.ID) // for readers: no short key
		assert.NotEmpty(t, r.Mark.String(), r.ID)
		assert.NotEmpty(t, r.Works, r.ID)
		assert.False(t, r.Applies(""), r.ID)
		if r.Mark == Recall {
			assert.Contains(t, r.Source, "from memory", r.ID)
		}
	}
}
