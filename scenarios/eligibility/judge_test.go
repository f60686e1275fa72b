package eligibility

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

func ids(of []Judgement) []string {
	var out []string
	for _, j := range of {
		out = append(out, j.Rule.ID)
	}
	return out
}

func TestEligibleWithAllFound(t *testing.T) {
	s := Eligible(soundRoof())
	assert.True(t, s.Eligible)
	assert.Empty(t, s.Against)
	assert.Empty(t, s.Open)
	assert.Empty(t, s.Next)
	assert.Equal(t, []string{"coating-clause", "moisture-survey", "wet-share", "wet-part", "ponding", "coating-surface", "over-silicone",
		"adhesion", "perforated-panels", "section-loss", "deck", "structure-check", "asbestos"}, ids(s.Passed))
	assert.Equal(t, []string{"fire-class"}, ids(s.Advice))
	assert.Equal(t, []string{"building department, by telephone", survey}, s.Passed[0].From)
}

func TestEligibleWithAFailure(t *testing.T) {
	f, o := soundRoof()
	f.WetShare = number("0.34")
	o.WetPartReplaced = found(false)
	f.DeckSound = Known[bool]{}
	s := Eligible(f, o)
	assert.False(t, s.Eligible)
	require.Equal(t, []string{"wet-share", "wet-part"}, ids(s.Against))
	assert.Equal(t, "34% of the roof area is wet, over the customary threshold of 25%, and no cost line replaces the wet part", s.Against[0].Says)
	assert.Contains(t, s.Against[0].Rule.Source, "25%")
	assert.Equal(t, []string{survey}, s.Against[0].From)
	assert.Equal(t, []string{"deck"}, ids(s.Open))
	assert.Equal(t, []Need{needDeck}, s.Next)
}

// What several rules lack is asked for once.
func TestNextIsAskedOnce(t *testing.T) {
	s := Eligible(Findings{}, Option{Work: Restore})
	assert.True(t, s.Eligible) // nothing rules it out
	assert.Empty(t, s.Passed)
	assert.Equal(t, []Need{needCode, needCovering, needWetMethod, needWetShare, needPonding, needSurface, needExisting, needCoating,
		needDeck, needLoad, needReserve, needAsbestos}, s.Next)
	assert.Equal(t, []Need{needWork}, Eligible(Findings{}, Option{}).Next)
	assert.Equal(t, "have moisture surveyed with an instrument and cores; a roof consultant usually does this", needWetShare.String())
}

func TestKeepingConcernsNoRule(t *testing.T) {
	f, o := soundRoof()
	o.Work = Keep
	assert.Equal(t, Standing{Eligible: true}, Eligible(f, o))
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

func TestCheck(t *testing.T) {
	assert.NoError(t, Findings{}.Check())
	assert.NoError(t, Option{}.Check())
	whole := dec("0.6")
	f := Findings{
		Coverings: found(-1), WetShare: number("1.2"), Ponding: number("-0.1"), WetLimit: WetLimit{Share: dec("25")},
		Rust: found(Rust{Light: whole, Scaled: whole}), Reserve: number("-1"),
		Adhesion: found([]AdhesionTest{{Coating: Uncoated, Least: dec("-2")}}),
		Covering: found(Covering("straw")), Code: found(Code("ubc")), Asbestos: found(Asbestos("")),
	}
	assert.EqualError(t, f.Check(), `coverings -1: a number from 0
wet share 1.2: a share from 0 to 1
ponding -0.1: a share from 0 to 1
wet limit 25: a share from 0 to 1
all rust together 1.2: a share from 0 to 1
reserve -1: a load from 0
adhesion test of "none": not a coating
adhesion test with -2: a force from 0
adhesion test in 0 places: a number from 1
covering "straw": not a word known here
code "ubc": not a word known here
asbestos "": not a word known here`)
	o := Option{Work: "paint", Coating: found(Uncoated), Insulation: found(Insulation{Priced: true, Waived: "no"}), Share: number("60")}
	assert.EqualError(t, o.Check(), `work "paint": not one of the kinds of work
planned coating "none": a coating has a chemistry
insulation: both priced and waived
share 60: a share from 0 to 1`)
}
