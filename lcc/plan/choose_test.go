package plan

import (
	"bytes"
	"encoding/csv"
	"runtime"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/budget"
	"roofyears/scenarios"
)

// exampleRows are the forty roofs of the embedded example, without the findings
// that differ: what rules say of a roof is for whoever reads its row.
func exampleRows(t require.TestingT) []row {
	src, ok := scenarios.ExampleTable(scenarios.PortfolioExample)
	require.True(t, ok)
	cells, err := csv.NewReader(bytes.NewReader(src.Text)).ReadAll()
	require.NoError(t, err)
	var rows []row
	for _, line := range cells[1:] {
		own := row{}
		for i, head := range cells[0] {
			if strings.Contains(head, ".") && !strings.HasPrefix(head, "findings.") && line[i] != "" {
				own[head] = line[i]
			}
		}
		rows = append(rows, own)
	}
	require.Len(t, rows, 40)
	return rows
}

// What a roof's study states is the answer of its own comparison; without
// limits each roof takes its cheapest option.
func TestWithoutLimitsEachRoofIsItsOwnAnswer(t *testing.T) {
	rows := exampleRows(t)
	study := read(t, exampleText(t)).Study
	for _, years := range []int{1, 5} {
		roofs := table(t, template(t, study, years), rows)
		p := choose(t, roofs, years, Limits{})
		foots(t, p)
		assert.Equal(t, budget.Optimal, p.State)
		assert.Equal(t, p.Unlimited, p.Cost)
		var stated int64
		for i, own := range rows {
			v := study.Likely()
			for path, text := range own {
				v[study.Find(path)] = dec(text)
			}
			result, err := study.EvaluateAt(v)
			require.NoError(t, err)
			lowest := result.Answer.Lowest
			assert.Equal(t, lowest, p.Roofs[i].Stated.Alternative)
			stated += result.Alternatives[lowest].LCC.Shift(2).IntPart()
			assert.Equal(t, p.Roofs[i].Cheapest.LCC, p.Roofs[i].Option.LCC)
			if years == 1 {
				assert.Same(t, p.Roofs[i].Stated, p.Roofs[i].Option, "nothing can be put off")
			}
		}
		assert.Equal(t, stated, p.Stated)
		assert.LessOrEqual(t, p.Unlimited, p.Stated, "waiting is allowed, not imposed")
	}
}

// The forty roofs of the example in five years with 700,000 dollars and
// 125,000 square feet a year. What roofs cost by themselves is checked against
// their ledgers elsewhere; here the sums are held, and how good a plan is found
// with the effort that is the default.
func TestExample(t *testing.T) {
	roofs := table(t, template(t, read(t, exampleText(t)).Study, 5), exampleRows(t))
	most, area := int64(70_000_000), int64(12_500_000)
	p := choose(t, roofs, 5, Limits{Money: money(most, most, most, most, most), Crews: money(area, area, area, area, area)})
	require.True(t, p.HasPlan())
	foots(t, p)
	assert.Equal(t, int64(1_585_520_543), p.Stated)
	assert.Equal(t, int64(1_507_794_098), p.Unlimited)
	assert.LessOrEqual(t, p.Cost, int64(1_552_259_540))
	assert.GreaterOrEqual(t, p.Bound, int64(1_550_127_864))
	assert.Equal(t, int64(536_592_600), p.Money[4].Wanted, "without limits many would wait to the last year")
	for year := range 5 {
		assert.Positive(t, p.Money[year].Worth, "money is short in year %d", year)
		assert.Less(t, p.Money[year].Worth, 1.0)
	}
	assert.Positive(t, p.Crews[4].Worth, "crews are short in the last year")
}

func TestMoreMoneyIsNeverDearer(t *testing.T) {
	roofs := table(t, template(t, read(t, exampleText(t)).Study, 3), exampleRows(t)[:12])
	before := Plan{Answer: budget.Answer{State: budget.Undecided}}
	feasible := 0
	for most := int64(20_000_000); most < 400_000_000; most += 20_000_000 {
		p := choose(t, roofs, 3, Limits{Money: money(most, most, most)})
		if before.HasPlan() {
			require.True(t, p.HasPlan())
			require.LessOrEqual(t, p.Bound, before.Cost)
			feasible++
			if before.State == budget.Optimal && p.State == budget.Optimal {
				require.LessOrEqual(t, p.Cost, before.Cost)
			}
		}
		before = p
	}
	assert.Greater(t, feasible, 5)
	assert.Equal(t, before.Unlimited, before.Cost, "with money enough, limits cost nothing")
	for _, y := range before.Money {
		assert.Zero(t, y.Worth)
	}
}

