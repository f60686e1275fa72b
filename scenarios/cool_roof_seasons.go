package scenarios

import "roofyears/lcc"

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
