package cooling

import (
	"errors"
	"fmt"

	"github.com/shopspring/decimal"
)

// Case is a change of a roof's reflectance, with what its yearly effect
// depends on. All numbers are in the system of Units.
type Case struct {
	Units Units

	Area        decimal.Decimal // of roof over the cooled and heated top floor, m² or ft², over 0
	Reflectance decimal.Decimal // of the roof as it is, 0 to 1
	Initial     decimal.Decimal // reflectance of the new surface when new, 0 to 1
	Aged        decimal.Decimal // and once soiled, 0 to 1: measured, or from AgedReflectance
	// CleanYears is in how many first years Initial counts, 0 to 100. 0 counts
	// Aged from the first year on, the cautious choice; product ratings measure
	// aged values after three years outdoors (from memory).
	CleanYears int

	UValue decimal.Decimal // of the roof from inside air to outside air, W/(m²·K) or Btu/(h·ft²·°F), 0 to Film
	Film   decimal.Decimal // outside film coefficient, in the same unit, over 0; see Units.Film

	// Solar irradiation on the roof in the hours of a year when cooling and
	// when heating is called for, kWh/m² or Btu/ft²; see Split. 0 means that
	// the building is never cooled or never heated.
	CoolingSun, HeatingSun decimal.Decimal

	COP               decimal.Decimal // of the cooling over its season, heat removed per electricity, over 0 to 20; see COP
	HeatingEfficiency decimal.Decimal // of the heating over its season, heat given per heat or electricity bought, over 0 to 20

	ElectricityPrice decimal.Decimal // per kWh, 0 or more
	HeatPrice        decimal.Decimal // per kWh or therm of fuel or electricity bought for heating, 0 or more
}

// ceilings are the greatest values of a case in one system of units. The sun
// gives a level place outside the atmosphere at most about 3800 kWh/m² a year
// (1361 W/m² over π), so more is a slip of units.
type ceilings struct{ area, film, sun, price decimal.Decimal }

var most = map[Units]ceilings{
	SI: {decimal.New(1, 12), decimal.New(200, 0), decimal.New(4000, 0), decimal.New(1, 9)},
	IP: {decimal.New(1, 12), decimal.New(35, 0), decimal.New(1250000, 0), decimal.New(1, 9)},
}

var (
	efficiency = overZero(decimal.New(20, 0))
	cleanYears = upTo(decimal.New(100, 0))
)

// Check is nil for a case that can be computed; otherwise it names every
// number that is out of its range.
func (c Case) Check() error {
	if err := c.Units.check(); err != nil {
		return err
	}
	u, top := c.Units, most[c.Units]
	return errors.Join(
		overZero(top.area).check("area", c.Area, u.areaUnit()),
		fraction.check("reflectance of the roof as it is", c.Reflectance, ""),
		fraction.check("initial reflectance", c.Initial, ""),
		fraction.check("aged reflectance", c.Aged, ""),
		cleanYears.check("years before the surface counts as aged", decimal.New(int64(c.CleanYears), 0), ""),
		overZero(top.film).check("film coefficient", c.Film, u.conductanceUnit()),
		c.checkUValue(),
		c.checkSun(),
		efficiency.check("coefficient of performance of the cooling", c.COP, ""),
		efficiency.check("efficiency of the heating", c.HeatingEfficiency, ""),
		upTo(top.price).check("price of electricity", c.ElectricityPrice, "a kWh"),
		upTo(top.price).check("price of heat", c.HeatPrice, u.pick("a kWh", "a therm")),
	)
}

// checkUValue: the U-value contains the outside film, so it cannot exceed it.
// Of a film coefficient that is no such thing the reader hears once.
func (c Case) checkUValue() error {
	if !c.Film.IsPositive() {
		return nil
	}
	if c.UValue.IsNegative() || c.UValue.GreaterThan(c.Film) {
		return fmt.Errorf("roof U-value %s is outside the range from 0 to the film coefficient, %s %s", c.UValue, c.Film, c.Units.conductanceUnit())
	}
	return nil
}

// checkSun: the two seasons share one year's sun.
func (c Case) checkSun() error {
	year, unit := upTo(most[c.Units].sun), c.Units.sunUnit()
	if err := errors.Join(
		year.check("solar irradiation of the cooling season", c.CoolingSun, unit),
		year.check("solar irradiation of the heating season", c.HeatingSun, unit),
	); err != nil {
		return err
	}
	return year.check("solar irradiation of both seasons", c.CoolingSun.Add(c.HeatingSun), unit)
}

// In is the same case in another system of units.
func (c Case) In(u Units) Case {
	if c.Units == u {
		return c
	}
	to := decimal.Decimal.Mul // IP to SI
	per := quo                // a price per unit goes the other way
	if u == IP {
		to, per = quo, decimal.Decimal.Mul
	}
	c.Units = u
	c.Area = to(c.Area, squareMetres)
	c.UValue, c.Film = to(c.UValue, perConductance), to(c.Film, perConductance)
	c.CoolingSun, c.HeatingSun = to(c.CoolingSun, perIrradiation), to(c.HeatingSun, perIrradiation)
	c.HeatPrice = per(c.HeatPrice, perTherm)
	return c
}
