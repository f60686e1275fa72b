package report

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/budget"
	"roofyears/lcc/plan"
)

// The choices of the roofs of these tests: the larger a roof, the more coating
// saves; 1000 a year is 8,530.20 over ten years at 3%.
var (
	patch   = choice{name: "Patch", work: lcc.WorkExisting, yearly: 1000}
	coat    = choice{name: "Coat", work: lcc.WorkRestore, first: 4000, yearly: 100}
	tearOff = choice{name: "Tear off", work: lcc.WorkTearOff, first: 8000}
)

func forbidden(c choice) choice { c.ruledOut = "unsafe"; return c }

// tableOf lays roofs on studies: those of a study are as many as said, and
// differ in area alone.
func tableOf(t *testing.T, free []string, studies ...*lcc.Study) (in RoofsPage) {
	t.Helper()
	names := make([]string, len(studies))
	for i := range names[1:] {
		names[i+1] = fmt.Sprintf("t%d", i+2)
	}
	columns := RoofColumns{Free: free, Templates: names}
	if len(studies) == 1 {
		columns.Templates = nil
	}
	var err error
	in.Roofs, err = NewRoofs(studies, columns)
	require.NoError(t, err)
	in.Table = "roofs.csv"
	for range studies {
		in.Templates = append(in.Templates, "template.yaml")
	}
	return in
}

// add adds a roof that differs in what its choices cost a year.
func (in *RoofsPage) add(t *testing.T, template int, yearly ...int64) {
	t.Helper()
	study := in.Roofs.studies[template]
	var refs []lcc.Ref
	for _, s := range study.Systems {
		for _, item := range s.Annual {
			refs = append(refs, item.Price)
		}
	}
	values, given := make([]decimal.Decimal, len(refs)), make([]bool, len(refs))
	for i, v := range yearly {
		values[i], given[i] = decimal.NewFromInt(v), true
	}
	w, err := study.Roofs(refs)
	require.NoError(t, err)
	costs := make([]lcc.RoofCost, len(study.Alternatives))
	require.NoError(t, w.Costs(values, given, costs))
	id := fmt.Sprintf("R%d", len(in.Rows)+1)
	r := &Roof{ID: id, Name: "Hall " + id, Template: template, Study: study, Costs: costs, Answer: study.RoofAnswer(costs), Area: w.Area()}
	for range in.Roofs.free {
		r.Free = append(r.Free, "north")
	}
	in.Totals.Add(in.Roofs, r)
	in.Rows = append(in.Rows, r)
}

// onlyRoofs is a page of roofs of one study.
func onlyRoofs(t *testing.T, choices []choice, yearly ...int64) RoofsPage {
	in := tableOf(t, nil, studyOf(t, 3, choices...).Result.Study)
	for _, v := range yearly {
		in.add(t, 0, v)
	}
	return in
}

