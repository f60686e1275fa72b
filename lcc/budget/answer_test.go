package budget

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAmountsThatAreNone(t *testing.T) {
	one := func(o Option) Problem { return Problem{Roofs: []Roof{{Name: "shed", Options: []Option{o}}}} }
	for _, c := range []struct {
		problem Problem
		want    string
	}{
		{Problem{Effort: -1}, "effort -1 is negative"},
		{Problem{Budgets: []Limit{AtMost(-2)}}, "first cost limit of year 0 is negative: -2"},
		{Problem{Crews: []Limit{{}, AtMost(-3)}}, "area limit of year 1 is negative: -3"},
		{one(Option{FirstCost: []int64{0, -5}}), `roof 0 "shed", option 0: first cost of year 1 is -5, outside 0 to 9007199254740992 units`},
		{one(Option{Area: []int64{-1}}), `roof 0 "shed", option 0: area of year 0 is -1, outside 0 to 9007199254740992 units`},
		{one(Option{Cost: math.MinInt64}), `roof 0 "shed", option 0: cost -9223372036854775808 is beyond ±9007199254740992 units`},
		{one(Option{Cost: largest, Area: []int64{1}}), `roof 0 "shed", option 0: amounts add up to more than 9007199254740992 units`},
		{Problem{Roofs: []Roof{{Options: []Option{{Cost: largest}}}, {Name: "hall", Options: []Option{{Cost: 1}}}}},
			`roof 1 "hall": the amounts of the roofs so far may reach more than 9007199254740992 units`},
	} {
		_, err := Choose(c.problem)
		assert.EqualError(t, err, c.want, fmt.Sprint(c.problem))
	}
}

func TestGapShare(t *testing.T) {
	for _, c := range []struct {
		answer Answer
		share  float64
		ok     bool
	}{
		{Answer{State: Optimal}, 0, true},
		{Answer{State: Feasible, Cost: 110, Bound: 100}, 0.1, true},
		{Answer{State: Feasible, Cost: -90, Bound: -100}, 0.1, true},
		{Answer{State: Feasible, Cost: 10, Bound: 0}, 0, false},
		{Answer{State: Undecided, Bound: 100}, 0, false},
		{Answer{State: Infeasible}, 0, false},
	} {
		share, ok := c.answer.GapShare()
		assert.Equal(t, c.ok, ok, "%+v", c.answer)
		assert.InDelta(t, c.share, share, 1e-15, "%+v", c.answer)
	}
}

// Reasons worked by hand.
func TestReasons(t *testing.T) {
	money := func(amounts ...int64) Option { return Option{FirstCost: amounts} }
	for name, c := range map[string]struct {
		problem Problem
		want    Reason
	}{
		"all barred": {
			Problem{Roofs: []Roof{{Options: []Option{{}}}, {Options: []Option{{Barred: true}}}}},
			Reason{Cause: NoOption, Roof: 1},
		},
		"the second year is short by 1": {
			Problem{Budgets: []Limit{{}, AtMost(9)}, Roofs: []Roof{{Options: []Option{money(0, 5), money(0, 7)}}, {Options: []Option{money(0, 5)}}}},
			Reason{Cause: YearShort, Roof: -1, Years: []int{0}, Needed: 10},
		},
		"one roof is too large in either year": {
			Problem{Budgets: []Limit{AtMost(4), AtMost(4), AtMost(4)}, Roofs: []Roof{{Options: []Option{money(5), money(0, 6)}}}},
			Reason{Cause: RoofTooLarge, Roof: 0, Years: []int{0, 1}},
		},
		"three roofs in two years that hold one each": {
			Problem{Budgets: []Limit{AtMost(9), AtMost(9), AtMost(1)}, Roofs: []Roof{
				{Options: []Option{money(5), money(0, 5)}},
				{Options: []Option{money(5), money(0, 5)}},
				{Options: []Option{money(5), money(0, 5), money(5, 0, 1)}},
			}},
			Reason{Cause: YearsTogether, Roof: -1, Years: []int{0, 1}},
		},
	} {
		t.Run(name, func(t *testing.T) {
			a := choose(t, c.problem)
			assert.Equal(t, Infeasible, a.State)
			assert.Equal(t, c.want, a.Reason)
			assert.Nil(t, a.Plan)
		})
	}
}

// With amounts of the largest size sums do not overflow and the answer is
// still proven.
func TestLargestAmounts(t *testing.T) {
	const half = largest / 8
	p := Problem{Budgets: []Limit{AtMost(half + 1)}}
	for i := range int64(4) {
		p.Roofs = append(p.Roofs, Roof{Options: []Option{{Cost: half}, {Cost: i, FirstCost: []int64{half - i}}}})
	}
	a := choose(t, p)
	assert.Equal(t, []int{1, 0, 0, 0}, a.Plan, "cost %d, bound %d", a.Cost, a.Bound)
	assert.Equal(t, int64(3*half), a.Cost)
	assert.LessOrEqual(t, a.Bound, a.Cost)
}
