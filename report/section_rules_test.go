package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

var (
	needDeck = lcc.Need{What: "whether the deck is sound", Next: "have the deck looked at from below", By: "a roof consultant"}
	needLoad = lcc.Need{What: "the load that the option adds", Next: "add up the weights", By: "the designer"}
)

func passing(rule string) lcc.Check {
	return lcc.Check{Rule: rule, Title: "a rule on " + rule, Verdict: lcc.RulePasses, Text: "all is well", Source: "a code, 12", Mark: "published", From: []string{"survey"}}
}

func failing(rule string) lcc.Check {
	return lcc.Check{Rule: rule, Title: "a rule on " + rule, Verdict: lcc.RuleFails, Text: "the " + rule + " is bad", Source: "a code, 12", Mark: "published", From: []string{"survey", "drawings"}}
}

func lacking(rule string, needs ...lcc.Need) lcc.Check {
	return lcc.Check{Rule: rule, Title: "a rule on " + rule, Text: "not yet known", Source: "a code, 12", Mark: "published", Missing: needs}
}

// checked puts checks to the alternatives of a study, in their order.
func checked(t *testing.T, in Study, checks ...[]lcc.Check) *teller {
	t.Helper()
	s := in.Result.Study
	s.Deference = "others decide"
	for i, c := range checks {
		s.Alternatives[i].Checks = c
		if s.Alternatives[i].RuledOut == nil {
			s.Alternatives[i].RuledOut = lcc.Against(c)
		}
	}
	r, err := s.Evaluate()
	require.NoError(t, err)
	return tell(Study{Result: r})
}

var (
	keepRoof    = choice{name: "Keep", work: lcc.WorkExisting, yearly: 10_000}
	restoreRoof = choice{name: "Restore", work: lcc.WorkRestore, first: 40_000}
	tearRoofOff = choice{name: "Tear off", work: lcc.WorkTearOff, first: 70_000}
)

type checksOf = [][]lcc.Check

