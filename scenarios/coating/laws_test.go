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
	spread, err := pure.Spread(val(t, "1 mil"), units.SquareFootPerGallon)
	require.NoError(t, err)
	want := units.Quotient(dec("231"), dec("0.144"))
	assert.True(t, spread.Number.Sub(want).Abs().LessThan(decimal.New(1, -45)), spread)
	wet, err := WetOf(val(t, "1 L/m2"), units.Millimetre)
	require.NoError(t, err)
	assert.Equal(t, "1 mm", wet.String())
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

// The closed formula of the trade, the coverage times the area, the spreading
// rate, and the film that comes out of the volume again.
func TestWaysToTheVolumeAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Paint{solids.Draw(t, "solids"), losses.Draw(t, "loss")}
		film, area := films.Draw(t, "film"), areas.Draw(t, "area").Add(one)
		dry, on := units.Of(film, units.Mil), units.Of(area, units.SquareFoot)
		gallons, err := p.Volume(on, dry, units.Gallon)
		require.NoError(t, err)

		above := area.Mul(film).Mul(dec("0.144"))
		below := dec("231").Mul(p.Solids).Mul(one.Sub(p.Loss))
		agree(t, units.Quotient(above, below), gallons.Number, "area × film ÷ (constant × solids × (1 − loss))")

		a := units.Of(units.Quotient(area, dec("100")), units.Square)
		coverage, err := p.Coverage(dry, units.GallonPerSquare)
		require.NoError(t, err)
		agree(t, coverage.Number.Mul(a.Number), gallons.Number, "coverage × area")

		spread, err := p.Spread(dry, units.SquareFootPerGallon)
		require.NoError(t, err)
		covered, err := Covered(gallons, spread, units.SquareFoot)
		require.NoError(t, err)
		agree(t, area, covered.Number, "volume × spreading rate")

		back, err := p.DryOf(gallons, on, units.Mil)
		require.NoError(t, err)
		agree(t, film, back.Number, "film out of the volume")
	})
}

// What is asked in US units and what is asked in metric ones is the same.
func TestSystemsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Paint{solids.Draw(t, "solids"), losses.Draw(t, "loss")}
		dry, on := units.Of(films.Draw(t, "film"), units.Mil), units.Of(areas.Draw(t, "area"), units.SquareFoot)
		metricDry, err := units.Metric.Show(units.Films, dry)
		require.NoError(t, err)
		metricOn, err := units.Metric.Show(units.Areas, on)
		require.NoError(t, err)
		metric, err := p.Volume(metricOn, metricDry, units.Litre)
		require.NoError(t, err)
		us, err := p.Volume(on, dry, units.Gallon)
		require.NoError(t, err)
		asLitres, err := us.To(units.Litre)
		require.NoError(t, err)
		agree(t, metric.Number, asLitres.Number, "volume")
		used, err := p.Coverage(metricDry, units.LitrePerSquareMetre)
		require.NoError(t, err)
		usedUS, err := p.Coverage(dry, units.GallonPerSquare)
		require.NoError(t, err)
		asMetric, err := usedUS.To(units.LitrePerSquareMetre)
		require.NoError(t, err)
		agree(t, used.Number, asMetric.Number, "coverage")
	})
}

// The wet film of all paint that stays is the wet film of the dry one.
func TestWetAndDryAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Paint{Solids: solids.Draw(t, "solids")}
		dry := units.Of(films.Draw(t, "film"), units.Mil)
		wet, err := p.Wet(dry)
		require.NoError(t, err)
		assert.True(t, wet.Number.GreaterThanOrEqual(dry.Number))
		back, err := p.Dry(wet)
		require.NoError(t, err)
		agree(t, dry.Number, back.Number, "wet × solids")
		used, err := p.Coverage(dry, units.LitrePerSquareMetre)
		require.NoError(t, err)
		applied, err := WetOf(used, units.Mil)
		require.NoError(t, err)
		agree(t, wet.Number, applied.Number, "wet film of the coverage")
		implied, err := ImpliedSolids(dry, wet)
		require.NoError(t, err)
		agree(t, p.Solids, implied, "solids")
	})
}

// A loss of extra paint is the loss that takes so much more.
func TestLossOfExtra(t *testing.T) {
	got, err := LossOfExtra(dec("0.25"))
	require.NoError(t, err)
	assert.True(t, got.Equal(dec("0.2")), got)
	rapid.Check(t, func(t *rapid.T) {
		extra := share(0, 50000).Draw(t, "extra")
		loss, err := LossOfExtra(extra)
		require.NoError(t, err)
		on, dry := val(t, "1000 m2"), val(t, "500 um")
		smooth := litres(t, Paint{Solids: dec("0.5")}, on, dry)
		agree(t, smooth.Mul(one.Add(extra)), litres(t, Paint{dec("0.5"), loss}, on, dry), "paint")
	})
	_, err = LossOfExtra(dec("-0.1"))
	assert.EqualError(t, err, "extra paint is -0.1: it must be at least 0")
}