// Each of these was read aloud.
func TestHeadingsOfManyRoofsAreTrueAtTheEdges(t *testing.T) {
	both := []choice{patch, coat}
	for _, c := range []struct {
		name string
		in   RoofsPage
		want []string // totals, map, ranking
	}{
		{"three roofs", onlyRoofs(t, both, 1000, 2000, 300), []string{
			"“Coat” is the lowest on two of three roofs", "One roof of two saves more than it costs at the start",
			"“Hall R2” saves most"}},
		{"four roofs that save", onlyRoofs(t, both, 1000, 1100, 1200, 1300), []string{
			"“Coat” is the lowest on all four roofs", "Three of four roofs save more than they cost at the start",
			"“Hall R4” saves most, and the first two roofs bring half of all net savings"}},
		{"one roof", onlyRoofs(t, both, 1000), []string{
			"What each alternative costs on this roof", "No roof saves more than it costs at the start",
			"“Hall R1” is the one roof that saves against its base case"}},
		{"one roof that saves much", onlyRoofs(t, both, 2000), []string{
			"What each alternative costs on this roof", "The roof saves more than it costs at the start",
			"“Hall R1” is the one roof that saves against its base case"}},
		{"no roof", onlyRoofs(t, both), []string{
			"There is nothing to add up", "No roof saves more than it costs at the start", "There are no roofs to rank"}},
		{"all alike", onlyRoofs(t, both, 2000, 2000, 2000), []string{
			"“Coat” is the lowest on all three roofs", "All three roofs save more than they cost at the start",
			"All three roofs save the same, to the last digit"}},
		{"half and half", onlyRoofs(t, both, 2000, 100), []string{
			"“Patch” and “Coat” are each the lowest on one of two roofs", "The one roof that saves does so by more than it costs at the start",
			"“Hall R1” is the one roof that saves against its base case"}},
		{"keeping wins everywhere", onlyRoofs(t, both, 100, 200), []string{
			"“Patch” is the lowest on both roofs", "No roof saves more than it costs at the start",
			"No roof saves anything against its base case"}},
		{"nothing eligible", onlyRoofs(t, []choice{forbidden(patch), forbidden(coat)}, 1000, 2000), []string{
			"No alternative may be chosen on any roof", "No roof saves more than it costs at the start",
			"Without a base case there are no savings to rank the roofs by"}},
		{"the base case is ruled out", onlyRoofs(t, []choice{forbidden(patch), coat}, 100, 200), []string{
			"“Coat” is the lowest on both roofs", "No roof saves more than it costs at the start",
			"No roof saves anything against its base case"}},
	} {
		x := tellRoofs(c.in)
		assert.Equal(t, c.want, []string{x.totalsHeading(), x.mapHeading(), x.rankingHeading()}, c.name)
		BuildRoofs(c.in)
	}
}

// Each of these was read aloud.
func TestAnswersOfManyRoofs(t *testing.T) {
	both := []choice{patch, coat}
	for _, c := range []struct {
		name string
		in   RoofsPage
		want []string
	}{
		{"three roofs", onlyRoofs(t, both, 1000, 2000, 300), []string{
			"Together, the roofs’ lowest alternatives have a first cost of $8,000.00 and a life-cycle cost of $12,265.11 over 10 years at a real discount rate of 3%: $15,884.56 less than the base case, “Patch”, on every roof.",
			"“Coat” has the lowest life-cycle cost on two roofs and “Patch” on one."}},
		{"one roof", onlyRoofs(t, both, 1000), []string{
			"“Coat” has a first cost of $4,000.00 and a life-cycle cost of $4,853.02 over 10 years at a real discount rate of 3%: $3,677.18 less than the base case, “Patch”.",
			"The table has one roof, so that there is nothing to rank."}},
		{"no roof", onlyRoofs(t, both), []string{"No roof could be done, so there is no answer to give."}},
		{"nothing eligible", onlyRoofs(t, []choice{forbidden(patch), forbidden(coat)}, 1000, 2000), []string{
			"On no roof may any alternative be chosen: each one is ruled out, so there is no answer to give. The figures are shown for information only."}},
		{"the base case is ruled out", onlyRoofs(t, []choice{forbidden(patch), coat}, 100, 200), []string{
			"Together, the roofs’ lowest alternatives have a first cost of $8,000.00 and a life-cycle cost of $9,706.04 over 10 years at a real discount rate of 3%: $7,146.98 more than the base case, “Patch”, on every roof.",
			"“Coat” has the lowest life-cycle cost on two roofs."}},
		{"ties", onlyRoofs(t, []choice{patch, {name: "Swap", work: lcc.WorkRecover, yearly: 1000}}, 1000, 1001), []string{
			"Together, the roofs’ lowest alternatives have a first cost of $0.00 and a life-cycle cost of $17,060.40 over 10 years at a real discount rate of 3%: $8.53 less than the base case, “Patch”, on every roof.",
			"“Patch” has the lowest life-cycle cost on one roof and “Swap” on one.",
			"On two roofs the lowest and the next best alternative tie for practical purposes: they are less than 2% of the life-cycle cost apart."}},
	} {
		assert.Equal(t, c.want, tellRoofs(c.in).answerSentences(), c.name)
	}
}

