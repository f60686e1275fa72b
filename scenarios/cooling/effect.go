package cooling

import "github.com/shopspring/decimal"

// Effect is what a change of reflectance does in a year, with the new surface
// clean and with it aged.
type Effect struct {
	Units         Units
	Initial, Aged Yearly
	CleanYears    int // in how many first years Initial counts
}

// Yearly is the effect of one year, step by step.
type Yearly struct {
	Reflectance decimal.Decimal // of the new surface
	Change      decimal.Decimal // less that of the roof as it is; negative for a darker surface
	Cooling     Season          // what is saved; negative where it is added
	Heating     Season          // what is added; negative where it is saved
	Cost        decimal.Decimal // Heating.Money − Cooling.Money: the year's cost, a credit when negative
}

// Season is the working of one season, in the order in which it is computed.
// All figures have the sign of the change of reflectance.
type Season struct {
	Absorbed    decimal.Decimal // solar radiation no longer absorbed: change × irradiation, kWh/m² or Btu/ft²
	DegreeHours decimal.Decimal // by which the sol-air temperature falls: absorbed / film coefficient, K·h or °F·h
	HeatPerArea decimal.Decimal // that no longer comes through the roof: U-value × degree-hours, kWh/m² or Btu/ft²
	Heat        decimal.Decimal // × area, kWh or Btu
	Bought      decimal.Decimal // electricity for cooling, kWh; for heating, kWh or therms of what is bought
	Money       decimal.Decimal // × price
}

// YearlyEffect computes the effect of a case as Method tells it. The sol-air
// temperature falls by Δρ·I/ho in each hour [ASHRAE], and a steady heat flow
// through the roof by the U-value times that. An error names every number out
// of its range.
func (c Case) YearlyEffect() (Effect, error) {
	if err := c.Check(); err != nil {
		return Effect{}, err
	}
	return Effect{Units: c.Units, Initial: c.yearly(c.Initial), Aged: c.yearly(c.Aged), CleanYears: c.CleanYears}, nil
}

func (c Case) yearly(reflectance decimal.Decimal) Yearly {
	y := Yearly{Reflectance: reflectance, Change: reflectance.Sub(c.Reflectance)}
	perKWh, perBought := one, one // units of heat in a kWh, and in what is bought for heating
	if c.Units == IP {
		perKWh, perBought = quo(one, perBtu), BtuPerTherm
	}
	y.Cooling = c.flow(y.Change, c.CoolingSun).bought(c.COP.Mul(perKWh), c.ElectricityPrice)
	y.Heating = c.flow(y.Change, c.HeatingSun).bought(c.HeatingEfficiency.Mul(perBought), c.HeatPrice)
	y.Cost = y.Heating.Money.Sub(y.Cooling.Money)
	return y
}

// flow is the heat of a season. Irradiation in kWh/m² over a film coefficient
// in W/(m²·K) takes a factor of 1000.
func (c Case) flow(change, sun decimal.Decimal) Season {
	watts := one
	if c.Units == SI {
		watts = wattsPerKW
	}
	s := Season{Absorbed: change.Mul(sun)}
	s.DegreeHours = quo(s.Absorbed.Mul(watts), c.Film)
	s.HeatPerArea = quo(c.UValue.Mul(s.DegreeHours), watts)
	s.Heat = s.HeatPerArea.Mul(c.Area)
	return s
}

// bought adds what the heat is in energy bought and in money.
func (s Season) bought(heatPerUnit, price decimal.Decimal) Season {
	s.Bought = quo(s.Heat, heatPerUnit)
	s.Money = s.Bought.Mul(price)
	return s
}
