// Package risk asks what a study says when its estimates are uncertain: it
// draws every uncertain input from its distribution, many times, evaluates all
// alternatives at each draw with the kernel, and sums up what they cost, how
// often each is the cheapest, what contributes to the spread, and what it
// would be worth to know before deciding.
//
// # Conventions
//
//   - Alternatives are compared on the same futures: in one trial they share
//     the draws of every input they share. The nth installation of a system
//     draws a life of its own, which is the same in every alternative.
//   - A draw depends on the seed, the number of the trial and the input, and
//     on nothing else; so results do not depend on the number of processors,
//     and a life that does not matter within the study period is not drawn.
//   - Where a drawn life ends before a planned wait does, the wait ends with it.
//   - A draw of a rate is kept over −50 % and at most 1000 %, as stated rates are.
//   - Amounts are in units of the study's currency, unrounded: no cent of a
//     simulation is shown.
//   - Of many roofs (Roofs), what is common to all is drawn once in a trial; a
//     draw of what is local depends on the key of the roof besides. What roofs
//     cost together is added up in whole minor units of the currency, so that
//     it does not depend on the order either.
//
// # Bibliography
//
//	[GUM-S1]   JCGM 101:2008, Propagation of distributions using a Monte
//	           Carlo method.
//	[Raiffa]   H. Raiffa and R. Schlaifer, Applied Statistical Decision
//	           Theory, 1961: expected value of perfect information, unit
//	           normal loss integral.
//	[Strong]   M. Strong and J. E. Oakley, An efficient method for computing
//	           single-parameter partial expected value of perfect information,
//	           Medical Decision Making 33 (2013) 755–766.
//	[Saltelli] A. Saltelli et al., Global Sensitivity Analysis: The Primer,
//	           2008: first-order indices.
//	[Steele]   G. L. Steele, D. Lea and C. H. Flood, Fast splittable
//	           pseudorandom number generators, OOPSLA 2014: SplitMix64.
//	[Kruskal]  W. H. Kruskal, Ordinal measures of association, J. American
//	           Statistical Association 53 (1958): rank correlation of normals.
//	[Wichura]  M. J. Wichura, Algorithm AS 241: The percentage points of the
//	           normal distribution, Applied Statistics 37 (1988) 477–484.
//	[NIST]     NIST Digital Library of Mathematical Functions, by its
//	           equation numbers.
//
// Cited from memory: titles and years, not page or equation numbers unless
// given.
package risk
