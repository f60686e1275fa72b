package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios"
)

// planRow is what a row says of the plan.
type planRow struct {
	ID   string `json:"id"`
	Plan *struct {
		Alternative string                     `json:"alternative"`
		Start       *int                       `json:"start"`
		LCC         decimal.Decimal            `json:"life_cycle_cost"`
		Works       map[string]decimal.Decimal `json:"works"`
	} `json:"plan"`
}

type planSummary struct {
	Plan struct {
		State     string          `json:"state"`
		Reason    string          `json:"reason"`
		LCC       decimal.Decimal `json:"life_cycle_cost"`
		Bound     decimal.Decimal `json:"lower_bound"`
		Unlimited decimal.Decimal `json:"without_limits"`
		Cost      decimal.Decimal `json:"cost_of_limits"`
		Years     []struct {
			Year   int                  `json:"year"`
			Budget decimal.NullDecimal  `json:"budget"`
			Works  decimal.Decimal      `json:"works"`
			Crew   decimal.NullDecimal  `json:"crew_area"`
			Area   decimal.Decimal      `json:"area_worked_on"`
			Worth  *decimal.NullDecimal `json:"saved_by_one_more"`
		} `json:"years"`
	} `json:"plan"`
}

// planned runs the command on a table and gives the plan of each row, and the
// summary.
func planned(t *testing.T, wantCode int, table string, args ...string) (rows []planRow, s planSummary, told string) {
	t.Helper()
	summary := filepath.Join(t.TempDir(), "summary.json")
	code, out, told := roofs(t, table, append([]string{"--in", "csv", "--format", "ndjson", "--summary", summary}, args...)...)
	require.Equal(t, wantCode, code, told)
	for _, line := range strings.Split(strings.TrimSpace(out), "\n") {
		var row planRow
		require.NoError(t, json.Unmarshal([]byte(line), &row))
		rows = append(rows, row)
	}
	require.NoError(t, json.Unmarshal(mustRead(t, summary), &s))
	return rows, s, told
}

func exampleRoofs(t *testing.T) string {
	t.Helper()
	src, ok := scenarios.ExampleTable("portfolio")
	require.True(t, ok)
	return string(src.Text)
}

// The plan's sums are those of its rows, to the cent, and keep the limits; what
// it says of a roof is what compare gives for a study with that wait.
func TestPlanFootsToItsRows(t *testing.T) {
	rows, s, told := planned(t, exitDone, exampleRoofs(t), "--budget", "2027=1200000,2028-2029=1_500_000.00", "--crew", "2028=250000", "example:portfolio", "-")
	require.Len(t, rows, 40)
	sum, works, started := decimal.Zero, map[string]decimal.Decimal{}, 0
	for _, r := range rows {
		require.NotNil(t, r.Plan, r.ID)
		sum = sum.Add(r.Plan.LCC)
		for year, amount := range r.Plan.Works {
			works[year] = works[year].Add(amount)
		}
		if r.Plan.Start != nil {
			started++
			assert.Contains(t, []int{2027, 2028, 2029}, *r.Plan.Start)
		}
	}
	assert.Greater(t, started, 20)
	assert.True(t, sum.Equal(s.Plan.LCC), "%s of the rows, %s of the plan", sum, s.Plan.LCC)
	assert.True(t, s.Plan.LCC.Sub(s.Plan.Unlimited).Equal(s.Plan.Cost))
	assert.True(t, s.Plan.Bound.LessThanOrEqual(s.Plan.LCC) && s.Plan.Unlimited.LessThanOrEqual(s.Plan.Bound))
	require.Len(t, s.Plan.Years, 3)
	for i, budget := range []string{"1200000", "1500000", "1500000"} {
		y := s.Plan.Years[i]
		assert.Equal(t, budget, y.Budget.Decimal.String())
		assert.True(t, y.Works.Equal(works[fmt.Sprint(2027+i)]), "%d", y.Year)
		assert.True(t, y.Works.LessThanOrEqual(y.Budget.Decimal))
	}
	assert.True(t, s.Plan.Years[1].Crew.Valid && !s.Plan.Years[0].Crew.Valid)
	assert.True(t, s.Plan.Years[1].Area.LessThanOrEqual(decimal.NewFromInt(250000)))
	assert.Contains(t, told, "plan: life-cycle cost "+s.Plan.LCC.StringFixed(2)+" USD, ")
	assert.Contains(t, told, "of 250000 ft2 worked on")

	assertPutOff(t, rows)
}

