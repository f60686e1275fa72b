package cooling

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// limits are the least and the greatest value of a number, both allowed
// unless over is set: then the number has to be over the least.
type limits struct {
	least, most decimal.Decimal
	over        bool
}

// upTo are the limits from 0 to most, overZero the same without 0.
func upTo(most decimal.Decimal) limits     { return limits{most: most} }
func overZero(most decimal.Decimal) limits { return limits{most: most, over: true} }

var (
	one       = decimal.New(1, 0)
	fraction  = upTo(one)
	emittance = limits{decimal.New(1, -1), one, true}
)

// check is nil for a number within its limits, and otherwise an error that
// names it. The unit may be empty.
func (l limits) check(name string, v decimal.Decimal, unit string) error {
	if v.GreaterThan(l.least) && v.LessThanOrEqual(l.most) || !l.over && v.Equal(l.least) {
		return nil
	}
	return l.complain(name, v.String(), unit)
}

func (l limits) complain(name, value, unit string) error {
	from, space := "from ", ""
	if l.over {
		from = "from over "
	}
	if unit != "" {
		space = " "
	}
	return fmt.Errorf("%s %s is outside the range %s%s to %s%s%s", name, value, from, l.least, l.most, space, unit)
}

// checkFloat is check for a float64. NaN and the infinities are outside every
// range.
func (l limits) checkFloat(name string, v float64) error {
	least, most := l.least.InexactFloat64(), l.most.InexactFloat64()
	if v > least && v <= most || !l.over && v == least {
		return nil
	}
	return l.complain(name, fmt.Sprint(v), "")
}

// digits is how many significant digits a quotient keeps.
const digits = 40

// quo is a/b to that many digits. b is not zero.
func quo(a, b decimal.Decimal) decimal.Decimal {
	magnitude := int32(a.NumDigits()) + a.Exponent() - int32(b.NumDigits()) - b.Exponent()
	return a.DivRound(b, digits-magnitude)
}
