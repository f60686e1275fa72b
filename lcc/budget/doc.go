// Package budget chooses under a budget: one option for each of many roofs, so
// that the sum of their life-cycle costs is least while the first costs of
// each budget year stay within its budget and the area worked on in each year
// within what crews can do. It knows no study and no file; its user makes
// options of the alternatives of a study, each started in some year.
//
// The problem is the multiple-choice knapsack with several limits ([Kellerer],
// chapters 9 and 11). In the general case no fast method is known that always
// finds and proves the best plan, so an answer says how far it got: optimal,
// or feasible with a bound that no plan can go below.
//
// # Conventions
//
//   - Costs and first costs are int64 in minor units of the currency, areas
//     int64 in one whole unit. Plans are added up and held against limits in
//     integers, without rounding.
//   - Costs of the life cycle are discounted, first costs are those of the
//     budget year as a treasurer sees them. Both are the caller's: nothing is
//     discounted here.
//   - A must-do bars options, a not-before bars those that start too early.
//   - Budgets of years are apart: money left over in one is not carried on.
//   - Multipliers are float64. Whatever they are, what follows from them is a
//     bound; it is lowered by more than rounding can have raised it
//     (relaxed.margin), and only then rounded up to a whole unit.
//   - The search ends after a counted effort and not by the clock, and products
//     are converted before they are added, so that no processor fuses the two.
//     The same problem has the same plan on every machine.
//
// # Method
//
//  1. Options that are barred, that break a limit by themselves or that
//     another one beats in every way are left out, and limits that no plan
//     could reach (model.go). If the least that a year needs exceeds its limit,
//     there is no plan (reason.go).
//  2. Limits are not kept but paid for at a price each, the multiplier: what
//     remains is to choose for each roof by itself, and its sum less the
//     priced limits is a bound ([Fisher]). The best multipliers give the bound
//     of the linear program in which roofs may be split between options
//     ([Geoffrion]), and are the worth of a unit of each limit. They are
//     approached by subgradient steps (relax.go, search.go), for many roofs
//     from the multipliers of a part of them (sketch.go).
//  3. The choice at good multipliers exceeds some limits; it is repaired by
//     the changes that lose least, filled up where limits leave room, and
//     improved by changes of one, two and three roofs (repair.go, fill.go,
//     improve.go).
//  4. Choices that would lift the bound to the cost of the best plan are left
//     out for good: reduced-cost fixing (search.narrow).
//  5. Repairs are tried again from multipliers that are moved at random, by
//     numbers that are the same everywhere (scatter.go).
//  6. The few roofs on which the relaxation is least sure are searched alone,
//     then all, by branch and bound: at each part of the tree steps 2 to 4 are
//     repeated with fewer steps (branch.go). If the tree is done before the
//     effort is spent, the plan is optimal. Otherwise the bound is the least
//     of the parts that are left.
//
// With an effort that suffices, a larger limit never makes the plan dearer,
// and an option less never makes it cheaper. For plans that are not proven
// optimal that holds of their bounds, and of costs up to the gap.
//
// # Bibliography
//
//	[Camerini]  P. M. Camerini, L. Fratta, F. Maffioli, "On improving
//	            relaxation methods by modified gradient techniques",
//	            Mathematical Programming Study 3, 1975. From memory.
//	[Fisher]    M. L. Fisher, "The Lagrangian relaxation method for solving
//	            integer programming problems", Management Science 27(1), 1981.
//	            From memory.
//	[Geoffrion] A. M. Geoffrion, "Lagrangean relaxation for integer
//	            programming", Mathematical Programming Study 2, 1974: where
//	            the relaxed problem has whole solutions of itself, its bound is
//	            that of the linear program. From memory; a test compares the
//	            two.
//	[Higham]    N. J. Higham, "Accuracy and Stability of Numerical Algorithms",
//	            2nd ed., SIAM, 2002, section 3.1: errors of sums. From memory;
//	            a test compares the margin with rational numbers.
//	[HWC]       M. Held, P. Wolfe, H. P. Crowder, "Validation of subgradient
//	            optimization", Mathematical Programming 6, 1974. From memory.
//	[Kellerer]  H. Kellerer, U. Pferschy, D. Pisinger, "Knapsack Problems",
//	            Springer, 2004; section 5.4 on cores, chapter 9 on several
//	            limits, chapter 11 on multiple choice. From memory.
//	[Polyak]    B. T. Polyak, "Minimization of unsmooth functionals", USSR
//	            Computational Mathematics and Mathematical Physics 9, 1969.
//	            From memory.
package budget
