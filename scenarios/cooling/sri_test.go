package cooling

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fittedSRI is the fitted equation of the standard, a second way to the index:
// "average error 0.9, maximum error 2", for absorptance over 0.1 except where
// it is over 0.8 with emittance under 0.2 [E1980].
func fittedSRI(s Surface, h float64) float64 {
	chi := (1 - s.Reflectance - 0.029*s.Emittance) * (8.797 + h) / (9.5205*s.Emittance + h)
	return 123.97 - 141.35*chi + 9.655*chi*chi
}

func index(t require.TestingT, s Surface, w Wind) float64 {
	sri, err := SRI(s, w)
	require.NoError(t, err)
	return sri
}

// fitErrors is the average and the greatest distance between the two ways, over
// the reflectances and emittances, in steps of 0.01, for which the equation is
// meant.
func fitErrors(t *testing.T, w Wind, leastEmittance int) (average, greatest float64) {
	t.Helper()
	n := 0.0
	for r := 0; r < 90; r++ {
		for e := leastEmittance; e <= 100; e++ {
			if r < 20 && e < 20 {
				continue
			}
			s := Surface{float64(r) / 100, float64(e) / 100}
			off := math.Abs(index(t, s, w) - fittedSRI(s, convection[w]))
			average, greatest, n = average+off, math.Max(greatest, off), n+1
		}
	}
	average /= n
	t.Logf("convection %v, emittance from 0.%d: average error %.2f, greatest %.2f", convection[w], leastEmittance, average, greatest)
	return average, greatest
}

// The standard's own statement holds in medium and high wind, for surfaces of
// an emittance from 0.30 its greatest error too. Barer metal comes to 2.4. In
// low wind, where radiation rules, a fit that is close in the other classes
// strays further: 1.1 on average, and 6.3 at reflectance 0.20 and emittance
// 0.11. Those three figures were measured here; the roots themselves are held
// by TestTheBalanceHolds.
func TestHeatBalanceAgreesWithTheFittedEquation(t *testing.T) {
	for _, wind := range []Wind{MediumWind, HighWind} {
		average, greatest := fitErrors(t, wind, 30)
		assert.LessOrEqual(t, average, 0.9)
		assert.LessOrEqual(t, greatest, 2.0)
		average, greatest = fitErrors(t, wind, 11)
		assert.LessOrEqual(t, average, 0.9)
		assert.LessOrEqual(t, greatest, 2.5)
	}
	average, greatest := fitErrors(t, LowWind, 11)
	assert.LessOrEqual(t, average, 1.1)
	assert.LessOrEqual(t, greatest, 6.4)
}

// The equation at the references, where only the heat balance gives 0 and 100;
// values worked by hand from the equation.
func TestFittedEquationMissesTheReferences(t *testing.T) {
	assert.InDelta(t, 0.35, fittedSRI(referenceBlack, convection[MediumWind]), 0.005)
	assert.InDelta(t, 99.41, fittedSRI(referenceWhite, convection[MediumWind]), 0.005)
}

var anyWind = rapid.SampledFrom([]Wind{LowWind, MediumWind, HighWind})

func anySurface(t *rapid.T) Surface {
	return Surface{
		Reflectance: rapid.Float64Range(0, 1).Draw(t, "reflectance"),
		Emittance:   rapid.Float64Range(math.Nextafter(0.1, 1), 1).Draw(t, "emittance"),
	}
}

func TestTheBalanceHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, w := anySurface(t), anyWind.Draw(t, "wind")
		kelvin, err := SurfaceTemperature(s, w)
		require.NoError(t, err)
		left := func(x float64) float64 {
			return s.Emittance*5.67e-8*(math.Pow(x, 4)-math.Pow(300, 4)) + convection[w]*(x-310) - (1-s.Reflectance)*1000
		}
		assert.LessOrEqual(t, left(kelvin-1e-9), 0.0, "the root is less than 1e-9 K below")
		assert.GreaterOrEqual(t, left(kelvin+1e-9), 0.0, "the root is less than 1e-9 K above")
	})
}

func TestMoreReflectanceIsNeverHotter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dark, w := anySurface(t), anyWind.Draw(t, "wind")
		light := dark
		light.Reflectance = rapid.Float64Range(dark.Reflectance, 1).Draw(t, "more reflectance")
		hot, err := SurfaceTemperature(dark, w)
		require.NoError(t, err)
		cool, err := SurfaceTemperature(light, w)
		require.NoError(t, err)
		const noise = 1e-10 // of float64 at 300 to 510 K
		assert.LessOrEqual(t, cool, hot+noise)
		assert.GreaterOrEqual(t, index(t, light, w), index(t, dark, w)-100*noise)
	})
}

func TestSurfacesOutOfRange(t *testing.T) {
	for text, s := range map[string]Surface{
		"reflectance 1.2 is outside the range from 0 to 1":            {1.2, 0.9},
		"reflectance -0.01 is outside the range from 0 to 1":          {-0.01, 0.9},
		"reflectance NaN is outside the range from 0 to 1":            {math.NaN(), 0.9},
		"emittance 0.1 is outside the range from over 0.1 to 1":       {0.5, 0.1},
		"emittance +Inf is outside the range from over 0.1 to 1":      {0.5, math.Inf(1)},
		"emittance NaN is outside the range from over 0.1 to 1":       {0.5, math.NaN()},
		"reflectance 2 is outside the range from 0 to 1\nemittance 0": {2, 0},
	} {
		_, err := SRI(s, MediumWind)
		assert.ErrorContains(t, err, text)
	}
	_, err := SRI(referenceBlack, 0)
	assert.EqualError(t, err, "the wind is none of low, medium and high")
}
