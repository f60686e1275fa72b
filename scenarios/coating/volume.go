package coating

import (
	"cmp"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

// Coverage is the paint that a dry film needs on an area, losses included, as
// volume by area: dry ÷ (solids × (1 − loss)), and 1 mm is 1 L/m² [HB44].
func (p Paint) Coverage(dry units.Value, in units.Unit) (units.Value, error) {
	film, err := p.wetUsed(dry)
	if err != nil {
		return units.Value{}, err
	}
	return units.Of(film, units.LitrePerSquareMetre).To(in)
}

// Spread is the area that a volume of paint covers with a dry film, losses
// included: the inverse of [Paint.Coverage]. For 1 mil of paint that is all
// solids it is the constant 9625/6 ft²/gal [HB44].
func (p Paint) Spread(dry units.Value, in units.Unit) (units.Value, error) {
	film, err := above("dry film", dry, units.Millimetre)
	if err = cmp.Or(p.check(), err); err != nil {
		return units.Value{}, err
	}
	return units.Of(units.Quotient(p.yield(), film), units.SquareMetrePerLitre).To(in)
}

// Volume is the paint that a dry film needs on an area of 0 or more, losses
// included.
func (p Paint) Volume(area, dry units.Value, in units.Unit) (units.Value, error) {
	film, errFilm := p.wetUsed(dry)
	on, errArea := atLeastZero("area", area, units.SquareMetre)
	if err := cmp.Or(errFilm, errArea); err != nil {
		return units.Value{}, err
	}
	return units.Of(film.Mul(on), units.Litre).To(in)
}

// wetUsed is the wet film of all paint that is used, in mm.
func (p Paint) wetUsed(dry units.Value) (decimal.Decimal, error) {
	film, err := above("dry film", dry, units.Millimetre)
	if err = cmp.Or(p.check(), err); err != nil {
		return decimal.Zero, err
	}
	return units.Quotient(film, p.yield()), nil
}

// DryOf is the mean dry film that a volume of paint, 0 or more, makes on an
// area, losses taken off. It is a mean: the thinnest spot is less, and wears
// through first.
func (p Paint) DryOf(volume, area units.Value, in units.Unit) (units.Value, error) {
	litres, errVolume := atLeastZero("volume", volume, units.Litre)
	on, errArea := above("area", area, units.SquareMetre)
	if err := cmp.Or(p.check(), errVolume, errArea); err != nil {
		return units.Value{}, err
	}
	film := units.Quotient(litres.Mul(p.yield()), on)
	return units.Of(film, units.Millimetre).To(in)
}

// WetOf is the wet film of paint applied at a coverage or at a spreading rate,
// as if all of it stayed: 1 L/m² is 1 mm, 1 gal/square 16.041666… mil [HB44].
func WetOf(applied units.Value, in units.Unit) (units.Value, error) {
	if applied.Unit.Dimension() == units.SpreadingRate {
		area, err := above("spreading rate", applied, units.SquareMetrePerLitre)
		if err != nil {
			return units.Value{}, err
		}
		return units.Of(units.Quotient(one, area), units.Millimetre).To(in)
	}
	film, err := above("coverage", applied, units.LitrePerSquareMetre)
	if err != nil {
		return units.Value{}, err
	}
	return units.Of(film, units.Millimetre).To(in)
}

// Covered is the area that a volume of paint covers at a spreading rate; both
// are 0 or more.
func Covered(volume, spread units.Value, in units.Unit) (units.Value, error) {
	litres, errVolume := atLeastZero("volume", volume, units.Litre)
	each, errSpread := atLeastZero("spreading rate", spread, units.SquareMetrePerLitre)
	if err := cmp.Or(errVolume, errSpread); err != nil {
		return units.Value{}, err
	}
	return units.Of(litres.Mul(each), units.SquareMetre).To(in)
}
