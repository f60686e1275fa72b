package plan

import "fmt"

// Rules bind one roof. The zero value binds nothing.
type Rules struct {
	// MustDo is the last year in which a work may start; the base case, and
	// whatever else starts no work, may then not be chosen. A year of the plan.
	MustDo Optional
	// NotBefore is the first year in which a work may start, 0 or more. What an
	// old roof forces by itself is no start.
	NotBefore int
	// Only is the one alternative that may be chosen: its index in the study.
	Only Optional
}

// Optional is a whole number that may be missing. The zero value is.
type Optional struct {
	Set bool
	Is  int
}

// Just is a number that is there.
func Just(n int) Optional { return Optional{Set: true, Is: n} }

// check refuses rules that cannot be meant.
func (r Rules) check(years, alternatives int) error {
	switch {
	case r.MustDo.Set && (r.MustDo.Is < 0 || r.MustDo.Is >= years):
		return fmt.Errorf("a work must be done by year %d, outside 0 to %d, the years of the plan", r.MustDo.Is, years-1)
	case r.NotBefore < 0:
		return fmt.Errorf("no work may start before year %d, expected 0 or more", r.NotBefore)
	case r.Only.Set && (r.Only.Is < 0 || r.Only.Is >= alternatives):
		return fmt.Errorf("there is no alternative %d to be the only one", r.Only.Is)
	}
	return nil
}

// Bar says why an option may not be chosen.
type Bar uint8

// The bars, in the order in which they are looked at.
const (
	Free      Bar = iota // it may be chosen
	RuledOut             // the study rules the alternative out
	NotTheOne            // another alternative is the only one allowed
	TooEarly             // it starts before the roof's works may
	TooLate              // it starts after the roof's work must, or starts none
)

// bar tells what the rules, and the study, say of a start.
func (r Rules) bar(s Start, eligible bool) Bar {
	switch {
	case !eligible:
		return RuledOut
	case r.Only.Set && s.Alternative != r.Only.Is:
		return NotTheOne
	case s.Year != NoWork && s.Year < r.NotBefore:
		return TooEarly
	case r.MustDo.Set && (s.Year == NoWork || s.Year > r.MustDo.Is):
		return TooLate
	}
	return Free
}
