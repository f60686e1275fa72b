package cooling

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Worked by hand: a cold month, a month with a quarter of its degree-days for
// cooling, a hot one, and a mild one that calls for neither.
func TestSplit(t *testing.T) {
	s, err := Split([]Period{
		{Sun: dec("50"), HeatingDegreeDays: dec("400")},
		{Sun: dec("120"), CoolingDegreeDays: dec("20"), HeatingDegreeDays: dec("60")},
		{Sun: dec("200"), CoolingDegreeDays: dec("150")},
		{Sun: dec("100")},
	})
	require.NoError(t, err)
	assert.Equal(t, "230", s.Cooling.String())
	assert.Equal(t, "140", s.Heating.String())
	assert.Equal(t, "200", s.LeastCooling.String())
	assert.Equal(t, "320", s.MostCooling.String())
}

func TestSplitKeepsTheSunOfTheYear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var periods []Period
		sun := dec("0")
		for range rapid.IntRange(0, 12).Draw(t, "periods") {
			p := Period{hundredths(t, "sun", 0, 30000), hundredths(t, "cooling", 0, 50000), hundredths(t, "heating", 0, 50000)}
			if p.CoolingDegreeDays.IsPositive() || p.HeatingDegreeDays.IsPositive() {
				sun = sun.Add(p.Sun)
			}
			periods = append(periods, p)
		}
		s, err := Split(periods)
		require.NoError(t, err)
		same(t, sun, s.Cooling.Add(s.Heating), "all seasons")
		slack := decimal.New(1, -30)
		require.True(t, s.LeastCooling.LessThanOrEqual(s.Cooling.Add(slack)))
		require.True(t, s.Cooling.LessThanOrEqual(s.MostCooling.Add(slack)))
	})
}

func TestSplitNamesEveryBadPeriod(t *testing.T) {
	_, err := Split([]Period{{Sun: dec("-1")}, {}, {CoolingDegreeDays: dec("-2"), HeatingDegreeDays: dec("-3")}})
	assert.ErrorContains(t, err, "period 1: solar irradiation -1 is outside the range from 0 to 1000000000")
	assert.ErrorContains(t, err, "period 3: cooling degree-days -2")
	assert.ErrorContains(t, err, "heating degree-days -3")
}
