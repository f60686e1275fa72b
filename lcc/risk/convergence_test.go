package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"roofyears/lcc"
)

// The error of a mean falls as the square root of the trials grows, by means
// of many seeds about the stated mean.
func TestErrorOfTheMeanFallsWithTheRootOfTrials(t *testing.T) {
	t.Parallel()
	const seeds = 20
	s := oneOff(estimate{shape: lcc.Lognormal, likely: "1000", spread: "500"}.input(lcc.Money))
	sizes := []int{1_000, 10_000, 100_000}
	squares := make([]float64, len(sizes))
	for seed := range uint64(seeds) {
		drawn, err := simulate(s, Options{Trials: sizes[len(sizes)-1], Seed: seed})
		require.NoError(t, err)
		for i, n := range sizes { // the first trials of a run are those of a shorter run
			off := stat.Mean(drawn.costs[0][:n], nil) - 1000
			squares[i] += off * off
		}
	}
	var logN, logError []float64
	for i, n := range sizes {
		found, want := math.Sqrt(squares[i]/seeds), 500/math.Sqrt(float64(n))
		t.Logf("%d trials: error %.3f for %.3f", n, found, want)
		assert.InEpsilon(t, want, found, 4/math.Sqrt(2*seeds))
		logN, logError = append(logN, math.Log10(float64(n))), append(logError, math.Log10(found))
	}
	_, slope := stat.LinearRegression(logN, logError, nil, false)
	t.Logf("slope %.3f", slope)
	assert.InDelta(t, -0.5, slope, 0.1)
}

// dearer than the other in about three futures of ten.
func threeOfTen() *lcc.Study { return oneOff(normalPrice("1050", "100"), fixedPrice("1000")) }

func TestUntilStopsWhenTheChanceIsKnown(t *testing.T) {
	t.Parallel()
	const most = 140_000
	all, err := simulate(threeOfTen(), Options{Trials: most, Seed: 5})
	require.NoError(t, err)
	errorAfter := func(n int) float64 { // of the chance of being cheapest
		below := 0.0
		for _, cost := range all.costs[0][:n] {
			if cost < 1000 {
				below++
			}
		}
		p := below / float64(n)
		return math.Sqrt(p * (1 - p) / float64(n))
	}
	for _, c := range []struct {
		until        float64
		before, want int // the look before, where it was not known yet, and where it ends
	}{{0.002, 0, firstLook}, {0.0015, firstLook, 2 * firstLook}, {0.0012, 2 * firstLook, most}} {
		drawn, err := simulate(threeOfTen(), Options{Trials: most, Seed: 5, Until: c.until})
		require.NoError(t, err)
		assert.Equal(t, c.want, drawn.n, "until %v", c.until)
		if c.want < most {
			assert.LessOrEqual(t, errorAfter(c.want), c.until)
		}
		if c.before > 0 {
			assert.Greater(t, errorAfter(c.before), c.until)
		}
	}
}

// How a run came to its trials leaves no trace in it.
func TestUntilIsARunOfThatManyTrials(t *testing.T) {
	t.Parallel()
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
