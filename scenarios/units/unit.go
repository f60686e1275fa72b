package units

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// Unit is the name of a unit, as it is written behind a number. The zero
// value "" is no unit: every conversion refuses it.
type Unit string

// The units. Packs, pails and drums, are no units: they differ in size.
const (
	Foot       Unit = "ft"
	Inch       Unit = "in"
	Mil        Unit = "mil" // 0.001 in, of films
	Metre      Unit = "m"
	Millimetre Unit = "mm"
	Micrometre Unit = "um" // read also as µm

	SquareFoot  Unit = "ft2"
	SquareMetre Unit = "m2"
	Square      Unit = "square" // 100 ft2

	Gallon Unit = "gal" // US liquid gallon
	Litre  Unit = "L"

	GallonPerSquare     Unit = "gal/square" // coverage
	LitrePerSquareMetre Unit = "L/m2"

	SquareFootPerGallon Unit = "ft2/gal" // spreading rate, the inverse of a coverage
	SquareMetrePerLitre Unit = "m2/L"

	PoundPerSquareFoot       Unit = "psf" // pound-force on a square foot
	KilonewtonPerSquareMetre Unit = "kN/m2"
	KilogramPerSquareMetre   Unit = "kg/m2" // as a load: the weight of that mass under standard gravity

	PoundPerInch        Unit = "lb/in" // force per width, of peel tests: pound-force on an inch
	NewtonPerMillimetre Unit = "N/mm"

	PoundPerGallon   Unit = "lb/gal" // density
	KilogramPerLitre Unit = "kg/L"
)

// Dimension is what a unit measures. Units of one dimension convert into each
// other, others never. A film thickness is a length.
type Dimension string

// The dimensions.
const (
	Length        Dimension = "length"
	Area          Dimension = "area"
	Volume        Dimension = "volume"
	Coverage      Dimension = "coverage"
	SpreadingRate Dimension = "spreading rate"
	Load          Dimension = "load"
	WidthForce    Dimension = "force per width"
	Density       Dimension = "density"
)

// definition says that one unit is times/over of the dimension's base unit:
// m, m2, L, L/m2, m2/L, kg/m2, N/mm, kg/L.
type definition struct {
	dimension   Dimension
	times, over decimal.Decimal
}

// The exact numbers of which all others are products [SP811; HB44].
var (
	one     = decimal.NewFromInt(1)
	inch    = decimal.RequireFromString("0.0254")      // m
	foot    = decimal.RequireFromString("0.3048")      // m
	foot2   = foot.Mul(foot)                           // m2
	square  = foot2.Shift(2)                           // m2, common practice
	gallon  = decimal.RequireFromString("3.785411784") // L
	pound   = decimal.RequireFromString("0.45359237")  // kg
	gravity = decimal.RequireFromString("0.00980665")  // kN on a kg
)

var definitions = map[Unit]definition{
	Foot:       {Length, foot, one},
	Inch:       {Length, inch, one},
	Mil:        {Length, inch.Shift(-3), one},
	Metre:      {Length, one, one},
	Millimetre: {Length, one.Shift(-3), one},
	Micrometre: {Length, one.Shift(-6), one},

	SquareFoot:  {Area, foot2, one},
	SquareMetre: {Area, one, one},
	Square:      {Area, square, one},

	Gallon: {Volume, gallon, one},
	Litre:  {Volume, one, one},

	GallonPerSquare:     {Coverage, gallon, square},
	LitrePerSquareMetre: {Coverage, one, one},

	SquareFootPerGallon: {SpreadingRate, foot2, gallon},
	SquareMetrePerLitre: {SpreadingRate, one, one},

	PoundPerSquareFoot:       {Load, pound, foot2},
	KilonewtonPerSquareMetre: {Load, one, gravity},
	KilogramPerSquareMetre:   {Load, one, one},

	PoundPerInch:        {WidthForce, pound.Mul(gravity).Shift(3), inch.Shift(3)},
	NewtonPerMillimetre: {WidthForce, one, one},

	PoundPerGallon:   {Density, pound, gallon},
	KilogramPerLitre: {Density, one, one},
}

// Dimension tells what the unit measures; "" when there is no such unit.
func (u Unit) Dimension() Dimension { return definitions[u].dimension }

// written turns other spellings of a unit into ours. The micro sign and the
// Greek letter mu look alike and are two characters.
var written = strings.NewReplacer("²", "2", "µ", "u", "μ", "u")

// Named finds a unit by its name: ft2 or ft², um or µm. It fails for a name
// that is no unit.
func Named(name string) (Unit, error) {
	u := Unit(written.Replace(name))
	if u.Dimension() == "" {
		return "", fmt.Errorf("%q is no unit", name)
	}
	return u, nil
}
