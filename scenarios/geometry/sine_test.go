package geometry

import (
	"fmt"
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
		bound, err := arcs{1, deep}.Factor()
		require.NoError(t, err)
		assert.Greater(t, sine, math.Hypot(1, 2*deep))
		assert.Less(t, sine, bound)
	})
}

func TestHalfCircles(t *testing.T) {
	got, err := arcs{2, 1}.Factor()
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
	got, err := arcs{pitch, deep}.Factor()
	require.NoError(t, err)
	assert.InDelta(t, length/chord, got, 1e-8)
}

// arcs is a corrugated sheet whose section is of circular arcs that meet half
// way up, dimensioned like [Sine]. No reader asks for it: of all sheets of arcs
// and straight tangents of one pitch and depth it is the longest, and so bounds
// from above a sheet of which no more is known. It tells whether a printed
// factor may be of such a sheet.
type arcs struct {
	Pitch float64 // greater than 0
	Depth float64 // 0 to half a pitch, where the arcs are half circles
}

// Factor is arc over chord. An arc over half a pitch that rises half the depth
// has at its ends, seen from its middle, the angle 2·atan(t) with
// t = 2·depth/pitch; arc over chord is that angle over its sine,
// atan(t)·(1+t²)/t [Plane].
func (a arcs) Factor() (float64, error) {
	if err := positive("pitch", a.Pitch); err != nil {
		return 0, err
	}
	if err := between("depth", a.Depth, 0, a.Pitch/2); err != nil {
		return 0, fmt.Errorf("%w, half the pitch: deeper arcs would overhang", err)
	}
	t := 2 * a.Depth / a.Pitch
	if t < 1e-8 { // the factor is 1 + 2t²/3, which is 1
		return 1, nil
	}
	return math.Atan(t) * (1 + t*t) / t, nil
}
