// Package coating is the arithmetic of liquid-applied roof coatings: from the
// film that shall be on the roof to the paint that it takes, the reading of
// the gauge while it is wet, its weight, and what a gap gets before it. It
// reads no study file.
//
// # Conventions
//
//   - Values carry their unit ([units.Value]); any unit of the right dimension
//     may be given, and the caller names the unit of the answer.
//   - A film is dry or wet. Dry is wet times the volume solids, never the
//     solids by weight.
//   - The arithmetic is the same in both systems: 1 L/m² is a wet film of
//     1 mm. With 231 in³ a gallon and 144 in² a square foot one gallon makes
//     231/0.144 = 9625/6 = 1604.1666… ft²·mil, and one gallon a square
//     16.041666… mil.
//   - Numbers are exact decimals. A quotient that does not end has 50
//     significant digits ([units.Quotient]), no figure is rounded but
//     gauge notches, and what lies within 10^−24 of one is taken for it.
//   - What has no answer is an error that names the thing, its value and its
//     limit.
//
// # What it rests on
//
//	[HB44]    NIST Handbook 44, appendix C (from memory): 231 cubic inches a
//	          gallon. The formulas of film and paint follow from it and from
//	          what volume solids are. Published; printed examples are in
//	          testdata/published/roof/coating.json.
//	[D4414]   ASTM D4414-95 (2020), Measurement of Wet Film Thickness by Notch
//	          Gages: notches each 0.5 mil to 6, 1 to 10, 2 to 30, 5 above; a
//	          film is measured at once; the gauge does not verify solids.
//	          Published.
//	[Loss]    what stays on the roof. A single source each: nothing more on a
//	          smooth surface, 5 to 10 % more paint on granules, up to 25 % on
//	          aged, porous surfaces; published by the spray-foam trade: at
//	          least 50 % more on foam that verges on popcorn. Such figures are
//	          extra paint: 25 % of it is a loss of 20 %, because 0.25 of 1.25
//	          makes no film.
//	[Wear]    acrylic 0.25 to 0.5 mil a year at its best and 0.75 to 1.25 at
//	          its worst: a single source, no standard. For silicone no rate
//	          was found.
//	[Seams]   grades of seam compound by width of gap: common practice,
//	          without a publication that states the widths.
package coating