// Each of these was read aloud.
func TestRulesAtTheEdges(t *testing.T) {
	all := []choice{keepRoof, restoreRoof, tearRoofOff}
	barredByHand := tearRoofOff
	barredByHand.ruledOut = "unsafe"
	for _, c := range []struct {
		name    string
		choices []choice
		checks  checksOf
		heading string
		next    string // heading
		first   string // of the next steps
		answer  string // what the answer says of what is allowed
	}{
		{"one open", all, checksOf{nil, {lacking("deck", needDeck)}, {passing("deck")}},
			"“Restore” is not yet shown to be allowed",
			"The owner should have one open finding settled before signing",
			"Still open: whether the deck is sound. Have the deck looked at from below. A roof consultant usually does this.",
			"“Restore” is not yet shown to be allowed: one finding is open."},
		{"two open, one asked for twice", all, checksOf{nil, {lacking("deck", needDeck), lacking("load", needLoad, needDeck)}, {lacking("deck", needDeck)}},
			"“Restore” and “Tear off” are not yet shown to be allowed",
			"The owner should have two open findings settled before signing",
			"Still open: whether the deck is sound. Have the deck looked at from below. A roof consultant usually does this.",
			"“Restore” is not yet shown to be allowed: two findings are open."},
		{"only the dearer one is open", all, checksOf{nil, {passing("deck")}, {lacking("deck", needDeck)}},
			"“Tear off” is not yet shown to be allowed",
			"The owner should have a licensed designer confirm the findings before signing",
			"Before signing, have a licensed designer confirm what was found and what the rules made of it.", ""},
		{"one ruled out, one open", all, checksOf{nil, {failing("deck"), lacking("load", needLoad)}, {lacking("deck", needDeck)}},
			"“Restore” is ruled out, and “Tear off” is not yet shown to be allowed",
			"The owner should have one open finding settled before signing",
			"Still open: whether the deck is sound. Have the deck looked at from below. A roof consultant usually does this.",
			"“Tear off” is not yet shown to be allowed: one finding is open. “Restore” would cost $30,000.00 less, but is ruled out: the deck is bad (a rule on deck)."},
		{"two rules against it", all, checksOf{nil, {failing("deck"), failing("load")}, {passing("deck")}},
			"“Restore” is ruled out, and no finding is open on what is left",
			"The owner should have a licensed designer confirm the findings before signing",
			"Before signing, have a licensed designer confirm what was found and what the rules made of it.",
			"“Restore” would cost $30,000.00 less, but is ruled out: the deck is bad (a rule on deck); one more rule stands against it."},
		{"three rules against it", all, checksOf{nil, {failing("deck"), failing("load"), failing("wet")}, nil},
			"“Restore” is ruled out, and no finding is open on what is left",
			"The owner should have a licensed designer confirm the findings before signing",
			"Before signing, have a licensed designer confirm what was found and what the rules made of it.",
			"“Restore” would cost $30,000.00 less, but is ruled out: the deck is bad (a rule on deck); two more rules stand against it."},
		{"all is well", all, checksOf{nil, {passing("deck")}, {passing("deck")}},
			"No rule stands against an alternative, and no finding is open",
			"The owner should have a licensed designer confirm the findings before signing",
			"Before signing, have a licensed designer confirm what was found and what the rules made of it.", ""},
		{"all ruled out", all[1:2], checksOf{{failing("deck")}},
			"Every alternative is ruled out on this roof",
			"The owner should not choose on these figures",
			"Do not choose on these figures: every alternative is ruled out. Have a licensed designer say what may be done to this roof, and price that.", ""},
		{"no rule speaks", all[:1], checksOf{nil},
			"No rule speaks of the work that is compared here",
			"The owner should price another choice before deciding",
			"Price at least one other choice before deciding; a study of one alternative shows what it costs, not whether it is the best.", ""},
		{"only one, and open", all[1:2], checksOf{{lacking("deck", needDeck)}},
			"“Restore” is not yet shown to be allowed",
			"The owner should price another choice before deciding",
			"Price at least one other choice before deciding; a study of one alternative shows what it costs, not whether it is the best.",
			"“Restore” is not yet shown to be allowed: one finding is open."},
		{"ruled out by hand", []choice{keepRoof, restoreRoof, barredByHand}, checksOf{nil, {passing("deck")}, {lacking("deck", needDeck)}},
			"“Tear off” is ruled out, and no finding is open on what is left",
			"The owner should have a licensed designer confirm the findings before signing",
			"Before signing, have a licensed designer confirm what was found and what the rules made of it.", ""},
		{"a tie", []choice{restoreRoof, {name: "Roof over", work: lcc.WorkRecover, first: 40_100}, tearRoofOff}, checksOf{{lacking("deck", needDeck)}, {lacking("load", needLoad)}, {lacking("load", needLoad)}},
			"“Restore”, “Roof over” and “Tear off” are not yet shown to be allowed",
			"The owner should let something else than cost decide",
			"Let something else than cost decide between “Restore” and “Roof over”: the money at hand this year, disruption of the building, who carries the risk.",
			"“Restore” is not yet shown to be allowed: one finding is open. “Roof over” is not yet shown to be allowed: one finding is open."},
		{"four open", []choice{{name: "A", first: 1}, {name: "B", first: 20}, {name: "C", first: 30}, {name: "D", first: 40}},
			checksOf{{lacking("deck", needDeck)}, {lacking("deck", needDeck)}, {lacking("deck", needDeck)}, {lacking("deck", needDeck)}},
			"Four alternatives are not yet shown to be allowed",
			"The owner should have one open finding settled before signing",
			"Still open: whether the deck is sound. Have the deck looked at from below. A roof consultant usually does this.",
			"“A” is not yet shown to be allowed: one finding is open."},
	} {
		t.Run(c.name, func(t *testing.T) {
			x := checked(t, studyOf(t, 3, c.choices...), c.checks...)
			assert.Equal(t, c.heading, x.rulesSections()[0].Heading)
			assert.Equal(t, c.next, x.nextHeading())
			assert.Equal(t, c.first, x.nextSteps()[0])
			var said []string
			for _, sentence := range x.answerSentences() {
				if strings.Contains(sentence, "allowed") || strings.Contains(sentence, "would cost") {
					said = append(said, sentence)
				}
			}
			assert.Equal(t, c.answer, strings.Join(said, " "))
		})
	}
}

// Without findings nothing is said of rules, and what was said stays.
func TestWithoutFindingsNoRuleIsTold(t *testing.T) {
	x := tell(studyOf(t, 3, keepRoof, restoreRoof))
	assert.Empty(t, x.rulesSections())
	assert.Empty(t, x.ruleDetails())
	assert.Equal(t, []string{"not ruled out", "lowest"}, []string{x.standsText(0, false), x.standsText(1, true)})
	assert.Contains(t, x.opinionCaution(), "the licensed designer")
}

