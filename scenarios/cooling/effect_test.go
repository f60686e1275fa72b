package cooling

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// office is an invented case with round figures.
func office() Case {
	return Case{
		Units: SI, Area: dec("1000"), Reflectance: dec("0.2"), Initial: dec("0.8"), Aged: dec("0.6"), CleanYears: 3,
		UValue: dec("0.5"), Film: dec("20"), CoolingSun: dec("1000"), HeatingSun: dec("400"),
		COP: dec("3"), HeatingEfficiency: dec("0.8"), ElectricityPrice: dec("0.12"), HeatPrice: dec("0.05"),
	}
}

func effect(t require.TestingT, c Case) Effect {
	e, err := c.YearlyEffect()
	require.NoError(t, err)
	return e
}

// Worked by hand, aged, change 0.4:
//
//	cooling 400 kWh/m², /20 = 20 000 K·h, × 0.5 = 10 kWh/m², 10 000 kWh, /3 = 3333.33 kWh, × 0.12 = 400
//	heating 160 kWh/m², /20 = 8 000 K·h, × 0.5 = 4 kWh/m², 4 000 kWh, /0.8 = 5000 kWh, × 0.05 = 250
func TestYearlyEffectByHand(t *testing.T) {
	e := effect(t, office())
	checkSeason(t, e.Aged.Cooling, "400", "20000", "10", "10000", "3333.333333", "400")
	checkSeason(t, e.Aged.Heating, "160", "8000", "4", "4000", "5000", "250")
	assert.Equal(t, "0.4", e.Aged.Change.String())
	assert.Equal(t, "-150", e.Aged.Cost.Round(9).String())
	assert.Equal(t, "-225", e.Initial.Cost.Round(9).String(), "a change of 0.6 does half as much again")
}

// Worked by hand in IP: 100 000 Btu/ft² × 0.3 / 3 = 10 000 °F·h, × 0.06 = 600
// Btu/ft², × 10 000 ft² = 6 MMBtu = 1758.43 kWh of heat, /3.2 = 549.51 kWh; a
// third of it in the heating season, 20 therms, /0.8 = 25 therms.
func TestYearlyEffectByHandInIP(t *testing.T) {
	e := effect(t, Case{
		Units: IP, Area: dec("10000"), Reflectance: dec("0.2"), Initial: dec("0.5"), Aged: dec("0.5"),
		UValue: dec("0.06"), Film: dec("3"), CoolingSun: dec("100000"), HeatingSun: dec("33333.333333333333"),
		COP: dec("3.2"), HeatingEfficiency: dec("0.8"), ElectricityPrice: dec("0.10"), HeatPrice: dec("1.20"),
	})
	checkSeason(t, e.Aged.Cooling, "30000", "10000", "600", "6000000", "549.508257", "54.950826")
	checkSeason(t, e.Aged.Heating, "10000", "3333.333333", "200", "2000000", "25", "30")
	assert.Equal(t, "-24.950826", e.Aged.Cost.Round(6).String())
}

func checkSeason(t *testing.T, s Season, absorbed, degreeHours, perArea, heat, bought, money string) {
	t.Helper()
	for _, row := range []struct {
		name, want string
		got        decimal.Decimal
	}{
		{"absorbed", absorbed, s.Absorbed}, {"degree-hours", degreeHours, s.DegreeHours}, {"heat per area", perArea, s.HeatPerArea},
		{"heat", heat, s.Heat}, {"bought", bought, s.Bought}, {"money", money, s.Money},
	} {
		assert.Equal(t, row.want, row.got.Round(6).String(), row.name)
	}
}

// anyCase draws a case in range, in either system of units.
func anyCase(t *rapid.T) Case {
	c := Case{
		Units:       SI,
		Area:        hundredths(t, "area", 1, 1e10),
		Reflectance: hundredths(t, "reflectance", 0, 100), Initial: hundredths(t, "initial", 0, 100), Aged: hundredths(t, "aged", 0, 100),
		CleanYears: rapid.IntRange(0, 100).Draw(t, "clean years"),
		Film:       hundredths(t, "film", 1, 19000),
		CoolingSun: hundredths(t, "cooling sun", 0, 190000), HeatingSun: hundredths(t, "heating sun", 0, 190000),
		COP: hundredths(t, "COP", 1, 2000), HeatingEfficiency: hundredths(t, "efficiency", 1, 2000),
		ElectricityPrice: hundredths(t, "electricity", 0, 1e6), HeatPrice: hundredths(t, "heat", 0, 1e6),
	}
	c.UValue = hundredths(t, "U-value", 0, c.Film.Shift(2).IntPart())
	return c.In(rapid.SampledFrom([]Units{SI, IP}).Draw(t, "units"))
}

func TestBothUnitsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		si, ip := effect(t, c.In(SI)).Aged, effect(t, c.In(IP)).Aged
		for _, s := range []struct{ si, ip Season }{{si.Cooling, ip.Cooling}, {si.Heating, ip.Heating}} {
			same(t, s.si.Absorbed, s.ip.Absorbed.Mul(perIrradiation), "absorbed")
			same(t, s.si.DegreeHours.Mul(fahrenheitSteps), s.ip.DegreeHours, "degree-hours")
			same(t, s.si.HeatPerArea, s.ip.HeatPerArea.Mul(perIrradiation), "heat per area")
			same(t, s.si.Heat, s.ip.Heat.Mul(perBtu), "heat")
			same(t, s.si.Money, s.ip.Money, "money")
		}
		same(t, si.Cooling.Bought, ip.Cooling.Bought, "electricity, kWh in both")
		same(t, si.Heating.Bought, ip.Heating.Bought.Mul(perTherm), "heat bought")
	})
}

