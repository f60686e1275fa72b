// Package tax says what the alternatives of a study cost after income tax. It
// starts from an evaluated study and the tax terms that its owner states; it
// assumes no treatment.
//
// # Conventions
//
//   - Tax is paid in money of the day, and depreciation is fixed in it when the
//     cost is paid. So the tax ledger is in money of the day whatever the basis
//     of the study, and is discounted with the nominal after-tax rate. A real
//     study has to state general inflation. Real and nominal studies that are
//     converted exactly have the same tax ledger, line by line.
//   - The after-tax discount rate is stated, in the basis of the study, or
//     derived: nominal after tax = nominal before tax × (1 − tax rate). All
//     after-tax figures use it, and no other figure does.
//   - Costs before tax are those of the study's own ledger, evaluated at the
//     after-tax discount rate.
//   - A tax effect falls at the end of the year of the study that it belongs to,
//     under both timings. What is paid for running the roof in year t belongs to
//     year t. Work at whole year r begins the year after: it is deducted, placed
//     in service, torn off or credited in year r+1, as work at the base date is in
//     year 1. So a wait moves costs and their tax effects alike.
//   - The mid-month tables are read at the month of the base date.
//   - A deduction saves its amount times the tax rate in its year: losses are
//     taken to be used against other income.
//   - As in lcc, costs are positive and savings negative; each line is rounded
//     once, half away from zero, and totals are sums of rounded lines. The
//     deductions of a vintage add up to its basis to the cent: each year's is
//     rounded, and the last takes what is left.
//
// # Bibliography
//
//	[P946] IRS Publication 946, How To Depreciate Property, tables and
//	       A-7a, as reprinted in tax textbooks; the prints seen name no edition,
//	       and the percentages have not changed from edition to edition as far as
//	       remembered.
package tax
