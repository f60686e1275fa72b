package risk

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

// roundoffs is how far a lies from b, in units of 2⁻⁵³ of b.
func roundoffs(a, b float64) float64 {
	if a == b {
		return 0
	}
	return math.Abs(a-b) / math.Abs(b) * (1 << 53)
}

// The functions are those of the standard library but for their last digits.
func TestElementaryFunctionsAreNearTheLibrarys(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	between := func(low, high float64) func() float64 {
		return func() float64 { return low + r.Float64()*(high-low) }
	}
	scaled := func() float64 { return math.Exp(between(-700, 700)()) }
	for _, f := range []struct {
		name      string
		own, want func(float64) float64
		draw      func() float64
		most      float64
	}{
		{"exp", exp, math.Exp, between(-1, 1), 4},
		{"exp, wide", exp, math.Exp, between(-700, 700), 4},
		{"log", log, math.Log, scaled, 4},
		{"log near 1", log, math.Log, between(0.5, 2), 6},
		{"log1p", log1p, math.Log1p, between(-0.999, 3), 6},
		{"log1p, small", log1p, math.Log1p, func() float64 { return math.Exp(between(-700, -1)()) }, 6},
		{"sin", sin, math.Sin, between(-1, 1), 4},
		{"gamma", gamma, math.Gamma, between(1, 8), 150},
		{"normal share", normalShare, func(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }, between(-9, 9), 300},
		{"normal score", normalScore, distuv.UnitNormal.Quantile, between(0, 1), 12},
		{"normal score, far", normalScore, distuv.UnitNormal.Quantile, func() float64 { return math.Exp(between(-700, -1)()) }, 12},
		{"pow", func(x float64) float64 { return pow(x, 0.37) }, func(x float64) float64 { return math.Pow(x, 0.37) }, between(0, 50), 8},
	} {
		worst, where := 0.0, 0.0
		for range 20_000 {
			x := f.draw()
			if off := roundoffs(f.own(x), f.want(x)); !(off <= worst) {
				worst, where = off, x
			}
		}
		t.Logf("%s: %.3g roundoffs at %v", f.name, worst, where)
		assert.LessOrEqual(t, worst, f.most, "%s(%v) is %v, want %v", f.name, where, f.own(where), f.want(where))
	}
}

func TestElementaryFunctionsAtTheirEnds(t *testing.T) {
	assert.Equal(t, []float64{1, 0, math.Inf(1), 0, 1}, []float64{exp(0), exp(-1e300), exp(1e300), exp(-760), pow(3, 1e-300)})
	assert.Equal(t, []float64{0, 0, 0, 0}, []float64{log(1), log1p(0), sin(0), pow(0, 0.2)})
	assert.Equal(t, []float64{0.5, 0, 1}, []float64{normalShare(0), normalShare(-1e300), normalShare(1e300)})
	assert.InDelta(t, 120, gamma(6), 1e-11)
	assert.InDelta(t, normalShare(math.Nextafter(-2, 0)), normalShare(-2), 1e-15, "where the fraction takes over")
}

// The beta distribution of a PERT estimate, from one end to the other.
func TestPERTIsTheBetaDistribution(t *testing.T) {
	for _, likely := range []float64{0, 1e-9, 0.1, 0.25, 0.5, 0.8, 1} {
		own, want := newPERT(0, likely, 1), distuv.Beta{Alpha: 1 + 4*likely, Beta: 5 - 4*likely}
		worst := 0.0
		for _, p := range shares() {
			x := own.Quantile(p)
			worst = max(worst, math.Abs(x-want.Quantile(p)), math.Abs(want.CDF(x)-p))
		}
		t.Logf("likely %v: off by %.2g", likely, worst)
		assert.LessOrEqual(t, worst, 1e-9, fmt.Sprint(likely))
	}
}
