package scenarios

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// measure is a kind of number: what it may be and how it is written.
type measure struct {
	unit      lcc.Unit
	expected  string          // what may stand there, in words
	low, high decimal.Decimal // limits, included
	lowOpen   bool            // the low limit is excluded
	units     []string        // units that may follow the number; "" is none
	shapes    []lcc.Shape     // distributions by mean that may be named
	share     bool            // a fraction, written with a percent sign
}

// kind is the measure of an input, and the unit in which the file writes it; ""
// is none, which is the study's own.
type kind struct {
	measure
	written string
}

var (
	mostMoney    = decimal.New(1, 15)
	mostQuantity = decimal.New(1, 12)
	mostYears    = decimal.New(1000, 0)

	noUnit   = []string{""}
	areaUnit = []string{"ft2", "m2"}
	anyUnit  = []string{"", "ft", "m", "ft2", "m2"}

	anyShape      = []lcc.Shape{lcc.Weibull, lcc.Normal, lcc.Lognormal}
	positiveShape = []lcc.Shape{lcc.Weibull, lcc.Lognormal} // draws are greater than 0
)

// The measures. A quantity counts what it counts, square feet too: lcc.Area is
// for the plan area, which is over 0, and a wet area may be 0. A normal distribution can draw a negative number, so a life
// or a quantity has none; lcc takes rates from −50 %, excluded, to 1000 %.
var (
	rate      = measure{unit: lcc.Rate, expected: expectRate, low: lcc.MinRate, high: lcc.MaxRate, lowOpen: true, units: noUnit, shapes: []lcc.Shape{lcc.Normal}}
	amount    = measure{unit: lcc.Money, expected: expectAmount, low: mostMoney.Neg(), high: mostMoney, units: noUnit, shapes: anyShape}
	unitPrice = measure{unit: lcc.Price, expected: expectPrice, low: mostMoney.Neg(), high: mostMoney, units: noUnit, shapes: anyShape}
	years     = measure{unit: lcc.Years, expected: expectYears, low: decimal.Zero, high: mostYears, lowOpen: true, units: noUnit, shapes: positiveShape}
	planArea  = measure{unit: lcc.Area, expected: expectArea, low: decimal.Zero, high: mostQuantity, lowOpen: true, units: areaUnit, shapes: positiveShape}
	quantity  = measure{unit: lcc.Count, expected: expectQuantity, low: decimal.Zero, high: mostQuantity, units: anyUnit, shapes: positiveShape}
)

// unitNames are the units that can be written, with our spelling of them.
var unitNames = map[string]string{
	"": "", "ft": "ft", "m": "m", "ft2": "ft2", "ft²": "ft2", "m2": "m2", "m²": "m2",
	"W/m2K": "W/m2K", "W/m²K": "W/m2K", "W/m2·K": "W/m2K", "W/m²·K": "W/m2K", "W/(m²·K)": "W/m2K",
	"Btu/h·ft2·F": "Btu/h·ft2·F", "Btu/h-ft2-F": "Btu/h·ft2·F", "Btu/h·ft²·°F": "Btu/h·ft2·F", "Btu/(h·ft²·°F)": "Btu/h·ft2·F",
	"kWh/m2": "kWh/m2", "kWh/m²": "kWh/m2", "Btu/ft2": "Btu/ft2", "Btu/ft²": "Btu/ft2",
	"per kWh": "per kWh", "per therm": "per therm",
	"in": "in", "mm": "mm", "mil": "mil", "um": "um", "µm": "um", "μm": "um", "gal": "gal", "L": "L", "h": "h",
	"ft/gal": "ft/gal", "m/L": "m/L", "ft2/gal": "ft2/gal", "ft²/gal": "ft2/gal", "m2/L": "m2/L", "m²/L": "m2/L",
	"pieces/gal": "pieces/gal", "pieces/L": "pieces/L",
	"psf": "psf", "kN/m2": "kN/m2", "kN/m²": "kN/m2", "lb/in": "lb/in", "N/mm": "N/mm",
}

