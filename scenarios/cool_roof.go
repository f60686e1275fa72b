package scenarios

import (
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/cooling"
)

const inCoolRoof = "in a cool_roof"

var coolRoofKeys = []string{
	"same_as", "per", "reflectance_now", "reflectance_new", "reflectance_aged", "emittance_now", "emittance_new",
	"sun_cooling", "sun_heating", "sun_year", "cooling_degree_days", "heating_degree_days",
	"u_value", "outside_film", "cop", "seer", "heating_efficiency", "electricity_price", "heating_price",
}

// The measures of a cool roof. What has an end that nature or the method sets
// is spread between a low and a high value only.
var (
	fraction     = measure{lcc.Count, expectFraction, decimal.Zero, decimal.New(1, 0), false, noUnit, nil}
	emittance    = measure{lcc.Count, expectEmittance, decimal.New(1, -1), decimal.New(1, 0), true, noUnit, nil}
	sunshine     = measure{lcc.Count, expectSun, decimal.Zero, mostQuantity, false, []string{"kWh/m2", "Btu/ft2"}, nil}
	conductance  = measure{lcc.Count, expectConductance, decimal.Zero, decimal.New(200, 0), true, []string{"W/m2K", "Btu/h·ft2·F"}, nil}
	performance  = measure{lcc.Count, expectPerformance, decimal.Zero, decimal.New(20, 0), true, noUnit, nil}
	seer         = measure{lcc.Count, expectSEER, decimal.Zero, decimal.New(68, 0), true, noUnit, nil}
	degreeDays   = measure{lcc.Count, expectDegreeDays, decimal.Zero, decimal.New(100000, 0), false, noUnit, nil}
	powerPrice   = measure{lcc.Price, expectPowerPrice, decimal.Zero, decimal.New(1, 9), false, []string{"per kWh"}, positiveShape}
	heatingPrice = measure{lcc.Price, expectHeatPrice, decimal.Zero, decimal.New(1, 9), false, []string{"per kWh", "per therm"}, positiveShape}
)

// coolRoof is a reflective surface whose effect on the energy bills follows
// from inputs of the study. A season in which the building is not cooled or
// not heated has no equipment.
type coolRoof struct {
	system                       int
	area, now, initial, aged     lcc.Ref
	u, film                      lcc.Ref
	cooling, heating             coolSeason
	emittanceNow, emittanceFresh *decimal.Decimal // nil: not given
}

// coolSeason is what the effect of one season follows from besides.
type coolSeason struct {
	sun, equipment, price lcc.Ref // the last two NoRef where there is none
	seer                  bool    // the equipment is rated by its SEER
	perTherm              bool    // the price is per therm
	cost                  lcc.Ref // of a year, derived; NoRef where there is none
}

func (s *coolSeason) absent() bool { return s.equipment == lcc.NoRef }

// coolReading is the reading of one.
type coolReading struct {
	*section
	coolRoof
	base  *coolRoof // that what is not stated here is taken from; nil: none
	of    string    // name of the system
	units cooling.Units
	lost  bool // something was told as an error
}

// coolRoof reads the cool_roof of a system and adds the two yearly costs that
// follow from it.
func (r *reader) coolRoof(n *node, path string, y *lcc.System, index int) {
	s, ok := r.section(n, path, inCoolRoof, coolRoofKeys)
	if !ok {
		return
	}
	c := coolReading{section: s, of: y.Name}
	c.system = index
	if y.InPlace {
		c.refuse("", coolRoofInPlace())
	}
	c.sameName(y)
	if !c.sameAs() {
		return
	}
	c.surface()
	c.emittances()
	c.sun()
	c.u = c.orSame("u_value", func(b *coolRoof) lcc.Ref { return b.u }, conductance, labelUValue)
	c.outsideFilm()
	c.equipment()
	if c.lost || !c.plausible() {
		return
	}
	c.derive(y)
	r.coolRoofs = append(r.coolRoofs, c.coolRoof)
}

// refuse tells an error at a key, or at the whole section for "".
func (c *coolReading) refuse(key string, m message) {
	at, path := c.at, c.path
	if c.has(key) {
		at, path = c.place(key), c.sub(key)
	}
	c.r.fail(at, path, m)
	c.lost = true
}

