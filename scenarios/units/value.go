package units

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Value is a number with its unit, of any sign.
type Value struct {
	Number decimal.Decimal
	Unit   Unit
}

// Of makes a value.
func Of(number decimal.Decimal, unit Unit) Value { return Value{number, unit} }

// To is the same value in another unit: exact where the quotient ends, else
// to [Digits] significant digits. It fails for a unit of another dimension
// and for one that does not exist.
func (v Value) To(unit Unit) (Value, error) {
	from, known := definitions[v.Unit]
	if !known {
		return Value{}, fmt.Errorf("%q is no unit", string(v.Unit))
	}
	to, known := definitions[unit]
	if !known {
		return Value{}, fmt.Errorf("%q is no unit", string(unit))
	}
	if from.dimension != to.dimension {
		return Value{}, fmt.Errorf("%s measures %s, %s measures %s", v.Unit, from.dimension, unit, to.dimension)
	}
	number := v.Number
	if unit != v.Unit {
		number = Quotient(number.Mul(from.times).Mul(to.over), from.over.Mul(to.times))
	}
	return Value{number, unit}, nil
}

// String writes the value as a study file has it: "48000 ft2".
func (v Value) String() string { return v.Number.String() + " " + string(v.Unit) }
