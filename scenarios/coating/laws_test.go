package coating

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"roofyears/scenarios/units"
)

// share draws a decimal from low to high in steps of 10^−4.
func share(low, high int64) *rapid.Generator[decimal.Decimal] {
	return rapid.Map(rapid.Int64Range(low, high), func(x int64) decimal.Decimal { return decimal.New(x, -4) })
}

var (
	solids = share(1, 10000)
	losses = share(0, 9999)
	films  = share(1, 2000000) // to 200 mil
	areas  = share(0, 1e12)    // to 10^8 ft2
)

func litres(t require.TestingT, p Paint, area, dry units.Value) decimal.Decimal {
	v, err := p.Volume(area, dry, units.Litre)
	require.NoError(t, err)
	return v.Number
}

// The constant is 231/(144·0.001) = 9625/6 ft²·mil/gal, exactly: 9625 ft² of
// 1 mil are 6 gal.
func TestConstantIsExact(t *testing.T) {
	pure := Paint{Solids: one}
	gallons, err := pure.Volume(val(t, "9625 ft2"), val(t, "1 mil"), units.Gallon)
	require.NoError(t, err)
	assert.True(t, gallons.Number.Equal(dec("6")), gallons)
	metric, err := pure.Volume(val(t, "1 m2"), val(t, "1 mm"), units.Litre)
	require.NoError(t, err)
	assert.Equal(t, "1 L", metric.String())
}

// More film, less solids, more loss or more area never take less paint.
func TestLawsOfPaint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Paint{solids.Draw(t, "solids"), losses.Draw(t, "loss")}
		film, area := films.Draw(t, "film"), areas.Draw(t, "area")
		on := units.Of(area, units.SquareFoot)
		dry := units.Of(film, units.Mil)
		need := litres(t, p, on, dry)
		assert.False(t, need.IsNegative())
		thicker := units.Of(film.Add(films.Draw(t, "more film")), units.Mil)
		assert.True(t, litres(t, p, on, thicker).GreaterThanOrEqual(need))
		larger := units.Of(area.Add(areas.Draw(t, "more area")), units.SquareFoot)
		assert.True(t, litres(t, p, larger, dry).GreaterThanOrEqual(need))
		richer := Paint{decimal.Max(p.Solids, solids.Draw(t, "solids of another")), p.Loss}
		assert.True(t, litres(t, richer, on, dry).LessThanOrEqual(need))
		poorer := Paint{p.Solids, decimal.Max(p.Loss, losses.Draw(t, "loss of another"))}
		assert.True(t, litres(t, poorer, on, dry).GreaterThanOrEqual(need))
	})
}

// agree tells whether two numbers differ by no more than a few roundings of
// the fiftieth digit.
func agree(t *rapid.T, a, b decimal.Decimal, about string) {
	most := decimal.Max(a.Abs(), b.Abs()).Shift(2 - units.Digits)
	assert.Truef(t, a.Sub(b).Abs().LessThanOrEqual(most), "%s: %s and %s", about, a, b)
}

// The closed formula of the trade gives the same.
func TestVolumeAgreesWithTheFormulaOfTheTrade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Paint{solids.Draw(t, "solids"), losses.Draw(t, "loss")}
		film, area := films.Draw(t, "film"), areas.Draw(t, "area").Add(one)
		dry, on := units.Of(film, units.Mil), units.Of(area, units.SquareFoot)
		gallons, err := p.Volume(on, dry, units.Gallon)
		require.NoError(t, err)

		above := area.Mul(film).Mul(dec("0.144"))
		below := dec("231").Mul(p.Solids).Mul(one.Sub(p.Loss))
		agree(t, units.Quotient(above, below), gallons.Number, "area × film ÷ (constant × solids × (1 − loss))")
	})
}

// What is asked in US units and what is asked in metric ones is the same.
func TestSystemsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Paint{solids.Draw(t, "solids"), losses.Draw(t, "loss")}
		dry, on := units.Of(films.Draw(t, "film"), units.Mil), units.Of(areas.Draw(t, "area"), units.SquareFoot)
		metricDry, err := dry.To(units.Micrometre)
		require.NoError(t, err)
		metricOn, err := on.To(units.SquareMetre)
		require.NoError(t, err)
		metric, err := p.Volume(metricOn, metricDry, units.Litre)
		require.NoError(t, err)
		us, err := p.Volume(on, dry, units.Gallon)
		require.NoError(t, err)
		asLitres, err := us.To(units.Litre)
		require.NoError(t, err)
		agree(t, metric.Number, asLitres.Number, "volume")
	})
}
