package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"roofyears/lcc"
)

// The error of a mean falls as the square root of the trials grows. Means of
// many seeds are compared with the mean from a renewal recursion.
func TestErrorOfTheMeanFallsWithTheRootOfTrials(t *testing.T) {
	t.Parallel()
	const seeds = 40
	s := series{period: 12, rate: 0.03, price: 1000, life: newWeibullLaw(6, 2)}
	y := s.study(estimate{shape: lcc.Weibull, likely: "6", spread: "2"}.input(lcc.Years), lcc.Input{})
	want := s.expected()
	sizes := []int{1_000, 10_000, 100_000}
	var logN, logError []float64
	squares := make([]float64, len(sizes))
	for seed := range uint64(seeds) {
		drawn, err := simulate(y, Options{Trials: sizes[len(sizes)-1], Seed: seed})
		require.NoError(t, err)
		for i, n := range sizes { // the first trials of a run are those of a shorter run
			off := stat.Mean(drawn.costs[0][:n], nil) - want
			squares[i] += off * off
		}
	}
	for i, n := range sizes {
		logN = append(logN, math.Log10(float64(n)))
		logError = append(logError, math.Log10(math.Sqrt(squares[i]/seeds)))
		t.Logf("%d trials: error %.3f", n, math.Sqrt(squares[i]/seeds))
	}
	_, slope := stat.LinearRegression(logN, logError, nil, false)
	t.Logf("slope %.3f", slope)
	assert.InDelta(t, -0.5, slope, 0.1)
}

// dearer than the other in about three futures of ten.
func threeOfTen() *lcc.Study { return oneOff(normalPrice("1050", "100"), fixedPrice("1000")) }

func TestUntilStopsWhenTheChanceIsKnown(t *testing.T) {
	// √(0.31·0.69/n): 0.0018 at the first look, 0.00128 at the second.
	for _, c := range []struct {
		until float64
		want  int
	}{{0.002, firstLook}, {0.0015, 2 * firstLook}, {0.0012, 150_000}, {1e-9, 150_000}} {
		r := run(t, threeOfTen(), Options{Trials: 150_000, Seed: 5, Until: c.until})
		assert.Equal(t, c.want, r.Trials, "until %v", c.until)
		if c.want < 150_000 {
			for _, a := range r.Alternatives {
				assert.LessOrEqual(t, a.CheapestError, c.until)
			}
		}
		if c.want > firstLook { // it was not known at the look before
			before := run(t, threeOfTen(), Options{Trials: firstLook * (c.want / firstLook / 2), Seed: 5})
			assert.Greater(t, before.Alternatives[0].CheapestError, c.until)
		}
	}
}

// How a run came to its trials leaves no trace in it.
func TestUntilIsARunOfThatManyTrials(t *testing.T) {
	s := threeOfTen()
	until := run(t, s, Options{Trials: 1_000_000, Seed: 5, Until: 0.0015})
	require.Equal(t, 2*firstLook, until.Trials)
	assert.Equal(t, run(t, s, Options{Trials: 2 * firstLook, Seed: 5}), until)
	assert.Equal(t, run(t, s, Options{Trials: 5_000, Seed: 5}), run(t, s, Options{Trials: 5_000, Seed: 5, Until: 0.5}))
}

func TestRunRefusesTrialsOutOfRange(t *testing.T) {
	t.Parallel()
	for _, n := range []int{-1, 0, MaxTrials + 1} {
		_, err := Run(threeOfTen(), Options{Trials: n, Seed: 1})
		assert.ErrorContains(t, err, "outside 1 to 5000000", "%d trials", n)
	}
}

// A few trials say little, but they say it.
func TestRunOfFewTrials(t *testing.T) {
	t.Parallel()
	for n := 1; n <= 5; n++ {
		r := run(t, threeOfTen(), Options{Trials: n, Seed: 1})
		assert.Equal(t, n, r.Trials)
		for _, a := range r.Alternatives {
			for _, x := range []float64{a.Mean, a.SD, a.P5, a.P50, a.P95, a.Cheapest, a.CheapestError, a.Regret} {
				assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%d trials: %v", n, x)
			}
		}
		assert.InDelta(t, 1, r.Alternatives[0].Cheapest+r.Alternatives[1].Cheapest, 1e-12)
		for _, f := range r.Influences {
			assert.False(t, math.IsNaN(f.Margin) || math.IsNaN(f.Knowing), "%d trials", n)
		}
	}
}
