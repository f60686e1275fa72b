package budget

// State says what is known of the answer.
type State int

const (
	// Optimal: the plan is proven to be a cheapest one; cost and bound agree.
	Optimal State = iota
	// Feasible: the plan keeps every limit; a cheaper one may exist, but none
	// below the bound.
	Feasible
	// Infeasible: it is proven that no plan keeps the limits; see
	// [Answer.Reason].
	Infeasible
	// Undecided: no plan was found with the effort allowed, and none was
	// proven impossible. The bound holds for any plan there may be.
	Undecided
)

// String names the state in lower case.
func (s State) String() string {
	return [...]string{"optimal", "feasible", "infeasible", "undecided"}[s]
}

// Kind is what a limit counts.
type Kind int

const (
	Money Kind = iota // first cost, in minor units
	Crew              // area, in the unit of the problem
)

// String is "first cost" or "area".
func (k Kind) String() string { return [...]string{"first cost", "area"}[k] }

// Answer is the plan and what is proven of it.
type Answer struct {
	State State
	// Plan has the chosen option of each roof, as its place in the roof's
	// list. Nil unless the state is Optimal or Feasible.
	Plan []int
	// Cost is the sum of life-cycle costs of the plan, in minor units. 0
	// without a plan.
	Cost int64
	// Bound is proven: no plan that keeps the limits costs less. It is
	// rounded up to a whole unit only where that is safe. 0 if infeasible.
	Bound int64
	// Unlimited is the cost of the cheapest options that are not barred, if
	// there were no limits. 0 if some roof has no such option.
	Unlimited int64
	// Years has the limits of the problem that are set, budgets first, each
	// in the order of years.
	Years []Year
	// Reason is why no plan exists; it is set only if infeasible.
	Reason Reason
}

// Year is a limit and what the plan makes of it.
type Year struct {
	Kind Kind
	Year int   // place in the list of limits, from 0
	Most int64 // the limit
	Used int64 // what the plan uses; 0 without a plan
	// Worth is by how much the bound falls with one more unit of the limit:
	// minor units of life-cycle cost for a minor unit of budget, or for a unit
	// of area. It holds for small changes and for the relaxed problem, which
	// may split some roofs between options; the cost of whole plans
	// moves in steps around it, and an option that a limit rules out by itself
	// is not counted on. 0 where the limit does not bind, and without a plan.
	// Where several sets of worths fit, it is one of them.
	Worth float64
}

// HasPlan tells whether there is a plan.
func (a Answer) HasPlan() bool { return a.State == Optimal || a.State == Feasible }

// LimitsCost is what the limits cost: the plan's cost less that of the
// cheapest options without limits, in minor units; never negative. False
// without a plan.
func (a Answer) LimitsCost() (int64, bool) { return a.Cost - a.Unlimited, a.HasPlan() }

// Gap is by how much the plan may at most be dearer than a cheapest one, in
// minor units, 0 when optimal. False without a plan.
func (a Answer) Gap() (int64, bool) { return a.Cost - a.Bound, a.HasPlan() }

// GapShare is the gap as a fraction of the bound's size. False without a plan,
// or with a gap above a bound of 0.
func (a Answer) GapShare() (float64, bool) {
	gap, ok := a.Gap()
	switch {
	case !ok, gap != 0 && a.Bound == 0:
		return 0, false
	case gap == 0:
		return 0, true
	}
	return float64(gap) / float64(max(a.Bound, -a.Bound)), true
}

// Cause is a kind of reason why no plan exists.
type Cause int

const (
	// NoCause: a plan exists, or it is not known that none does.
	NoCause Cause = iota
	// NoOption: every option of a roof is barred, or it has none.
	NoOption
	// YearShort: a year's limit is exceeded even if each roof takes the
	// option that uses least of that year.
	YearShort
	// RoofTooLarge: each option of one roof that is not barred exceeds the
	// limit of some year by itself.
	RoofTooLarge
	// YearsTogether: each year could be kept alone, but not all of the named
	// ones at once.
	YearsTogether
)

// Reason is the proof that no plan exists, as far as it can be told.
type Reason struct {
	Cause Cause
	// Roof is the roof of NoOption and RoofTooLarge. For
	// other causes it means nothing.
	Roof int
	// Years are the limits concerned, as places in [Answer.Years]: one for
	// YearShort, those that are exceeded for RoofTooLarge, those that cannot
	// be kept together for YearsTogether; other limits play no part.
	Years []int
	// Needed is the least that YearShort's year would have to hold, in units
	// of its limit; 0 for other causes.
	Needed int64
}
