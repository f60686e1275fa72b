package report

import (
	"fmt"
	"slices"
	"strings"

	"roofyears/lcc"
)

// judged tells whether rules were put to the study.
func (t *teller) judged() bool { return t.study.Deference != "" }

// missing are the findings that an alternative's rules lack, if nothing rules
// it out: for one that is, they change nothing.
func (t *teller) missing(i int) []lcc.Need {
	if a := t.Alternatives[i].Alternative; a.Eligible() {
		return a.Missing()
	}
	return nil
}

// unshown are the alternatives that are not ruled out, and of which findings
// are missing.
func (t *teller) unshown() []int {
	var out []int
	for _, i := range t.study.Eligible() {
		if len(t.missing(i)) > 0 {
			out = append(out, i)
		}
	}
	return out
}

// openText says how many findings are open: two findings are open.
func openText(n int) string {
	if n == 1 {
		return "one finding is open"
	}
	return counted(n, "finding") + " are open"
}

// unshownSentence warns that an alternative is not shown to be allowed; ""
// when nothing is known to be missing.
func (t *teller) unshownSentence(i int) string {
	n := len(t.missing(i))
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("“%s” is not yet shown to be allowed: %s.", t.name(i), openText(n))
}

// standsText says of an alternative whether it may be chosen, as it would if
// it were the lowest or not.
func (t *teller) standsText(i int, lowest bool) string {
	return standsOf(t.Alternatives[i].Alternative, len(t.missing(i)), lowest)
}

func standsOf(a *lcc.Alternative, missing int, lowest bool) string {
	if !a.Eligible() {
		return standsRuledOut
	}
	open := ""
	if missing > 0 {
		open = "open: " + Plural(missing, "finding")
	}
	switch {
	case lowest && open != "":
		return standsLowest + ", " + open
	case lowest:
		return standsLowest
	case open != "":
		return open
	}
	return standsEligible
}

// rulesSections say what may be done to this roof; none when no rule was put
// to it.
func (t *teller) rulesSections() []Section {
	if !t.judged() {
		return nil
	}
	s := Section{ID: "rules", Heading: t.rulesHeading(), Blocks: []Block{Paragraph{Role: Lead, Text: t.rulesLead()}}}
	if rules := t.rules(); len(rules) > 0 {
		for i, set := range t.columnSets() {
			s.Blocks = append(s.Blocks, t.verdictTable(setID("verdicts", i), rules, set))
		}
	}
	if len(t.unshown()) > 0 {
		s.Blocks = append(s.Blocks, t.openTable())
	}
	return []Section{s}
}

// rulesLead says what was judged, and who decides.
func (t *teller) rulesLead() string {
	return "Rules were put to each alternative from what was found on this roof, for the work that it starts with, as if it were done now. What follows later is judged when its time comes: findings age. " +
		upperFirst(t.study.Deference) + "."
}

// rules are the rules that speak of an alternative, each once. The rules of
// each alternative stand in one order, which is kept.
func (t *teller) rules() []lcc.Check {
	var out []lcc.Check
	for i := range t.Alternatives {
		at := 0
		for _, c := range t.Alternatives[i].Alternative.Checks {
			if place := ruleAmong(out, c.Rule); place >= 0 {
				at = place + 1
				continue
			}
			out = slices.Insert(out, at, c)
			at++
		}
	}
	return out
}

// ruleAmong is the place of a rule among checks; −1 when it is not there.
func ruleAmong(checks []lcc.Check, rule string) int {
	return slices.IndexFunc(checks, func(c lcc.Check) bool { return c.Rule == rule })
}

// verdictWords are those of tables.
var verdictWords = map[lcc.Verdict]string{
	lcc.RuleOpen: "open", lcc.RulePasses: "pass", lcc.RuleFails: "ruled out", lcc.RuleAdvises: "advice",
}

