package lcc

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// lumpSums makes an alternative out of costs at years: a chain of systems,
// each of which lasts until the next cost. Nothing is paid else.
func (b *builder) lumpSums(name string, costs map[int]string) {
	first := len(b.s.Systems)
	var years []int
	for year := 0; year < b.s.Period; year++ {
		if costs[year] != "" {
			years = append(years, year)
		}
	}
	if len(years) == 0 || years[0] > 0 {
		years = append([]int{0}, years...)
	}
	for i, year := range years {
		life := 1000
		if i+1 < len(years) {
			life = years[i+1] - year
		}
		b.system(fmt.Sprintf("%s %d", name, year), fmt.Sprint(life), func(y *System) {
			y.InPlace = costs[year] == ""
			y.Residual.Mode = NoResidual
			y.Then = first + min(i+1, len(years)-1)
			if costs[year] != "" {
				y.First = []Item{b.item(costs[year]).as(Fees)}
			}
		})
	}
	b.alternative(name, first, nil)
}

// polynomial gives the coefficients of A·∏(1 − root·x), x = 1/(1+d): as a
// stream it ties at d = root − 1.
func polynomial(scale string, roots ...string) []decimal.Decimal {
	out := []decimal.Decimal{dec(scale)}
	for _, text := range roots {
		root := dec(text)
		next := make([]decimal.Decimal, len(out)+1)
		for i, c := range out {
			next[i] = next[i].Add(c)
			next[i+1] = next[i+1].Sub(c.Mul(root))
		}
		out = next
	}
	return out
}

// tiesAt is a study whose two alternatives differ by a polynomial, `gap`
// years to a power: the one pays its positive coefficients, the other the
// negative ones.
func tiesAt(rate string, gap int, coefficients []decimal.Decimal) *builder {
	b := newStudy(gap*len(coefficients), rate)
	plus, minus := map[int]string{}, map[int]string{}
	for i, c := range coefficients {
		if c.IsPositive() {
			plus[i*gap] = c.String()
		} else {
			minus[i*gap] = c.Neg().String()
		}
	}
	b.lumpSums("plus", plus)
	b.lumpSums("minus", minus)
	return b
}

func rates(crossovers []Crossover) []string {
	out := []string{}
	for _, c := range crossovers {
		out = append(out, c.Rate.String())
	}
	return out
}

// (1 − 1.02x)(1 − 1.05x)(1 − 1.09x) = 1 − 3.16x + 3.3273x² − 1.16739x³ ties at 2, 5 and
// 9 % and nowhere else.
func TestThreeCrossoversKnownInClosedForm(t *testing.T) {
	b := tiesAt("0.03", 1, polynomial("1000000", "1.02", "1.05", "1.09"))
	r := b.evaluate()
	require.Equal(t, []string{"0.02", "0.05", "0.09"}, rates(r.Crossovers))
	for _, c := range r.Crossovers {
		assert.True(t, c.Crosses())
		assert.True(t, c.Between(0, 1) && c.Between(1, 0) && !c.Between(0, 2))
	}
	// At the highest rates only time 0 counts, which alternative 0 pays.
	assert.Equal(t, []int{0, 1, 0, 1}, []int{r.Crossovers[0].Below, r.Crossovers[0].Above, r.Crossovers[1].Above, r.Crossovers[2].Above})
}

// The same polynomial over powers of (1+d)^−5: the roots are rounded to the cent.
func TestThreeCrossoversYearsApart(t *testing.T) {
	fifth := func(rate string) string { return power(dec(rate), 5).String() }
	b := tiesAt("0.03", 5, polynomial("10000000000", fifth("1.02"), fifth("1.05"), fifth("1.09")))
	sameRates(t, []string{"0.02", "0.05", "0.09"}, b.evaluate().Crossovers, "1e-9")
}

func sameRates(t *testing.T, want []string, got []Crossover, within string) {
	t.Helper()
	require.Equal(t, len(want), len(got), "crossovers at %.200s", fmt.Sprint(rates(got)))
	for i, c := range got {
		gap := c.Rate.Sub(dec(want[i])).Abs()
		assert.True(t, gap.LessThanOrEqual(dec(within)), "crossover at %s, expected %s", c.Rate, want[i])
	}
}