func TestThereAndBackIsTheSameCase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		back := c.In(SI).In(IP).In(c.Units)
		same(t, c.Area, back.Area, "area")
		same(t, c.UValue, back.UValue, "U-value")
		same(t, c.Film, back.Film, "film")
		same(t, c.CoolingSun, back.CoolingSun, "cooling sun")
		same(t, c.HeatingSun, back.HeatingSun, "heating sun")
		same(t, c.HeatPrice, back.HeatPrice, "price of heat")
	})
}

func TestLinearInTheUValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bare := anyCase(t)
		part := hundredths(t, "part", 0, 100)
		insulated := bare
		insulated.UValue = bare.UValue.Mul(part)
		all, some := effect(t, bare).Aged, effect(t, insulated).Aged
		same(t, all.Cooling.Bought.Mul(part), some.Cooling.Bought, "saved")
		same(t, all.Heating.Bought.Mul(part), some.Heating.Bought, "added")
		same(t, all.Cooling.Money.Mul(part), some.Cooling.Money, "money saved")
		same(t, all.Heating.Money.Mul(part), some.Heating.Money, "money added")
	})
}

// No more heat is kept out than is no longer absorbed, and signs follow the
// change: a lighter roof saves cooling and adds heating.
func TestSignsAndBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := effect(t, anyCase(t)).Aged
		for _, s := range []Season{y.Cooling, y.Heating} {
			slack := s.Absorbed.Abs().Mul(decimal.New(1, -30))
			require.True(t, s.HeatPerArea.Abs().LessThanOrEqual(s.Absorbed.Abs().Add(slack)))
			for _, figure := range []decimal.Decimal{s.Absorbed, s.DegreeHours, s.HeatPerArea, s.Heat, s.Bought, s.Money} {
				require.GreaterOrEqual(t, figure.Sign()*y.Change.Sign(), 0)
			}
		}
		require.True(t, y.Cost.Equal(y.Heating.Money.Sub(y.Cooling.Money)))
	})
}

func TestNoChangeNoEffect(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCase(t)
		c.Initial, c.Aged = c.Reflectance, c.Reflectance
		e := effect(t, c)
		for _, y := range []Yearly{e.Initial, e.Aged} {
			for _, figure := range []decimal.Decimal{y.Change, y.Cooling.Heat, y.Cooling.Bought, y.Heating.Heat, y.Heating.Bought, y.Cost} {
				require.True(t, figure.IsZero())
			}
		}
	})
}

func TestCasesOutOfRange(t *testing.T) {
	for text, spoil := range map[string]func(*Case){
		"area 0 is outside the range from over 0 to 1000000000000 m2":                             func(c *Case) { c.Area = dec("0") },
		"reflectance of the roof as it is 1.1 is outside the range from 0 to 1":                   func(c *Case) { c.Reflectance = dec("1.1") },
		"initial reflectance -0.1 is outside the range from 0 to 1":                               func(c *Case) { c.Initial = dec("-0.1") },
		"aged reflectance 60 is outside the range from 0 to 1":                                    func(c *Case) { c.Aged = dec("60") },
		"years before the surface counts as aged -1 is outside the range from 0 to 100":           func(c *Case) { c.CleanYears = -1 },
		"film coefficient 0 is outside the range from over 0 to 200 W/m2·K":                       func(c *Case) { c.Film = dec("0") },
		"roof U-value 21 is outside the range from 0 to the film coefficient, 20 W/m2·K":          func(c *Case) { c.UValue = dec("21") },
		"roof U-value -0.1 is outside the range from 0 to the film coefficient, 20 W/m2·K":        func(c *Case) { c.UValue = dec("-0.1") },
		"solar irradiation of the cooling season 5000 is outside the range from 0 to 4000 kWh/m2": func(c *Case) { c.CoolingSun = dec("5000") },
		"solar irradiation of the heating season -1 is outside the range from 0 to 4000 kWh/m2":   func(c *Case) { c.HeatingSun = dec("-1") },
		"solar irradiation of both seasons 4300 is outside the range from 0 to 4000 kWh/m2":       func(c *Case) { c.HeatingSun = dec("3300") },
		"coefficient of performance of the cooling 0 is outside the range from over 0 to 20":      func(c *Case) { c.COP = dec("0") },
		"efficiency of the heating 80 is outside the range from over 0 to 20":                     func(c *Case) { c.HeatingEfficiency = dec("80") },
		"price of electricity -0.1 is outside the range from 0 to 1000000000 a kWh":               func(c *Case) { c.ElectricityPrice = dec("-0.1") },
		"price of heat -1 is outside the range from 0 to 1000000000 a kWh":                        func(c *Case) { c.HeatPrice = dec("-1") },
		"price of heat -1 is outside the range from 0 to 1000000000 a therm":                      func(c *Case) { c.Units, c.HeatPrice = IP, dec("-1") },
		"units 7 are neither SI nor IP":                                                           func(c *Case) { c.Units = 7 },
	} {
		c := office()
		spoil(&c)
		_, err := c.YearlyEffect()
		assert.EqualError(t, err, text, "one problem, and no other")
	}
	_, err := Case{}.YearlyEffect()
	assert.ErrorContains(t, err, "area 0")
	assert.ErrorContains(t, err, "film coefficient 0", "every problem at once")
}
