package scenarios

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"roofyears/lcc"
	_ "roofyears/lcc/checks" // one seed
	"roofyears/lcc/coolroof"
	"roofyears/scenarios/cooling"
)

// coolCase is a case with what a study file writes beside it.
type coolCase struct {
	cooling.Case
	seer, perTherm bool
	formula        bool // the aged reflectance is that of the formula
	year           bool // the sun is that of a year, shared out by degree-days
	warm, cold     decimal.Decimal
}

// anyCoolCase draws a case whose surface is not darker than the old roof.
func anyCoolCase(t *rapid.T) coolCase {
	in := func(label string, least, most int64, places int32) decimal.Decimal {
		return decimal.New(rapid.Int64Range(least, most).Draw(t, label), -places)
	}
	c := coolCase{seer: rapid.Bool().Draw(t, "SEER"), perTherm: rapid.Bool().Draw(t, "therm"), formula: rapid.Bool().Draw(t, "formula"), year: rapid.Bool().Draw(t, "year")}
	c.Units = rapid.SampledFrom([]cooling.Units{cooling.SI, cooling.IP}).Draw(t, "units")
	c.Area, c.Reflectance, c.Initial = in("area", 1, 1e8, 1), in("now", 0, 199, 3), in("new", 200, 1000, 3)
	c.Aged = c.Initial
	if c.formula {
		c.Aged, _ = cooling.AgedReflectance(c.Initial, cooling.FieldApplied)
	}
	c.Film, c.UValue = in("film", 1000, 20000, 3), in("U", 1, 1000, 3)
	c.CoolingSun, c.HeatingSun = in("cooling sun", 1, 19000, 1), in("heating sun", 0, 19000, 1)
	if c.year {
		c.warm, c.cold = in("warm", 1, 4000, 0), in("cold", 0, 4000, 0)
		year := c.CoolingSun
		split, err := cooling.Split([]cooling.Period{{Sun: year, CoolingDegreeDays: c.warm, HeatingDegreeDays: c.cold}})
		require.NoError(t, err)
		c.CoolingSun, c.HeatingSun = split.Cooling, split.Heating
	}
	c.COP, c.HeatingEfficiency = in("COP", 100, 2000, 2), in("efficiency", 1, 2000, 2)
	c.ElectricityPrice, c.HeatPrice = in("electricity", 0, 10000, 4), in("heat", 0, 10000, 4)
	return c
}

// file writes a case as a study file; sun is the year's, where it is shared out.
func (c coolCase) file(sun decimal.Decimal) string {
	area, u, light := "m2", "W/m2K", "kWh/m2"
	if c.Units == cooling.IP {
		area, u, light = "ft2", "Btu/h·ft2·F", "Btu/ft2"
	}
	text := fmt.Sprintf(`roofyears: 1
study: {title: T, base_date: 2026-01-01, period: 5, currency: USD, rate_basis: real, discount_rate: 3%%}
roof: {area: %s %s}
systems:
  new:
    name: New
    life: 20
    first_costs: [{item: All, amount: 1}]
    cool_roof:
      reflectance_now: %s
      reflectance_new: %s
      u_value: %s %s
      outside_film: %s %s
      heating_efficiency: %s
      electricity_price: %s per kWh
`, c.Area, area, c.Reflectance, c.Initial, c.UValue, u, c.Film, u, c.HeatingEfficiency, c.ElectricityPrice)
	add := func(key, value string) { text += "      " + key + ": " + value + "\n" }
	add(map[bool]string{false: "cop", true: "seer"}[c.seer], c.COP.String())
	add("heating_price", c.HeatPrice.String()+map[bool]string{false: " per kWh", true: " per therm"}[c.perTherm])
	if !c.formula {
		add("reflectance_aged", c.Aged.String())
	}
	if c.year {
		add("sun_year", sun.String()+" "+light)
		add("cooling_degree_days", c.warm.String())
		add("heating_degree_days", c.cold.String())
	} else {
		add("sun_cooling", c.CoolingSun.String()+" "+light)
		add("sun_heating", c.HeatingSun.String()+" "+light)
	}
	return text + "alternatives: [{name: New, start: new, base_case: true}]\n"
}

// What follows from the inputs is what the method gives, in either system of
// units, with the price of heat per kWh or per therm.
func TestCoolRoofFollowsTheMethod(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCoolCase(t)
		file, diagnostics := Read(Source{Name: "study.yaml", Text: []byte(c.file(c.CoolingSun.Add(c.HeatingSun).Round(1)))})
		require.NotNil(t, file, told(diagnostics))
		require.NoError(t, file.Study.Check())
		if c.seer {
			c.COP = cooling.COP(c.COP)
		}
		// The price in the unit of the case, another way than the reader's.
		if si := (cooling.Case{Units: cooling.IP, HeatPrice: c.HeatPrice}).In(cooling.SI).HeatPrice; c.perTherm && c.Units == cooling.SI {
			c.HeatPrice = si
		} else if !c.perTherm && c.Units == cooling.IP {
			c.HeatPrice = cooling.Case{Units: cooling.SI, HeatPrice: c.HeatPrice}.In(cooling.IP).HeatPrice
		}
		effect, err := c.YearlyEffect()
		require.NoError(t, err)
		w, v := file.CoolRoofs[0], file.Study.Likely()
		near(t, effect.Aged.Cooling.Money.Neg(), v[w.Saved])
		near(t, effect.Aged.Heating.Money, v[w.Lost])
		assert.False(t, v[w.Saved].IsPositive())
		assert.False(t, v[w.Lost].IsNegative())
		near(t, effect.Aged.Change, w.Surface[0].Value)
		for i, want := range []decimal.Decimal{effect.Aged.Cooling.Absorbed, effect.Aged.Cooling.DegreeHours, effect.Aged.Cooling.Heat, effect.Aged.Cooling.Bought} {
			near(t, want, w.Cooling[i].Value)
		}
		// Energy bought times its price is the money of the year.
		bought := w.Heating[len(w.Heating)-1].Value
		near(t, v[w.Lost], bought.Mul(v[file.Study.Find("systems.new.cool_roof.heating_price")]))
	})
}

