// Package lcc holds the method of roofyears: what each way of keeping a roof
// over a building costs over a study period, in exact decimals.
//
// # The picture
//
// A [Study] is a structure (which systems follow which, which items cost what
// and when) plus a vector of inputs (every number a person estimated). One
// [Walk] of an alternative's chain yields its spells: which system stands on
// the roof from which year until which year. Two evaluators consume that walk:
//
//   - [Study.Evaluate], the exact ledger: decimals, one rounding a line;
//   - [Kernel], float64 without allocation: for sweeps, simulation and
//     portfolios, with cents it either certifies or declines.
//
// # Conventions
//
//   - Time is counted in years from the base date (time 0) to the study period
//     N. Inside the package a time is a number of half years, because mid-year
//     costs fall at t − ½ (type [Time]).
//   - Costs are positive, credits (scrap, rebates) negative. A residual value
//     is a credit and stands in the ledger as a negative line.
//   - Rates are fractions: 0.03 is 3 %. One study is either real (constant
//     money) or nominal (current money) throughout.
//   - Money is in units of the study's currency, rounded half away from zero
//     to its minor unit once, when a ledger line is written. Totals are sums
//     of rounded lines, so every column foots.
//   - A measure that has no meaning is a state with a reason (type [Measure]),
//     never zero, infinity or NaN.
//
// # Bibliography
//
// Short keys used beside the formulas:
//
//	[E917]   ASTM E917, Standard Practice for Measuring Life-Cycle Costs of
//	         Buildings and Building Systems.
//	[E833]   ASTM E833, Standard Terminology of Building Economics.
//	[HB135]  NIST Handbook 135, Life-Cycle Costing Manual for the Federal
//	         Energy Management Program.
//	[10CFR436] 10 CFR 436 subpart A, Methodology and Procedures for Life
//	         Cycle Cost Analyses: savings-to-investment ratio (436.21),
//	         adjusted internal rate of return (436.22), payback (436.23).
//	[15686]  ISO 15686-5, Buildings and constructed assets, Service life
//	         planning, Life-cycle costing.
//
// Section numbers of E917, Handbook 135 and ISO 15686-5 are left out on
// purpose: they differ between editions. Where these sources differ, the
// comment at the formula says which one is followed.
package lcc