// must reads an estimate that has to be there.
func (c *coolReading) must(key string, k measure, label string) lcc.Ref {
	n := c.need(key)
	if n == nil {
		c.lost = true
		return lcc.NoRef
	}
	about := subject{path: c.sub(key), of: c.of, label: label}
	if k.unit == lcc.Price {
		about.unitText = k.units[0]
	}
	ref := c.r.estimate(n, k, about)
	if c.lost = c.lost || ref == lcc.NoRef; ref != lcc.NoRef && k.unit == lcc.Count && len(k.units) == 1 {
		c.r.study.Inputs[ref].Most = k.high
	}
	return c.mayConvert(ref)
}

// orSame is must, but for what another cool_roof states that this one is the
// same as.
func (c *coolReading) orSame(key string, of func(*coolRoof) lcc.Ref, k measure, label string) lcc.Ref {
	if c.base == nil || c.has(key) || of(c.base) == lcc.NoRef {
		return c.must(key, k, label)
	}
	return of(c.base)
}

// sameAs finds the cool_roof, of a system further up, whose inputs hold for
// this one too: a building has one price of electricity, and one sun. It is
// not ok when there is no such.
func (c *coolReading) sameAs() bool {
	if !c.has("same_as") {
		return true
	}
	name := c.line("same_as")
	var names []string
	for i := range c.r.coolRoofs {
		key := c.r.systemKeys[c.r.coolRoofs[i].system]
		if names = append(names, key); key == name {
			c.base = &c.r.coolRoofs[i]
			return true
		}
	}
	if name != "" {
		c.r.fail(c.values["same_as"].place, c.sub("same_as"), noSuchCoolRoof(name, names))
	}
	return false
}

// plain reads a number that is no estimate, and keeps it as a setting.
func (c *coolReading) plain(key string, k measure, label string) decimal.Decimal {
	n := c.need(key)
	if n == nil {
		c.lost = true
		return decimal.Zero
	}
	v, ok := (&estimating{reader: c.r, measure: k}).number(n, c.sub(key), false)
	c.lost = c.lost || !ok
	c.r.settings = append(c.r.settings, Setting{Path: c.sub(key), Label: c.of + ": " + label, Value: v.String()})
	return v
}

// sameName refuses a typed cost of the name that a computed one has.
func (c *coolReading) sameName(y *lcc.System) {
	for _, it := range y.Annual {
		for _, name := range []string{ItemCoolingSaved, ItemHeatingLost} {
			if strings.EqualFold(it.Name, name) {
				c.refuse("", coolRoofTwice(it.Name))
			}
		}
	}
}

// surface reads the area and the reflectances.
func (c *coolReading) surface() {
	q := c.r.quantities["area"]
	if c.has("per") {
		q = c.quantity()
	}
	c.area = lcc.NoRef
	switch {
	case c.base != nil && !c.has("per"):
		c.area = c.base.area
	case q == nil || q.ref == lcc.NoRef:
		c.lost = true // was told
	case q.unit != c.r.study.About.AreaUnit:
		c.refuse("per", coolRoofPer(q.unit, c.r.study.About.AreaUnit))
	default:
		q.used, c.area = true, q.ref
	}
	if c.r.study.About.AreaUnit == "ft2" {
		c.units = cooling.IP
	}
	c.now = c.orSame("reflectance_now", func(b *coolRoof) lcc.Ref { return b.now }, fraction, labelReflectanceNow)
	c.initial = c.must("reflectance_new", fraction, labelReflectanceNew)
	if c.has("reflectance_aged") {
		c.aged = c.must("reflectance_aged", fraction, labelReflectanceAged)
	}
}

// emittances are for the reflectance index alone: both, or none.
func (c *coolReading) emittances() {
	if !c.has("emittance_now") && !c.has("emittance_new") {
		return
	}
	if c.base != nil && !c.has("emittance_now") {
		c.emittanceNow = c.base.emittanceNow
	}
	if c.emittanceNow == nil {
		now := c.plain("emittance_now", emittance, labelEmittanceNow)
		c.emittanceNow = &now
	}
	fresh := c.plain("emittance_new", emittance, labelEmittanceNew)
	c.emittanceFresh = &fresh
}

