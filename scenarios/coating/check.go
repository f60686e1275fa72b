package coating

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

var one = decimal.NewFromInt(1)

// above gives a value's number in a unit, and refuses what is not greater
// than 0.
func above(name string, v units.Value, in units.Unit) (decimal.Decimal, error) {
	x, err := number(name, v, in)
	if err == nil && !x.IsPositive() {
		return x, fmt.Errorf("%s is %s: it must be greater than 0", name, v)
	}
	return x, err
}

// atLeastZero gives a value's number in a unit, and refuses what is less than 0.
func atLeastZero(name string, v units.Value, in units.Unit) (decimal.Decimal, error) {
	x, err := number(name, v, in)
	if err == nil && x.IsNegative() {
		return x, fmt.Errorf("%s is %s: it must be at least 0", name, v)
	}
	return x, err
}

func number(name string, v units.Value, in units.Unit) (decimal.Decimal, error) {
	w, err := v.To(in)
	if err != nil {
		return decimal.Zero, fmt.Errorf("%s: %w", name, err)
	}
	return w.Number, nil
}

// guard is how many places decide whether a quotient is whole, as in the
// rounding of money.
const guard = 24

// ceil is the least whole number that is at least x.
func ceil(x decimal.Decimal) decimal.Decimal { return x.Round(guard).Ceil() }
