package scenarios

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/cooling"
)

var coolRoofKeys = []string{
	"same_as", "per", "reflectance_now", "reflectance_new", "reflectance_aged", "emittance_now", "emittance_new",
	"sun_cooling", "sun_heating", "sun_year", "cooling_degree_days", "heating_degree_days",
	"u_value", "outside_film", "cop", "seer", "heating_efficiency", "electricity_price", "heating_price",
}

// The measures of a cool roof. What has an end that nature or the method sets
// is spread between a low and a high value only.
var (
	fraction     = measure{unit: lcc.Count, expected: expectFraction, low: decimal.Zero, high: decimal.New(1, 0), units: noUnit}
	emittance    = measure{unit: lcc.Count, expected: expectEmittance, low: decimal.New(1, -1), high: decimal.New(1, 0), lowOpen: true, units: noUnit}
	sunshine     = measure{unit: lcc.Count, expected: expectSun, low: decimal.Zero, high: mostQuantity, units: []string{"kWh/m2", "Btu/ft2"}}
	conductance  = measure{unit: lcc.Count, expected: expectConductance, low: decimal.Zero, high: decimal.New(200, 0), lowOpen: true, units: []string{"W/m2K", "Btu/h·ft2·F"}}
	performance  = measure{unit: lcc.Count, expected: expectPerformance, low: decimal.Zero, high: decimal.New(20, 0), lowOpen: true, units: noUnit}
	seer         = measure{unit: lcc.Count, expected: expectSEER, low: decimal.Zero, high: decimal.New(68, 0), lowOpen: true, units: noUnit}
	degreeDays   = measure{unit: lcc.Count, expected: expectDegreeDays, low: decimal.Zero, high: decimal.New(100000, 0), units: noUnit}
	powerPrice   = measure{unit: lcc.Price, expected: expectPowerPrice, low: decimal.Zero, high: decimal.New(1, 9), units: []string{"per kWh"}, shapes: positiveShape}
	heatingPrice = measure{unit: lcc.Price, expected: expectHeatPrice, low: decimal.Zero, high: decimal.New(1, 9), units: []string{"per kWh", "per therm"}, shapes: positiveShape}
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
		r.coolWrong = append(r.coolWrong, r.systemKeys[index])
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
	if name != "" && !slices.Contains(c.r.coolWrong, name) {
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
