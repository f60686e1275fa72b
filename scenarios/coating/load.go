package coating

import (
	"cmp"

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
