package report

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// answerSection puts the question and the answer, with what qualifies it.
func (t *roofsTeller) answerSection() Section {
	s := answered(t.question(), t.answerSentences())
	if remarks := t.remarks(); len(remarks) > 0 {
		s.Blocks = append(s.Blocks, List{Role: Remark, Items: remarks})
	}
	return s
}

func (t *roofsTeller) question() string {
	if len(t.Rows) == 1 {
		return "Which choice for the roof costs the owner least?"
	}
	return "Which choice for each roof costs the owner least, and which roofs come first?"
}

// answerSentences are the answer: what the lowest alternatives come to
// together, which they are, and how sure that is.
func (t *roofsTeller) answerSentences() []string {
	stand := t.standings()
	switch chosen := len(t.Rows) - stand[nothingToDo]; {
	case len(t.Rows) == 0:
		return []string{"No roof could be done, so there is no answer to give."}
	case chosen == 0:
		return []string{"On no roof may any alternative be chosen: each one is ruled out, so there is no answer to give. The figures are shown for information only."}
	}
	out := []string{t.lowestSentence(), t.lowestOfSentence()}
	if t.Plan != nil {
		out = append(out, t.planHeading()+".")
	}
	return append(out, t.tieSentences()...)
}

// lowestSentence says what each roof's lowest alternative comes to, and what
// that saves.
func (t *roofsTeller) lowestSentence() string {
	l, stand := &t.Totals.Lowest, t.standings()
	lead := "Together, the roofs’ lowest alternatives have"
	if len(t.Rows) == 1 {
		lead = fmt.Sprintf("“%s” has", t.name(t.Rows[0], t.Rows[0].Answer.Lowest))
	}
	text := fmt.Sprintf("%s a first cost of %s and a life-cycle cost of %s %s",
		lead, t.cur.Amount(t.sum(&l.First)), t.cur.Amount(t.sum(&l.LCC)), t.termsOf())
	switch compared := stand[savesSomething] + stand[keepsBase]; {
	case compared == 0:
		return text + ". There is no base case to save against."
	case len(t.Rows) == 1 && stand[keepsBase] == 1:
		return text + ". It is the base case."
	case len(t.Rows) == 1:
		return text + ": " + t.against(&l.Saved) + " " + t.baseText() + "."
	case stand[withoutBase] > 0 && compared == 1:
		return text + fmt.Sprintf(". On the one roof that has a base case, that is %s it.", t.against(&l.Saved))
	case stand[withoutBase] > 0:
		return text + fmt.Sprintf(". On the %s that have a base case, that is %s it.", Plural(compared, "roof"), t.against(&l.Saved))
	}
	base := t.baseText()
	if base != baseCaseText {
		base += "," // after the name
	}
	return text + fmt.Sprintf(": %s %s on every roof.", t.against(&l.Saved), base)
}

// against says by how much something costs less than what follows.
func (t *roofsTeller) against(saved *MinorSum) string {
	switch t.sum(saved).Sign() {
	case 0:
		return "as much as"
	case -1:
		return t.cur.Amount(t.sum(saved).Neg()) + " more than"
	}
	return t.cur.Amount(t.sum(saved)) + " less than"
}

// baseCaseText is a base case without a name.
const baseCaseText = "the base case"

// baseText names the base case, where it has one name on all templates.
func (t *roofsTeller) baseText() string {
	name := ""
	for i, study := range t.Roofs.studies {
		base := t.Roofs.bases[i]
		if base < 0 {
			return baseCaseText
		}
		own := study.Alternatives[base].Name
		if i > 0 && own != name {
			return baseCaseText
		}
		name = own
	}
	return fmt.Sprintf("%s, “%s”", baseCaseText, name)
}

// wins are alternatives that are lowest somewhere, the most frequent first.
func (t *roofsTeller) wins() []int {
	var out []int
	for i := range t.Totals.Alternatives {
		if t.Totals.Alternatives[i].Lowest > 0 {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Compare(t.Totals.Alternatives[b].Lowest, t.Totals.Alternatives[a].Lowest)
	})
	return out
}

// lowestOfSentence says how many roofs each alternative is the lowest of.
func (t *roofsTeller) lowestOfSentence() string {
	if len(t.Rows) == 1 {
		return "The table has one roof, so that there is nothing to rank."
	}
	var parts []string
	for n, i := range t.wins() {
		part := fmt.Sprintf("“%s” on %s", t.Roofs.alternatives[i], few(t.Totals.Alternatives[i].Lowest))
		if n == 0 {
			part = fmt.Sprintf("“%s” has the lowest life-cycle cost on %s", t.Roofs.alternatives[i], counted(t.Totals.Alternatives[i].Lowest, "roof"))
		}
		parts = append(parts, part)
	}
	return listed(parts) + "."
}