func TestStandings(t *testing.T) {
	x := checked(t, studyOf(t, 3, keepRoof, restoreRoof, tearRoofOff), nil, []lcc.Check{lacking("deck", needDeck, needLoad)}, []lcc.Check{failing("deck"), lacking("load", needLoad)})
	row := x.standingRow([]int{0, 1, 2})
	var shown []string
	for _, c := range row.Cells {
		shown = append(shown, c.Show(x.cur))
	}
	assert.Equal(t, []string{"Standing", "not ruled out", "lowest, open: 2 findings", "ruled out"}, shown)
	assert.Equal(t, "open: 2 findings", x.standsText(1, false))
	w := x.whatIf()
	assert.Equal(t, []string{"lowest", "lowest, open: 2 findings", "ruled out"}, w.Standing.Lowest)
	assert.Equal(t, []string{"not ruled out", "open: 2 findings", "ruled out"}, w.Standing.Other)
	assert.Equal(t, []string{"", "“Restore” is not yet shown to be allowed: two findings are open.", ""}, w.Standing.Unshown)
}

// What is open takes the place of the general doubt; each finding stands once
// in the list of what to find out.
func TestWhatIsOpenIsListed(t *testing.T) {
	x := checked(t, studyOf(t, 3, keepRoof, restoreRoof, tearRoofOff), nil, []lcc.Check{lacking("deck", needDeck), lacking("load", needLoad)}, []lcc.Check{lacking("deck", needDeck)})
	assert.Equal(t, []string{
		"Whether “Restore” may be done to this roof: nothing rules it out, but two findings are open. Not yet known: whether the deck is sound; the load that the option adds.",
		"Whether “Tear off” may be done to this roof: nothing rules it out, but one finding is open. Not yet known: whether the deck is sound."}, x.unknowns()[:2])
	assert.NotContains(t, strings.Join(x.unknowns(), " "), "Whether the roof may be restored")
	table := x.openTable()
	require.Len(t, table.Rows, 2)
	assert.Equal(t, plainRow(text("Whether the deck is sound"), text("Have the deck looked at from below"), text("A roof consultant"), text("“Restore” and “Tear off”")), table.Rows[0])
	assert.Equal(t, "“Restore”", table.Rows[1].Cells[3].Text)
}

// The rules stand in their own order, though no alternative is asked all.
func TestVerdictsSideBySide(t *testing.T) {
	x := checked(t, studyOf(t, 3, keepRoof, restoreRoof, tearRoofOff), nil,
		[]lcc.Check{passing("water"), lacking("deck", needDeck), {Rule: "fire", Title: "a rule on fire", Verdict: lcc.RuleAdvises}},
		[]lcc.Check{passing("deck"), failing("energy"), {Rule: "fire", Title: "a rule on fire", Verdict: lcc.RuleAdvises}})
	var rows []string
	for _, row := range x.verdictTable("v", x.rules(), []int{0, 1, 2}).Rows {
		var cells []string
		for _, c := range row.Cells {
			cells = append(cells, c.Show(x.cur))
		}
		rows = append(rows, strings.Join(cells, " | "))
	}
	assert.Equal(t, []string{
		"A rule on water | – | pass | –",
		"A rule on deck | – | open | pass",
		"A rule on energy | – | – | ruled out",
		"A rule on fire | – | advice | advice"}, rows)
	details := x.ruleDetails()[0]
	assert.Equal(t, "“Restore”: 1 open, 1 pass, 1 advice", details.Blocks[0].(Fold).Summary)
	tearOff := details.Blocks[1].(Fold)
	assert.Equal(t, "“Tear off”: 1 ruled out, 1 pass, 1 advice", tearOff.Summary)
	assert.Equal(t, plainRow(text("ruled out"), text("A rule on energy"), text("The energy is bad. From: survey; drawings."), text("A code, 12 (published)")),
		tearOff.Blocks[0].(Table).Rows[1])
	assert.Contains(t, x.ruledOutList()[0], "Finding: the energy is bad. Source: a code, 12.")
	assert.NotContains(t, x.ruledOutList()[0], "decide", "it is said once, beside the verdicts")
	assert.Contains(t, x.rulesLead(), "Others decide.")
	assert.NotContains(t, x.opinionCaution(), "decide")
}
