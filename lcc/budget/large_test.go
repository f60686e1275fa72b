package budget

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shape is a kind of large problem, drawn from a seed.
type shape struct {
	roofs, options, years int
	spread                bool // whether an option uses every year, or only the one it starts in
	crews                 bool
	tight                 float64 // the limits, as a share of what the cheapest plan would use
}

// draw makes a problem: option 0 does nothing and is dear over the study,
// others cost first and save later. Amounts are cents.
func (s shape) draw(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 1))
	p := Problem{}
	money, area := make([]int64, s.years), make([]int64, s.years)
	for i := range s.roofs {
		m2 := 200 + r.Int64N(4000)
		roof := Roof{Name: fmt.Sprint("roof ", i), Options: []Option{{Cost: m2 * (9000 + r.Int64N(9000))}}}
		for range s.options - 1 {
			first := m2 * (2500 + r.Int64N(7500))
			o := Option{FirstCost: make([]int64, s.years), Area: make([]int64, s.years)}
			o.Cost = first + m2*(2000+r.Int64N(4000))
			if s.spread {
				for y := range s.years {
					o.FirstCost[y] = r.Int64N(2 * first / int64(s.years))
				}
			} else {
				y := r.IntN(s.years)
				o.FirstCost[y], o.Area[y] = first, m2
			}
			roof.Options = append(roof.Options, o)
		}
		best := 0
		for j, o := range roof.Options {
			if o.Cost < roof.Options[best].Cost {
				best = j
			}
		}
		for y := range s.years {
			if o := roof.Options[best]; o.FirstCost != nil {
				money[y] += o.FirstCost[y]
				area[y] += o.Area[y]
			}
		}
		p.Roofs = append(p.Roofs, roof)
	}
	for y := range s.years {
		p.Budgets = append(p.Budgets, AtMost(int64(s.tight*float64(money[y]))))
		if s.crews {
			p.Crews = append(p.Crews, AtMost(int64((s.tight+0.1)*float64(area[y]))))
		}
	}
	return p
}

// yesNo is 1,500 choices of yes or no, each of which uses all of 5 budgets:
// the hardest kind of that size, since a change moves every limit at once.
var yesNo = shape{roofs: 1500, options: 2, years: 5, spread: true, tight: 0.5}

func TestLargeProblemsComeWithinTheGap(t *testing.T) {
	for name, c := range map[string]struct {
		shape
		gap float64 // the largest that is allowed, as a fraction
	}{
		"yes or no, five budgets":  {yesNo, 0.0003},
		"yes or no, tight":         {shape{roofs: 1500, options: 2, years: 5, spread: true, tight: 0.2}, 0.0003},
		"yes or no, one year each": {shape{roofs: 1500, options: 2, years: 5, tight: 0.5}, 0.0003},
		"nine options":             {shape{roofs: 600, options: 9, years: 6, spread: true, tight: 0.4}, 0.0005},
		"nine options, with crews": {shape{roofs: 600, options: 9, years: 6, tight: 0.4, crews: true}, 0.001},
		"five thousand roofs":      {shape{roofs: 5000, options: 20, years: 10, tight: 0.4, crews: true}, 0.0005},
		"forty thousand roofs":     {shape{roofs: 40000, options: 16, years: 5, tight: 0.5, crews: true}, 0.0005},
	} {
		t.Run(name, func(t *testing.T) {
			p := c.draw(1)
			if p.Effort = 20_000_000; c.roofs > 2000 {
				p.Effort = 0 // the default; less for the others, so that the test is quick
			}
			a := choose(t, p)
			require.True(t, a.HasPlan())
			require.True(t, keeps(p, a.Plan))
			gap, ok := a.GapShare()
			require.True(t, ok)
			assert.LessOrEqual(t, gap, c.gap)
			assert.Positive(t, a.Cost-a.Unlimited, "the limits bind")
			t.Logf("gap %.4f %%, %s, cost %d, without limits %d", 100*gap, a.State, a.Cost, a.Unlimited)
		})
	}
}

// What the search proves with the effort that it takes by itself: some fifty
// roofs, more with few options or few limits.
func TestMiddlingProblemsAreProven(t *testing.T) {
	for name, s := range map[string]shape{
		"fifty, crews":           {roofs: 50, options: 4, years: 3, tight: 0.5, crews: true},
		"fifty, five budgets":    {roofs: 50, options: 2, years: 5, spread: true, tight: 0.5},
		"a hundred, yes or no":   {roofs: 100, options: 2, years: 3, tight: 0.5},
		"a thousand, one budget": {roofs: 1000, options: 3, years: 1, tight: 0.5},
	} {
		assert.Equal(t, Optimal, choose(t, s.draw(0)).State, name)
	}
}

func BenchmarkYesNo(b *testing.B) {
	p := yesNo.draw(1)
	for b.Loop() {
		if _, err := Choose(p); err != nil {
			b.Fatal(err)
		}
	}
}
