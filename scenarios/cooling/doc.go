// Package cooling tells what a more reflective roof does to a building's
// energy bills: the solar reflectance index of a surface, its reflectance
// once soiled, and the yearly cooling saved, heating added and money of a
// change of reflectance. It reads no file.
//
// [Method] and [Limits] say in words, for the reader of a report, how the
// yearly effect is computed and what it does not cover. They belong beside
// every figure of it.
//
// # Conventions
//
//   - Energy, prices and money are exact decimals, in one of two systems of
//     units (type [Units]); the step-by-step figures stay in the system the
//     user chose. Nothing is rounded but quotients, to 40 significant digits;
//     money is rounded where it is entered in a ledger. The heat balance
//     behind the index has fourth powers and is in float64.
//   - Reflectance is the solar reflectance, a fraction from 0 to 1, and
//     absorptance 1 less it; emittance is the thermal emittance.
//   - Costs are positive, credits negative.
//   - An input outside its range is an error that names it; no NaN comes out.
//
// # Bibliography
//
//	[E1980]  ASTM E1980-11(2019), Standard Practice for Calculating Solar
//	         Reflectance Index of Horizontal and Low-Sloped Opaque Surfaces.
//	[T24]    California Energy Code, Title 24 part 6, aged reflectance, as
//	         given by the roof rating council's page on Title 24 (2013).
//	[ASHRAE] ASHRAE Handbook, Fundamentals, sol-air temperature, as quoted by
//	         an encyclopaedia and by help pages of load programs; the handbook
//	         itself was not seen.
//	[SP811]  NIST Special Publication 811, Guide for the Use of the SI,
//	         appendix B; from memory, and derived again in the tests.
package cooling

// Method says how the yearly effect is computed, a sentence an entry, as a
// report shows it.
func Method() []string {
	return []string{
		"A roof that reflects more of the sun absorbs less: the change of reflectance times the solar irradiation of the season.",
		"What is no longer absorbed lowers the sol-air temperature of the surface by the absorbed radiation over the outside film coefficient; the sum over the hours of the season gives degree-hours.",
		"The heat flow through the roof falls by its U-value times these degree-hours.",
		"In the hours when cooling is called for, this heat need not be removed: it is divided by the coefficient of performance of the cooling equipment, and the electricity saved is counted at its price.",
		"In the hours when heating is called for, the same heat is missed: it is divided by the efficiency of the heating, and the added fuel is counted at its price.",
		"The yearly cost is the added heating less the cooling saved; a negative cost is a credit.",
	}
}

// Limits says what the yearly effect does not cover, a sentence an entry, as
// a report shows it.
func Limits() []string {
	return []string{
		"This is a steady-state estimate, not a simulation of the building: the roof stores no heat, and its film coefficient, U-value and emittance stay the same all year.",
		"It holds for the roof over a cooled and heated top floor only; over an attic, a plenum or an unconditioned space the effect is smaller.",
		"All of the heat kept out is counted as cooling saved in the cooling season, and all of it as missed in the heating season; snow on the roof and hours without either make the true effect smaller.",
		"Lower demand charges, smaller equipment, cooler air at rooftop intakes and cooler surroundings are not counted.",
		"A reflective surface soils: its initial reflectance counts only in the first years that are stated, its aged reflectance after them. The old roof keeps its reflectance.",
		"Prices and efficiencies are as stated by the user and hold for the year of the prices.",
	}
}
