package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"roofyears/lcc"
)

const integralTrials = 10_000

// With one uncertain input that is drawn once a trial, the mean cost is an
// integral over its quantile function.
func TestMeanIsAnIntegralOverOneInput(t *testing.T) {
	for i, c := range []struct {
		path string
		estimate
	}{
		{"rate", estimate{shape: lcc.Triangular, low: "0.02", likely: "0.05", high: "0.1"}},
		{"inflation", estimate{shape: lcc.Normal, likely: "0.02", spread: "0.006"}},
		{"construction", estimate{shape: lcc.PERT, low: "0", likely: "0.03", high: "0.08"}},
		{"energy in year 7", estimate{shape: lcc.Uniform, low: "-0.1", likely: "0.04", high: "0.2"}},
		{"growth", estimate{shape: lcc.Triangular, low: "0", likely: "0.06", high: "0.3"}},
		{"area", estimate{shape: lcc.Lognormal, likely: "20000", spread: "3000"}},
		{"edge length", estimate{shape: lcc.Triangular, low: "500", likely: "800", high: "900"}},
		{"drains", estimate{shape: lcc.PERT, low: "4", likely: "9", high: "20"}},
		{"coating", estimate{shape: lcc.Triangular, low: "4", likely: "5", high: "8"}},
		{"recoat", estimate{shape: lcc.Weibull, likely: "2.5", spread: "4"}},
		{"scrap", estimate{shape: lcc.Normal, likely: "-0.4", spread: "0.3"}},
		{"repairs", estimate{shape: lcc.Lognormal, likely: "4000", spread: "4000"}},
		{"inspection", estimate{shape: lcc.Uniform, low: "500", likely: "1500", high: "4000"}},
		{"left", estimate{shape: lcc.Normal, likely: "9000", spread: "5000"}},
		{"existing.life", estimate{shape: lcc.Weibull, likely: "6", spread: "2.5"}},
		{"restoration.life", estimate{shape: lcc.Triangular, low: "3", likely: "20", high: "40"}},
		{"recoat.life", estimate{shape: lcc.Lognormal, likely: "9.5", spread: "4"}},
	} {
		t.Run(c.path, func(t *testing.T) {
			t.Parallel()
			s := richStudy()
			ref := with(s, c.path, c.estimate)
			drawn, err := simulate(s, Options{Trials: integralTrials, Seed: uint64(i)})
			require.NoError(t, err)
			k := s.NewKernel()
			require.NoError(t, k.LoadExact(s.Likely()))
			felt := false
			for a := range s.Alternatives {
				want := overQuantiles(c.distribution(), 4_000, func(x float64) float64 {
					k.Set(ref, x)
					return k.LCC(a)
				})
				mean, sd := stat.MeanStdDev(drawn.costs[a], nil)
				if sd < 1e-6 { // the alternative has nothing to do with it
					assert.InDelta(t, want, mean, 1e-6, s.Alternatives[a].Name)
					continue
				}
				felt = true
				z := (mean - want) / (sd / math.Sqrt(integralTrials))
				t.Logf("%s: mean %.2f for %.2f, %.1f standard errors off", s.Alternatives[a].Name, mean, want, z)
				assert.Less(t, math.Abs(z), 4.0, s.Alternatives[a].Name)
			}
			assert.True(t, felt, "no alternative depends on it")
		})
	}
}

// The tear-off is replaced by itself: its life is drawn for each
// installation, and its mean cost is no integral over one life.
func TestLivesOfASeriesAreNotOneLife(t *testing.T) {
	t.Parallel()
	s := richStudy()
	ref := with(s, "tear_off.life", estimate{shape: lcc.Weibull, likely: "6", spread: "1"})
	drawn, err := simulate(s, Options{Trials: 20_000, Seed: 9})
	require.NoError(t, err)
	k := s.NewKernel()
	require.NoError(t, k.LoadExact(s.Likely()))
	const tearOff = 2
	oneLife := overQuantiles(distributionOf(&s.Inputs[ref]), 20_000, func(x float64) float64 {
		k.Set(ref, x)
		return k.LCC(tearOff)
	})
	mean, sd := stat.MeanStdDev(drawn.costs[tearOff], nil)
	assert.Greater(t, math.Abs(mean-oneLife), 6*sd/math.Sqrt(20_000))
}
