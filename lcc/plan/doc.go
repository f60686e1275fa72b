// Package plan chooses, for each of many roofs, an alternative and the year in
// which it starts, so that the life-cycle cost of all together is least while
// each year's works stay within a budget and within what crews can do.
//
//	t, err := plan.NewTemplate(study, 5)      // years 0 to 4
//	p, err := t.Pricer(refs)                  // one for each goroutine
//	roof, err := p.Roof(values, given, rules) // options of one roof
//	a, err := plan.Choose(roofs, 5, limits)   // one option for each roof
//
// # Conventions
//
//   - Year t of a plan is time t of the ledger: year 0 is the base date.
//   - An alternative that is put off is the study's own with a wait on the roof
//     that the base case starts with; what waiting costs is what a wait costs.
//     One that has a wait of its own, but of 0 years on that roof, or starts
//     with a roof that is in place already, is not put off.
//   - An option takes from the money of a year what installations, recoats and
//     removals cost in it, also those that an old roof forces: the amounts of
//     its ledger, escalated and not discounted, so money of the base date in a
//     real study and money of the day in a nominal one. A credit lowers what
//     the option takes of the same year, not below nothing. Annual and periodic
//     costs are no matter of that budget.
//   - An option takes the roof's plan area from the crews of each year in which
//     something is installed or recoated.
//   - Life-cycle costs and money are int64 in minor units of the currency, as
//     the ledger has them; areas are int64 in hundredths of the area unit, each
//     roof's rounded once. Sums foot.
//
// What is chosen, and what is proven of it, is the work of lcc/budget.
package plan
