package lcc

import "github.com/shopspring/decimal"

// Ref is the place of an input in a study's vector.
type Ref int32

// NoRef marks an input that the study does not have (no growth, no quantity).
const NoRef Ref = -1

// Unit says what an input measures.
type Unit uint8

// The units of inputs.
const (
	Money  Unit = iota // study currency, at base-date prices
	Rate               // fraction a year; 0 is no change
	Years              // service life; greater than 0, may be fractional
	Area               // in the study's area unit; greater than 0
	Length             // in the study's length unit; 0 or more
	Count              // pieces, or a quantity that is no length and not the plan area; 0 or more
	Price              // money per unit of a quantity
)

// Shape names the distribution of an uncertain input.
type Shape uint8

// The distributions a study file can name. A plain value is Fixed.
const (
	Fixed      Shape = iota
	Triangular       // Low, Likely (mode), High
	PERT             // Low, Likely (mode), High: a scaled beta with shape 4
	Uniform          // Low to High; the plain study uses Likely
	Weibull          // Mean, Spread = shape parameter
	Normal           // Mean, Spread = standard deviation
	Lognormal        // Mean, Spread = standard deviation, both of the variable itself
)

var shapeNames = [...]string{"fixed", "triangular", "pert", "uniform", "weibull", "normal", "lognormal"}

// String gives the name used in study files; "fixed" for a plain value.
func (s Shape) String() string { return shapeNames[s] }

// HasRange tells whether the shape is described by a low and a high value.
func (s Shape) HasRange() bool { return s == Triangular || s == PERT || s == Uniform }

// Input is one number that a person estimated.
type Input struct {
	Path     string // its place in the study file, as systems.tear_off.life
	Of       string // name of the system it belongs to; "" for the study and the roof
	Label    string // in words, for tables
	Unit     Unit
	UnitText string          // as the file writes it: ft2, m2, ft, m, mil, um, gal, L, "%" for a fraction shown in percent, or "" (a price: what it is per)
	Likely   decimal.Decimal // what the plain study uses; the mean where the shape has no mode
	Shape    Shape
	Low      decimal.Decimal // with a range: the least value; else zero and without meaning
	High     decimal.Decimal // with a range: the greatest value
	Most     decimal.Decimal // the greatest value that has a meaning, as 1 of a fraction; 0 is no limit
	Spread   decimal.Decimal // Weibull: shape; Normal and Lognormal: standard deviation
	Moves    *Moves          // nil: drawn alone
	Source   string          // "" when the file gives none
}

// Moves says that an input's draws follow another's.
type Moves struct {
	With Ref             // the other input, which itself may follow a third; no circle
	Rank decimal.Decimal // Spearman's rank correlation, −1 to 1
}

// Vector holds one value for every input of a study, in the order of
// Study.Inputs. It is what an evaluation is made at.
type Vector []decimal.Decimal
