package lcc

import "slices"

// Verdict is what a rule says of an alternative. The zero value is RuleOpen: a
// verdict that nobody gave is not a pass.
type Verdict uint8

// The verdicts.
const (
	RuleOpen    Verdict = iota // a finding is missing
	RulePasses                 // the findings keep the rule
	RuleFails                  // the findings break it
	RuleAdvises                // worth knowing; decides nothing
)

// Check is what one rule says of an alternative, from what was found on the
// roof. The arithmetic carries it and does not read it. Texts are lower case
// without a full stop.
type Check struct {
	Rule    string // key of the rule, stable
	Title   string // the rule as a sentence
	Verdict Verdict
	Text    string   // one sentence with the finding in it
	Source  string   // of the rule
	Mark    string   // how strong that source is
	From    []string // sources of the findings; may be empty
	Missing []Need   // of an open one and no other: at least one
}

// Need is a finding that is missing.
type Need struct {
	What string // the finding: "whether the deck is sound"
	Next string // how to find it out
	By   string // who usually does
}

// Against are the rulings of the rules that fail, as one; nil when none does.
func Against(checks []Check) *Ruling {
	var all []Ruling
	for _, c := range checks {
		if c.Verdict == RuleFails {
			all = append(all, Ruling{Rule: c.Title, Finding: c.Text, Source: c.Source})
		}
	}
	if len(all) == 0 {
		return nil
	}
	first := all[0]
	first.Further = all[1:]
	return &first
}

// Open lists the rules that lack a finding.
func (a Alternative) Open() []Check {
	var out []Check
	for _, c := range a.Checks {
		if c.Verdict == RuleOpen {
			out = append(out, c)
		}
	}
	return out
}

// Missing lists the findings that rules lack, each once. An alternative
// without them is not thereby allowed: nothing may have been asked.
func (a Alternative) Missing() []Need {
	var out []Need
	for _, c := range a.Open() {
		for _, n := range c.Missing {
			if !slices.Contains(out, n) {
				out = append(out, n)
			}
		}
	}
	return out
}