// Positive costs of every year, told as escalation a year: one alternative
// pays 10 million a year, the other 10 million less a polynomial.
func TestThreeCrossoversOutOfEscalationsByYear(t *testing.T) {
	c := polynomial("1000000", "1.02", "1.05", "1.09")
	b := newStudy(len(c), "0.03")
	level := dec("10000000")
	before := level
	for i := range c {
		paid := level.Sub(c[i])
		b.escalate(Energy, paid.DivRound(before, 30).Sub(one).String())
		before = paid
	}
	annual := func(name string, it Item) {
		y := b.system(name, "100", func(y *System) { y.InPlace, y.Annual = true, []Item{it} })
		b.alternative(name, y, nil)
	}
	annual("level", b.item("10000000").as(Fees))
	annual("by year", b.item("10000000").as(Energy))
	sameRates(t, []string{"0.02", "0.05", "0.09"}, b.evaluate().Crossovers, "1e-9")
}

// At each crossover the side that was dearer becomes cheaper.
func TestCrossoversNameTheCheaperSide(t *testing.T) {
	r := tiesAt("0.03", 1, polynomial("1000000", "1.02", "1.05", "1.09")).evaluate()
	require.Len(t, r.Crossovers, 3)
	for _, c := range r.Crossovers {
		assert.Equal(t, lowestAt(t, r, c.Rate.Sub(dec("0.001"))), c.Below, "below %s", c.Rate)
		assert.Equal(t, lowestAt(t, r, c.Rate.Add(dec("0.001"))), c.Above, "above %s", c.Rate)
	}
}

func lowestAt(t fatal, r *Result, rate decimal.Decimal) int {
	other, err := r.Study.EvaluateAt(r.withRate(rate))
	if err != nil {
		t.Fatalf("%v", err)
	}
	if other.Difference(0, 1).IsPositive() {
		return 1
	}
	return 0
}

// (1 − 1.05x)² is never negative: it touches at 5 %, and nothing crosses.
func TestATouchIsFoundOnceAndDoesNotCross(t *testing.T) {
	for _, sides := range [][]string{{"1.05", "1.05"}, {"1.0375", "1.0375"}, {"1", "1"}, {"1.12", "1.12"}} {
		r := tiesAt("0.03", 1, polynomial("1000000", sides...)).evaluate()
		want := dec(sides[0]).Sub(one).String()
		require.Len(t, r.Crossovers, 1, "a touch at %s", want)
		sameRates(t, []string{want}, r.Crossovers, "1e-7")
		assert.False(t, r.Crossovers[0].Crosses(), "a touch at %s", want)
		assert.Equal(t, 1, r.Crossovers[0].Below, "the one that pays the middle is cheaper all over")
	}
}

// A touch beside a crossing: (1 − 1.04x)²(1 − 1.08x).
func TestATouchBesideACrossing(t *testing.T) {
	r := tiesAt("0.03", 1, polynomial("1000000", "1.04", "1.04", "1.08")).evaluate()
	sameRates(t, []string{"0.04", "0.08"}, r.Crossovers, "1e-7")
	assert.False(t, r.Crossovers[0].Crosses())
	assert.True(t, r.Crossovers[1].Crosses())
}

// A rate without end is told to twelve decimals: √1.05 − 1.
func TestCrossoverRatesHaveTwelveDecimals(t *testing.T) {
	r := tiesAt("0.03", 2, polynomial("1000000", "1.05")).evaluate()
	assert.Equal(t, []string{"0.024695076596"}, rates(r.Crossovers))
}

// At the rate of a touch both tie, and the one that stands first is told; but
// the other is cheaper at every other rate, so the answer holds nowhere else.
func TestAnAnswerAtATouchHoldsNowhereElse(t *testing.T) {
	r := tiesAt("0.05", 1, polynomial("1000000", "1.05", "1.05")).evaluate()
	assert.True(t, r.Answer.Tie)
	assert.Equal(t, 0, r.Answer.Lowest)
	assert.True(t, r.Answer.From.Rate.GreaterThan(dec("0.0499")), "it holds from %s", r.Answer.From.Rate)
	assert.True(t, r.Answer.To.Rate.LessThan(dec("0.0501")), "it holds to %s", r.Answer.To.Rate)
}

// A flat crossing: three roots in one place cross once.
func TestATripleRootIsOneCrossing(t *testing.T) {
	r := inTimeLimit(t, tiesAt("0.03", 1, polynomial("1000000", "1.05", "1.05", "1.05")))
	sameRates(t, []string{"0.05"}, r.Crossovers, "1e-4")
	assert.True(t, r.Crossovers[0].Crosses())
}