// withoutBaseStudy has no base case.
func withoutBaseStudy(t *testing.T) *lcc.Study {
	s := studyOf(t, 3, patch, coat).Result.Study
	s.Alternatives[0].BaseCase = false
	return s
}

func TestRoofsWithoutABaseCase(t *testing.T) {
	in := tableOf(t, nil, withoutBaseStudy(t))
	in.add(t, 0, 1000)
	in.add(t, 0, 300)
	x := tellRoofs(in)
	assert.Equal(t, "Together, the roofs’ lowest alternatives have a first cost of $4,000.00 and a life-cycle cost of $7,412.09 over 10 years at a real discount rate of 3%. There is no base case to save against.", x.lowestSentence())
	assert.Equal(t, "Without a base case there are no savings to rank the roofs by", x.rankingHeading())
	assert.Empty(t, x.mapSections())
	table := x.rankingTable()
	for _, c := range table.Columns {
		assert.NotContains(t, c.Head, "avings")
		assert.NotContains(t, c.Head, "SIR")
	}
	require.Len(t, table.Rows, 3)
	BuildRoofs(in)
}

// Roofs of several templates, of which one has no base case.
func TestRoofsOfSeveralTemplates(t *testing.T) {
	other := studyOf(t, 3, choice{name: "Leave", work: lcc.WorkExisting, yearly: 1000}, tearOff, coat).Result.Study
	other.About.Title = "Another"
	in := tableOf(t, []string{"region"}, studyOf(t, 3, patch, coat).Result.Study, other, withoutBaseStudy(t))
	in.add(t, 0, 1000)
	in.add(t, 1, 2000)
	in.add(t, 2, 1000)
	x := tellRoofs(in)
	assert.Equal(t, "Together, the roofs’ lowest alternatives have a first cost of $12,000.00 and a life-cycle cost of $14,559.06 over 10 years at a real discount rate of 3%. On the 2 roofs that have a base case, that is $15,884.56 less than it.", x.lowestSentence())
	assert.Equal(t, []string{"R2", "R1", "R3"}, idsOf(x.ranked))
	assert.Equal(t, "The figures rest on three templates and three rows of a table", x.basisHeading())
	saved := cellsUnder(t, x.rankingTable(), "Net savings", x.cur)
	assert.Equal(t, []string{"12,207.38", "3,677.18", "–", "15,884.56"}, saved)
	doc := BuildRoofs(in)
	assert.Equal(t, "3 roofs of roofs.csv", doc.Title)
}

func idsOf(roofs []rankedRoof) (out []string) {
	for _, r := range roofs {
		out = append(out, r.ID)
	}
	return out
}

// cellsUnder are the cells of a column as they are shown.
func cellsUnder(t *testing.T, table Table, head string, cur Currency) (out []string) {
	t.Helper()
	for i, c := range table.Columns {
		if c.Head != head {
			continue
		}
		for _, r := range table.Rows {
			out = append(out, r.Cells[i].Show(cur))
		}
	}
	require.NotEmpty(t, out, head)
	return out
}

// Equal roofs share a place; the next counts them all. What keeps the base
// case comes after what is compared with it, and nothing is ranked by a ratio
// that is not defined.
func TestRanksOfRoofs(t *testing.T) {
	x := tellRoofs(onlyRoofs(t, []choice{patch, coat}, 1000, 300, 2000, 1000, 600))
	assert.Equal(t, []string{"R3", "R1", "R4", "R5", "R2"}, idsOf(x.ranked))
	table := x.rankingTable()
	assert.Equal(t, []string{"1", "2", "2", "4", "–", ""}, cellsUnder(t, table, "Rank by savings", x.cur))
	assert.Equal(t, []string{"1", "2", "2", "4", "–", ""}, cellsUnder(t, table, "Rank by SIR", x.cur))
	assert.Equal(t, []string{"4.0518", "1.9193", "1.9193", "1.0663", "–", ""}, cellsUnder(t, table, "SIR", x.cur))
}

