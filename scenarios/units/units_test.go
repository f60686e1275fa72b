package units

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// The definitions, as [SP811] and [HB44] give them (from memory), and what
// follows from them in one step.
func TestExactConversions(t *testing.T) {
	for _, c := range []struct {
		number string
		from   Unit
		want   string
		to     Unit
	}{
		{"1", Foot, "0.3048", Metre},
		{"1", Foot, "12", Inch},
		{"1", Inch, "25.4", Millimetre},
		{"1", Mil, "25.4", Micrometre},
		{"1000", Mil, "1", Inch},
		{"1", SquareFoot, "0.09290304", SquareMetre},
		{"1", Square, "100", SquareFoot},
		{"1", Gallon, "3.785411784", Litre},
		{"1", KilogramPerSquareMetre, "0.00980665", KilonewtonPerSquareMetre},
		{"9.290304", PoundPerSquareFoot, "45.359237", KilogramPerSquareMetre},
		{"3.785411784", PoundPerGallon, "0.45359237", KilogramPerLitre},
		{"9.290304", GallonPerSquare, "3.785411784", LitrePerSquareMetre},
		{"3.785411784", SquareFootPerGallon, "0.09290304", SquareMetrePerLitre},
		{"-2.5", Foot, "-30", Inch},
		{"0", Foot, "0", Metre},
	} {
		got, err := Of(dec(c.number), c.from).To(c.to)
		require.NoError(t, err)
		assert.Truef(t, got.Number.Equal(dec(c.want)), "%s %s is %s, not %s", c.number, c.from, got, c.want)
		assert.Equal(t, c.to, got.Unit)
	}
}

// A gallon is 231 cubic inches [HB44]: its litres follow from the inch.
func TestGallonIsItsCubicInches(t *testing.T) {
	decimetres := inch.Shift(1)
	assert.True(t, dec("231").Mul(decimetres).Mul(decimetres).Mul(decimetres).Equal(gallon))
}

// A cubic foot is 1728 cubic inches, so the foot is not the US survey foot.
func TestFootIsTheInternationalFoot(t *testing.T) {
	survey := Quotient(dec("1200"), dec("3937"))
	assert.True(t, foot.Equal(inch.Mul(dec("12"))))
	assert.InDelta(t, 0.6096, survey.Sub(foot).Mul(dec("1000000")).InexactFloat64(), 0.0001, "mm on 1000 ft")
}

func TestOtherDimensionsAreRefused(t *testing.T) {
	refused := 0
	for from, a := range definitions {
		for to, b := range definitions {
			_, err := Of(one, from).To(to)
			if a.dimension == b.dimension {
				assert.NoErrorf(t, err, "%s to %s", from, to)
				continue
			}
			refused++
			assert.Errorf(t, err, "%s to %s", from, to)
		}
	}
	assert.Positive(t, refused)
	_, err := Of(one, SquareFoot).To(Metre)
	assert.EqualError(t, err, "ft2 measures area, m measures length")
	_, err = Of(one, Foot).To("yd")
	assert.EqualError(t, err, `"yd" is no unit`)
	_, err = Value{}.To(Foot)
	assert.EqualError(t, err, `"" is no unit`)
}

func TestNamed(t *testing.T) {
	for name, want := range map[string]Unit{
		"ft": Foot, "ft2": SquareFoot, "ft²": SquareFoot, "m²": SquareMetre,
		"um": Micrometre, "\u00b5m": Micrometre, "\u03bcm": Micrometre, "L/m²": LitrePerSquareMetre, "gal": Gallon,
	} {
		got, err := Named(name)
		require.NoError(t, err, name)
		assert.Equal(t, want, got, name)
	}
	for _, name := range []string{"", "sf", "FT", "yd", "pail"} {
		_, err := Named(name)
		assert.Error(t, err, name)
	}
	assert.Equal(t, "48000 ft2", Of(dec("48000"), SquareFoot).String())
}

// Every kind is shown in one unit of either system, of the same dimension,
// and no unit belongs to both.
func TestSystemsDoNotMix(t *testing.T) {
	us := map[Unit]bool{}
	for k := range kindsCount {
		us[US.Unit(k)] = true
	}
	for k := range kindsCount {
		assert.NotEmpty(t, US.Unit(k).Dimension(), k)
		assert.Equal(t, US.Unit(k).Dimension(), Metric.Unit(k).Dimension(), k)
		assert.NotContains(t, us, Metric.Unit(k))
	}
	got, err := Of(dec("20"), Mil).To(Metric.Unit(Films))
	require.NoError(t, err)
	assert.Equal(t, "508 um", got.String())
	got, err = Of(dec("2"), PoundPerInch).To(Metric.Unit(Peels))
	require.NoError(t, err)
	assert.Equal(t, "0.35025", got.Number.Round(5).String(), "2 x 4.4482216 N over 25.4 mm")
	_, err = Of(one, Foot).To(US.Unit(Areas))
	assert.Error(t, err)
}

func anyValue(t *rapid.T) Value {
	units := []Unit{Foot, Inch, Mil, Metre, Millimetre, Micrometre, SquareFoot, SquareMetre, Square, Gallon, Litre, GallonPerSquare,
		LitrePerSquareMetre, SquareFootPerGallon, SquareMetrePerLitre, PoundPerSquareFoot, KilonewtonPerSquareMetre,
		KilogramPerSquareMetre, PoundPerGallon, KilogramPerLitre, PoundPerInch, NewtonPerMillimetre}
	number := decimal.New(rapid.Int64Range(-1e15, 1e15).Draw(t, "digits"), rapid.Int32Range(-12, 6).Draw(t, "exponent"))
	return Of(number, rapid.SampledFrom(units).Draw(t, "unit"))
}

// There and back differs by at most two roundings of the fiftieth digit.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyValue(t)
		for u, d := range definitions {
			if d.dimension != v.Unit.Dimension() {
				continue
			}
			there, err := v.To(u)
			require.NoError(t, err)
			back, err := there.To(v.Unit)
			require.NoError(t, err)
			most := v.Number.Abs().Shift(2 - Digits)
			assert.Truef(t, back.Number.Sub(v.Number).Abs().LessThanOrEqual(most), "%s by way of %s is %s", v, u, back)
		}
	})
}

// Quotient against fractions of whole numbers, which are exact.
func TestQuotientAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := decimal.New(rapid.Int64().Draw(t, "a"), rapid.Int32Range(-30, 30).Draw(t, "a's exponent"))
		b := decimal.New(rapid.Int64Min(1).Draw(t, "b"), rapid.Int32Range(-30, 30).Draw(t, "b's exponent"))
		exact := new(big.Rat).Quo(a.Rat(), b.Rat())
		q := Quotient(a, b)
		assert.LessOrEqual(t, q.NumDigits(), Digits)
		wrong := new(big.Rat).Sub(q.Rat(), exact)
		most := new(big.Rat).Mul(new(big.Rat).Abs(exact), decimal.New(5, -Digits).Rat())
		assert.LessOrEqual(t, wrong.Abs(wrong).Cmp(most), 0, "%s", q)
	})
}