// A flatter touch: four roots in one place touch once.
func TestAQuadrupleRootIsOneTouch(t *testing.T) {
	r := inTimeLimit(t, tiesAt("0.03", 1, polynomial("100000000", "1.05", "1.05", "1.05", "1.05")))
	sameRates(t, []string{"0.05"}, r.Crossovers, "1e-3")
	assert.False(t, r.Crossovers[0].Crosses())
}

// inTimeLimit evaluates a study whose search for crossovers might not end.
func inTimeLimit(t *testing.T, b *builder) *Result {
	t.Helper()
	done := make(chan *Result, 1)
	go func() { done <- b.evaluate() }()
	select {
	case r := <-done:
		return r
	case <-time.After(10 * time.Second):
		t.Fatal("the search for crossovers takes over ten seconds")
		return nil
	}
}

// Two crossovers a ten-thousandth of a per cent apart are two.
func TestCrossoversCloseTogetherAreToldApart(t *testing.T) {
	r := tiesAt("0.03", 1, polynomial("100000000", "1.05", "1.050001")).evaluate()
	sameRates(t, []string{"0.05", "0.050001"}, r.Crossovers, "1e-9")
	for _, c := range r.Crossovers {
		assert.True(t, c.Crosses())
	}
	assert.NotEqual(t, r.Crossovers[0].Above, r.Crossovers[1].Above)
}

func TestNoCrossovers(t *testing.T) {
	for name, b := range map[string]*builder{
		"one pays more at every time": tiesAt("0.03", 1, []decimal.Decimal{dec("100"), dec("50"), dec("20")}),
		"ties are out of the range":   tiesAt("0.03", 1, polynomial("1000000", "1.13", "0.99")),
		"ties are imaginary":          tiesAt("0.03", 1, []decimal.Decimal{dec("1000000"), dec("-2000000"), dec("1000000.01").Add(dec("200000"))}),
	} {
		assert.Empty(t, b.evaluate().Crossovers, name)
	}
}

// Alternatives that pay the same tie everywhere, and cross nowhere.
func TestIdenticalAlternativesHaveNoCrossovers(t *testing.T) {
	b := restoreOrTearOff()
	b.alternative("Restore as well", 1, nil)
	r := b.evaluate()
	for _, c := range r.Crossovers {
		assert.False(t, c.Between(1, 2), "%+v", c)
	}
	assert.True(t, r.Difference(1, 2).IsZero())
}

// The range goes to the study's own rates: beyond 12 %, and below 0.
func TestCrossoversAreLookedForUpToTheStudysRates(t *testing.T) {
	high := tiesAt("0.195", 1, polynomial("1000000", "1.19")).evaluate()
	assert.Equal(t, []string{"0.19"}, rates(high.Crossovers))
	assert.Equal(t, "0.2", high.RateRange[1].String())
	low := tiesAt("-0.015", 1, polynomial("1000000", "0.99", "1.12", "1.13")).evaluate()
	assert.Equal(t, []string{"-0.01", "0.12"}, rates(low.Crossovers))
	assert.Equal(t, "-0.02", low.RateRange[0].String())

	ranged := tiesAt("0.03", 1, polynomial("1000000", "1.15"))
	in := &ranged.s.Inputs[ranged.s.Rate]
	in.Shape, in.Low, in.High = Triangular, dec("0.02"), dec("0.151")
	assert.Equal(t, []string{"0.15"}, rates(ranged.evaluate().Crossovers))
}

// Mid-year costs have half powers: a cost now against one annual cost of the
// first and only year, at t = ½, ties at (1+d)^½ = 1.05.
func TestACrossoverOfMidYearCosts(t *testing.T) {
	b := newStudy(1, "0.03")
	b.s.Timing = MidYear
	now := b.system("now", "9", func(y *System) { y.First = []Item{b.item("1000000").as(Fees)} })
	later := b.system("later", "9", func(y *System) { y.InPlace, y.Annual = true, []Item{b.item("1050000").as(Fees)} })
	b.alternative("now", now, nil)
	b.alternative("later", later, nil)
	assert.Equal(t, []string{"0.1025"}, rates(b.evaluate().Crossovers))
}

