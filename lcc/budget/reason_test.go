package budget

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// crowded draws a small problem in which each option uses one year, so that
// limits are often too tight, for each of the causes.
func crowded(r *rand.Rand) Problem {
	p := Problem{Budgets: make([]Limit, 3)}
	for y := range p.Budgets {
		p.Budgets[y] = AtMost(3 + r.Int64N(10))
	}
	for range 1 + r.IntN(5) {
		var roof Roof
		for range 1 + r.IntN(3) {
			o := Option{Cost: r.Int64N(20), FirstCost: make([]int64, 3), Barred: r.IntN(10) == 0}
			o.FirstCost[r.IntN(3)] = 2 + r.Int64N(7)
			roof.Options = append(roof.Options, o)
		}
		p.Roofs = append(p.Roofs, roof)
	}
	return p
}

func TestReasonsAgainstEveryPlan(t *testing.T) {
	causes := map[Cause]int{}
	r := rand.New(rand.NewPCG(20261001, 3))
	for range 2000 {
		p := crowded(r)
		least, found := bruteForce(p)
		a := choose(t, p)
		causes[a.Reason.Cause]++
		if found {
			require.Equal(t, Optimal, a.State)
			require.Equal(t, least, a.Cost)
			continue
		}
		require.Equal(t, Infeasible, a.State)
		checkReason(t, p, a)
	}
	for cause := NoCause; cause <= YearsTogether; cause++ {
		assert.Greater(t, causes[cause], 20, "hardly any problem had cause %d: %v", cause, causes)
	}
}

// checkReason takes the reason at its word: the limits it names cannot be
// kept even if all others are lifted.
func checkReason(t require.TestingT, p Problem, a Answer) {
	r := a.Reason
	only := func(years []int, roofs []Roof) Problem {
		q := Problem{Roofs: roofs, Budgets: make([]Limit, len(p.Budgets)), Crews: make([]Limit, len(p.Crews))}
		for _, k := range years {
			list := q.Budgets
			if a.Years[k].Kind == Crew {
				list = q.Crews
			}
			list[a.Years[k].Year] = AtMost(a.Years[k].Most)
		}
		return q
	}
	switch r.Cause {
	case NoOption:
		_, found := bruteForce(Problem{Roofs: p.Roofs[r.Roof : r.Roof+1]})
		require.False(t, found)
	case RoofTooLarge:
		_, found := bruteForce(only(r.Years, p.Roofs[r.Roof:r.Roof+1]))
		require.False(t, found)
	case YearShort:
		require.Len(t, r.Years, 1)
		q := only(r.Years, p.Roofs)
		_, found := bruteForce(q)
		require.False(t, found)
		a.Years[r.Years[0]].Most = r.Needed
		_, found = bruteForce(only(r.Years, p.Roofs))
		require.True(t, found, "the year can be kept with what is said to be needed")
	case YearsTogether:
		_, found := bruteForce(only(r.Years, p.Roofs))
		require.False(t, found)
		for _, k := range r.Years {
			_, found := bruteForce(only([]int{k}, p.Roofs))
			require.True(t, found, "each year can be kept alone")
		}
	default:
		require.Fail(t, "no cause", "%+v", r)
	}
}
