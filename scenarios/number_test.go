package scenarios

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNumbersAreReadExactly(t *testing.T) {
	for text, want := range map[string]string{
		"0": "0", "-0": "0", "7": "7", "+7": "7", "-7.50": "-7.5", "0.5": "0.5", "48_000": "48000", "1_234.567_8": "1234.5678",
		"1e3": "1000", "1E+3": "1000", "25e-4": "0.0025", "1e30": "1" + strings.Repeat("0", 30), "1e-30": "0." + strings.Repeat("0", 29) + "1",
		"3%": "0.03", "3 %": "0.03", "-0.5%": "-0.005", "1e2%": "1", " 12 ": "12",
		"0.1000000000000000055511151231257827":     "0.1000000000000000055511151231257827",
		"1234567890123456789012345678901234567890": "1234567890123456789012345678901234567890",
	} {
		n, m, ok := parseNumber(text)
		require.True(t, ok, "%q: %s", text, m.what)
		assert.Equal(t, want, n.value.String(), text)
		assert.Equal(t, strings.Contains(text, "%"), n.percent, text)
		assert.Empty(t, n.unit, text)
	}
}

func TestUnitsFollowTheNumber(t *testing.T) {
	for text, want := range map[string]string{"5 ft2": "ft2", "5ft²": "ft2", "5 m2": "m2", "5m²": "m2", "5 m": "m", "5_0ft": "ft", "5": ""} {
		n, m, ok := quantity.read(text, false)
		require.True(t, ok, "%q: %s", text, m.what)
		assert.Equal(t, want, n.unit, text)
	}
}

func TestParseRate(t *testing.T) {
	r, err := ParseRate("3%")
	require.NoError(t, err)
	assert.Equal(t, "0.03", r.String())
	_, err = ParseRate("3")
	assert.EqualError(t, err, `"3" has no percent sign: it would be 300%, expected a rate over -50% and at most 1000%, such as 3% or 0.03: did you mean 3%?`)
}

// The limits themselves belong to the range unless it says "over".
func TestLimits(t *testing.T) {
	for _, c := range []struct {
		of       measure
		in, over []string
	}{
		{rate, []string{"-49.99%", "1000%", "0.999", "-0.4"}, []string{"-50%", "1000.01%", "1", "-1"}},
		{years, []string{"0.001", "1000"}, []string{"0", "1000.1", "-2"}},
		{amount, []string{"1e15", "-1e15", "0"}, []string{"1.1e15", "-1.1e15"}},
		{planArea, []string{"0.1 m2", "1e12 ft2"}, []string{"0 m2", "2e12 ft2", "5"}},
		{quantity, []string{"0", "0 ft2", "1e12"}, []string{"-0.1", "2e12"}},
	} {
		for _, text := range c.in {
			_, m, ok := c.of.read(text, false)
			assert.True(t, ok, "%q: %s", text, m.what)
		}
		for _, text := range c.over {
			_, m, ok := c.of.read(text, false)
			assert.False(t, ok, text)
			assert.NotEmpty(t, m.expected, text)
		}
	}
}