// near asks for equality to 12 digits.
func near(t require.TestingT, want, got decimal.Decimal) {
	limit := want.Abs().Mul(decimal.New(1, -12))
	assert.True(t, got.Sub(want).Abs().LessThanOrEqual(limit), "%s, expected %s", got, want)
}

// A U-value in other units is the same U-value, and has its range.
func TestCoolRoofShowsTheStudysUnits(t *testing.T) {
	s := good(t, "cool-roof.yaml").Study
	u := s.Inputs[s.Find("systems.coating.cool_roof.u_value")]
	assert.Equal(t, "Btu/h·ft2·F", u.UnitText)
	// 1 Btu/(h·ft²·°F) is 5.678263 W/(m²·K) (NIST SP 811, appendix B.8, from memory).
	for want, got := range map[string]decimal.Decimal{"0.30": u.Low, "0.45": u.Likely, "0.70": u.High} {
		assert.Equal(t, want, got.Mul(decimal.RequireFromString("5.678263")).StringFixed(2))
	}
	sun := s.Inputs[s.Find("systems.coating.cool_roof.sun_heating")]
	assert.Equal(t, "Btu/ft2 142649", sun.UnitText+" "+sun.Likely.Round(0).String())
	metric := good(t, "cool-roof-metric.yaml").Study
	u = metric.Inputs[metric.Find("systems.coating.cool_roof.u_value")]
	assert.Equal(t, "W/m2K 0.3407", u.UnitText+" "+u.Likely.Round(4).String())
}

// What the ledger charges in a year is the cost that follows from the inputs,
// to the cent, in every year that the surface is on the roof.
func TestCoolRoofIsChargedEveryYear(t *testing.T) {
	file := good(t, "cool-roof.yaml")
	result, err := file.Study.Evaluate()
	require.NoError(t, err)
	require.Len(t, file.CoolRoofs, 2)
	for alternative, w := range map[int]coolroof.Working{1: file.CoolRoofs[0], 2: file.CoolRoofs[1]} {
		years := 0
		for _, line := range result.Alternatives[alternative].Ledger {
			want, known := map[string]lcc.Ref{ItemCoolingSaved: w.Saved, ItemHeatingLost: w.Lost}[line.Item]
			if line.System != w.System || !known {
				continue
			}
			years++
			assert.Equal(t, lcc.Energy, line.Category)
			assert.Equal(t, lcc.Annual, line.Kind)
			assert.Equal(t, result.Inputs[want].StringFixed(2), line.Base.StringFixed(2))
		}
		assert.Equal(t, map[int]int{1: 2 * 12, 2: 2 * 20}[alternative], years)
	}
}

// A building has one price of electricity: a second surface has the first's
// inputs where it states none, and moving one moves both.
func TestSameAsSharesInputs(t *testing.T) {
	file := good(t, "cool-roof.yaml")
	s := file.Study
	assert.Equal(t, lcc.NoRef, s.Find("systems.membrane.cool_roof.electricity_price"))
	price := s.Find("systems.coating.cool_roof.electricity_price")
	v := s.Likely()
	v[price] = v[price].Mul(decimal.NewFromInt(2))
	moved, err := s.EvaluateAt(v)
	require.NoError(t, err)
	for _, w := range file.CoolRoofs {
		near(t, s.Likely()[w.Saved].Mul(decimal.NewFromInt(2)), moved.Inputs[w.Saved])
		assert.True(t, moved.Inputs[w.Lost].Equal(s.Likely()[w.Lost]))
	}
}

// Where a draw has the old roof lighter than the new surface, the signs turn:
// the cost stays linear, and is no kink.
func TestCoolRoofTurnsItsSigns(t *testing.T) {
	file := good(t, "cool-roof-metric.yaml")
	s, w := file.Study, file.CoolRoofs[0]
	v := s.Likely()
	aged, now := v[s.Find("systems.coating.cool_roof.reflectance_aged")], s.Find("systems.coating.cool_roof.reflectance_now")
	v[now] = aged.Add(aged.Sub(v[now])) // as much lighter as it was darker
	r, err := s.EvaluateAt(v)
	require.NoError(t, err)
	assert.True(t, r.Inputs[w.Saved].IsPositive())
	near(t, s.Likely()[w.Saved].Neg(), r.Inputs[w.Saved])
	near(t, s.Likely()[w.Lost].Neg(), r.Inputs[w.Lost])
}

// A building that is never heated has no line of heating, and needs no price.
func TestCoolRoofOfAnUnheatedBuilding(t *testing.T) {
	file := good(t, "cool-roof-metric.yaml")
	w := file.CoolRoofs[1]
	assert.Equal(t, lcc.NoRef, w.Lost)
	assert.Empty(t, w.Heating)
	assert.Len(t, file.Study.Systems[w.System].Annual, 1)
}
