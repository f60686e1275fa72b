package budget

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// middling draws a problem that is too large to try every plan of, so that
// its bound, repair and tree are at work.
func middling(t *rapid.T) Problem {
	s := shape{
		roofs:   rapid.IntRange(5, 25).Draw(t, "roofs"),
		options: rapid.IntRange(2, 5).Draw(t, "options"),
		years:   rapid.IntRange(1, 4).Draw(t, "years"),
		spread:  rapid.Bool().Draw(t, "spread"),
		tight:   rapid.Float64Range(0.05, 1).Draw(t, "tight"),
	}
	s.crews = !s.spread && rapid.Bool().Draw(t, "crews")
	p := s.draw(rapid.Uint64().Draw(t, "seed"))
	p.Effort = rapid.SampledFrom([]int64{1, 1000, 100_000, 5_000_000}).Draw(t, "effort")
	return p
}

func TestPlansKeepTheLimitsAndTheBound(t *testing.T) {
	states := map[State]int{}
	rapid.Check(t, func(t *rapid.T) {
		p := middling(t)
		a := choose(t, p)
		states[a.State]++
		require.Equal(t, a, choose(t, p), "the same problem has the same answer")
		if !a.HasPlan() {
			require.Equal(t, Undecided, a.State, "doing nothing keeps every limit")
			return
		}
		require.True(t, keeps(p, a.Plan))
		require.Equal(t, a.Cost, planCost(p, a.Plan))
		require.LessOrEqual(t, a.Bound, a.Cost)
		require.Equal(t, a.State == Optimal, a.Bound == a.Cost)
		dearer, _ := a.LimitsCost()
		require.GreaterOrEqual(t, dearer, int64(0))
		full := p
		full.Effort = 5_000_000
		better := choose(t, full)
		require.LessOrEqual(t, a.Bound, better.Cost, "a bound holds for every plan")
	})
	for state := Optimal; state <= Undecided; state++ {
		if state != Infeasible {
			assert.Positive(t, states[state], "no problem was %s: %v", state, states)
		}
	}
}

// More budget is never dearer, by the proven bounds always and by the costs
// where both plans are optimal.
func TestMoreBudgetIsNeverDearer(t *testing.T) {
	both := 0
	rapid.Check(t, func(t *rapid.T) {
		p := middling(t)
		p.Effort = 5_000_000
		before := choose(t, p)
		y := rapid.IntRange(0, len(p.Budgets)-1).Draw(t, "year")
		p.Budgets[y].Most += rapid.Int64Range(0, p.Budgets[y].Most+1).Draw(t, "more")
		after := choose(t, p)
		if before.HasPlan() {
			require.LessOrEqual(t, after.Bound, before.Cost)
		}
		if before.State == Optimal && after.State == Optimal {
			both++
			require.LessOrEqual(t, after.Cost, before.Cost)
		}
	})
	assert.Greater(t, both, 20)
}

// Without one of its options a problem is never cheaper; without one that the
// plan does not use it costs the same.
func TestAnOptionLessIsNeverCheaper(t *testing.T) {
	both := 0
	rapid.Check(t, func(t *rapid.T) {
		p := middling(t)
		p.Effort = 5_000_000
		before := choose(t, p)
		i := rapid.IntRange(0, len(p.Roofs)-1).Draw(t, "roof")
		j := rapid.IntRange(0, len(p.Roofs[i].Options)-1).Draw(t, "option")
		p.Roofs[i].Options[j].Barred = true
		after := choose(t, p)
		if after.HasPlan() {
			require.GreaterOrEqual(t, after.Cost, before.Bound)
		}
		if before.State == Optimal && after.State == Optimal {
			both++
			require.GreaterOrEqual(t, after.Cost, before.Cost)
			if before.Plan[i] != j {
				require.Equal(t, before.Cost, after.Cost)
			}
		}
	})
	assert.Greater(t, both, 20)
}

// With more of every limit no plan costs less than the bound less what the
// worths promise: the bound is concave in the limits, and worths are its
// slopes. That is so as long as no option comes into the choice that a limit
// ruled out by itself before.
func TestWorthsAreSlopesOfTheBound(t *testing.T) {
	worth := 0
	rapid.Check(t, func(t *rapid.T) {
		p := middling(t)
		p.Effort = 5_000_000
		m, _ := newModel(p, yearsOf(p))
		before := choose(t, p)
		top := newSearch(m, p.Effort).raise(m.root())
		promised, binding := 0.0, 0
		for _, year := range before.Years {
			more := rapid.Int64Range(0, year.Most/10).Draw(t, "more")
			list := p.Budgets
			if year.Kind == Crew {
				list = p.Crews
			}
			list[year.Year].Most += more
			promised += year.Worth * float64(more)
			if year.Worth > 0 && more > 0 {
				binding = 1
			}
		}
		if !before.HasPlan() || fittingOptions(p, before.Years) != fittingOptions(p, yearsOf(p)) {
			return
		}
		worth += binding
		after := choose(t, p)
		require.GreaterOrEqual(t, float64(after.Cost)*(1+1e-12), float64(top.bound()-1)-promised)
	})
	assert.Greater(t, worth, 20)
}

// fittingOptions counts the options that keep every limit by themselves.
func fittingOptions(p Problem, years []Year) (count int) {
	for _, roof := range p.Roofs {
		choices, _ := fitting(roof, years)
		count += len(choices)
	}
	return count
}

// Where the bound would be as good without a limit's price, the limit is
// worth nothing.
func TestNoWorthIsNeedless(t *testing.T) {
	priced := 0
	rapid.Check(t, func(t *rapid.T) {
		p := middling(t)
		for y := range p.Budgets {
			p.Budgets[y].Most += p.Budgets[y].Most / 100 * rapid.Int64Range(-50, 50).Draw(t, "percent")
		}
		m, reason := newModel(p, yearsOf(p))
		require.Equal(t, NoCause, reason.Cause)
		top := newSearch(m, 5_000_000).raise(m.root())
		for k, multiplier := range top.multipliers {
			if multiplier > 0 {
				priced++
				without := slices.Clone(top.multipliers)
				without[k] = 0
				require.Less(t, m.relax(m.root(), without).value, top.value)
			}
		}
	})
	assert.Greater(t, priced, 100)
}

func TestSlackLimitIsWorthNothing(t *testing.T) {
	p := Problem{
		Roofs: []Roof{
			{Options: []Option{{Cost: 100}, {Cost: 40, FirstCost: []int64{30}}}},
			{Options: []Option{{Cost: 90}, {Cost: 60, FirstCost: []int64{30}}}},
			{Options: []Option{{Cost: 80}, {Cost: 50, FirstCost: []int64{0, 30}}}},
		},
		Budgets: []Limit{AtMost(30), AtMost(45)},
	}
	a := choose(t, p)
	assert.Equal(t, []int{1, 0, 1}, a.Plan)
	assert.Equal(t, int64(40+90+50), a.Cost)
	dearer, ok := a.LimitsCost()
	assert.True(t, ok)
	assert.Equal(t, int64(30), dearer)
	assert.Equal(t, int64(30), a.Years[0].Used)
	assert.Equal(t, int64(30), a.Years[1].Used)
	assert.Zero(t, a.Years[1].Worth)
	// a unit of money in year 0 saves 1 of the second roof's 30 ÷ 30, up to
	// 2 of the first one's 60 ÷ 30
	assert.InDelta(t, 1.5, a.Years[0].Worth, 0.5)
}