// similarAlternatives is a random study whose second alternative is the first
// with another amount at each place, so that crossovers are common.
func similarAlternatives(d dice) *Study {
	b := newStudy(2+d.upTo(48), decimal.New(int64(d.upTo(1000)), -4).String())
	b.s.Timing = Timing(d.upTo(1))
	for range 2 + d.upTo(1) {
		var early, late, yearly = d.upTo(400_000), d.upTo(900_000), d.upTo(30_000)
		life := 1 + d.upTo(b.s.Period)
		y := b.system("roof", fmt.Sprint(life), func(y *System) {
			y.First = []Item{b.item(fmt.Sprint(early))}
			y.Removal = []Item{b.item(fmt.Sprint(late)).as(Disposal)}
			y.Annual = []Item{b.growing(b.item(fmt.Sprint(yearly)).as(Maintenance), decimal.New(int64(d.upTo(60)), -3).String())}
		})
		b.alternative("roof", y, nil)
	}
	return b.s
}

// A crossover that is put back into the study as its discount rate makes the
// two alternatives tie: to the rounding of each amount, as the rate found it,
// and of each present value.
func TestACrossoverRatePutBackIsATie(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		s := similarAlternatives(d)
		if d.upTo(1) == 1 {
			s = randomStudy(d)
		}
		r := evaluated(t, s)
		for _, c := range r.Crossovers {
			if CheckRate(c.Rate) != nil {
				continue // the open lower end of the rates
			}
			back, err := s.EvaluateAt(r.withRate(c.Rate))
			if err != nil {
				t.Fatalf("%v", err)
			}
			// A rounded amount counts in full, or more at a negative rate.
			weight := 0.5 + 0.5*math.Max(1, math.Pow(1+c.Rate.InexactFloat64(), float64(-s.Period)))
			lines := len(back.Alternatives[c.A].Ledger) + len(back.Alternatives[c.B].Ledger)
			if gap := back.Difference(c.A, c.B); !within(s, gap, decimal.Zero, 1+int(weight*float64(lines))) {
				t.Fatalf("%+v: the two differ by %s in %d lines", c, gap, lines)
			}
		}
	})
}

// Between the rates that an answer tells, its alternative stays the lowest of
// the eligible ones, but for what the rounding of lines can do.
func TestTheAnswerHoldsBetweenItsRates(t *testing.T) {
	checkChoices(t, 2, func(t *rapid.T, d dice) {
		s := similarAlternatives(d)
		r := evaluated(t, s)
		a := r.Answer
		if a.From.Rate.GreaterThan(r.Rate) || a.To.Rate.LessThan(r.Rate) {
			t.Fatalf("the answer does not hold at the study's own rate: %+v", a)
		}
		width := a.To.Rate.Sub(a.From.Rate)
		for _, share := range []string{"0.001", "0.1", "0.35", "0.5", "0.8", "0.999"} {
			rate := a.From.Rate.Add(width.Mul(dec(share)))
			other, err := s.EvaluateAt(r.withRate(rate))
			if err != nil {
				t.Fatalf("%v", err)
			}
			for i := range other.Alternatives {
				if gap := other.Difference(a.Lowest, i); gap.GreaterThan(dec("0.02").Mul(decimal.NewFromInt(int64(2 + 2*s.Period)))) {
					t.Fatalf("%+v holds from %s to %s, but at %s alternative %d is cheaper by %s", a, a.From.Rate, a.To.Rate, rate, i, gap)
				}
			}
		}
		for _, end := range []RateBound{a.From, a.To} {
			if end.Rival < 0 {
				if !end.Rate.Equal(r.RateRange[0]) && !end.Rate.Equal(r.RateRange[1]) {
					t.Fatalf("the answer ends within the range, without a rival: %+v", a)
				}
				continue
			}
			beyond := dec("0.0001")
			if end == a.From {
				beyond = beyond.Neg()
			}
			other, err := s.EvaluateAt(r.withRate(end.Rate.Add(beyond)))
			if err != nil {
				t.Fatalf("%v", err)
			}
			// Beyond lies less than a hundredth of a per cent: only rounding and a second tie next to it excuse.
			if gap := other.Difference(end.Rival, a.Lowest); gap.GreaterThan(dec("0.02").Mul(decimal.NewFromInt(int64(2+2*s.Period)))) && !anotherTie(r, end.Rate, beyond) {
				t.Fatalf("beyond %s the rival %d is not cheaper: %s", end.Rate, end.Rival, gap)
			}
		}
	})
}

func anotherTie(r *Result, rate, beyond decimal.Decimal) bool {
	count := 0
	for _, c := range r.Crossovers {
		if c.Rate.Sub(rate).Abs().LessThanOrEqual(beyond.Abs()) {
			count++
		}
	}
	return count > 1
}
