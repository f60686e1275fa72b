package coating

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

// Paint is what is known of a coating and the surface it goes on. The zero
// value is no paint, and is refused.
type Paint struct {
	Solids decimal.Decimal // volume solids, a fraction over 0 and at most 1
	Loss   decimal.Decimal // share of the paint that makes no film, 0 to below 1: texture, overspray, what stays in the pail
}

func (p Paint) check() error {
	switch {
	case !p.Solids.IsPositive() || p.Solids.GreaterThan(one):
		return fmt.Errorf("volume solids are %s: they must be over 0 and at most 1", p.Solids)
	case p.Loss.IsNegative() || p.Loss.GreaterThanOrEqual(one):
		return fmt.Errorf("loss is %s: it must be from 0 to below 1", p.Loss)
	}
	return nil
}

// Volume is the paint that a dry film, greater than 0, needs on an area of 0 or
// more, losses included: area × dry ÷ (solids × (1 − loss)); 1 mm of paint on
// 1 m² is 1 L. For 1 mil of paint that is all solids it is 1 gal for each
// 9625/6 ft² [HB44].
func (p Paint) Volume(area, dry units.Value, in units.Unit) (units.Value, error) {
	film, errFilm := above("dry film", dry, units.Millimetre)
	on, errArea := atLeastZero("area", area, units.SquareMetre)
	if err := cmp.Or(p.check(), errFilm, errArea); err != nil {
		return units.Value{}, err
	}
	wet := units.Quotient(film, p.Solids.Mul(one.Sub(p.Loss)))
	return units.Of(wet.Mul(on), units.Litre).To(in)
}