// One budget of one year, and two roofs that it is not enough for: what one
// more dollar is worth lies between what the two would save for theirs.
func TestWorthOfMoneyAndOfCrews(t *testing.T) {
	rows := []row{{"roof.area": "20000", "systems.existing.life": "6"}, {"roof.area": "30000", "systems.existing.life": "6"}}
	roofs := table(t, template(t, read(t, exampleText(t)).Study, 1), rows, Rules{}, Rules{})
	saved := func(r Roof) float64 { return float64(r.Options[0].LCC - r.Options[1].LCC) }
	for i := range roofs {
		roofs[i].Options = roofs[i].Options[:2] // doing nothing and restoring
		require.Positive(t, saved(roofs[i]))
	}
	first, second := roofs[0].Options[1], roofs[1].Options[1]
	p := choose(t, roofs, 1, Limits{Money: money(second.Paid[0])})
	worths := []float64{saved(roofs[0]) / float64(first.Paid[0]), saved(roofs[1]) / float64(second.Paid[0])}
	assert.InDelta(t, (worths[0]+worths[1])/2, p.Money[0].Worth, max(worths[0], worths[1])-min(worths[0], worths[1]))
	p = choose(t, roofs, 1, Limits{Crews: money(second.Area[0])})
	assert.Equal(t, int64(3_000_000), second.Area[0], "hundredths of a square foot")
	worths = []float64{saved(roofs[0]) / 20_000, saved(roofs[1]) / 30_000} // cents for a square foot
	assert.InDelta(t, (worths[0]+worths[1])/2, p.Crews[0].Worth, max(worths[0], worths[1])-min(worths[0], worths[1]))
	p = choose(t, roofs, 1, Limits{Money: money(0)})
	assert.Equal(t, 2, p.Money[0].TooDear, "a year without money is worth nothing, and says why")
	assert.Zero(t, p.Money[0].Worth)
}

func TestReasons(t *testing.T) {
	made := template(t, read(t, exampleText(t)).Study, 3)
	rows := []row{{"systems.existing.life": "1"}, {"systems.existing.life": "9"}, {"systems.existing.life": "9"}}
	roofs := table(t, made, rows)
	least := roofs[0].Options[0].Paid[1]
	for _, o := range roofs[0].Options {
		least = min(least, in(o.Paid, 0)+in(o.Paid, 1))
	}
	p := choose(t, roofs, 3, Limits{Money: money(least-1, least-1)})
	assert.Equal(t, budget.Infeasible, p.State, "the first roof is torn off in year 1 if nothing is done before")
	assert.Equal(t, budget.RoofTooLarge, p.Reason.Cause)
	assert.Equal(t, []int{0}, p.Stuck)
	assert.Nil(t, p.Roofs[0].Option)
	assert.NotNil(t, p.Roofs[0].Cheapest)

	p = choose(t, table(t, made, rows, Rules{Only: Just(0)}), 3, Limits{Money: []budget.Limit{{}, budget.AtMost(5)}})
	assert.Equal(t, budget.YearShort, p.Reason.Cause)
	assert.Equal(t, roofs[0].Options[0].Paid[1], p.Reason.Needed)
	assert.Equal(t, 1, p.Years[p.Reason.Years[0]].Year)

	never := Rules{MustDo: Just(0), NotBefore: 1}
	p = choose(t, table(t, made, rows, Rules{}, never, never), 3, Limits{})
	assert.Equal(t, budget.NoOption, p.Reason.Cause)
	assert.Equal(t, 1, p.Reason.Roof)
	assert.Equal(t, []int{1, 2}, p.Stuck, "all of them are told at once")

	now := Rules{MustDo: Just(0), Only: Just(1)}
	one := roofs[1].Options[1].Paid[0]
	p = choose(t, table(t, made, rows, Rules{}, now, now), 3, Limits{Money: money(2*one - 1)})
	assert.Equal(t, budget.YearShort, p.Reason.Cause)
	assert.Equal(t, 2*one, p.Reason.Needed)
	assert.Empty(t, p.Stuck)

	_, err := Choose(roofs, 3, Limits{Crews: money(1, 1, 1, 1)})
	assert.EqualError(t, err, "year 3 has a limit, the last year of the plan is 2")
}

// Two templates in one plan, and the same plan on one processor and on many.
func TestTwoTemplatesOnAnyNumberOfProcessors(t *testing.T) {
	one := template(t, read(t, exampleText(t)).Study, 3)
	two := template(t, read(t, exampleText(t, "unit_price: 3.05", "unit_price: 4.10", "  - {name: Roof over, start: recover}\n", "")).Study, 3)
	require.NoError(t, one.Agree(two))
	plan := func() Plan {
		roofs := append(table(t, one, exampleRows(t)[:10]), table(t, two, exampleRows(t)[10:])...)
		return choose(t, roofs, 3, Limits{Money: money(300_000_000, 200_000_000, 250_000_000), Effort: 5_000_000})
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	first := plan()
	require.True(t, first.HasPlan())
	foots(t, first)
	runtime.GOMAXPROCS(4)
	assert.Equal(t, first, plan())
}

// A roof after another is as if it stood alone.
func TestNothingOfTheRoofBeforeStays(t *testing.T) {
	study := read(t, exampleText(t)).Study
	made := template(t, study, 4)
	rows := exampleRows(t)
	together := table(t, made, rows)
	for i, own := range rows {
		assert.Equal(t, table(t, made, []row{own})[0], together[i])
	}
	var refs []lcc.Ref
	p, err := made.Pricer(refs)
	require.NoError(t, err)
	roof, err := p.Roof([]decimal.Decimal{}, []bool{}, Rules{})
	require.NoError(t, err)
	assert.Equal(t, table(t, made, []row{{}})[0], roof)
}
