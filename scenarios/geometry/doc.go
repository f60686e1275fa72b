// Package geometry measures a roof from its dimensions: how much more sheet a
// panel has than the width it covers, how much more roof a slope has than its
// plan, and what seams, laps and screws a panel roof has. It reads no study
// file.
//
// # Conventions
//
//   - Lengths are float64 in any one unit, results are ratios. Measures on a
//     roof are good to three digits, so float64 is ample; money is not counted
//     here.
//   - A factor is sheet over cover: the developed area of one face of a panel
//     divided by the area it covers. It is 1 or more.
//   - What is no panel, no slope or no roof is an error that names the
//     dimension, its value and its limit. No result is NaN or infinite.
//
// # Bibliography
//
//	[Plane]   plane geometry: the formulas are derived beside them, and no
//	          publication is needed for them.
//	[DLMF]    NIST Digital Library of Mathematical Functions, chapter 19: the
//	          length of a sine wave is a complete elliptic integral of the
//	          second kind, which the arithmetic-geometric mean gives. From
//	          memory; the tests use it against the integration here.
//	[Factors] printed factors of painting trade magazines and of a measurement
//	          rule for corrugated iron, each a single source, with their
//	          places in testdata/published/roof/geometry.json.
package geometry