// assertPutOff compares a roof that the plan puts off with a study file in
// which that is written as a wait.
func assertPutOff(t *testing.T, rows []planRow) {
	t.Helper()
	cells, err := csv.NewReader(strings.NewReader(exampleRoofs(t))).ReadAll()
	require.NoError(t, err)
	compared := 0
	for i, r := range rows {
		if r.Plan.Start == nil || *r.Plan.Start == 2027 || compared == 5 {
			continue
		}
		compared++
		require.Equal(t, "Restore", r.Plan.Alternative)
		src, _ := scenarios.Example("portfolio")
		old := "  - {name: Restore, start: restoration}\n"
		require.Contains(t, string(src.Text), old)
		later := fmt.Sprintf("  - {name: Restore, start: restoration, wait: {on: existing, years: %d}}\n", *r.Plan.Start-2027)
		path := filepath.Join(t.TempDir(), "later.yaml")
		require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(src.Text), old, later, 1)), 0o600))
		var table bytes.Buffer
		w := csv.NewWriter(&table)
		require.NoError(t, w.WriteAll([][]string{cells[0], cells[i+1]}))
		code, out, told := roofs(t, table.String(), "--in", "csv", path, "-")
		require.Equal(t, exitDone, code, told)
		assert.Contains(t, strings.Split(out, "\n")[1], ","+r.Plan.LCC.StringFixed(2)+",", r.ID)
	}
	assert.Equal(t, 5, compared)
}

// The example is there to show a ranking by SIR, roofs on which restoring loses
// or may not be chosen, and a plan that waits for money in every year.
func TestWhatTheExampleOfManyRoofsShows(t *testing.T) {
	rows, s, _ := planned(t, exitDone, exampleRoofs(t), "--plan", "example:portfolio", "-")
	_, out, _ := roofs(t, "", "example:portfolio", "example:portfolio")
	lowest, ratios, standings := map[string]int{}, map[string]bool{}, map[string]int{}
	for _, row := range csvRows(t, out) {
		lowest[row["lowest"]]++
		if row["sir"] != "" {
			ratios[row["sir"]] = true
		}
		assert.Equal(t, row["sir"] == "", row["lowest"] == "Keep patching", "what is not kept has a ratio: %s", row["id"])
		for _, name := range []string{"Restore", "Roof over", "Tear off and replace"} {
			standings[name+" "+row[name+": standing"]]++
		}
	}
	assert.Equal(t, map[string]int{"Restore": 26, "Keep patching": 12, "Tear off and replace": 2}, lowest)
	assert.Len(t, ratios, 28, "no two roofs rank alike")
	assert.Equal(t, map[string]int{
		"Restore not ruled out": 31, "Restore ruled out": 4, "Restore open: 1 finding": 5,
		"Roof over not ruled out": 25, "Roof over ruled out": 10, "Roof over open: 1 finding": 5,
		"Tear off and replace not ruled out": 35, "Tear off and replace open: 1 finding": 5,
	}, standings)
	started := map[int]int{}
	for _, r := range rows {
		if r.Plan.Start != nil {
			started[*r.Plan.Start]++
		}
	}
	for _, y := range s.Plan.Years {
		assert.Greater(t, started[y.Year], 3, "%d", y.Year)
		require.NotNil(t, y.Worth)
		assert.True(t, y.Worth.Decimal.IsPositive(), "the budget of %d binds", y.Year)
	}
	gap := s.Plan.LCC.Sub(s.Plan.Bound)
	assert.True(t, gap.LessThan(s.Plan.Bound.Shift(-2)), "proven to within 1%%, found %s", gap)
}

