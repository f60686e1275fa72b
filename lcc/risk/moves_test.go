package risk

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"runtime/debug"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"roofyears/lcc"
)

const movesTrials = 40_000

// spearman is the correlation of ranks.
func spearman(x, y []float64) float64 { return stat.Correlation(ranks(x), ranks(y), nil) }

func ranks(x []float64) []float64 {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		switch {
		case x[i] < x[j]:
			return -1
		case x[i] > x[j]:
			return 1
		}
		return 0
	})
	out := make([]float64, len(x))
	for rank, i := range order {
		out[i] = float64(rank)
	}
	return out
}

// spearmanError is the standard error of a rank correlation of normals (Bonett
// and Wright 2000, from memory: √((1+r²/2)/(n−3)) of Fisher's z).
func spearmanError(r float64, n int) float64 {
	return (1 - r*r) * math.Sqrt((1+r*r/2)/float64(n-3))
}

// column draws an input in every trial.
func column(m *sampler, input, nth int) []float64 {
	out := make([]float64, movesTrials)
	for trial := range out {
		out[trial] = m.draw(trial, input, nth)
	}
	return out
}

// hasMarginal asserts that as many draws as should lie below quantiles.
func hasMarginal(t *testing.T, draws []float64, exact quantiler, what string) {
	t.Helper()
	n := float64(len(draws))
	for _, p := range []float64{0.002, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.998} {
		q, below := exact.Quantile(p), 0.0
		for _, x := range draws {
			if x < q {
				below++
			}
		}
		assert.InDelta(t, p, below/n, 4.5*math.Sqrt(p*(1-p)/n), "%s: share below its quantile at %v", what, p)
	}
}

func hasRank(t *testing.T, want float64, x, y []float64, what string) {
	t.Helper()
	got := spearman(x, y)
	z := (got - want) / spearmanError(want, len(x))
	t.Logf("%s: rank correlation %.4f for %.4f, %.1f standard errors off", what, got, want, z)
	assert.Less(t, math.Abs(z), 4.0, "%s: rank correlation %v for %v", what, got, want)
}

func moving(e estimate, unit lcc.Unit, with lcc.Ref, rank string) lcc.Input {
	in := e.input(unit)
	in.Moves = &lcc.Moves{With: with, Rank: dec(rank)}
	return in
}

var (
	somePrice = estimate{shape: lcc.Lognormal, likely: "5", spread: "2"}
	someRate  = estimate{shape: lcc.Triangular, low: "0", likely: "0.01", high: "0.06"}
	someLife  = estimate{shape: lcc.Weibull, likely: "12", spread: "3"}
)

func TestMovesGiveTheStatedRankCorrelation(t *testing.T) {
	for _, rank := range []string{"-0.9", "-0.5", "0", "0.3", "0.95"} {
		t.Run(rank, func(t *testing.T) {
			t.Parallel()
			b := newBuilder(10)
			b.s.Add(moving(somePrice, lcc.Price, 1, rank)) // moves with a later input
			b.s.Add(someRate.input(lcc.Rate))
			m := newSampler(b.s, 3)
			price, rate := column(m, 0, 0), column(m, 1, 0)
			hasRank(t, dec(rank).InexactFloat64(), price, rate, "price with rate")
			hasMarginal(t, price, somePrice.distribution(), "price")
			hasMarginal(t, rate, someRate.distribution(), "rate")
		})
	}
}

// At rank 1 and −1 one draw tells the other.
func TestMovesInStep(t *testing.T) {
	t.Parallel()
	for _, rank := range []string{"1", "-1"} {
		b := newBuilder(10)
		b.s.Add(someRate.input(lcc.Rate))
		b.s.Add(moving(somePrice, lcc.Price, 0, rank))
		m := newSampler(b.s, 3)
		rate, price := column(m, 0, 0), column(m, 1, 0)
		assert.InDelta(t, dec(rank).InexactFloat64(), spearman(rate, price), 1e-6)
		hasMarginal(t, price, somePrice.distribution(), "price")
	}
}

