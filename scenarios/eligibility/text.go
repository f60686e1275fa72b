package eligibility

import (
	"strings"

	"github.com/shopspring/decimal"
)

// This file writes every number and every list. The sentences of a rule stand
// beside its judgement: lower case, no full stop, the finding first.

// Deference is said once beside the verdicts, not in each.
const Deference = "local codes, the licensed designer and the authority having jurisdiction decide what may be done to this roof; these verdicts prepare that decision and do not replace it"

// percent writes a share: 33.9%.
func percent(share decimal.Decimal) string { return share.Shift(2).Round(1).String() + "%" }

// load writes a load per area: 2.8 psf, 0.1437 kN/m2.
func (u Units) load(d decimal.Decimal) string {
	if u == Metric {
		return d.Round(4).String() + " kN/m2"
	}
	return d.Round(2).String() + " psf"
}

// peel writes a force per width of strip: 2 lb per inch, 0.35 N/mm.
func (u Units) peel(d decimal.Decimal) string {
	if u == Metric {
		return d.Round(3).String() + " N/mm"
	}
	return d.Round(2).String() + " lb per inch"
}

// beside writes a value that is shown beside a limit. One that differs from it
// by less than its last digit is not shown as equal.
func beside(value, limit decimal.Decimal, write func(decimal.Decimal) string) string {
	text := write(value)
	switch {
	case text != write(limit) || value.Equal(limit):
		return text
	case value.GreaterThan(limit):
		return "just over " + text
	}
	return "just under " + text
}

// counted writes a number with its noun: 1 covering, 2 coverings.
func counted(n int, noun string) string {
	text := decimal.NewFromInt(int64(n)).String() + " " + noun
	if n == 1 {
		return text
	}
	return text + "s"
}

// are is the verb that follows a number.
func are(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// joined puts clauses together.
func joined(clauses []string) string { return strings.Join(clauses, "; ") }

// listed writes "a, b and c".
func listed(items []string) string {
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	last := len(items) - 1
	return strings.Join(items[:last], ", ") + " and " + items[last]
}

// notKnown says what is missing.
func notKnown(needs []Need) string {
	what := make([]string, len(needs))
	for i, n := range needs {
		what[i] = n.What
	}
	return "not yet known: " + listed(what)
}

// otherWork says that a rule does not speak of a work.
func otherWork(r Rule, w Work) string {
	names := make([]string, len(r.Works))
	for i, of := range r.Works {
		names[i] = workNames[of]
	}
	return "this rule speaks of " + listed(names) + ", not of " + workNames[w]
}