// What binds a roof, and the columns that say so.
func TestPlanKeepsWhatBindsARoof(t *testing.T) {
	table := "id,Deadline,not_before,only,systems.existing.life\n" +
		"a,2027,,,9\nb,,2029,,9\nc,yes,2028,,9\nd,,,Roof over,9\ne,,,Keep patching,9\nf,2028,,Tear off and replace,9\ng,no,2035,,9\n"
	rows, _, told := planned(t, exitDone, table, "--budget", "2027-2029=9000000", "--map", "Deadline=must_do", "example:portfolio", "-")
	start := func(i int) int {
		if rows[i].Plan.Start == nil {
			return 0
		}
		return *rows[i].Plan.Start
	}
	assert.Equal(t, 2027, start(0), told)
	assert.Contains(t, []int{0, 2029}, start(1))
	assert.Contains(t, []int{2028, 2029}, start(2))
	assert.Equal(t, "Roof over", rows[3].Plan.Alternative)
	assert.Equal(t, "Keep patching", rows[4].Plan.Alternative)
	assert.Equal(t, "Tear off and replace", rows[5].Plan.Alternative)
	assert.LessOrEqual(t, start(5), 2028)
	assert.Equal(t, 0, start(6), "it may start after the plan's years only")

	for cells, said := range map[string]string{
		"2026,,":      `must_do: "2026" is outside the years of the plan, 2027 to 2029`,
		"soon,,":      `must_do: "soon" is neither yes, no nor a year such as 2027`,
		",29,":        `not_before: "29" is no year, expected one such as 2027`,
		"2027,2028,":  `not_before: "2028" is after 2027, by which the work must start`,
		",,Re-roof":   `only: "Re-roof" is no alternative of the roof's template`,
		"2027,,\nb,,": "", // the other one is done
	} {
		code, _, told := roofs(t, "id,must_do,not_before,only\na,"+cells+"\n", "--in", "csv", "--budget", "2027-2029=9000000", "example:portfolio", "-")
		if said == "" {
			assert.Equal(t, exitInput, code, "a row that has too few cells")
			continue
		}
		assert.Equal(t, exitInput, code, told)
		assert.Contains(t, told, said)
	}
	for cell, starts := range map[string]bool{"Yes": true, "TRUE": true, "No": false, "false": false} {
		rows, _, _ := planned(t, exitDone, "id,must_do,systems.existing.life,roof.area\na,"+cell+",30,90000\n", "--budget", "2027=9000000", "example:portfolio", "-")
		assert.Equal(t, starts, rows[0].Plan.Start != nil, cell)
	}
	code, _, told := roofs(t, "id,Must do\na,2027\n", "--in", "csv", "--plan", "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, `the column "Must do" would be carried through, and nothing bound by it; call it "must_do", or say --map "Must do=must_do"`)
}

// A head that is another's name but for capitals is carried through, which is
// told once; not where the table has that column, or says what the head is.
func TestHeadsOfOtherCapitalsAreTold(t *testing.T) {
	for _, c := range []struct {
		heads string
		args  []string
		said  []string
	}{
		{"Name", nil, []string{`the column "Name" is carried through; call it "name" if it is that, or say --map "Name=name"`}},
		{"Template,NAME", nil, []string{`the column "NAME" is carried through; call it "name"`, `the column "Template" is carried through; call it "template"`}},
		{"Name,name", nil, nil},
		{"ID,Names", nil, nil},
		{"Name", []string{"--map", "Name=name"}, nil},
	} {
		row := strings.Repeat(",x", strings.Count(c.heads, ",")+1) + "\n"
		code, _, told := roofs(t, "id,"+c.heads+"\na"+row+"b"+row, append([]string{"--in", "csv", "example:portfolio", "-"}, c.args...)...)
		assert.Equal(t, exitDone, code, told)
		assert.Equal(t, len(c.said), strings.Count(told, "is carried through"), told)
		for _, said := range c.said {
			assert.Contains(t, told, said)
		}
	}
}

// Without a plan such columns are carried through, which is told once.
func TestColumnsThatBindNothing(t *testing.T) {
	const one, several = "and binds nothing without --plan\n", "and bind nothing without --plan\n"
	mapped := otherTemplate(t, "portfolio:\n", "portfolio:\n  columns: {Deadline: must_do}\n")
	for _, c := range []struct {
		head, template, said string
		args                 []string
	}{
		{"must_do", "example:portfolio", `the column "must_do" is carried through, ` + one, nil},
		{"must_do,only", "example:portfolio", `the columns "must_do", "only" are carried through, ` + several, nil},
		{"Deadline", mapped, `the column "Deadline" is carried through, ` + one, nil},
		{"Late", "example:portfolio", `the column "Late" is carried through, ` + one, []string{"--map", "Late=not_before"}},
		{"Must do", "example:portfolio", "", nil},
	} {
		table := "id," + c.head + "\n"
		carried := strings.Repeat(",soon", strings.Count(c.head, ",")+1)
		code, out, told := roofs(t, table+"a"+carried+"\nb"+carried+"\n", append([]string{"--in", "csv", c.template, "-"}, c.args...)...)
		assert.Equal(t, exitDone, code, told)
		assert.Contains(t, out, "\na,"+carried+",", c.head)
		assert.Equal(t, c.said != "", strings.Contains(told, "without --plan"), told)
		if c.said != "" {
			assert.Equal(t, 1, strings.Count(told, c.said), told)
		}
	}
	code, _, told := roofs(t, "id,must_do\na,2027\n", "--in", "csv", "--plan", "example:portfolio", "-")
	assert.Equal(t, exitDone, code)
	assert.NotContains(t, told, "without --plan")
}

// Where no plan exists that is said, with why, and the rows have none.
func TestPlanThatDoesNotExist(t *testing.T) {
	rows, s, told := planned(t, exitInput, "id,must_do,roof.area,systems.existing.life\na,2027,20000,9\nb,,20000,0.5\n", "--budget", "2027=10,2028=0", "example:portfolio", "-")
	assert.Equal(t, "infeasible", s.Plan.State)
	assert.NotEmpty(t, s.Plan.Reason)
	assert.Contains(t, told, "plan: "+s.Plan.Reason)
	assert.Nil(t, rows[0].Plan)
	_, s, _ = planned(t, exitInput, "id,must_do,only\na,yes,Keep patching\n", "--budget", "2027=10", "example:portfolio", "-")
	assert.Equal(t, `no option of the roof "a" may be chosen`, s.Plan.Reason)
	_, out, _ := roofs(t, "id,must_do,only\na,yes,Keep patching\n", "--in", "csv", "--budget", "2027=10", "example:portfolio", "-")
	assert.True(t, strings.HasSuffix(out, ",,,,,USD\n"), out)
}

// Of a table without a roof that could be done nothing is planned or drawn.
func TestNoRoofsNoPlan(t *testing.T) {
	for table, code := range map[string]int{"id\n": exitDone, "id,roof.area\na,0\n": exitInput} {
		got, _, told := roofs(t, table, "--in", "csv", "--plan", "--trials", "10", "example:portfolio", "-")
		assert.Equal(t, code, got)
		assert.Contains(t, told, "0 roofs\n")
		assert.NotContains(t, told, "plan:")
		assert.NotContains(t, told, "futures")
	}
}

// A template may state the budget; what the command line says goes before it.
func TestPlanOfTheTemplate(t *testing.T) {
	table := exampleRoofs(t)
	stated, _, _ := planned(t, exitDone, table, "--plan", "example:portfolio", "-")
	given, _, _ := planned(t, exitDone, table, "--budget", "2027-2029=1050000", "example:portfolio", "-")
	assert.Equal(t, given, stated)
	_, s, _ := planned(t, exitDone, table, "--plan", "--budget", "2027=100000", "example:portfolio", "-")
	require.Len(t, s.Plan.Years, 1)
	crew := otherTemplate(t, "  budget: {2027-2029: 1050000}\n", "  crew_area: {2028: 20000 m2}\n")
	_, s, _ = planned(t, exitDone, table, "--plan", crew, "-")
	require.Len(t, s.Plan.Years, 2)
	assert.Equal(t, "215278.2", s.Plan.Years[1].Crew.Decimal.String(), "in square feet, cut to hundredths")
	assert.False(t, s.Plan.Years[0].Budget.Valid)
	none := otherTemplate(t, "portfolio:\n  budget: {2027-2029: 1050000}\n", "")
	code, _, told := roofs(t, "id\na\n", "--in", "csv", "--plan", none, "-")
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, told, "--plan needs a budget: the template states none, so say --budget YEAR=AMOUNT")
}

