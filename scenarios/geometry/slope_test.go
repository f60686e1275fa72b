package geometry

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseSlope(t *testing.T) {
	for text, want := range map[string]float64{
		"1:12": 1.0 / 12, "1/4:12": 0.25 / 12, "0.25:12": 0.25 / 12, "1 1/2:12": 1.5 / 12, "3 : 12": 0.25,
		"1:40": 1.0 / 40, "8.3%": 0.083, "2 %": 0.02, "0%": 0, "0:12": 0, "45 deg": 1, "45°": 1, "0 deg": 0, "5 deg": 0.08748866352592401,
	} {
		s, err := ParseSlope(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, s.ratio, 1e-15, text)
	}
}

func TestParseSlopeRefuses(t *testing.T) {
	for _, text := range []string{"", "flat", "4 in 12", "1:12:3", "-1:12", "1,5:12", "1/0:12", "5", "1e3%", "0x1:12", "inf:12",
		"5 degrees", "1:", ":12", ".5:12", "1:12 ", "nan deg", "1111111111111111111111111111111111111111:12"} {
		_, err := ParseSlope(text)
		assert.ErrorContains(t, err, " is no slope: write 1:12, 1/4:12, 8.3% or 5 deg", text)
	}
	for _, text := range []string{"1:0", "200:12", "1001%", "85 deg", "90 deg", "270 deg"} {
		_, err := ParseSlope(text)
		assert.EqualError(t, err, `slope "`+text+`" is outside 0:1 to 10:1, rise to run`)
	}
	_, err := NewSlope(-1, 12)
	assert.EqualError(t, err, "rise is -1: it must be from 0 to 120")
	_, err = NewSlope(1, 0)
	assert.EqualError(t, err, "run is 0: it must be greater than 0")
}

// The steeper, the larger; and the slope's factor is one over the cosine of its
// angle.
func TestLawsOfSlopes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rise := rapid.Float64Range(0, mostSlope).Draw(t, "rise")
		steeper := rapid.Float64Range(rise, mostSlope).Draw(t, "steeper")
		s, err := NewSlope(rise, 1)
		require.NoError(t, err)
		s2, err := NewSlope(steeper, 1)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, s2.Factor(), s.Factor())
		assert.InEpsilon(t, 1/math.Cos(math.Atan(rise)), s.Factor(), 1e-12)
	})
	assert.Equal(t, 1.0, Slope{}.Factor())
}

// No text makes a slope that is not one.
func FuzzParseSlope(f *testing.F) {
	for _, text := range []string{"1:12", "1/4:12", "8.3%", "5 deg", "1 1/2 : 12", "1/0:1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseSlope(text)
		if err == nil {
			assert.True(t, s.ratio >= 0 && s.ratio <= mostSlope)
		} else {
			assert.Equal(t, Slope{}, s)
		}
	})
}
