package tax

import "github.com/shopspring/decimal"

// Terms are what the owner states about income tax.
type Terms struct {
	Rate      TaxRate
	AfterTax  *decimal.Decimal // after-tax discount rate in the basis of the study; nil: derived
	Treatment []Treatment      // lcc.Item.Tax counts them from 1
	TornOff   Fate             // of basis that is left when a roof is torn off
	TearOffs  []int            // systems whose installation takes off all that is on the roof; none unless TornOff is WrittenOff
	AtEnd     Fate             // of basis that is left when the study ends
	Residual  bool             // residual value is taxed, less the basis that is written off at the end
	Existing  *Existing        // nil: none is stated
	Limit     decimal.Decimal  // of what is deducted at once in a year, in money of that year; 0 or more
	Credits   []Credit
	Source    string // "" when none is given
}

// TaxRate is a rate of income tax as it was stated.
type TaxRate struct {
	All            decimal.Decimal // of all income taxes together: a fraction, 0 or more and less than 1
	Split          bool            // All follows from what is below
	Federal, State decimal.Decimal // fractions like All; 0 and without meaning unless Split
	StateDeducted  bool            // state tax lessens what federal tax is paid on
}

// Combined is the rate of two income taxes: federal + state, less federal ×
// state where the state tax is deducted from what federal tax is paid on.
func Combined(federal, state decimal.Decimal, deducted bool) TaxRate {
	all := federal.Add(state)
	if deducted {
		all = all.Sub(federal.Mul(state))
	}
	return TaxRate{All: all, Split: true, Federal: federal, State: state, StateDeducted: deducted}
}

// Way says how a cost lessens taxable income.
type Way uint8

// The ways.
const (
	NotDeducted Way = iota // never
	Expensed               // whole, in its year
	Depreciated            // over years, by a schedule
)

// Treatment is what the owner's adviser says of a cost.
type Treatment struct {
	Way    Way
	AtOnce bool     // depreciated costs only: first whole, up to the limit of the year, and the rest by the schedule
	By     Schedule // depreciated costs only
}

// Fate says what becomes of basis that is not yet deducted.
type Fate uint8

// The fates of basis.
const (
	NotStated  Fate = iota // nothing is depreciated, so it makes no difference
	Kept                   // goes on being deducted as before, after the study too
	WrittenOff             // deducted whole
)

var fateNames = [...]string{"", "kept", "written_off"}

// String gives the name used in study files and answers; "" when none is stated.
func (f Fate) String() string { return fateNames[f] }

// Existing is the basis that is left of the roof that is there. It is deducted
// in equal amounts over the years left.
type Existing struct {
	Basis  decimal.Decimal // at the base date; greater than 0
	Years  int             // 1 or more
	Source string          // "" when none is given
}

// Credit is a tax credit or a rebate for installing a system. It is in no
// ledger before tax.
type Credit struct {
	Name    string
	System  int             // index in lcc.Study.Systems
	Amount  decimal.Decimal // money of the day in which it is received; greater than 0
	Until   int             // the last year in which an installation earns it
	Reduces decimal.Decimal // share of the amount by which the basis is less; 0 to 1
	Taxed   bool            // it is income
	Source  string          // "" when none is given
}
