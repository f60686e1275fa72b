package plan

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/budget"
)

// priced is an option as a study file says it, found without this package.
type priced struct {
	lcc        int64
	paid, area [3]int64
	start      int // −1: starts nothing
	which      int
}

// pricedOptions evaluates a study file for every alternative and start of three
// years, one by one.
func pricedOptions(t require.TestingT, text string, own row) []priced {
	var out []priced
	for which := range 4 {
		for year := range 3 {
			written, at := text, which
			if which == 0 && year > 0 {
				continue // doing nothing is not put off
			}
			if year > 0 {
				system := []string{"existing", "restoration", "recover", "tear_off"}[which]
				written += fmt.Sprintf("  - {name: Put off, start: %s, wait: {on: existing, years: %d}}\n", system, year)
				at = 4
			}
			s := read(t, written).Study
			v := s.Likely()
			for path, text := range own {
				v[s.Find(path)] = dec(text)
			}
			result, err := s.EvaluateAt(v)
			if err != nil {
				continue // the old roof does not last
			}
			out = append(out, pricedOf(result, at, which, year))
		}
	}
	return out
}

func pricedOf(result *lcc.Result, at, which, year int) priced {
	o := priced{lcc: result.Alternatives[at].LCC.Shift(2).IntPart(), start: year, which: which}
	if which == 0 {
		o.start = -1
	}
	for y := range 3 {
		sum := decimal.Zero
		for _, e := range result.Alternatives[at].Interventions {
			if e.Year == y {
				sum = sum.Add(e.Amount) // with the removal of what was left
				o.area[y] = result.Area.Shift(2).IntPart()
			}
		}
		o.paid[y] = sum.Shift(2).IntPart()
	}
	return o
}

// allows tells whether rules allow an option.
func (o priced) allowedBy(r Rules) bool {
	if r.Only.Set && o.which != r.Only.Is {
		return false
	}
	if o.start < 0 {
		return !r.MustDo.Set
	}
	return o.start >= r.NotBefore && (!r.MustDo.Set || o.start <= r.MustDo.Is)
}

// leastOf tries every combination.
func leastOf(roofs [][]priced, paid, area, mostPaid, mostArea [3]int64) (least int64, found bool) {
	if len(roofs) == 0 {
		return 0, true
	}
	for _, o := range roofs[0] {
		p, a, fits := paid, area, true
		for y := range 3 {
			p[y] += o.paid[y]
			a[y] += o.area[y]
			fits = fits && p[y] <= mostPaid[y] && a[y] <= mostArea[y]
		}
		if !fits {
			continue
		}
		if rest, ok := leastOf(roofs[1:], p, a, mostPaid, mostArea); ok && (!found || o.lcc+rest < least) {
			least, found = o.lcc+rest, true
		}
	}
	return least, found
}

// Small portfolios against every plan there is, with options that are
// evaluated from study files of their own.
func TestPlansAgainstEveryPlan(t *testing.T) {
	r := rand.New(rand.NewPCG(20261003, 2))
	text := exampleText(t)
	made := template(t, read(t, text).Study, 3)
	states := map[budget.State]int{}
	for range 12 {
		var rows []row
		var options [][]priced
		for range 4 {
			own := row{
				"roof.area":             fmt.Sprint(4000 + r.IntN(60_000)),
				"systems.existing.life": fmt.Sprint(1 + r.IntN(6)),
				"systems.existing.annual_costs[1].amount": fmt.Sprint(r.IntN(20_000)),
			}
			rows = append(rows, own)
			options = append(options, pricedOptions(t, text, own))
		}
		for range 25 {
			checkAgainstEveryPlan(t, r, made, rows, options, states)
		}
	}
	assert.Greater(t, states[budget.Optimal], 100, states)
	assert.Greater(t, states[budget.Infeasible], 20, states)
}

// checkAgainstEveryPlan draws rules and limits for some roofs.
func checkAgainstEveryPlan(t *testing.T, r *rand.Rand, made *Template, rows []row, options [][]priced, states map[budget.State]int) {
	rules, allowed := make([]Rules, len(rows)), make([][]priced, len(rows))
	for i := range rules {
		switch r.IntN(8) {
		case 0:
			rules[i].MustDo = Just(r.IntN(3))
		case 1:
			rules[i].NotBefore = r.IntN(4)
		case 2:
			rules[i].Only = Just(r.IntN(4))
		}
		for _, o := range options[i] {
			if o.allowedBy(rules[i]) {
				allowed[i] = append(allowed[i], o)
			}
		}
	}
	var mostPaid, mostArea [3]int64
	limits := Limits{Crews: money(0, 0, 0)}
	for y := range 3 {
		mostPaid[y], mostArea[y] = r.Int64N(150_000_000), 100*(20_000+r.Int64N(150_000))
		limits.Money = append(limits.Money, budget.AtMost(mostPaid[y]))
		limits.Crews[y] = budget.AtMost(mostArea[y])
	}
	least, found := leastOf(allowed, [3]int64{}, [3]int64{}, mostPaid, mostArea)
	p := choose(t, table(t, made, rows, rules...), 3, limits)
	states[p.State]++
	if !found {
		require.Equal(t, budget.Infeasible, p.State)
		require.NotEqual(t, budget.NoCause, p.Reason.Cause)
		return
	}
	require.Equal(t, budget.Optimal, p.State)
	require.Equal(t, least, p.Cost)
	foots(t, p)
}

// foots adds a plan up again.
func foots(t *testing.T, p Plan) {
	var cost, unlimited, stated int64
	for _, c := range p.Roofs {
		cost += c.Option.LCC
		unlimited += c.Cheapest.LCC
		stated += c.Stated.LCC
		require.Equal(t, Free, c.Option.Bar)
		require.Equal(t, Free, c.Cheapest.Bar)
		require.LessOrEqual(t, c.Cheapest.LCC, c.Option.LCC)
	}
	require.Equal(t, []int64{cost, unlimited, stated}, []int64{p.Cost, p.Unlimited, p.Stated})
	require.Empty(t, p.Stuck)
	for year := range p.Money {
		var paid, area, wanted int64
		for _, c := range p.Roofs {
			paid += in(c.Option.Paid, year)
			area += in(c.Option.Area, year)
			wanted += in(c.Cheapest.Paid, year)
		}
		require.Equal(t, []int64{paid, area, wanted}, []int64{p.Money[year].Used, p.Crews[year].Used, p.Money[year].Wanted})
		for _, y := range []Year{p.Money[year], p.Crews[year]} {
			left, limited := y.Left()
			require.True(t, !limited || left >= 0 && left == y.Limit.Most-y.Used)
			require.True(t, limited || y.Worth == 0)
		}
	}
}
