package coating

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

// steps of the notches of a wet film gauge, in mil [D4414]. The last goes on:
// the text that was seen names no end, but no gauge is endless. Notches of
// gauges in micrometres were not found: convert the notch.
var steps = []struct{ to, step decimal.Decimal }{
	{decimal.NewFromInt(6), decimal.New(5, -1)},
	{decimal.NewFromInt(10), decimal.NewFromInt(1)},
	{decimal.NewFromInt(30), decimal.NewFromInt(2)},
}

var lastStep = decimal.NewFromInt(5)

// Notch is the lowest notch of a gauge that is at or above a wet film, in mil:
// where it is wetted, the film is reached.
func Notch(wet units.Value) (units.Value, error) {
	mils, err := above("wet film", wet, units.Mil)
	if err != nil {
		return units.Value{}, err
	}
	step := lastStep
	for i := len(steps) - 1; i >= 0 && mils.LessThanOrEqual(steps[i].to); i-- {
		step = steps[i].step
	}
	notch := decimal.Max(ceil(units.Quotient(mils, step)), one).Mul(step)
	return units.Of(notch, units.Mil), nil
}

// Coat is what one coat shall show while it is wet.
type Coat struct {
	Wet   units.Value // the wet film of the coat, in the unit it was asked in
	Notch units.Value // the gauge notch to aim for, in mil
}

// PerCoat divides a wet film into so many equal coats, 1 or more.
func PerCoat(wet units.Value, coats int) (Coat, error) {
	if coats < 1 {
		return Coat{}, fmt.Errorf("number of coats is %d: it must be at least 1", coats)
	}
	each := units.Of(units.Quotient(wet.Number, decimal.NewFromInt(int64(coats))), wet.Unit)
	notch, err := Notch(each)
	if err != nil {
		return Coat{}, err
	}
	return Coat{each, notch}, nil
}
