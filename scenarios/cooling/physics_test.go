package cooling

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// same tells whether two decimals are equal to a relative 1e-30.
func same(t require.TestingT, want, got decimal.Decimal, what string) {
	off, most := want.Sub(got).Abs(), want.Abs().Mul(decimal.New(1, -30))
	require.Truef(t, off.LessThanOrEqual(most), "%s: want %s, got %s", what, want, got)
}

// Worked by hand from the equation [T24].
func TestAgedReflectance(t *testing.T) {
	for _, row := range []struct{ initial, field, other string }{
		{"0", "0.07", "0.06"},
		{"0.2", "0.2", "0.2"},
		{"0.7", "0.525", "0.55"},
		{"0.75", "0.5575", "0.585"},
		{"0.8", "0.59", "0.62"},
		{"0.85", "0.6225", "0.655"},
		{"0.88", "0.642", "0.676"},
		{"0.9", "0.655", "0.69"},
		{"1", "0.72", "0.76"},
	} {
		for finish, want := range map[Finish]string{FieldApplied: row.field, OtherFinish: row.other} {
			got, err := AgedReflectance(dec(row.initial), finish)
			require.NoError(t, err)
			assert.Truef(t, got.Equal(dec(want)), "initial %s: want %s, got %s", row.initial, want, got)
		}
	}
	_, err := AgedReflectance(dec("1.01"), FieldApplied)
	assert.EqualError(t, err, "initial reflectance 1.01 is outside the range from 0 to 1")
	_, err = AgedReflectance(dec("0.5"), 0)
	assert.EqualError(t, err, "the finish is neither a field-applied coating nor another")
}

// The International Table Btu by its definition: the heat that warms a pound
// of water by 1 °F, at the International Table calorie of 4.1868 J a gram
// and kelvin.
func TestBtuFollowsFromItsDefinition(t *testing.T) {
	assert.True(t, dec("4.1868").Mul(dec("453.59237")).Div(dec("1.8")).Equal(JoulesPerBtu))
}

// Factors as [SP811] prints them, to seven digits, from memory.
func TestConversionFactors(t *testing.T) {
	for want, got := range map[string]decimal.Decimal{
		"2.930711e-4": perBtu, "29.30711": perTherm, "3.154591": perFlux, "5.678263": perConductance, "0.09290304": squareMetres,
	} {
		w := dec(want)
		assert.InDelta(t, 1, got.Div(w).InexactFloat64(), 2e-7, want)
	}
	assert.InDelta(t, 1, COP(dec("3.412142")).InexactFloat64(), 2e-7)
	assert.InDelta(t, 29.30711*0.12, PerTherm(dec("0.12")).InexactFloat64(), 1e-5)
}

func TestDefaultsAgreeInBothUnits(t *testing.T) {
	assert.Equal(t, "3", IP.Film().Value.String())
	assert.Equal(t, "17", SI.Film().Value.StringFixed(0), "handbooks round to 17, from memory")
	assert.Equal(t, "63", skyLoss(SI).StringFixed(0), "handbooks round to 63")
	assert.Equal(t, "W/m2·K", SI.Film().Unit)
	assert.Equal(t, "published", SI.Film().Mark)
}

// hundredths draws a number of two decimals, from and to in hundredths.
func hundredths(t *rapid.T, name string, from, to int64) decimal.Decimal {
	return decimal.New(rapid.Int64Range(from, to).Draw(t, name), -2)
}
