package scenarios

import (
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/scenarios/eligibility"
)

// goodStudy reads a good file.
func goodStudy(t *testing.T, name string) *lcc.Study {
	t.Helper()
	f, diagnostics := read(t, filepath.Join(testdata, "good", name))
	require.NotNil(t, f, told(diagnostics))
	return f.Study
}

// goodText is the text of a good file.
func goodText(t *testing.T, name string) string {
	t.Helper()
	src, err := Load(filepath.Join(testdata, "good", name))
	require.NoError(t, err)
	return string(src.Text)
}

// said gives what a rule says of an alternative, after its verdict.
func said(t *testing.T, a lcc.Alternative, rule string) (lcc.Verdict, string) {
	t.Helper()
	for _, c := range a.Checks {
		if c.Rule == rule {
			return c.Verdict, c.Text
		}
	}
	require.Fail(t, "no rule "+rule)
	return 0, ""
}

// What a file states comes to the rules: value, source and unit.
func TestFindingsComeToTheRules(t *testing.T) {
	s := goodStudy(t, "findings-all.yaml")
	assert.Equal(t, eligibility.Deference, s.Deference)
	assert.Empty(t, s.Alternatives[0].Checks, "no rule speaks of keeping")
	restore, tearOff := s.Alternatives[1], s.Alternatives[2]
	for _, c := range []struct {
		of      lcc.Alternative
		rule    string
		verdict lcc.Verdict
		text    string
	}{
		{restore, "coating-clause", lcc.RulePasses, "the code adopted here lets metal panels be coated without tear-off"},
		{restore, "moisture-survey", lcc.RulePasses, "moisture was surveyed by an instrument with cores"},
		{restore, "wet-share", lcc.RulePasses, "8% of the roof area is wet, not over the local threshold of 20%"},
		{restore, "wet-part", lcc.RulePasses, "8% of the roof area is wet, and a cost line replaces it"},
		{restore, "ponding", lcc.RulePasses, "no water stands on the roof over 48 hours"},
		{restore, "coating-surface", lcc.RulePasses, "the surface is none of those that no coating holds on"},
		{restore, "over-silicone", lcc.RulePasses, "the existing roof is not coated with silicone"},
		{restore, "adhesion", lcc.RulePasses, "the planned coating held with 2.4 lb per inch at the least, not under the usual 2 lb per inch, in 4 places"},
		{restore, "perforated-panels", lcc.RuleFails, "1% of the roof's metal is rusted through, and no cost line replaces those panels"},
		{restore, "section-loss", lcc.RulePasses, "what rust there is lies on the surface"},
		{restore, "deck", lcc.RulePasses, "the deck is sound"},
		{restore, "structure-check", lcc.RulePasses, "the structure was checked and can still take 5.22 psf"},
		{restore, "asbestos", lcc.RulePasses, "a survey found no asbestos"},
		{restore, "fire-class", lcc.RuleAdvises, "the assembly is shown to hold its fire class; keep the listing with the contract"},
		{tearOff, "parapets", lcc.RulePasses, "there are no parapets of unreinforced masonry"},
		{tearOff, "structure-reserve", lcc.RuleOpen, "not yet known: the load that the option adds"},
		{tearOff, "energy-insulation", lcc.RuleOpen, "the insulation lies above the deck and bounds the heated or cooled space, so the energy code asks to bring it up"},
		{tearOff, "pull-out", lcc.RuleAdvises, "the deck is steel; have fasteners pulled if it is old or doubtful"},
	} {
		verdict, text := said(t, c.of, c.rule)
		assert.Equal(t, c.verdict, verdict, c.rule)
		assert.Equal(t, c.text, text, c.rule)
	}
	for _, c := range restore.Checks {
		if c.Rule == "wet-part" {
			assert.Equal(t, []string{"infrared survey with cores, 2026-06-20", "cost item “Cut out wet insulation”"}, c.From)
		}
	}
}

// A rule that fails rules the alternative out, and it is not the answer.
func TestARuleThatFailsRulesOut(t *testing.T) {
	s := goodStudy(t, "findings-all.yaml")
	require.NotNil(t, s.Alternatives[1].RuledOut)
	assert.Equal(t, lcc.Ruling{
		Rule:    "metal panels that are rusted through are replaced, not coated",
		Finding: "1% of the roof's metal is rusted through, and no cost line replaces those panels",
		Source:  "trade texts, which agree; no share of rust beyond which a roof is not coated was found",
		Further: []lcc.Ruling{},
	}, *s.Alternatives[1].RuledOut)
	r, err := s.Evaluate()
	require.NoError(t, err)
	require.True(t, r.Difference(1, r.Answer.Lowest).IsNegative(), "it would be the cheapest")
	assert.NotEqual(t, 1, r.Answer.Lowest)
}