// unitsLike are spellings that are not read, with what was likely meant.
var unitsLike = map[string]string{
	"sf": "ft2", "sqft": "ft2", "sq ft": "ft2", "sq. ft.": "ft2", "ft^2": "ft2", "square feet": "ft2", "FT2": "ft2",
	"sqm": "m2", "sq m": "m2", "m^2": "m2", "square metres": "m2", "square meters": "m2", "M2": "m2",
	"feet": "ft", "foot": "ft", "lf": "ft", "lin ft": "ft", "FT": "ft",
	"BTU/ft2": "Btu/ft2", "BTU/sf": "Btu/ft2", "kWh/sqm": "kWh/m2", "kWh": "per kWh", "therm": "per therm",
	"W/m2/K": "W/m2K", "W/(m2K)": "W/m2K", "W/(m2·K)": "W/m2K", "BTU/h·ft2·F": "Btu/h·ft2·F", "Btu/hr-ft2-F": "Btu/h·ft2·F", "Btu/(h·ft2·F)": "Btu/h·ft2·F",
	"metre": "m", "metres": "m", "meter": "m", "meters": "m",
	"inch": "in", "inches": "in", "mils": "mil", "micron": "um", "microns": "um",
	"gallon": "gal", "gallons": "gal", "l": "L", "litre": "L", "litres": "L", "liter": "L", "liters": "L",
	"hour": "h", "hours": "h", "hr": "h", "hrs": "h",
	"lf/gal": "ft/gal", "sf/gal": "ft2/gal", "sqft/gal": "ft2/gal", "ft2/gallon": "ft2/gal", "ft/gallon": "ft/gal",
	"lb/ft2": "psf", "lb/ft²": "psf", "lbs/ft2": "psf", "lb/sf": "psf", "PSF": "psf", "kPa": "kN/m2", "kn/m2": "kN/m2", "KN/m2": "kN/m2",
	"pli": "lb/in", "lbs/in": "lb/in", "lbf/in": "lb/in", "lb/inch": "lb/in", "piw": "lb/in", "n/mm": "N/mm",
}

// isAreaUnit tells whether a text is a spelling of the study's unit of area.
func isAreaUnit(text, area string) bool {
	return text != "" && (unitNames[text] == area || unitsLike[text] == area)
}

// units of a file: those of feet and those of metres, to tell when both occur.
func metric(unit string) bool { return unit == "m" || unit == "m2" }

// measuresRoof tells whether a unit is one of roof.quantities.
func measuresRoof(unit string) bool { return unit != "" && slices.Contains(anyUnit, unit) }

// within tells whether a value keeps the limits.
func (k measure) within(v decimal.Decimal) bool {
	if k.lowOpen && v.Equal(k.low) {
		return false
	}
	return v.GreaterThanOrEqual(k.low) && v.LessThanOrEqual(k.high)
}

// read reads one number of this measure. spread is true for a standard
// deviation: greater than 0, and otherwise written alike.
func (k measure) read(text string, spread bool) (number, message, bool) {
	n, m, ok := parseNumber(text)
	if !ok {
		m.expected = k.expected
		return n, m, false
	}
	isRate := k.unit == lcc.Rate || k.share
	known, isUnit := unitNames[n.unit]
	switch {
	case n.percent && !isRate:
		return n, noPercentHere(text, k.expected), false
	case !isUnit || !slices.Contains(k.units, known):
		return n, unitMistake(text, n.unit, k), false
	case isRate && !n.percent && n.value.Abs().GreaterThanOrEqual(decimal.NewFromInt(1)):
		return n, percentForgotten(text, n.value, k.expected), false
	case spread && !n.value.IsPositive():
		return n, notPositive(text), false
	case !spread && !k.within(n.value):
		return n, outOfRange(text, k), false
	}
	n.unit = known
	return n, message{}, true
}