// planOf makes a plan of two years, over roofs that differ in what patching
// costs a year.
func planOf(t *testing.T, choices []choice, limits plan.Limits, yearly ...int64) RoofsPage {
	t.Helper()
	s := studyOf(t, 3, choices...).Result.Study
	return plannedOn(t, s, limits, yearly...)
}

func plannedOn(t *testing.T, s *lcc.Study, limits plan.Limits, yearly ...int64) RoofsPage {
	t.Helper()
	made, err := plan.NewTemplate(s, 2)
	require.NoError(t, err)
	price := s.Systems[0].Annual[0].Price
	pricer, err := made.Pricer([]lcc.Ref{price})
	require.NoError(t, err)
	in := tableOf(t, nil, s)
	in.Roofs.plan = []int{2026, 2027}
	var options []plan.Roof
	for _, v := range yearly {
		in.add(t, 0, v)
		roof, err := pricer.Roof([]decimal.Decimal{decimal.NewFromInt(v)}, []bool{true}, plan.Rules{})
		require.NoError(t, err)
		options = append(options, roof)
	}
	p, err := plan.Choose(options, 2, limits)
	require.NoError(t, err)
	for i := range in.Rows {
		if o := p.Roofs[i].Option; o != nil {
			in.Rows[i].Plan = NewRoofPlan(o, 2026)
		}
	}
	in.Plan = &p
	return in
}

func atMost(amounts ...int64) (out []budget.Limit) {
	for _, a := range amounts {
		out = append(out, budget.AtMost(a))
	}
	return out
}

// Each of these was read aloud.
func TestHeadingsOfAPlan(t *testing.T) {
	both := []choice{patch, coat}
	// The first, by hand: of three roofs that save 3,677.18, 12,207.38 and 7,942.28 the budget takes one a year. The first
	// is left; the third waits a year, which costs (1500 - 100)/1.03 of patching less 4000 - 4000/1.03.
	for _, c := range []struct {
		name string
		in   RoofsPage
		want []string // the plan, the schedule or why there is none
	}{
		{"one a year", planOf(t, both, plan.Limits{Money: atMost(400000, 400000)}, 1000, 2000, 1500), []string{
			"Keeping to the budgets of 2026 to 2027 raises the life-cycle cost by $4,919.90", "The plan has works on two of three roofs, and leaves one as it is"}},
		{"enough for all", planOf(t, both, plan.Limits{Money: atMost(900000, 900000)}, 1000, 2000), []string{
			"Keeping to the budgets of 2026 to 2027 costs nothing: the cheapest choices keep to them by themselves", "The plan has works on both roofs"}},
		{"no money", planOf(t, both, plan.Limits{Money: atMost(0, 0)}, 1000, 2000), []string{
			"Keeping to the budgets of 2026 to 2027 raises the life-cycle cost by $15,884.56", "The plan has no work on any roof"}},
		{"crews", planOf(t, both, plan.Limits{Crews: atMost(100000, 0)}, 1000, 2000), []string{
			"Keeping to the crews’ limits of 2026 to 2027 raises the life-cycle cost by $3,677.18", "The plan has works on one of two roofs, and leaves one as it is"}},
		{"both", planOf(t, both, plan.Limits{Money: atMost(0, 0), Crews: atMost(0, 0)}, 2000), []string{
			"Keeping to the budgets and crews’ limits of 2026 to 2027 raises the life-cycle cost by $12,207.38", "The plan has no work on any roof"}},
		{"nothing may be chosen", planOf(t, []choice{forbidden(patch), forbidden(coat)}, plan.Limits{Money: atMost(0, 0)}, 1000), []string{
			"No plan can keep to the budgets of 2026 to 2027", "No option of the roof “Hall R1” may be chosen."}},
		{"too dear", planOf(t, []choice{forbidden(patch), coat}, plan.Limits{Money: atMost(0, 100)}, 1000), []string{
			"No plan can keep to the budgets of 2026 to 2027", "Every option of the roof “Hall R1” takes more of some year than it holds."}},
	} {
		x := tellRoofs(c.in)
		got := []string{x.planHeading(), ""}
		if c.in.Plan.HasPlan() {
			got[1] = x.scheduleHeading()
		} else {
			got[1] = x.noPlanText()
		}
		assert.Equal(t, c.want, got, c.name)
		BuildRoofs(c.in)
	}
}

