package coating

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

// Paint is what is known of a coating and the surface it goes on. The zero
// value is no paint: every method refuses it.
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

// yield is dry film over the wet film of all paint that is used.
func (p Paint) yield() decimal.Decimal { return p.Solids.Mul(one.Sub(p.Loss)) }

// LossOfExtra is the loss of a surface that takes so much more paint than a
// smooth one, as a fraction 0 or more: 0.25 more is a loss of 0.2, because
// 0.25 of 1.25 makes no film.
func LossOfExtra(extra decimal.Decimal) (decimal.Decimal, error) {
	if extra.IsNegative() {
		return decimal.Zero, fmt.Errorf("extra paint is %s: it must be at least 0", extra)
	}
	return units.Quotient(extra, one.Add(extra)), nil
}

// Wet is the wet film that dries to a film: dry ÷ solids, in the same unit.
// It is what a gauge shows on the roof, so losses do not count.
func (p Paint) Wet(dry units.Value) (units.Value, error) {
	_, err := above("dry film", dry, units.Millimetre)
	if err = cmp.Or(p.check(), err); err != nil {
		return units.Value{}, err
	}
	return units.Of(units.Quotient(dry.Number, p.Solids), dry.Unit), nil
}

// Dry is the film to which a wet film dries: wet × solids, in the same unit.
func (p Paint) Dry(wet units.Value) (units.Value, error) {
	_, err := above("wet film", wet, units.Millimetre)
	if err = cmp.Or(p.check(), err); err != nil {
		return units.Value{}, err
	}
	return units.Of(wet.Number.Mul(p.Solids), wet.Unit), nil
}

// ImpliedSolids are the volume solids that a dry film and its wet film tell,
// over 0 and at most 1.
func ImpliedSolids(dry, wet units.Value) (decimal.Decimal, error) {
	d, errDry := above("dry film", dry, units.Millimetre)
	w, errWet := above("wet film", wet, units.Millimetre)
	if err := cmp.Or(errDry, errWet); err != nil {
		return decimal.Zero, err
	}
	if d.GreaterThan(w) {
		return decimal.Zero, fmt.Errorf("dry film is %s: it must be at most the wet film of %s", dry, wet)
	}
	return units.Quotient(d, w), nil
}
