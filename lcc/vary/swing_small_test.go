package vary

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// A small price of a large roof has its quantiles in full. With v = ln(1 +
// (0.0002/0.00042)²) and μ = ln 0.00042 − v/2, exp(μ ∓ 1.644854·√v) is
// 0.000180272 and 0.000797650, over 1,000,000 ft².
func TestASwingOfASmallPrice(t *testing.T) {
	b := newBuilder(10)
	b.Rate, b.Area = b.fixed("rate", lcc.Rate, "0"), b.fixed("area", lcc.Area, "1000000")
	price := b.Add(lcc.Input{Path: "price", Unit: lcc.Price, Shape: lcc.Lognormal, Likely: dec("0.00042"), Spread: dec("0.0002")})
	life := b.fixed("life", lcc.Years, "10")
	b.Systems = []lcc.System{
		{Key: "stated", Life: life, First: cost(b.fixed("amount", lcc.Money, "1000"), lcc.NoRef, lcc.Fees)},
		{Key: "priced", Then: 1, Life: life, First: cost(price, b.Area, lcc.Fees)},
	}
	b.Alternatives = []lcc.Alternative{{Name: "stated", Start: 0}, {Name: "priced", Start: 1}}
	swings, _ := swingsOf(t, b)
	require.Len(t, swings, 1)
	assert.InDelta(t, 819.73, swings[0].Low.Margin.InexactFloat64(), 0.0101)
	assert.InDelta(t, 202.35, swings[0].High.Margin.InexactFloat64(), 0.0101)
}

func TestHowAnEndIsRounded(t *testing.T) {
	for _, c := range []struct {
		quantile float64
		places   int32
		want     string
	}{
		{12345.678949, 4, "12345.6789"}, {1.23456789, 4, "1.2346"}, {0.0123456789, 6, "0.012346"},
		{0.00018027177, 4, "0.00018027"}, {-0.00018027177, 4, "-0.00018027"}, {1.2345678e-14, 4, "0.0000000000000123"}, {0, 4, "0"},
	} {
		assert.Equal(t, c.want, swingEnd(c.quantile, c.places).String())
	}
}
