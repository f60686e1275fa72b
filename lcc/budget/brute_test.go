package budget

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// smallProblem draws a problem of which every plan can be tried: up to 6
// roofs of up to 4 options, up to 3 budgets and 2 crews. Amounts are small,
// so that ties and limits that are just kept are common; one problem in three
// has large ones.
func smallProblem(t *rapid.T) Problem {
	unit := rapid.SampledFrom([]int64{1, 1, 1_000_003}).Draw(t, "unit")
	amounts := func(name string, years int) []int64 {
		list := rapid.SliceOfN(rapid.SampledFrom([]int64{0, 0, 0, 0, 1, 2, 3, 5, 7, 8}), 0, years).Draw(t, name)
		for y := range list {
			list[y] *= unit
		}
		return list
	}
	limits := func(name string, years int) []Limit {
		return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Limit {
			return Limit{Set: rapid.IntRange(0, 5).Draw(t, "set") > 0, Most: unit * rapid.Int64Range(0, 12).Draw(t, "most")}
		}), 0, years).Draw(t, name)
	}
	roof := rapid.Custom(func(t *rapid.T) Roof {
		return Roof{Options: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Option {
			return Option{
				Cost:      unit * rapid.Int64Range(-10, 40).Draw(t, "cost"),
				FirstCost: amounts("first cost", 3),
				Area:      amounts("area", 2),
				Barred:    rapid.IntRange(0, 9).Draw(t, "barred") == 0,
			}
		}), 1, 4).Draw(t, "options")}
	})
	return Problem{
		Roofs:   rapid.SliceOfN(roof, 0, 6).Draw(t, "roofs"),
		Budgets: limits("budgets", 3),
		Crews:   limits("crews", 2),
	}
}

// keeps tells whether a plan takes no barred option and keeps every limit. It
// shares no code with the search.
func keeps(p Problem, plan []int) bool {
	var money, area [16]int64
	for i, j := range plan {
		o := p.Roofs[i].Options[j]
		if o.Barred {
			return false
		}
		for y, amount := range o.FirstCost {
			money[y] += amount
		}
		for y, amount := range o.Area {
			area[y] += amount
		}
	}
	for y, limit := range p.Budgets {
		if limit.Set && money[y] > limit.Most {
			return false
		}
	}
	for y, limit := range p.Crews {
		if limit.Set && area[y] > limit.Most {
			return false
		}
	}
	return true
}

func planCost(p Problem, plan []int) (cost int64) {
	for i, j := range plan {
		cost += p.Roofs[i].Options[j].Cost
	}
	return cost
}

// bruteForce tries every plan and returns the least cost.
func bruteForce(p Problem) (least int64, found bool) {
	plan := make([]int, len(p.Roofs))
	for {
		if cost := planCost(p, plan); keeps(p, plan) && (!found || cost < least) {
			least, found = cost, true
		}
		i := 0
		for ; i < len(plan); i++ {
			if plan[i]++; plan[i] < len(p.Roofs[i].Options) {
				break
			}
			plan[i] = 0
		}
		if i == len(plan) {
			return least, found
		}
	}
}

func choose(t require.TestingT, p Problem) Answer {
	a, err := Choose(p)
	require.NoError(t, err)
	return a
}

func TestSmallProblemsAgainstEveryPlan(t *testing.T) {
	states := map[State]int{}
	rapid.Check(t, func(t *rapid.T) {
		p := smallProblem(t)
		least, found := bruteForce(p)
		a := choose(t, p)
		states[a.State]++
		if !found {
			require.Equal(t, Infeasible, a.State)
			require.Nil(t, a.Plan)
			checkReason(t, p, a)
			return
		}
		require.Equal(t, Optimal, a.State)
		require.True(t, keeps(p, a.Plan))
		require.Equal(t, least, a.Cost)
		require.Equal(t, least, a.Bound)
		require.Equal(t, least, planCost(p, a.Plan))
		require.Equal(t, Reason{}, a.Reason)
		checkYears(t, p, a)
	})
	for _, state := range []State{Optimal, Infeasible} {
		assert.Greater(t, states[state], 5, "hardly any problem was %s: %v", state, states)
	}
}

// checkYears compares what the answer says of each limit with the plan.
func checkYears(t *rapid.T, p Problem, a Answer) {
	for _, year := range a.Years {
		var used int64
		for i, j := range a.Plan {
			amounts := p.Roofs[i].Options[j].FirstCost
			if year.Kind == Crew {
				amounts = p.Roofs[i].Options[j].Area
			}
			if year.Year < len(amounts) {
				used += amounts[year.Year]
			}
		}
		require.Equal(t, used, year.Used)
		require.LessOrEqual(t, year.Used, year.Most)
		require.GreaterOrEqual(t, year.Worth, 0.0)
	}
}
