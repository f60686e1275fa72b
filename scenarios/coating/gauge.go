package coating

import (
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
