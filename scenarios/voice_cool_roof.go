package scenarios

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// The wording on the cool roof; see voice.go.

const (
	expectFraction    = "a fraction from 0 to 1, such as 0.65"
	expectEmittance   = "an emittance over 0.1 and at most 1, such as 0.90"
	expectSun         = "the sun on a level surface, with its unit, such as 900 kWh/m2 or 285000 Btu/ft2"
	expectConductance = "a number over 0 and at most 200 with its unit, such as 0.35 W/m2K or 0.06 Btu/h·ft2·F"
	expectPerformance = "a ratio over 0 and at most 20, such as 3.2"
	expectSEER        = "a rating over 0 and at most 68, in Btu a watt-hour, such as 13"
	expectDegreeDays  = "degree-days of a year from 0 to 100000, without a unit, such as 1800"
	expectPowerPrice  = "a price from 0 to 10^9 with what it is per, such as 0.14 per kWh"
	expectHeatPrice   = "a price from 0 to 10^9 with what it is per, such as 1.10 per therm or 0.09 per kWh"
)

func coolRoofInPlace() message {
	return message{what: "cool_roof stands in a system that is in place", hint: "move it to the system that brings the new surface"}
}

func coolRoofTwice(item string) message {
	return message{what: "an annual cost is called " + quote(item) + ", as the one that cool_roof computes", hint: "leave out one of the two"}
}

func noSuchCoolRoof(name string, names []string) message {
	m := message{what: "no system further up has the key " + quote(name) + " and a cool_roof", hint: "state the figures here"}
	if len(names) > 0 {
		m.expected, m.hint = "one of: "+some(names), didYouMean(nearest(name, names))
	}
	return m
}

// outsideOfSense passes on what the room of the cool roof cannot compute with.
func outsideOfSense(finding string) message {
	return message{what: finding, hint: "check the figures of this cool_roof and their units"}
}

func coolRoofPer(unit, area string) message {
	found := "the quantity is in pieces"
	if unit != "" {
		found = "the quantity is in " + unit
	}
	return message{what: found, expected: "an area in " + area + ", as the roof's own"}
}

func degreeDaysAlone(key string) message {
	return message{what: key + " without sun_year", hint: "degree-days share out the sun of a year; leave them out beside sun_cooling and sun_heating"}
}

func sunTwice(key string) message {
	return message{what: key + " stands beside sun_year", expected: "sun_cooling and sun_heating, or sun_year with degree-days"}
}

func noSun() message {
	return message{what: "no sun shines on the roof in either season", hint: "leave cool_roof out: it changes nothing"}
}

func noDegreeDays() message {
	return message{what: "no degree-days in either season", hint: "leave cool_roof out: it changes nothing"}
}

func copAndSEER() message {
	return message{what: "both cop and seer", expected: "one of them"}
}

func noCOP() message {
	return message{what: "cooling without its efficiency", expected: "cop or seer", hint: "for a building that is never cooled, write sun_cooling: 0 kWh/m2"}
}

func agedAboveNew(aged, fresh decimal.Decimal) message {
	return message{what: fmt.Sprintf("a reflectance of %s once soiled is over %s when new", aged, fresh), hint: "a light surface soils and gets darker"}
}

func darkerSurface(aged, now decimal.Decimal) message {
	return message{
		what: fmt.Sprintf("the new surface reflects %s once soiled, less than %s of the roof as it is", aged, now),
		hint: "this is no cool roof: state what it does to the energy bills as an annual cost, or leave it out",
	}
}
