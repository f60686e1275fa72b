package geometry

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// section draws a profile of pitch p as a function of its depth and its scale.
func section(t *rapid.T) (of func(depth, scale float64) Profile, most float64) {
	p := rapid.Float64Range(0.1, 100).Draw(t, "pitch")
	base := rapid.Float64Range(0, p).Draw(t, "base")
	top := rapid.Float64Range(0, base).Draw(t, "top")
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 0:
		return func(d, s float64) Profile { return Sine{s * p, s * d} }, p
	case 1:
		return func(d, s float64) Profile { return arcs{s * p, s * d} }, p / 2.001
	case 2:
		return func(d, s float64) Profile { return Trapezoid{s * p, s * base, s * top, s * d} }, p
	}
	return func(d, s float64) Profile { return StandingSeam{s * p, s * d} }, p
}

func factor(t require.TestingT, p Profile) float64 {
	f, err := p.Factor()
	require.NoError(t, err)
	return f
}

// A sheet is at least as long as what it covers, a deeper one is no shorter,
// and the unit does not matter. Scales are powers of two, so that limits hold
// exactly.
func TestLawsOfFactors(t *testing.T) {
	const hair = 1e-12
	rapid.Check(t, func(t *rapid.T) {
		of, most := section(t)
		shallow := rapid.Float64Range(0, most).Draw(t, "depth")
		deep := rapid.Float64Range(shallow, most).Draw(t, "greater depth")
		scale := math.Ldexp(1, rapid.IntRange(-10, 10).Draw(t, "scale"))
		f := factor(t, of(shallow, 1))
		assert.GreaterOrEqual(t, f, 1.0)
		assert.GreaterOrEqual(t, factor(t, of(deep, 1)), f*(1-hair))
		assert.InEpsilon(t, f, factor(t, of(shallow, scale)), hair)
		assert.InDelta(t, 1, factor(t, of(0, scale)), 1e-15, "without depth it is flat")
	})
}

// Whatever the dimensions, there is a factor of 1 or more, or a reason.
func TestNeverNaN(t *testing.T) {
	odd := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1, 5e-324, 1e308, 1e-9, 1e9, 10}
	rapid.Check(t, func(t *rapid.T) {
		x := make([]float64, 4)
		for i := range x {
			x[i] = rapid.OneOf(rapid.SampledFrom(odd), rapid.Float64()).Draw(t, "dimension")
		}
		profiles := []Profile{Sine{x[0], x[1]}, arcs{x[0], x[1]}, Trapezoid{x[0], x[1], x[2], x[3]}, StandingSeam{x[0], x[1]}}
		for _, p := range profiles {
			if f, err := p.Factor(); err == nil {
				assert.GreaterOrEqual(t, f, 1.0)
				assert.False(t, math.IsInf(f, 0))
			} else {
				assert.Zero(t, f)
				assert.NotEmpty(t, err.Error())
			}
		}
		if s, err := NewSlope(x[0], x[1]); err == nil {
			assert.GreaterOrEqual(t, s.Factor(), 1.0)
		}
	})
}

func TestImpossibleDimensions(t *testing.T) {
	for want, p := range map[string]Profile{
		"pitch is 0: it must be greater than 0":                                            Sine{0, 1},
		"depth is -1: it must be from 0 to 26.7":                                           Sine{2.67, -1},
		"depth is 30: it must be from 0 to 26.7":                                           Sine{2.67, 30},
		"depth is NaN: it must be from 0 to 20":                                            Sine{2, math.NaN()},
		"pitch is +Inf: it must be from 1e-09 to 1e+09":                                    Sine{math.Inf(1), 1},
		"depth is 1.1: it must be from 0 to 1, half the pitch: deeper arcs would overhang": arcs{2, 1.1},
		"base is 13: it must be from 0 to 12":                                              Trapezoid{12, 13, 1, 1},
		"top is 3: it must be from 0 to 2.8":                                               Trapezoid{12, 2.8, 3, 1.25},
		"height is -2: it must be from 0 to 120":                                           Trapezoid{12, 2.8, 1, -2},
		"cover is -16: it must be greater than 0":                                          StandingSeam{-16, 2},
	} {
		f, err := p.Factor()
		assert.EqualError(t, err, want)
		assert.Zero(t, f)
	}
}
