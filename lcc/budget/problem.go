package budget

// Problem asks for one option of each roof so that the sum of their life-cycle
// costs is least and no limit of a year is exceeded.
type Problem struct {
	// Roofs are the roofs to decide on. Without any, the plan is empty and
	// costs nothing.
	Roofs []Roof
	// Budgets limit the first costs of each budget year, in minor units of the
	// currency. The year is the place in the list, from 0; a year beyond its
	// end has no limit.
	Budgets []Limit
	// Crews limit the area worked on in each year, in the unit of
	// [Option.Area]; places as in Budgets.
	Crews []Limit
	// Effort ends the search: how many entries (an option's use of a year) it
	// may look at. It is counted and not timed, so that the plan is the same
	// on every machine. Zero means [DefaultEffort]; it may not be negative.
	// However small it is, the bound stays proven.
	Effort int64
}

// DefaultEffort is the effort of a search that names none: about a second on
// one core of 2025, a few where roofs are tens of thousands.
const DefaultEffort = 100_000_000

// Limit is what a year may hold at most. The zero value is no limit.
type Limit struct {
	Set  bool  // whether there is a limit
	Most int64 // the limit, 0 or more, read only if it is set
}

// AtMost is a limit that is set.
func AtMost(most int64) Limit { return Limit{Set: true, Most: most} }

// Roof has the options between which one must be chosen. Doing nothing now is
// an option like others, with its own life-cycle cost.
type Roof struct {
	Name    string // for messages, may be empty
	Options []Option
}

// Option is an alternative of a roof, started in some year.
type Option struct {
	// Cost is the life-cycle cost over the study, in minor units; a credit is
	// negative.
	Cost int64
	// FirstCost is what the option takes from the budget of each year, in
	// minor units, none negative. Years beyond the end of the list are 0.
	FirstCost []int64
	// Area is what is worked on in each year, in any one whole unit, none
	// negative.
	Area []int64
	// Barred takes the option out of the choice. A must-do bars the options
	// that leave it undone, a not-before those that start too early.
	Barred bool
}
