package risk

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Mean, standard deviation and quantiles of a sample, as in R: its sd divides
// by n − 1, its quantiles are of type 7.
func TestMomentsOfASampleAsInR(t *testing.T) {
	t.Parallel()
	for _, n := range []int{2, 10, 101} {
		sample, words := make([]float64, n), make([]string, n)
		s := newSource(30, 1)
		for i := range sample {
			sample[i] = 1e6 + math.Round(1e6*s.at(i, 0))
			words[i] = fmt.Sprintf("%.0f", sample[i])
		}
		r := askR(t, fmt.Sprintf("options(digits = 17)\nx <- c(%s)\ncat('x', mean(x), sd(x), quantile(x, c(0.05, 0.5, 0.95)), '\\n')", strings.Join(words, ", ")))["x"]
		require.Len(t, r, 5)
		m := momentsOf(arrangedCopy(sample))
		for i, got := range []float64{m.Mean, m.SD, m.P5, m.P50, m.P95} {
			assert.InEpsilon(t, r[i], got, 1e-12, "%d numbers, figure %d", n, i)
		}
	}
	assert.Equal(t, Moments{Mean: 7, P5: 7, P50: 7, P95: 7}, momentsOf([]float64{7}))
}

func TestHistogramCountsEveryTrial(t *testing.T) {
	t.Parallel()
	s := newSource(31, 2)
	a, b := make([]float64, 10_000), make([]float64, 10_000)
	for i := range a {
		a[i], b[i] = s.at(i, 0), 1+s.at(i, 1)
	}
	a[0], b[0] = -1e9, 1e9
	h := histogram(arrangedCopy(a), arrangedCopy(b))
	assert.InDelta(t, 0, h.From, 0.005)
	assert.InDelta(t, 2.0/curveCells, h.Width, 0.001)
	require.Len(t, h.Counts, 2)
	for series, x := range [][]float64{a, b} {
		want := make([]int, curveCells)
		for _, v := range x {
			cell := 0 // the last whose start is not above, but for the ends
			for cell < curveCells-1 && h.From+float64(cell+1)*h.Width <= v {
				cell++
			}
			want[cell]++
		}
		off := 0
		for cell := range want {
			off += int(math.Abs(float64(want[cell] - h.Counts[series][cell])))
		}
		assert.LessOrEqual(t, off, 2, "a number at the edge of a cell may be rounded over it")
	}
	flat := histogram([]float64{5, 5, 5})
	assert.Equal(t, 3, flat.Counts[0][0])
	assert.Zero(t, flat.Width)
}

// What a result says of alternatives, of pairs and of regrets agrees.
func TestResultAgreesWithItself(t *testing.T) {
	t.Parallel()
	r := run(t, threeAlternatives(), Options{Trials: 20_000, Seed: 4})
	chances, least := 0.0, math.Inf(1)
	for _, a := range r.Alternatives {
		chances += a.Cheapest
		least = math.Min(least, a.Mean)
		assert.Less(t, a.P5, a.P50)
		assert.Less(t, a.P50, a.P95)
		// Cost less regret is the mean of the cheapest, whichever that is.
		assert.InDelta(t, r.Alternatives[0].Mean-r.Alternatives[0].Regret, a.Mean-a.Regret, 1e-6)
	}
	assert.InDelta(t, 1, chances, 1e-9)
	assert.Equal(t, least, r.Alternatives[r.Chosen].Mean)
	assert.InDelta(t, r.Alternatives[r.Chosen].Regret, r.KnowingAll, 1e-6)
	require.Len(t, r.Pairs, 3)
	for _, p := range r.Pairs {
		assert.Less(t, p.A, p.B)
		assert.InDelta(t, r.Alternatives[p.A].Mean-r.Alternatives[p.B].Mean, p.Mean, 1e-6)
		total := 0
		for _, n := range p.Counts[0] {
			total += n
		}
		assert.Equal(t, r.Trials, total)
	}
	for i, f := range r.Influences {
		assert.LessOrEqual(t, f.Knowing, r.KnowingAll+4*r.KnowingAllError)
		if i > 0 {
			assert.LessOrEqual(t, f.Margin, r.Influences[i-1].Margin)
		}
	}
}
