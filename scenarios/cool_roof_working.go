package scenarios

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/coolroof"
	"roofyears/scenarios/cooling"
)

// coolRoofsOf gives the working of every reflective surface.
func (r *reader) coolRoofsOf() []coolroof.Working {
	var out []coolroof.Working
	v := r.study.Likely()
	for i := range r.coolRoofs {
		c := &r.coolRoofs[i]
		effect, err := c.caseAt(v, r.study.About.AreaUnit).YearlyEffect()
		if err != nil {
			continue // the reader has refused what has no effect
		}
		w := coolroof.Working{System: c.system, Saved: c.cooling.cost, Lost: c.heating.cost, Inputs: c.inputs(), Method: cooling.Method(), Limits: cooling.Limits()}
		y := effect.Aged
		w.Surface = append([]coolroof.Step{step(labelChange, y.Change, "", 4)}, c.indices(v)...)
		if !c.cooling.absent() {
			w.Cooling = seasonSteps(y.Cooling, effect.Units, labelHeatOut)
			w.Cooling = append(w.Cooling, step(labelNotBought, y.Cooling.Bought, "kWh", 0))
		}
		if !c.heating.absent() {
			w.Heating = seasonSteps(y.Heating, effect.Units, labelHeatMissed)
			w.Heating = append(w.Heating, c.heating.boughtStep(y.Heating.Bought, effect.Units))
		}
		out = append(out, w)
	}
	return out
}

// caseAt is the case of a vector.
func (c *coolRoof) caseAt(v lcc.Vector, areaUnit string) cooling.Case {
	out := cooling.Case{
		Area: v[c.area], Reflectance: v[c.now], Initial: v[c.initial], Aged: v[c.aged], UValue: v[c.u], Film: v[c.film],
		CoolingSun: v[c.cooling.sun], HeatingSun: v[c.heating.sun], COP: one, HeatingEfficiency: one,
	}
	if areaUnit == "ft2" {
		out.Units = cooling.IP
	}
	if !c.cooling.absent() {
		out.COP, out.ElectricityPrice = v[c.cooling.equipment], v[c.cooling.price]
		if c.cooling.seer {
			out.COP = cooling.COP(out.COP)
		}
	}
	if !c.heating.absent() {
		out.HeatingEfficiency, out.HeatPrice = v[c.heating.equipment], c.heating.perCase(out.Units, v[c.heating.price])
	}
	return out
}

// inputs are what the costs follow from, in the order of a working.
func (c *coolRoof) inputs() []lcc.Ref {
	out := []lcc.Ref{c.area, c.now, c.initial, c.aged, c.u, c.film}
	for _, s := range []*coolSeason{&c.cooling, &c.heating} {
		if out = append(out, s.sun); !s.absent() {
			out = append(out, s.equipment, s.price)
		}
	}
	return out
}

// indices are the solar reflectance indices; none without emittances.
func (c *coolRoof) indices(v lcc.Vector) []coolroof.Step {
	if c.emittanceNow == nil {
		return nil
	}
	var out []coolroof.Step
	for _, s := range []struct {
		label                  string
		reflectance, emittance decimal.Decimal
	}{{labelIndexNow, v[c.now], *c.emittanceNow}, {labelIndexNew, v[c.initial], *c.emittanceFresh}, {labelIndexAged, v[c.aged], *c.emittanceFresh}} {
		sri, err := cooling.SRI(cooling.Surface{Reflectance: s.reflectance.InexactFloat64(), Emittance: s.emittance.InexactFloat64()}, cooling.MediumWind)
		if err == nil { // the reader keeps both within the limits of the method
			out = append(out, step(s.label, decimal.NewFromFloat(sri), "", 0))
		}
	}
	return out
}

func seasonSteps(s cooling.Season, u cooling.Units, heat string) []coolroof.Step {
	sun, hours, unit := "kWh/m2", "K·h", "kWh"
	if u == cooling.IP {
		sun, hours, unit = "Btu/ft2", "°F·h", "Btu"
	}
	return []coolroof.Step{step(labelAbsorbed, s.Absorbed, sun, 1), step(labelDegreeHours, s.DegreeHours, hours, 0), step(heat, s.Heat, unit, 0)}
}

// boughtStep is the energy bought for heating, in the unit that its price is
// per.
func (s *coolSeason) boughtStep(bought decimal.Decimal, u cooling.Units) coolroof.Step {
	unit, places := "kWh", int32(0)
	if s.perTherm {
		unit, places = "therms", 1
	}
	if therms := u == cooling.IP; therms && !s.perTherm {
		bought = bought.Mul(cooling.PerTherm(one))
	} else if !therms && s.perTherm {
		bought = bought.DivRound(cooling.PerTherm(one), 30)
	}
	return step(labelBought, bought, unit, places)
}

func step(label string, value decimal.Decimal, unit string, places int32) coolroof.Step {
	return coolroof.Step{Label: label, Value: value, Unit: unit, Places: places}
}
