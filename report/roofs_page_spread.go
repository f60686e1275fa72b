package report

import (
	"fmt"
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc/risk"
)

// clearChance is the chance from which on an answer is called clear: 19 of 20.
const clearChance = 0.95

// spreadSections say how sure the answers are: of each roof, and of all
// together. There are none without a simulation.
func (t *roofsTeller) spreadSections() []Section {
	if !t.Roofs.chances || len(t.Rows) == 0 {
		return nil
	}
	s := Section{ID: "how-sure", Heading: t.spreadHeading()}
	s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: t.sureText()})
	if t.Risk == nil {
		s.Blocks = append(s.Blocks, Paragraph{Text: "The roofs of several templates do not share their futures, so nothing is said of all together."})
		return []Section{s}
	}
	s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: t.futuresText()}, t.spreadTable(),
		Paragraph{Text: fmt.Sprintf("Amounts of a simulation are rounded to whole units of the currency. “%s” keeps to the choice that the likely values make; nobody knows beforehand which one will turn out to be the cheapest.", eachLowest)})
	return []Section{s}
}

// eachLowest is what the roofs' lowest alternatives are called together.
const eachLowest = "Each roof’s lowest"

// sure counts the roofs whose lowest alternative is the cheapest in nearly all
// futures, in most, and in half or fewer.
func (t *roofsTeller) sure() (clear, most, fewer int) {
	for _, r := range t.Rows {
		if r.Answer.Lowest < 0 || r.Chances == nil {
			continue
		}
		switch p := r.Chances[r.Answer.Lowest]; {
		case p >= clearChance:
			clear++
		case p > 0.5:
			most++
		default:
			fewer++
		}
	}
	return clear, most, fewer
}

// spreadHeading tells how many answers are clear.
func (t *roofsTeller) spreadHeading() string {
	clear, most, fewer := t.sure()
	switch n := clear + most + fewer; {
	case n == 0:
		return "No roof has an answer to be sure of"
	case clear == n:
		return "The answer is clear for " + allOf(n, "roof")
	case n == 1:
		return "The answer is not clear for the roof"
	case clear == 0:
		return "The answer is clear for none of " + counted(n, "roof")
	default:
		return fmt.Sprintf("The answer is clear for %s of %s", few(clear), counted(n, "roof"))
	}
}

// sureText says how sure the roofs' answers are.
func (t *roofsTeller) sureText() string {
	clear, most, fewer := t.sure()
	all, futures := clear+most+fewer, " of the simulated futures"
	if all == 0 {
		return "No roof has a lowest alternative, so none has a chance to be the cheapest."
	}
	limit := Percent(decimal.NewFromFloat(clearChance), 0)
	var parts []string
	add := func(n int, how string) {
		who := few(n)
		if len(parts) == 0 {
			how, who = fmt.Sprintf(how, futures), counted(n, "roof")
		} else {
			how = fmt.Sprintf(how, " of them")
		}
		if n == all {
			who = allOf(n, "roof")
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%s for %s", how, who))
		}
	}
	add(clear, "in at least "+strings.ReplaceAll(limit, "%", "%%")+"%s")
	middle := "in more than half%s"
	if clear == 0 {
		middle += ", though not in " + strings.ReplaceAll(limit, "%", "%%") + " of them,"
	}
	add(most, middle)
	add(fewer, "in half%s or fewer")
	text := "The lowest alternative at likely values is also the cheapest " + strings.Join(parts, "; ")
	switch {
	case fewer == 1:
		text += ": look at that one again before signing"
	case fewer > 1:
		text += ": look at those again before signing"
	}
	text += ". The chance of each roof stands in the table of all roofs."
	if t.Risk != nil && t.Risk.Trials < fewTrials {
		text += littleTold
	}
	return text
}

// futuresText says what is drawn.
func (t *roofsTeller) futuresText() string {
	text := fmt.Sprintf("What all may cost together, over %s, seed %d: ", Plural(t.Risk.Trials, "future"), t.Risk.Seed)
	common := fmt.Sprintf("in each of them all roofs have the draws of %s in common (rates and prices)", counted(len(t.Risk.Common), "uncertain input"))
	local := fmt.Sprintf("draws %s for itself, such as lives and quantities. So bad luck with one roof is made up by good luck with another", counted(len(t.Risk.Local), "uncertain input"))
	switch {
	case len(t.Risk.Common)+len(t.Risk.Local) == 0:
		return text + "nothing in them is uncertain."
	case len(t.Risk.Local) == 0:
		return text + common + ", and nothing is drawn for each by itself."
	case len(t.Risk.Common) == 0:
		return text + "each roof " + local + "."
	}
	return text + common + ", and each " + local + ", while a rate meets all of them."
}

// spreadTable has what all roofs may cost together.
func (t *roofsTeller) spreadTable() Table {
	table := Table{ID: "spread", Caption: fmt.Sprintf("Life-cycle cost of %s together, %s", Plural(t.Risk.Roofs, "roof"), t.cur.Code),
		Columns: []Column{words("For all roofs"), number("Mean"), number("Standard deviation"), number("10% are below"), number("Half are below"), number("90% are below")}}
	if t.saveable() {
		table.Columns = append(table.Columns, number("Net savings, mean"), number("Chance of saving"))
	}
	for i := range t.Risk.Alternatives {
		table.Rows = append(table.Rows, t.spreadRow(t.Roofs.alternatives[i], &t.Risk.Alternatives[i], t.Roofs.Saves(i)))
	}
	for i := range t.Risk.Choices {
		row := t.spreadRow(eachLowest, &t.Risk.Choices[i], t.Roofs.AnySaves())
		row.Role = Total
		table.Rows = append(table.Rows, row)
	}
	return table
}

func (t *roofsTeller) spreadRow(name string, x *risk.RoofsTotal, saves bool) Row {
	head := text(name)
	if x.RuledOut > 0 {
		head = head.noted(fmt.Sprintf("ruled out for %s, whose cost is counted here all the same", Plural(x.RuledOut, "roof")))
	}
	row := plainRow(head, rough(x.Cost.Mean), rough(x.Cost.SD), rough(x.Cost.P10), rough(x.Cost.P50), rough(x.Cost.P90))
	switch {
	case !t.saveable():
	case saves:
		row.Cells = append(row.Cells, rough(x.Saving.Mean), chanceCell(x.Saves))
	default:
		row.Cells = append(row.Cells, state(isBaseCase, ""), state("–", ""))
	}
	return row
}

// chanceCell is how often a roof's lowest alternative is the cheapest.
func (t *roofsTeller) chanceCell(r *rankedRoof) Cell {
	if r.Answer.Lowest >= len(r.Chances) {
		return state("–", "")
	}
	return chanceCell(math.Round(r.Chances[r.Answer.Lowest]*1e6) / 1e6)
}
