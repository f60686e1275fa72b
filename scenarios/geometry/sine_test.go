package geometry

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// ellipticE is the complete elliptic integral of the second kind of parameter
// m < 1, by the arithmetic-geometric mean: K = π/(2·agm(1, √(1−m))) and
// E = K·(1 − Σ 2^(n−1)·cₙ²) with c₀² = m [DLMF 19.8, from memory].
func ellipticE(m float64) float64 {
	a, b, c2 := 1.0, math.Sqrt(1-m), m
	sum, weight := 0.0, 0.5
	for i := 0; i < 40 && c2 != 0; i++ {
		sum += weight * c2
		weight *= 2
		c := (a - b) / 2
		a, b, c2 = (a+b)/2, math.Sqrt(a*b), c*c
	}
	return math.Pi / (2 * a) * (1 - sum)
}

// ∫√(1+k²cos²θ) over a quarter turn is √(1+k²)·E(k²/(1+k²)).
func TestSineAgainstEllipticIntegral(t *testing.T) {
	assert.InDelta(t, math.Pi/2, ellipticE(0), 1e-15)
	assert.InDelta(t, 1.3506438810476755, ellipticE(0.5), 1e-14, "E(1/2), the lemniscate's; from memory")
	rapid.Check(t, func(t *rapid.T) {
		pitch := rapid.Float64Range(0.01, 1000).Draw(t, "pitch")
		deep := rapid.Float64Range(0, mostDepth).Draw(t, "depth in pitches")
		got, err := Sine{pitch, deep * pitch}.Factor()
		require.NoError(t, err)
		k := math.Pi * (deep * pitch) / pitch
		want := math.Hypot(1, k) * ellipticE(k*k/(1+k*k)) * 2 / math.Pi
		assert.InEpsilon(t, want, got, 1e-12)
	})
}

// The deepest wave that is accepted is found, not given up.
func TestSineConvergesToTheLimit(t *testing.T) {
	got, err := Sine{1, mostDepth}.Factor()
	require.NoError(t, err)
	assert.Greater(t, got, 2.0*mostDepth, "the way straight up and down")
	assert.Less(t, got, 2.0*mostDepth+1, "the way up, down and along")
}

// Sheets of straight flanks, of arcs and straight flanks, and of arcs alone
// are longer in that order; the sine of one pitch and depth lies between the
// first and the last.
func TestSineLiesBetweenFlanksAndArcs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deep := rapid.Float64Range(0.01, 0.5).Draw(t, "depth in pitches")
		sine, err := Sine{1, deep}.Factor()
		require.NoError(t, err)
		arcs, err := Arcs{1, deep}.Factor()
		require.NoError(t, err)
		assert.Greater(t, sine, math.Hypot(1, 2*deep))
		assert.Less(t, sine, arcs)
	})
}

func TestHalfCircles(t *testing.T) {
	got, err := Arcs{2, 1}.Factor()
	require.NoError(t, err)
	assert.InDelta(t, math.Pi/2, got, 1e-15)
}

// Arcs against a polygon that follows them closely.
func TestArcsAgainstPolygon(t *testing.T) {
	const pitch, deep, steps = 2.67, 0.875, 20000
	chord, rise := pitch/2, deep/2
	radius := (chord*chord/4 + rise*rise) / (2 * rise)
	length, x0, y0 := 0.0, -chord/2, 0.0
	for i := 1; i <= steps; i++ {
		x := -chord/2 + chord*float64(i)/steps
		y := math.Sqrt(radius*radius-x*x) - (radius - rise)
		length += math.Hypot(x-x0, y-y0)
		x0, y0 = x, y
	}
	got, err := Arcs{pitch, deep}.Factor()
	require.NoError(t, err)
	assert.InDelta(t, length/chord, got, 1e-8)
}