// The old roof is removed when a work is put off; that a study leaves it out of
// works that start at once is told, and mended by a wait of no years.
func TestPlanTellsRemovalThatIsLeftOut(t *testing.T) {
	const then = "    then: tear_off\n\n  restoration:"
	removal := []string{then, "    removal: [{item: Take the gravel off, amount: 20000}]\n" + then}
	_, _, told := planned(t, exitDone, "id\na\n", "--plan", otherTemplate(t, removal...), "-")
	assert.Contains(t, told, `plan: "Roof over" pays for removing the old roof when it is put off, but not when it starts at once; if it should, give it a wait of 0 years on that roof`)
	waits := []string{"start: restoration}", "start: restoration, wait: {on: existing, years: 0}}", "start: recover}", "start: recover, wait: {on: existing, years: 0}}", "name: Tear off and replace, start: tear_off}", "name: Tear off and replace, start: tear_off, wait: {on: existing, years: 0}}"}
	rows, _, told := planned(t, exitDone, "id,not_before\na,2028\n", "--plan", otherTemplate(t, append(removal, waits...)...), "-")
	assert.NotContains(t, told, "pays for removing")
	require.NotNil(t, rows[0].Plan.Start, "what waits for no years can be put off")
	assert.GreaterOrEqual(t, *rows[0].Plan.Start, 2028)
	_, _, told = planned(t, exitDone, "id\na\n", "--plan", "example:portfolio", "-")
	assert.NotContains(t, told, "pays for removing")
}

