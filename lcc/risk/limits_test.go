package risk

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// Draws are kept where their kind has a meaning; where the kind has no limit
// they are as drawn.
func TestDrawsKeepTheLimitsOfTheirKind(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name      string
		unit      lcc.Unit
		low, high float64 // within these
	}{
		{"rate", lcc.Rate, math.Nextafter(-0.5, 0), 10},
		{"life", lcc.Years, math.SmallestNonzeroFloat64, math.Inf(1)},
		{"area", lcc.Area, math.SmallestNonzeroFloat64, math.Inf(1)},
		{"length", lcc.Length, 0, math.Inf(1)},
		{"count", lcc.Count, 0, math.Inf(1)},
	} {
		b := newBuilder(10)
		b.s.Add(estimate{shape: lcc.Normal, likely: "5", spread: "100"}.input(c.unit))
		draws := column(newSampler(b.s, 1), 0, 0)
		assert.Equal(t, c.low, slices.Min(draws), c.name)
		assert.LessOrEqual(t, slices.Max(draws), c.high, c.name)
	}
	for _, unit := range []lcc.Unit{lcc.Money, lcc.Price} {
		b := newBuilder(10)
		e := estimate{shape: lcc.Normal, likely: "5", spread: "100"}
		b.s.Add(e.input(unit))
		hasMarginal(t, column(newSampler(b.s, 1), 0, 0), e.distribution(), "amount")
	}
}

// A rate at its limit is still one that can be evaluated.
func TestRatesAtTheirLimits(t *testing.T) {
	t.Parallel()
	s := richStudy()
	with(s, "rate", estimate{shape: lcc.Normal, likely: "0.05", spread: "8"})
	with(s, "construction", estimate{shape: lcc.Normal, likely: "0.03", spread: "3"})
	drawn, err := simulate(s, Options{Trials: 500, Seed: 1})
	require.NoError(t, err)
	for _, costs := range drawn.costs {
		for _, cost := range costs {
			require.False(t, math.IsNaN(cost) || math.IsInf(cost, 0))
		}
	}
}

// At the seed that gives the first draw the greatest number, nothing is
// infinite.
func TestExtremeDrawIsFinite(t *testing.T) {
	t.Parallel()
	for _, bits := range []uint64{0, math.MaxUint64} {
		r := run(t, threeOfTen(), Options{Trials: 10, Seed: seedFor(bits)})
		assert.InDelta(t, 1050, r.Alternatives[0].Mean, 1000, "seed %d", seedFor(bits))
	}
}