// Without findings no rule is put; with none known, every rule is open.
func TestNothingKnownIsOpen(t *testing.T) {
	s := goodStudy(t, "findings-nothing-known.yaml")
	for _, a := range s.Alternatives {
		assert.Nil(t, a.RuledOut)
		for _, c := range a.Checks {
			assert.Contains(t, []lcc.Verdict{lcc.RuleOpen, lcc.RuleAdvises}, c.Verdict, c.Rule)
		}
	}
	assert.Len(t, s.Alternatives[1].Missing(), 12)
	for _, file := range files(t, "good") {
		if name := filepath.Base(file); name[:8] != "findings" {
			s := goodStudy(t, name)
			assert.Empty(t, s.Deference, name)
			for _, a := range s.Alternatives {
				assert.Empty(t, a.Checks, name)
			}
		}
	}
}

// Loads and peel forces are judged in the system of the plan area.
func TestFindingsAreConverted(t *testing.T) {
	restore := goodStudy(t, "findings-metric.yaml").Alternatives[1]
	_, text := said(t, restore, "structure-check")
	assert.Equal(t, "the structure was checked and can still take 0.2394 kN/m2", text)
	_, text = said(t, restore, "wet-share")
	assert.Equal(t, "not yet known: the share of the roof area that is wet", text)
	_, text = said(t, restore, "structure-reserve")
	assert.Equal(t, "not yet known: the number of existing roof coverings", text, "0.01 kN/m2 is light")
}

// What the file rules out by hand keeps its own ruling, and its checks.
func TestARulingByHandStays(t *testing.T) {
	f, diagnostics := read(t, filepath.Join(testdata, "good", "findings-by-hand.yaml"))
	require.NotNil(t, f, told(diagnostics))
	a := f.Study.Alternatives[1]
	assert.Equal(t, "the owner's insurer bars it", a.RuledOut.Rule)
	verdict, _ := said(t, a, "deck")
	assert.Equal(t, lcc.RuleFails, verdict)
}

// Of a work that rules do not know, one check says so.
func TestAWorkOfAnotherKindIsOpen(t *testing.T) {
	checks := checksOf(eligibility.Findings{}, eligibility.Option{})
	require.Len(t, checks, 1)
	assert.Equal(t, []string{"work", "not yet known: what kind of work this option is"}, []string{checks[0].Rule, checks[0].Text})
	assert.Equal(t, lcc.RuleOpen, checks[0].Verdict)
}

// Several rules that fail make one ruling, the first in front.
func TestSeveralRulesAgainst(t *testing.T) {
	none, yes := eligibility.Found(false, ""), eligibility.Found(true, "survey")
	f := eligibility.Findings{Coverings: eligibility.Found(2, "survey"), DeckSound: none, WaterSoaked: yes}
	checks := checksOf(f, eligibility.Option{Work: eligibility.Recover, SeparateSystem: none, WetPartReplaced: none, DeckRepaired: none})
	ruling := lcc.Against(checks)
	require.NotNil(t, ruling)
	assert.Equal(t, "a roof with two or more coverings is not roofed over", ruling.Rule)
	require.Len(t, ruling.Further, 2)
	assert.Equal(t, "the existing roof is water soaked, and no cost line replaces the wet part", ruling.Further[0].Finding)
	assert.Equal(t, "the deck is unsound, and no cost line repairs it", ruling.Further[1].Finding)
	assert.Nil(t, lcc.Against(nil))
}

// A survey in the file fills what the section leaves out; what both state is
// an error.
func TestASurveyFillsFindings(t *testing.T) {
	surveyed := eligibility.Findings{
		WetShare: eligibility.Found(share.high, "survey"), WetFoundBy: eligibility.Found(eligibility.CoresOnly, "survey"),
		Ponding: eligibility.Found(share.high, "survey"), Rust: eligibility.Found(eligibility.Rust{Light: share.high}, "survey"),
	}
	from := func(text string) (eligibility.Findings, string) {
		r := &reader{notes: notes{file: "roof.yaml", text: text}, study: &lcc.Study{}}
		root := parse(text, func(at place, m message) { r.fail(at, "", m) })
		s, ok := r.section(root, "findings", inFindings, findingKeys)
		require.True(t, ok)
		return r.findingsOf(s, surveyed), told(r.all())
	}
	f, errors := from("deck_sound: true\n")
	assert.Empty(t, errors)
	assert.Equal(t, "survey", f.WetShare.Source())
	assert.Equal(t, "survey", f.Rust.Source())
	assert.True(t, f.DeckSound.IsKnown())
	_, errors = from("wet_share: 10%\nwet_found_by: eye\nponding_share: 0\nrust: {light: 1%}\n")
	for _, key := range []string{"wet_share", "wet_found_by", "ponding_share", "rust"} {
		assert.Contains(t, errors, `findings: "`+key+`" is stated twice: here and by the survey`)
	}
}