// sun reads the sun of the seasons, or that of a year with the degree-days
// that share it out.
func (c *coolReading) sun() {
	if !c.has("sun_year") {
		for _, key := range []string{"cooling_degree_days", "heating_degree_days"} {
			if c.has(key) {
				c.refuse(key, degreeDaysAlone(key))
			}
		}
		c.cooling.sun = c.orSame("sun_cooling", func(b *coolRoof) lcc.Ref { return b.cooling.sun }, sunshine, labelSunCooling)
		c.heating.sun = c.orSame("sun_heating", func(b *coolRoof) lcc.Ref { return b.heating.sun }, sunshine, labelSunHeating)
		if !c.lost && c.nothing(c.cooling.sun) && c.nothing(c.heating.sun) {
			c.refuse("", noSun())
		}
		return
	}
	for _, key := range []string{"sun_cooling", "sun_heating"} {
		if c.has(key) {
			c.refuse(key, sunTwice(key))
		}
	}
	year := c.must("sun_year", sunshine, labelSunYear)
	warm, cold := c.plain("cooling_degree_days", degreeDays, labelCoolingDays), c.plain("heating_degree_days", degreeDays, labelHeatingDays)
	switch {
	case c.lost:
	case c.nothing(year):
		c.refuse("sun_year", noSun())
	case cold.IsZero() && warm.IsZero():
		c.refuse("cooling_degree_days", noDegreeDays())
	default:
		c.share(year, warm, cold)
	}
}

// outsideFilm reads the film coefficient, or takes the usual one.
func (c *coolReading) outsideFilm() {
	if c.has("outside_film") || c.base != nil {
		c.film = c.orSame("outside_film", func(b *coolRoof) lcc.Ref { return b.film }, conductance, labelFilm)
		return
	}
	usual := c.units.Film()
	c.film = c.r.study.Add(lcc.Input{
		Path: c.sub("outside_film"), Of: c.of, Label: labelFilm, Unit: lcc.Count, UnitText: c.own(conductance),
		Likely: usual.Value, Source: usual.Source,
	})
}

// equipment reads what cools and what heats, and what they use. A season
// without sun needs neither.
func (c *coolReading) equipment() {
	c.cooling.equipment, c.heating.equipment = lcc.NoRef, lcc.NoRef
	c.cooling.cost, c.heating.cost = lcc.NoRef, lcc.NoRef
	if c.used(c.cooling.sun, "cop", "seer", "electricity_price") {
		c.cooler()
		c.cooling.price = c.orSame("electricity_price", func(b *coolRoof) lcc.Ref { return b.cooling.price }, powerPrice, labelElectricity)
	}
	if c.used(c.heating.sun, "heating_efficiency", "heating_price") {
		c.heating.equipment = c.orSame("heating_efficiency", func(b *coolRoof) lcc.Ref { return b.heating.equipment }, performance, labelEfficiency)
		c.heating.price = c.orSame("heating_price", func(b *coolRoof) lcc.Ref { return b.heating.price }, heatingPrice, labelHeatPrice)
		if c.heating.price != lcc.NoRef {
			c.heating.perTherm = c.r.study.Inputs[c.heating.price].UnitText == "per therm"
		}
	}
}

// cooler reads a coefficient of performance or a SEER.
func (c *coolReading) cooler() {
	switch {
	case c.has("cop") && c.has("seer"):
		c.refuse("seer", copAndSEER())
	case c.has("seer"):
		c.cooling.seer = true
		c.cooling.equipment = c.must("seer", seer, labelSEER)
	case c.has("cop"):
		c.cooling.equipment = c.must("cop", performance, labelCOP)
	case c.base != nil && !c.base.cooling.absent():
		c.cooling.seer, c.cooling.equipment = c.base.cooling.seer, c.base.cooling.equipment
	default:
		c.lacks(noCOP(), "cop", "seer")
		c.lost = true
	}
}

// used tells whether a season has sun, or one of its keys is given.
func (c *coolReading) used(sun lcc.Ref, keys ...string) bool {
	for _, key := range keys {
		if c.has(key) {
			return true
		}
	}
	return sun == lcc.NoRef || !c.nothing(sun)
}

// nothing tells whether an input is plainly 0.
func (c *coolReading) nothing(ref lcc.Ref) bool {
	in := &c.r.study.Inputs[ref]
	return in.Shape == lcc.Fixed && in.Likely.IsZero() && !c.r.study.IsDerived(ref)
}
