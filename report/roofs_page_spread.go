package report

import (
	"fmt"
	"math"

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
	case clear == n && n == 1:
		return "The answer is clear for the one roof"
	case clear == n:
		return fmt.Sprintf("The answer is clear for all %s", Plural(n, "roof"))
	case clear == 0:
		return fmt.Sprintf("The answer is clear for none of the %s", Plural(n, "roof"))
	default:
		return fmt.Sprintf("The answer is clear for %s of %s", grouped(fmt.Sprint(clear)), Plural(n, "roof"))
	}
}

// sureText says how sure the roofs' answers are.
func (t *roofsTeller) sureText() string {
	clear, most, fewer := t.sure()
	text := fmt.Sprintf("The lowest alternative at likely values is also the cheapest in at least %s of the simulated futures for %s", Percent(decimal.NewFromFloat(clearChance), 0), Plural(clear, "roof"))
	if most > 0 {
		text += fmt.Sprintf(", in more than half of them for %s", Plural(most, "other"))
	}
	if fewer > 0 {
		text += fmt.Sprintf(", and in half of them or fewer for %s: look at those again before signing", grouped(fmt.Sprint(fewer)))
	}
	return text + ". The chance of each roof stands in the table of all roofs."
}

// futuresText says what is drawn.
func (t *roofsTeller) futuresText() string {
	common := "no uncertain input in common"
	if n := len(t.Risk.Common); n > 0 {
		common = fmt.Sprintf("%s in common (rates and prices)", counted(n, "uncertain input"))
	}
	return fmt.Sprintf("What all may cost together, over %s, seed %d: in each of them the roofs have %s, and each draws %s for itself, such as lives and quantities. So bad luck with one roof is made up by good luck with another, and a rate is not.",
		Plural(t.Risk.Trials, "future"), t.Risk.Seed, common, counted(len(t.Risk.Local), "uncertain input"))
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