// tieSentences qualify the answer: ties, and what is not shown to be allowed.
func (t *roofsTeller) tieSentences() []string {
	var out []string
	if n := t.count(func(r *rankedRoof) bool { return r.Answer.Tie }); n > 0 {
		out = append(out, fmt.Sprintf("On %s the lowest and the next best alternative tie for practical purposes: they are less than %s of the life-cycle cost apart.",
			counted(n, "roof"), Percent(lcc.TieShare, 1)))
	}
	if n := t.count(func(r *rankedRoof) bool { return t.openFindings(r.Roof) > 0 }); n > 0 {
		out = append(out, fmt.Sprintf("On %s the lowest alternative is not yet shown to be allowed: findings are open.", counted(n, "roof")))
	}
	return out
}

// openFindings counts what is not known that rules ask of the lowest
// alternative.
func (t *roofsTeller) openFindings(r *Roof) int {
	if r.Answer.Lowest < 0 {
		return 0
	}
	a := &r.Study.Alternatives[r.Answer.Lowest]
	if len(a.Checks) == 0 {
		return 0
	}
	return len(a.Missing())
}

// remarks tell what is in no sum, and what looks like a slip.
func (t *roofsTeller) remarks() []string {
	var out []string
	if n := t.Totals.None; n > 0 && n < len(t.Rows) {
		each := "it is"
		if n > 1 {
			each = "they are"
		}
		out = append(out, fmt.Sprintf("On %s every alternative is ruled out: %s in no sum of each roof’s lowest alternative.", counted(n, "roof"), each))
	}
	if n := t.Rejected; n > 0 {
		each := "it is"
		if n > 1 {
			each = "they are"
		}
		out = append(out, fmt.Sprintf("%s of “%s” could not be done: %s in no figure of this page.", upperFirst(counted(n, "row")), t.Table, each))
	}
	for _, far := range t.Far {
		out = append(out, oneLine(far.Line())+".")
	}
	return out
}

// totalsHeading is over what each alternative comes to on all roofs.
func (t *roofsTeller) totalsHeading() string {
	wins := t.wins()
	switch {
	case len(t.Rows) == 0:
		return "There is nothing to add up"
	case len(wins) == 0:
		return "No alternative may be chosen on any roof"
	case len(t.Rows) == 1:
		return "What each alternative costs on this roof"
	}
	most := t.Totals.Alternatives[wins[0]].Lowest
	var names []string
	for _, i := range wins {
		if t.Totals.Alternatives[i].Lowest == most {
			names = append(names, "“"+t.Roofs.alternatives[i]+"”")
		}
	}
	switch {
	case most == len(t.Rows):
		return fmt.Sprintf("%s is the lowest on %s", names[0], allOf(most, "roof"))
	case len(names) == 1:
		return fmt.Sprintf("%s is the lowest on %s of %s", names[0], few(most), counted(len(t.Rows), "roof"))
	}
	return fmt.Sprintf("%s are each the lowest on %s of %s", listed(names), few(most), counted(len(t.Rows), "roof"))
}

func (t *roofsTeller) totalsSection() Section {
	s := Section{ID: "totals", Heading: t.totalsHeading()}
	if len(t.Rows) == 0 {
		return s
	}
	s.Blocks = append(s.Blocks, Paragraph{Role: Lead,
		Text: "Life-cycle costs are present values: what is paid later counts for less, and what is left of a roof at the end is deducted. Lower is better. Each sum is that of the roofs’ own figures; an alternative’s sum is over all roofs that have it, also those on which it is ruled out."}, t.totalsTable())
	return s
}

// totalsTable has a row for each alternative, and one for each roof's lowest.
func (t *roofsTeller) totalsTable() Table {
	table := Table{
		ID: "roof-totals", Caption: fmt.Sprintf("%s, %s; %s", t.study.About.Currency, t.termsOf(), moneyText(t.study.Basis)),
		Columns: []Column{words("Alternative"), number("Roofs"), number("Lowest on"), number("First cost"), number(lccLabel), number(savingsLabel)},
	}
	row := func(role RowRole, name string, a *RoofTotal, lowest int, saved Cell) {
		table.Rows = append(table.Rows, Row{role, []Cell{
			text(name), count(a.Count), count(lowest), money(t.sum(&a.First)), money(t.sum(&a.LCC)), saved,
		}})
	}
	for i := range t.Totals.Alternatives {
		a := &t.Totals.Alternatives[i]
		saved := money(t.sum(&a.Saved))
		if !t.Roofs.Saves(i) {
			saved = t.noSavings(i)
		}
		row(Body, t.Roofs.alternatives[i], a, a.Lowest, saved)
	}
	l := &t.Totals.Lowest
	saved := money(t.sum(&l.Saved))
	if stand := t.standings(); stand[savesSomething]+stand[keepsBase] == 0 {
		saved = state("–", "")
	}
	row(Total, "Each roof’s lowest", l, l.Count, saved)
	return table
}

// noSavings says why an alternative has no net savings on any template.
func (t *roofsTeller) noSavings(i int) Cell {
	for s, places := range t.Roofs.places {
		if base := t.Roofs.bases[s]; base >= 0 && places[base] == i {
			return state(isBaseCase, "")
		}
	}
	return state("–", "")
}

func count(n int) Cell { return Cell{Kind: CountCell, Number: decimal.NewFromInt(int64(n))} }