func TestBudgetsThatAreNone(t *testing.T) {
	for _, c := range []struct {
		args []string
		said string
	}{
		{[]string{"--budget", "2027"}, `--budget: found "2027", expected YEAR=NUMBER or FIRST-LAST=NUMBER`},
		{[]string{"--budget", "2027=-5"}, `--budget: found "2027=-5", expected`},
		{[]string{"--budget", "2029-2027=5"}, `--budget: found "2029-2027=5", expected`},
		{[]string{"--budget", "2027-9999=5"}, `--budget: found "2027-9999=5", expected`},
		{[]string{"--budget", "2027=1,2027=2"}, "--budget says twice what 2027 has"},
		{[]string{"--budget", "2026=1"}, "--budget names 2026, but the base date of the study lies in 2027: the plan's years begin there"},
		{[]string{"--budget", "2027=1,2029=1"}, "--budget says nothing of 2028; write 2028=0 if it has none"},
		{[]string{"--budget", "2027=1.005"}, "--budget: 1.005 is finer than 0.01, or over 90071992547409.92"},
		{[]string{"--budget", "2027=1e30"}, "--budget: 1000000000000000000000000000000 is finer than 0.01, or over"},
		{[]string{"--crew", "2027=x"}, `--crew: found "2027=x", expected`},
		{[]string{"--budget", "2027=1", "--summary", "-"}, "--summary needs a file; standard output has the results"},
		{[]string{"--summary", "x", "--rejects", "./x"}, "--rejects and --summary name the same file"},
	} {
		code, _, told := roofs(t, "id\na\n", append(append([]string{"--in", "csv"}, c.args...), "example:portfolio", "-")...)
		assert.Equal(t, exitUsage, code, "%q", c.args)
		assert.Contains(t, told, c.said)
	}
	code, _, told := roofs(t, "id\na\n", "--in", "csv", "--budget", "2027-2080=1", "example:portfolio", "-")
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, told, "the plan reaches 2080, but the study period ends in 2057")
	baseless := otherTemplate(t, ", base_case: true", "")
	code, _, told = roofs(t, "id\na\n", "--in", "csv", "--budget", "2027=1", baseless, "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, baseless+": the study has no base case, which a plan needs")
}

// An interruption while the plan is made ends the run before a row is written.
func TestPlanIsInterrupted(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var out bytes.Buffer
	w := &roofWriting{run: &roofRun{gather: true, plan: &planning{years: 1}}, out: &out}
	assert.ErrorIs(t, w.gathered(ctx), errInterrupted)
	assert.Empty(t, out.String())
}
