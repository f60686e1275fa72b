package coating

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

// AddedLoad is what a dry film weighs on the roof: film × density of the dry
// film; 1 mm of 1 kg/L is 1 kg/m². Specific gravity is a density in kg/L. The
// density of the wet paint, which data sheets give, is another.
func AddedLoad(dry, density units.Value, in units.Unit) (units.Value, error) {
	film, errFilm := above("dry film", dry, units.Millimetre)
	heavy, errDensity := above("density", density, units.KilogramPerLitre)
	if err := cmp.Or(errFilm, errDensity); err != nil {
		return units.Value{}, err
	}
	return units.Of(film.Mul(heavy), units.KilogramPerSquareMetre).To(in)
}

// FilmLife is how many years a dry film wears from its initial thickness to
// the least at which it still protects: (initial − minimum) ÷ wear a year. The
// wear is greater than 0, the minimum at least 0 and below the initial
// thickness. That wear is even is an assumption; rates are single-source
// [Wear].
func FilmLife(initial, minimum, wear units.Value) (decimal.Decimal, error) {
	first, errFirst := above("initial film", initial, units.Millimetre)
	least, errLeast := atLeastZero("minimum film", minimum, units.Millimetre)
	each, errWear := above("wear a year", wear, units.Millimetre)
	if err := cmp.Or(errFirst, errLeast, errWear); err != nil {
		return decimal.Zero, err
	}
	if first.LessThanOrEqual(least) {
		return decimal.Zero, fmt.Errorf("initial film is %s: it must be greater than the minimum of %s", initial, minimum)
	}
	return units.Quotient(first.Sub(least), each), nil
}