// verdictTable sets the rules against the alternatives.
func (t *teller) verdictTable(id string, rules []lcc.Check, set []int) Table {
	table := Table{ID: id, Caption: "What each rule says of each alternative; – where it does not speak of the work", PageOnly: true, Columns: []Column{words("Rule")}}
	for _, i := range set {
		column := words(t.name(i))
		column.Lowest = i == t.Answer.Lowest
		table.Columns = append(table.Columns, column)
	}
	for _, rule := range rules {
		row := Row{Cells: []Cell{text(upperFirst(rule.Title))}}
		for _, i := range set {
			checks := t.Alternatives[i].Alternative.Checks
			if at := ruleAmong(checks, rule.Rule); at >= 0 {
				row.Cells = append(row.Cells, text(verdictWords[checks[at].Verdict]))
			} else {
				row.Cells = append(row.Cells, state("–", ""))
			}
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// openTable lists what to find out, and for which alternatives.
func (t *teller) openTable() Table {
	table := Table{ID: "open", Caption: "What is not yet known, and how to find it out",
		Columns: []Column{words("Not yet known"), words("How to find it out"), words("Who usually does"), words("Open for")}}
	var needs []lcc.Need
	names := map[lcc.Need][]string{}
	for _, i := range t.unshown() {
		for _, n := range t.missing(i) {
			if names[n] == nil {
				needs = append(needs, n)
			}
			names[n] = append(names[n], "“"+t.name(i)+"”")
		}
	}
	for _, n := range needs {
		table.Rows = append(table.Rows, plainRow(text(upperFirst(n.What)), text(upperFirst(n.Next)), text(upperFirst(n.By)), text(listed(names[n]))))
	}
	return table
}

// ruleDetails hold every verdict with its sentence and sources, looked up
// rather than read; none when no rule speaks of an alternative.
func (t *teller) ruleDetails() []Section {
	if !t.judged() || len(t.rules()) == 0 {
		return nil
	}
	s := Section{ID: "rules-in-full", Heading: "Appendix " + t.rulesLetter() + ": what each rule found on this roof, and where it comes from", Appendix: true}
	for i := range t.Alternatives {
		if checks := t.Alternatives[i].Alternative.Checks; len(checks) > 0 {
			s.Blocks = append(s.Blocks, Fold{
				ID: fmt.Sprintf("rules-of-%d", i+1), Summary: fmt.Sprintf("“%s”: %s", t.name(i), tally(checks)),
				Blocks: []Block{t.checkTable(i)},
			})
		}
	}
	return []Section{s}
}

// tally counts verdicts: 1 ruled out, 2 open, 9 pass.
func tally(checks []lcc.Check) string {
	var out []string
	for _, v := range []lcc.Verdict{lcc.RuleFails, lcc.RuleOpen, lcc.RulePasses, lcc.RuleAdvises} {
		n := 0
		for _, c := range checks {
			if c.Verdict == v {
				n++
			}
		}
		if n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, verdictWords[v]))
		}
	}
	return strings.Join(out, ", ")
}

// checkTable lists what the rules say of one alternative.
func (t *teller) checkTable(i int) Table {
	table := Table{
		ID: fmt.Sprintf("checks-%d", i+1), Caption: fmt.Sprintf("“%s”: the rules that speak of its work", t.name(i)),
		Columns: []Column{{Head: "Verdict", Unbroken: true}, words("Rule"), words("What was found"), words("Source of the rule")},
	}
	for _, c := range t.Alternatives[i].Alternative.Checks {
		found := upperFirst(c.Text) + "."
		if len(c.From) > 0 {
			found += " From: " + strings.Join(c.From, "; ") + "."
		}
		source := upperFirst(c.Source)
		if c.Mark != "" {
			source += " (" + c.Mark + ")"
		}
		table.Rows = append(table.Rows, plainRow(text(verdictWords[c.Verdict]), text(upperFirst(c.Title)), text(found), text(source)))
	}
	return table
}

// rulesHeading is over what may be done to this roof.
func (t *teller) rulesHeading() string {
	var barred []int
	for i := range t.Alternatives {
		if !t.Alternatives[i].Alternative.Eligible() {
			barred = append(barred, i)
		}
	}
	unshown := t.unshown()
	switch {
	case len(barred) == len(t.Alternatives):
		return "Every alternative is ruled out on this roof"
	case len(barred) > 0 && len(unshown) > 0:
		return fmt.Sprintf("%s ruled out, and %s not yet shown to be allowed", upperFirst(t.subject(barred)), t.subject(unshown))
	case len(barred) > 0:
		return fmt.Sprintf("%s ruled out, and no finding is open on what is left", upperFirst(t.subject(barred)))
	case len(unshown) > 0:
		return fmt.Sprintf("%s not yet shown to be allowed", upperFirst(t.subject(unshown)))
	case len(t.rules()) == 0:
		return "No rule speaks of the work that is compared here"
	}
	return "No rule stands against an alternative, and no finding is open"
}

// subject names alternatives, or counts them where they are many, with the
// verb that follows.
func (t *teller) subject(alternatives []int) string {
	const most = 3
	if len(alternatives) > most {
		return counted(len(alternatives), "alternative") + " are"
	}
	var names []string
	for _, i := range alternatives {
		names = append(names, "“"+t.name(i)+"”")
	}
	if len(names) == 1 {
		return names[0] + " is"
	}
	return listed(names) + " are"
}