// forcing is a study whose old roof ends within the plan, and has to be torn
// off then whatever is chosen.
func forcing(t *testing.T) *lcc.Study {
	s := studyOf(t, 3, patch, tearOff).Result.Study
	s.Systems[0].Then = 1
	s.Inputs[s.Systems[0].Life].Likely = one
	return s
}

// The schedule adds up to the table of years, forced works too.
func TestScheduleFootsToTheYears(t *testing.T) {
	for name, in := range map[string]RoofsPage{
		"starts":         planOf(t, []choice{patch, coat}, plan.Limits{Money: atMost(400000, 800000), Crews: atMost(100000, 500000)}, 1000, 2000, 1500, 1700),
		"what is forced": plannedOn(t, forcing(t), plan.Limits{Money: atMost(0, 3000000)}, 1000, 100),
	} {
		x := tellRoofs(in)
		works := x.scheduleTable()
		money := len(x.roofColumns()) + 2
		year, sum, words := 0, decimal.Zero, map[string]int{}
		for _, r := range works.Rows {
			switch r.Role {
			case Group:
				sum = decimal.Zero
			case Total:
				assert.True(t, sum.Equal(r.Cells[money].Number), name)
				assert.True(t, x.minor(in.Plan.Money[year].Used).Equal(sum), name)
				year++
			case Body:
				sum = sum.Add(r.Cells[money].Number)
				words[r.Cells[money-1].Text]++
			}
		}
		assert.Equal(t, 2, year)
		if name == "what is forced" {
			assert.Equal(t, map[string]int{"forced": 2}, words)
			assert.Equal(t, []string{"forced", "forced", ""}, cellsUnder(t, x.rankingTable(), "Plan: start", x.cur))
		} else {
			assert.Equal(t, 3, words["starts"], words)
		}
	}
}

// Works of many roofs are folded, whole.
func TestALongScheduleIsFolded(t *testing.T) {
	yearly := make([]int64, 90)
	for i := range yearly {
		yearly[i] = 2000
	}
	x := tellRoofs(planOf(t, []choice{patch, coat}, plan.Limits{Money: atMost(100000000, 0)}, yearly...))
	fold, ok := x.scheduleSection().Blocks[1].(Fold)
	require.True(t, ok)
	assert.Equal(t, "Works of 2026 to 2027, roof by roof", fold.Summary)
	assert.Len(t, fold.Blocks[0].(Table).Rows, 90+2*2)
}

// What is carried through beyond the first columns stays on the screen, and
// the page says so; the reader may choose among few entries only.
func TestColumnsThatAreCarriedThrough(t *testing.T) {
	in := tableOf(t, []string{"region", "built", "note", "code"}, studyOf(t, 3, patch, coat).Result.Study)
	for i := range 20 {
		in.add(t, 0, 1000)
		in.Rows[i].Free = []string{[]string{"north", "south"}[i%2], fmt.Sprint(1970 + i), "", "same"}
	}
	x := tellRoofs(in)
	table := x.rankingTable()
	printed := map[string]bool{}
	for _, c := range table.Columns {
		printed[c.Head] = !c.OnScreen
	}
	assert.Equal(t, []bool{true, true, false, false}, []bool{printed["region"], printed["built"], printed["note"], printed["code"]})
	lead := x.rankingSection().Blocks[0].(Paragraph).Text
	assert.Contains(t, lead, "On paper there is no room for “note” and “code” of the roofs’ table.")
	var heads []string
	for _, i := range table.Sift.Choose {
		heads = append(heads, table.Columns[i].Head)
	}
	assert.Equal(t, []string{"region", "Lowest alternative"}, heads)
}
