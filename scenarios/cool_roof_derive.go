package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/cooling"
)

// The two yearly costs that a cool_roof becomes, both of the category energy.
const (
	ItemCoolingSaved = "Cooling saved by the reflective surface" // a credit
	ItemHeatingLost  = "Heating lost to the reflective surface"
)

var one = decimal.New(1, 0)

// own is the unit of a measure of two that the study's system of units has.
func (c *coolReading) own(k measure) string {
	if c.units == cooling.IP {
		return k.units[1]
	}
	return k.units[0]
}

// mayConvert brings a U-value, a film coefficient or sun into the study's own
// units; other inputs stay as they are.
func (c *coolReading) mayConvert(ref lcc.Ref) lcc.Ref {
	if ref == lcc.NoRef {
		return ref
	}
	in := &c.r.study.Inputs[ref]
	sun := slices.Contains(sunshine.units, in.UnitText)
	if !sun && !slices.Contains(conductance.units, in.UnitText) || in.UnitText == c.own(sunshine) || in.UnitText == c.own(conductance) {
		return ref
	}
	for _, v := range []*decimal.Decimal{&in.Low, &in.Likely, &in.High} {
		*v = otherOfTwo(*v, in.UnitText)
	}
	if in.UnitText = c.own(conductance); sun {
		in.UnitText = c.own(sunshine)
	}
	return ref
}

// otherOfTwo brings sun, or a U-value or film coefficient, from one of the two
// units of its measure to the other one.
func otherOfTwo(x decimal.Decimal, from string) decimal.Decimal {
	systems := []cooling.Units{cooling.SI, cooling.IP} // in the order of the units
	if i := slices.Index(sunshine.units, from); i >= 0 {
		return cooling.Case{Units: systems[i], CoolingSun: x}.In(systems[1-i]).CoolingSun
	}
	i := slices.Index(conductance.units, from)
	return cooling.Case{Units: systems[i], UValue: x}.In(systems[1-i]).UValue
}

// heatPriceIn brings a price of heat from a therm to a kWh, or back.
func heatPriceIn(x decimal.Decimal, fromTherm bool) decimal.Decimal {
	if fromTherm {
		return x.DivRound(cooling.PerTherm(one), 50)
	}
	return cooling.PerTherm(x)
}

// share makes the sun of the seasons follow from that of a year.
func (c *coolReading) share(year lcc.Ref, warm, cold decimal.Decimal) {
	seasons, err := cooling.Split([]cooling.Period{{Sun: one, CoolingDegreeDays: warm, HeatingDegreeDays: cold}})
	if err != nil {
		c.refuse("cooling_degree_days", outsideOfSense(err.Error()))
		return
	}
	part := func(key, label string, share decimal.Decimal) lcc.Ref {
		return c.follows(lcc.Input{Path: c.sub(key), Of: c.of, Label: label, Unit: lcc.Count, UnitText: c.own(sunshine), Source: sourceShared},
			lcc.Term{Coefficient: share, Factors: []lcc.Factor{{Of: year}}})
	}
	c.cooling.sun = part("sun_cooling", labelSunCooling, seasons.Cooling)
	c.heating.sun = part("sun_heating", labelSunHeating, seasons.Heating)
}

// follows adds an input that follows from others.
func (c *coolReading) follows(in lcc.Input, terms ...lcc.Term) lcc.Ref {
	ref := c.r.study.Add(in)
	c.r.study.Derived = append(c.r.study.Derived, lcc.Derivation{In: ref, Terms: terms})
	c.r.study.Inputs[ref].Likely = c.r.study.Likely()[ref]
	return ref
}

// plausible refuses what the method has no answer for, looking at the ends of
// all ranges, and a surface that is darker than the roof as it is.
func (c *coolReading) plausible() bool {
	in := func(ref lcc.Ref) *lcc.Input { return &c.r.study.Inputs[ref] }
	high := func(ref lcc.Ref) decimal.Decimal { return decimal.Max(in(ref).Likely, in(ref).High) }
	film := in(c.film).Likely
	if in(c.film).Shape.HasRange() {
		film = in(c.film).Low
	}
	extreme := c.unit()
	extreme.UValue, extreme.Film = high(c.u), film
	extreme.CoolingSun, extreme.HeatingSun = high(c.cooling.sun), high(c.heating.sun)
	if year := c.r.study.Find(c.sub("sun_year")); year != lcc.NoRef { // all of it counts
		extreme.CoolingSun, extreme.HeatingSun = high(year), decimal.Zero
	}
	if err := extreme.Check(); err != nil {
		for _, text := range strings.Split(err.Error(), "\n") {
			c.refuse("", outsideOfSense(text))
		}
	}
	now, aged := in(c.now).Likely, c.agedOf(in(c.initial).Likely)
	if c.has("reflectance_aged") {
		aged = in(c.aged).Likely
		if fresh := in(c.initial).Likely; aged.GreaterThan(fresh) && !c.agedOf(fresh).GreaterThan(fresh) {
			c.refuse("reflectance_aged", agedAboveNew(aged, fresh))
		}
	}
	if aged.LessThan(now) {
		c.refuse("reflectance_new", darkerSurface(aged, now))
	}
	return !c.lost
}