// A good file states every fact that rules look at, so that a fact without a
// key fails here.
func TestEveryFactHasAKey(t *testing.T) {
	f := eligibilityOf(t, "findings-all.yaml")
	for _, facts := range []reflect.Value{reflect.ValueOf(f.found), reflect.ValueOf(f.options[1])} {
		for i := range facts.NumField() {
			field := facts.Type().Field(i)
			assert.False(t, facts.Field(i).IsZero() && field.Name != "Units", "no key states %s", field.Name)
		}
	}
}

// eligibilityOf reads a good file and keeps what was read.
func eligibilityOf(t *testing.T, name string) *reader {
	t.Helper()
	src, err := Load(filepath.Join(testdata, "good", name))
	require.NoError(t, err)
	r := newReader(src)
	r.text = string(src.Text)
	root := parse(r.text, func(at place, m message) { r.fail(at, "", m) })
	r.root(root)
	require.False(t, r.failed(), told(r.all()))
	return r
}

// What is rusted through is known where it is stated, none of it too; other
// grades do not tell it, in the findings or in a survey.
func TestRustThroughIsKnownWhereItIsStated(t *testing.T) {
	text := goodText(t, "findings-all.yaml")
	before := `rust: {light: 20%, perforated: 1%, source: "roof survey, 2026-06-18"}`
	require.Contains(t, text, before)
	for rust, want := range map[string]lcc.Verdict{
		before: lcc.RuleFails, "rust: {light: 20%, perforated: 0}": lcc.RulePasses, "rust: {perforated: 0}": lcc.RulePasses,
		"rust: {light: 20%}": lcc.RuleOpen, "rust: {light: 1%, scaled: 1%}": lcc.RuleOpen,
	} {
		f, diagnostics := Read(Source{Name: "rust.yaml", Text: []byte(strings.Replace(text, before, rust, 1))})
		require.NotNil(t, f, told(diagnostics))
		verdict, _ := said(t, f.Study.Alternatives[1], "perforated-panels")
		assert.Equal(t, want, verdict, rust)
	}
	for rust, want := range map[string]bool{"{light: 12%, scaled: 2%, perforated: 1.5%}": true, "{light: 12%, scaled: 2%, perforated: 0}": true, "{light: 12%, scaled: 2%}": false} {
		text := strings.Replace(goodText(t, "survey.yaml"), "{light: 12%, scaled: 2%, perforated: 1.5%}", rust, 1)
		text = strings.ReplaceAll(text, "per: perforated", "per: light_rust")
		r := newReader(Source{Name: "survey.yaml"})
		r.root(parse(text, func(at place, m message) { r.fail(at, "", m) }))
		require.False(t, r.failed(), told(r.all()))
		assert.Equal(t, want, r.surveyFindings().Rust.IsKnown(), rust)
	}
}

// A name tells the work where nothing else does. Panels that come coated are
// no coating.
func TestWorkThatANameTells(t *testing.T) {
	for name, want := range map[string]lcc.Work{
		"coating": lcc.WorkRestore, "elastomeric_coat": lcc.WorkRestore, "coated": lcc.WorkRestore, "coated_roof": lcc.WorkRestore, "recoat": lcc.WorkRestore,
		"two_coats_of_acrylic": lcc.WorkRestore, "roof_coatings": lcc.WorkRestore, "restoration": lcc.WorkRestore, "restored": lcc.WorkRestore,
		"new_pre_coated_metal_roof": lcc.WorkOther, "precoated_panels": lcc.WorkOther, "new_roof,_factory_coated": lcc.WorkOther, "stone_coated_steel": lcc.WorkOther,
		"replace_and_coat": lcc.WorkTearOff, "tear_off": lcc.WorkTearOff, "roof_over": lcc.WorkRecover, "new_roof": lcc.WorkOther,
	} {
		assert.Equal(t, want, workIn(name), name)
	}
}
