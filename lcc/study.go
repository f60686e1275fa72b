package lcc

import "github.com/shopspring/decimal"

// Basis says whether rates and amounts include general inflation.
type Basis uint8

// The two bases; a study uses one throughout.
const (
	Real    Basis = iota // constant money of the base date
	Nominal              // current money
)

// String gives the name used in study files.
func (b Basis) String() string { return [...]string{"real", "nominal"}[b] }

// Timing says when in a year annual and periodic costs fall.
type Timing uint8

// The timings. First costs, interventions and the residual value fall at
// whole years under both.
const (
	EndOfYear Timing = iota // costs of year t at time t
	MidYear                 // annual and periodic costs of year t at t − ½
)

// String gives the name used in study files.
func (t Timing) String() string { return [...]string{"end-of-year", "mid-year"}[t] }

// About is what a study says of itself. The arithmetic carries it and does
// not read it, but for Digits.
type About struct {
	Title       string
	PreparedFor string // "" when not given
	PreparedBy  string // "" when not given
	BaseDate    string // ISO 8601, YYYY-MM-DD
	PreparedOn  string // the same; "" when not given
	ValidUntil  string // up to when its prices hold, the same; "" when not given
	Currency    string // ISO 4217
	Digits      int32  // digits of the currency's minor unit: 2 for cents, 0 for none
	AreaUnit    string // ft2 or m2
}

// Study is a structure plus its inputs. It is not changed by evaluation, so
// it may be read from several goroutines.
type Study struct {
	About        About
	Period       int // study period N in whole years, 1 to MaxPeriod
	Timing       Timing
	Basis        Basis
	Rate         Ref // discount rate
	Inflation    Ref // general inflation; NoRef when not given (real basis only)
	Escalation   [NumCategories]Series
	Area         Ref // plan area of the roof
	Inputs       []Input
	Derived      []Derivation // in such an order that each uses earlier ones only
	Systems      []System
	Alternatives []Alternative
	Deference    string // who decides in place of the rules, said once beside them; "" when no rule was put to the study
}

// MaxPeriod is the longest study period in years.
const MaxPeriod = 200

// Series is an escalation: no entry (the basis's zero: 0 when real, general
// inflation when nominal), one rate for all years, or one rate for each year.
type Series []Ref

// Work says what kind of work brings a system onto the roof. It serves the
// wording and the warnings only; no figure depends on it.
type Work uint8

// The kinds of work a report can speak of.
const (
	WorkOther Work = iota
	WorkExisting
	WorkRestore
	WorkRecover
	WorkTearOff
)

// System is one roof, or one treatment of a roof, with a service life.
type System struct {
	Key, Name string
	Work      Work
	InPlace   bool // stands at time 0 without first costs
	Life      Ref  // service life (years left, when in place); greater than 0
	First     []Item
	Annual    []Item
	Periodic  []Item
	Removal   []Item     // paid when the next system is installed
	Recoat    *Recoating // nil when it is not recoated
	Residual  Residual
	Then      int // index of the system that follows; its own index when replaced by itself
}

// Recoating renews a system in place.
type Recoating struct {
	AtMost int // how many, 1 or more
	Life   Ref // service life that each one gives; greater than 0
	Costs  []Item
}

// Item is one cost. What it costs at base-date prices is Price × the quantity
// (or Price alone), times (1+Growth)^(k−1) in year k of its age.
type Item struct {
	Name     string
	Source   string // "" when the file gives none
	Category Category
	Price    Ref  // amount, or unit price when Quantity is given
	Quantity Ref  // NoRef: Price is the whole amount
	Growth   Ref  // ageing rate a year, annual and periodic costs only; NoRef is none
	Every    int  // periodic costs: years between two, 1 or more; else 0
	KeepsAge bool // ageing goes on through recoats; false: a recoat restarts it
	Tax      int  // which tax treatment it has, from 1, for lcc/tax; 0 is none. No figure of lcc depends on it
}

// ResidualMode says how a system's value at the end of the study is found.
type ResidualMode uint8

// The residual value modes.
const (
	Prorated    ResidualMode = iota // unused share of life × construction items of the renewal in place
	NoResidual                      // zero
	FixedAmount                     // a stated amount, escalated as construction to the end
)

// Residual is a system's residual value at the end of the study period.
type Residual struct {
	Mode   ResidualMode
	Amount Ref // FixedAmount only, at base-date prices
}

// Alternative is one choice for the roof: a chain of systems.
type Alternative struct {
	Name     string
	Start    int   // index of the first system, or of the awaited one
	Wait     *Wait // nil: at once
	BaseCase bool
	RuledOut *Ruling // nil: eligible as far as the study says
	Checks   []Check // what rules say of the work it starts with; none when the study states no findings
}

// Wait keeps another system for a while before an alternative starts.
type Wait struct {
	On    int // index of the system kept meanwhile
	Years int // 0 or more, less than the study period
}

// Ruling says why an alternative may not be chosen.
type Ruling struct {
	Rule    string   // what rules it out
	Finding string   // what was found on this roof
	Source  string   // "" when none is given
	Further []Ruling // what rules it out besides, without further ones of their own
}

// Eligible tells whether nothing in the study rules the alternative out.
func (a Alternative) Eligible() bool { return a.RuledOut == nil }

// Eligible lists the alternatives that nothing in the study rules out, in their
// order; none when all are ruled out.
func (s *Study) Eligible() []int {
	var out []int
	for i, a := range s.Alternatives {
		if a.Eligible() {
			out = append(out, i)
		}
	}
	return out
}

// Likely is the vector of the plain study.
func (s *Study) Likely() Vector {
	v := make(Vector, len(s.Inputs))
	for i := range s.Inputs {
		v[i] = s.Inputs[i].Likely
	}
	if s.derive(v) != nil {
		return v // EvaluateAt tells why
	}
	return v
}

// Find gives the place of an input by its path; NoRef when there is none.
// It is for the edges of the program, never for an evaluation.
func (s *Study) Find(path string) Ref {
	for i := range s.Inputs {
		if s.Inputs[i].Path == path {
			return Ref(i)
		}
	}
	return NoRef
}

// Add puts an input into the study and gives its place.
func (s *Study) Add(in Input) Ref {
	s.Inputs = append(s.Inputs, in)
	return Ref(len(s.Inputs) - 1)
}

// BaseCase is the index of the base case; −1 when the study has none.
func (s *Study) BaseCase() int {
	for i, a := range s.Alternatives {
		if a.BaseCase {
			return i
		}
	}
	return -1
}

// Warning tells of something legal but suspicious. It is part of a result.
type Warning struct {
	About string // path or subject
	Text  string
}

var one = decimal.NewFromInt(1)