// agedOf is the reflectance that a coating applied on the roof has once
// soiled; an initial one from 0 to 1 is no error.
func (c *coolReading) agedOf(initial decimal.Decimal) decimal.Decimal {
	aged, err := cooling.AgedReflectance(initial, cooling.FieldApplied)
	if err != nil {
		return decimal.Zero
	}
	return aged
}

func sourceAged(none, kept decimal.Decimal) string {
	return fmt.Sprintf("%s + %s × when new, a coating applied on the roof (California Energy Code, Title 24 part 6)", none, kept)
}

// unit is a case of which every number is 1 and the roof as it is reflects
// nothing: its money is the factor of the effect.
func (c *coolReading) unit() cooling.Case {
	u := cooling.Case{
		Units: c.units, Area: one, Initial: one, Aged: one, UValue: one, Film: one, CoolingSun: one, HeatingSun: one,
		COP: one, HeatingEfficiency: one, ElectricityPrice: one, HeatPrice: one,
	}
	if c.cooling.seer {
		u.COP = cooling.COP(one)
	}
	u.HeatPrice = c.heating.perCase(c.units, one)
	return u
}

// perCase is a price of heat in the unit that a case has.
func (s *coolSeason) perCase(u cooling.Units, price decimal.Decimal) decimal.Decimal {
	if therms := u == cooling.IP; therms == s.perTherm {
		return price
	}
	return heatPriceIn(price, s.perTherm)
}

// derive adds what follows from the inputs: the aged reflectance where none is
// given, and the two yearly costs. Each cost is a factor times the change of
// reflectance times area, U-value, sun and price over film coefficient and
// efficiency, so it is linear in each of them or in its inverse, and so are
// its break-even values. A draw with the old roof lighter than the new surface
// turns the signs.
func (c *coolReading) derive(y *lcc.System) {
	if !c.has("reflectance_aged") {
		none := c.agedOf(decimal.Zero)
		kept := c.agedOf(one).Sub(none)
		c.aged = c.follows(
			lcc.Input{Path: c.sub("reflectance_aged"), Of: c.of, Label: labelReflectanceAged, Unit: lcc.Count, Source: sourceAged(none, kept)},
			lcc.Term{Coefficient: none}, lcc.Term{Coefficient: kept, Factors: []lcc.Factor{{Of: c.initial}}})
	}
	effect, err := c.unit().YearlyEffect()
	if err != nil {
		c.refuse("", outsideOfSense(err.Error()))
		return
	}
	c.charge(y, &c.cooling, "cooling_saved", ItemCoolingSaved, effect.Aged.Cooling.Money.Neg())
	c.charge(y, &c.heating, "heating_lost", ItemHeatingLost, effect.Aged.Heating.Money)
}

// charge adds the yearly cost of a season to a system.
func (c *coolReading) charge(y *lcc.System, s *coolSeason, key, name string, factor decimal.Decimal) {
	if s.absent() {
		return
	}
	term := func(reflectance lcc.Ref, k decimal.Decimal) lcc.Term {
		return lcc.Term{Coefficient: k, Factors: []lcc.Factor{
			{Of: reflectance}, {Of: c.area}, {Of: c.u}, {Of: s.sun}, {Of: s.price}, {Of: c.film, How: lcc.Over}, {Of: s.equipment, How: lcc.Over},
		}}
	}
	s.cost = c.follows(lcc.Input{Path: c.sub(key), Of: c.of, Label: labelAYear(name), Unit: lcc.Money, Source: sourceCoolRoof},
		term(c.aged, factor), term(c.now, factor.Neg()))
	y.Annual = append(y.Annual, lcc.Item{Name: name, Category: lcc.Energy, Price: s.cost, Quantity: lcc.NoRef, Growth: lcc.NoRef})
}