// Normal scores of a chain correlate by the product of its links; ranks of
// normals by (6/π)·asin(ρ/2) [Kruskal].
func TestMovesInAChain(t *testing.T) {
	t.Parallel()
	ofScores := func(rank float64) float64 { return 2 * math.Sin(math.Pi/6*rank) }
	ofRanks := func(score float64) float64 { return 6 / math.Pi * math.Asin(score/2) }
	b := newBuilder(10)
	b.s.Add(someRate.input(lcc.Rate))
	b.s.Add(moving(somePrice, lcc.Price, 0, "0.8"))
	b.s.Add(moving(someLife, lcc.Years, 1, "-0.6"))
	m := newSampler(b.s, 4)
	rate, price, life := column(m, 0, 0), column(m, 1, 0), column(m, 2, 0)
	hasRank(t, 0.8, rate, price, "first with second")
	hasRank(t, -0.6, price, life, "second with third")
	hasRank(t, ofRanks(ofScores(0.8)*ofScores(-0.6)), rate, life, "first with third")
	hasMarginal(t, life, someLife.distribution(), "third")
}

// Every installation's life moves with the other input, and so the
// installations with each other. What moves with a life moves with that of
// the first installation.
func TestMovesOfLives(t *testing.T) {
	t.Parallel()
	score := 2 * math.Sin(math.Pi/6*0.7)
	b := newBuilder(10)
	b.s.Add(someRate.input(lcc.Rate))
	b.s.Add(moving(someLife, lcc.Years, 0, "0.7"))
	b.s.Add(moving(somePrice, lcc.Price, 1, "-0.5"))
	m := newSampler(b.s, 5)
	rate, price := column(m, 0, 0), column(m, 2, 0)
	first, third := column(m, 1, 0), column(m, 1, 2)
	hasRank(t, 0.7, rate, first, "rate with first life")
	hasRank(t, 0.7, rate, third, "rate with third life")
	hasRank(t, 6/math.Pi*math.Asin(score*score/2), first, third, "first with third life")
	hasMarginal(t, third, someLife.distribution(), "third life")
	hasRank(t, -0.5, first, price, "first life with price")
	throughRate := 2 * math.Sin(math.Pi/6*-0.5) * score * score
	hasRank(t, 6/math.Pi*math.Asin(throughRate/2), third, price, "third life with price")
}

// What moves with a plain value is drawn alone, and draws of others stay.
func TestMovesWithAPlainValue(t *testing.T) {
	t.Parallel()
	draws := func(in lcc.Input) []float64 {
		b := newBuilder(10)
		b.fixed(lcc.Rate, "0.03")
		b.s.Add(in)
		return column(newSampler(b.s, 6), 0, 0)
	}
	assert.Equal(t, draws(somePrice.input(lcc.Price)), draws(moving(somePrice, lcc.Price, 0, "0.9")))
}

// priceThatMoves is a study whose price and discount rate are uncertain; the
// price moves as told.
func priceThatMoves(with lcc.Ref, rank string) *lcc.Study {
	s := oneOff(normalPrice("100", "10"), fixedPrice("100"))
	s.Inputs[s.Find("price 0")].Moves = &lcc.Moves{With: with, Rank: dec(rank)}
	return s
}

// A rank correlation that is none would draw what is no number.
func TestRunRefusesMovesWithoutMeaning(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		with lcc.Ref
		rank string
	}{{0, "1.5"}, {0, "-1.01"}, {99, "0.5"}, {lcc.NoRef, "0.5"}} {
		s := priceThatMoves(c.with, c.rank)
		s.Inputs[0].Shape, s.Inputs[0].Spread = lcc.Normal, dec("0.01")
		_, err := Run(s, Options{Trials: 10, Seed: 1})
		assert.Error(t, err, "moves with input %d at rank %s", c.with, c.rank)
	}
}

// A circle of moves would never come to a draw. It is tried in a process of
// its own, since a stack that overflows ends the process.
func TestRunRefusesACircleOfMoves(t *testing.T) {
	const inside = "ROOFYEARS_TEST_CIRCLE"
	if os.Getenv(inside) != "" {
		debug.SetMaxStack(1 << 20)
		s := priceThatMoves(0, "0.5")
		s.Inputs[0].Shape, s.Inputs[0].Spread = lcc.Normal, dec("0.01")
		s.Inputs[0].Moves = &lcc.Moves{With: s.Find("price 0"), Rank: dec("0.5")}
		_, err := Run(s, Options{Trials: 10, Seed: 1, Workers: 1})
		require.Error(t, err)
		return
	}
	program, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(program, "-test.run=^TestRunRefusesACircleOfMoves$")
	cmd.Env = append(os.Environ(), inside+"=1")
	said, err := cmd.CombinedOutput()
	assert.NoError(t, err, fmt.Sprintf("%.80s", said))
}
