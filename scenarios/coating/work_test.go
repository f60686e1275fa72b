package coating

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"roofyears/scenarios/units"
)

func TestNotch(t *testing.T) {
	for wet, want := range map[string]string{
		"0.1 mil": "0.5 mil", "0.5 mil": "0.5 mil", "0.51 mil": "1 mil", "5.8 mil": "6 mil", "6 mil": "6 mil", "6.1 mil": "7 mil",
		"9.5 mil": "10 mil", "10.1 mil": "12 mil", "21.05 mil": "22 mil", "30 mil": "30 mil", "30.01 mil": "35 mil",
		"40 mil": "40 mil", "46.1538 mil": "50 mil", "101 mil": "105 mil", "500 um": "20 mil", "508 um": "20 mil", "509 um": "22 mil",
	} {
		got, err := Notch(val(t, wet))
		require.NoError(t, err)
		assert.Equal(t, want, got.String(), wet)
	}
}

// The notch is the first of the row of notches that is not below the film,
// the row being written out step by step [D4414].
func TestNotchAgainstTheRow(t *testing.T) {
	var row []decimal.Decimal
	last := decimal.Zero
	for _, s := range []struct{ to, step string }{{"6", "0.5"}, {"10", "1"}, {"30", "2"}, {"200", "5"}} {
		for last.LessThan(dec(s.to)) {
			last = last.Add(dec(s.step))
			row = append(row, last)
		}
	}
	require.Len(t, row, 12+4+10+34)
	rapid.Check(t, func(t *rapid.T) {
		wet := films.Draw(t, "film")
		got, err := Notch(units.Of(wet, units.Mil))
		require.NoError(t, err)
		i := 0
		for row[i].LessThan(wet) {
			i++
		}
		assert.True(t, got.Number.Equal(row[i]), "%s mil: notch %s, not %s", wet, got, row[i])
	})
}

// A film that is on a notch but for the last digits of a quotient is on it,
// where the steps change too.
func TestNotchForgivesTheFiftiethDigit(t *testing.T) {
	for _, on := range []string{"0.5", "6", "10", "20", "30", "40"} {
		got, err := Notch(units.Of(dec(on).Add(decimal.New(1, -45)), units.Mil))
		require.NoError(t, err)
		assert.Equal(t, on+" mil", got.String())
	}
}

func TestTreatments(t *testing.T) {
	for gap, want := range map[string]Treatment{
		"0 in": BrushGrade, "0.0625 in": BrushGrade, "1.5875 mm": BrushGrade, "0.0626 in": TrowelGrade, "0.1 in": TrowelGrade,
		"0.125 in": TrowelGrade, "0.1875 in": TrowelGrade, "4.7625 mm": TrowelGrade, "0.1876 in": CloseFirst, "5 mm": CloseFirst,
	} {
		got, err := TreatmentOf(val(t, gap))
		require.NoError(t, err)
		assert.Equal(t, want, got, gap)
	}
	_, err := TreatmentOf(val(t, "-1 mm"))
	assert.EqualError(t, err, "gap is -1 mm: it must be at least 0")
}

// A pound a gallon and its kilograms a litre weigh the same.
func TestAddedLoadInBothSystems(t *testing.T) {
	got, err := AddedLoad(val(t, "1 mm"), val(t, "1.3 kg/L"), units.KilogramPerSquareMetre)
	require.NoError(t, err)
	assert.Equal(t, "1.3 kg/m2", got.String())
	us, err := AddedLoad(val(t, "1000 mil"), val(t, "231 lb/gal"), units.PoundPerSquareFoot)
	require.NoError(t, err)
	assert.True(t, us.Number.Sub(dec("144")).Abs().LessThan(decimal.New(1, -40)), "1 in of 1 lb/in³: %s", us)
}

func TestRefusals(t *testing.T) {
	mil, m2, good := val(t, "20 mil"), val(t, "100 m2"), Paint{Solids: dec("0.5")}
	errOf := func(_ any, err error) error { return err }
	for want, err := range map[string]error{
		"volume solids are 0: they must be over 0 and at most 1":  errOf(Paint{}.Volume(m2, mil, units.Litre)),
		"volume solids are 65: they must be over 0 and at most 1": errOf(Paint{Solids: dec("65")}.Volume(m2, mil, units.Litre)),
		"loss is 1: it must be from 0 to below 1":                 errOf(Paint{dec("0.5"), one}.Volume(m2, mil, units.Litre)),
		"loss is -0.1: it must be from 0 to below 1":              errOf(Paint{dec("0.5"), dec("-0.1")}.Volume(m2, mil, units.Litre)),
		"dry film is 0 mil: it must be greater than 0":            errOf(good.Volume(m2, val(t, "0 mil"), units.Litre)),
		"area is -1 m2: it must be at least 0":                    errOf(good.Volume(val(t, "-1 m2"), mil, units.Litre)),
		"area: mil measures length, m2 measures area":             errOf(good.Volume(mil, mil, units.Litre)),
		"L measures volume, mil measures length":                  errOf(good.Volume(m2, mil, units.Mil)),
		"wet film is -1 mil: it must be greater than 0":           errOf(Notch(val(t, "-1 mil"))),
		"density is 0 kg/L: it must be greater than 0":            errOf(AddedLoad(mil, val(t, "0 kg/L"), units.PoundPerSquareFoot)),
	} {
		assert.EqualError(t, err, want)
	}
}
