package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// mostColumns is how many alternatives a table sets side by side; more would
// not fit on paper, so they go into further tables.
const mostColumns = 6

// The words of the comparison that are said in more than one place.
const (
	lccLabel       = "Life-cycle cost"
	worthLabel     = "Annual worth: as a level cost a year"
	savingsLabel   = "Net savings against the base case"
	isBaseCase     = "base case"
	perAreaLabel   = "Annual worth per "
	sirLabel       = "Savings-to-investment ratio (SIR)"
	airrLabel      = "Adjusted internal rate of return (AIRR)"
	simpleLabel    = "Simple payback"
	discountLabel  = "Discounted payback"
	notDefined     = "not defined"
	notReached     = "not reached"
	standing       = "Standing"
	standsLowest   = "lowest"
	standsEligible = "not ruled out"
	standsRuledOut = "ruled out"
)

// columnSets divides the alternatives into sets that fit side by side.
func (t *teller) columnSets() [][]int {
	var sets [][]int
	for i := range t.Alternatives {
		if i%mostColumns == 0 {
			sets = append(sets, nil)
		}
		sets[len(sets)-1] = append(sets[len(sets)-1], i)
	}
	return sets
}

// setID names the table of a set of alternatives: the first keeps the plain
// name.
func setID(id string, set int) string {
	if set == 0 {
		return id
	}
	return fmt.Sprintf("%s-%d", id, set+1)
}

// compareSection sets the alternatives side by side.
func (t *teller) compareSection() Section {
	s := Section{ID: "side-by-side", Heading: t.compareHeading(), Blocks: []Block{Paragraph{Role: Lead, Text: t.presentValueText()}}}
	for i, set := range t.columnSets() {
		s.Blocks = append(s.Blocks, t.compareTable(setID("compare", i), set))
	}
	return s
}

// group sums ledger lines of some kinds.
func (o group) of(a *lcc.Outcome) decimal.Decimal {
	sum := decimal.Zero
	for _, line := range a.Ledger {
		if o.holds(line) {
			sum = sum.Add(line.PV)
		}
	}
	return sum
}

// group is a part of the life-cycle cost. The groups together are the whole.
type group struct {
	key          string // in the data of the page
	label, short string // in tables, in the chart
	holds        func(lcc.Line) bool
}

// parts divides the life-cycle cost the way an owner pays it.
func parts() []group {
	return []group{
		{"first", "First cost, at the start", "First cost", func(l lcc.Line) bool { return l.Time == 0 }},
		{"later", "Later work: recoats, replacements, removal", "Later work", func(l lcc.Line) bool {
			return l.Time > 0 && l.Kind.Investment() && l.Kind != lcc.ResidualValue
		}},
		{"upkeep", "Upkeep and other running costs", "Upkeep and running costs", func(l lcc.Line) bool { return l.Time > 0 && !l.Kind.Investment() }},
		{"residual", "Residual value at the end", "Residual value", func(l lcc.Line) bool { return l.Kind == lcc.ResidualValue }},
	}
}

// partsFigure draws what the life-cycle costs are made of: the first page's
// chart, whose numbers are in the table above it.
func (t *teller) partsFigure() Figure {
	fig := Figure{
		ID: "parts", Kind: Stacked, Title: "What the life-cycle costs are made of",
		Summary: "Bar chart of the parts of each alternative's life-cycle cost: first cost, later work, upkeep, and the residual value as a credit.",
		X:       Axis{Kind: TextCell}, Y: Axis{Title: "Present value, " + t.study.About.Currency, Kind: MoneyCell},
		Table: "compare",
	}
	for i := range t.Alternatives {
		fig.X.Categories = append(fig.X.Categories, fmt.Sprintf("%s: %s", t.name(i), t.lccOf(i)))
	}
	for _, part := range parts() {
		series := Series{Name: part.short}
		for i := range t.Alternatives {
			series.Values = append(series.Values, part.of(&t.Alternatives[i]))
		}
		fig.Series = append(fig.Series, series)
	}
	return fig
}

func (t *teller) compareTable(id string, set []int) Table {
	table := Table{
		ID: id,
		Caption: fmt.Sprintf("%s, present values at a %s discount rate of %s over %s; %s",
			t.study.About.Currency, t.study.Basis, Percent(t.Rate, 4), Plural(t.study.Period, "year"), t.moneyOf()),
		Columns: []Column{words("")},
	}
	for _, i := range set {
		column := number(t.name(i))
		column.Lowest = i == t.Answer.Lowest
		table.Columns = append(table.Columns, column)
	}
	for _, part := range parts() {
		table.Rows = append(table.Rows, t.compareRow(set, Body, part.label, func(o *lcc.Outcome) Cell { return money(part.of(o)) }))
	}
	table.Rows = append(table.Rows,
		t.compareRow(set, Total, lccLabel, func(o *lcc.Outcome) Cell { return money(o.LCC) }),
		t.compareRow(set, Body, worthLabel, func(o *lcc.Outcome) Cell { return money(o.AnnualWorth) }),
		t.compareRow(set, Body, perAreaLabel+t.areaUnit()+" of roof", func(o *lcc.Outcome) Cell { return money(o.WorthPerArea) }),
	)
	table.Rows = append(table.Rows, t.baseRows(set)...)
	table.Rows = append(table.Rows, t.standingRow(set))
	return table
}

func (t *teller) compareRow(set []int, role RowRole, label string, of func(*lcc.Outcome) Cell) Row {
	row := Row{Role: role, Cells: []Cell{text(label)}}
	for _, i := range set {
		row.Cells = append(row.Cells, of(&t.Alternatives[i]))
	}
	return row
}

// baseRows are the measures against the base case; none without one.
func (t *teller) baseRows(set []int) []Row {
	base := t.study.BaseCase()
	if base < 0 {
		return nil
	}
	against := func(label string, of func(*lcc.Comparison) Cell) Row {
		return t.compareRow(set, Body, label, func(o *lcc.Outcome) Cell {
			if o.AgainstBase == nil {
				return state(isBaseCase, "")
			}
			return of(o.AgainstBase)
		})
	}
	return []Row{
		against(savingsLabel, func(c *lcc.Comparison) Cell { return money(c.NetSavings) }),
		against(sirLabel, func(c *lcc.Comparison) Cell {
			return measureCell(c.SIR, func(v decimal.Decimal) Cell { return Cell{Kind: RatioCell, Number: v} })
		}),
		against(airrLabel, func(c *lcc.Comparison) Cell { return measureCell(c.AIRR, rate) }),
		against(simpleLabel, func(c *lcc.Comparison) Cell { return paybackCell(c.Simple) }),
		against(discountLabel, func(c *lcc.Comparison) Cell { return paybackCell(c.Discounted) }),
	}
}

func measureCell(m lcc.Measure, show func(decimal.Decimal) Cell) Cell {
	if !m.Defined() {
		return state(notDefined, m.Reason)
	}
	return show(m.Value)
}

func paybackCell(p lcc.Payback) Cell {
	switch {
	case p.Reason == lcc.NotReached:
		return state(notReached, "")
	case !p.Defined():
		return state(notDefined, p.Reason)
	}
	cell := text(fmt.Sprintf("year %d", p.Year))
	if p.Reversal > 0 {
		return cell.noted(reversalText(p))
	}
	return cell
}

// reversalText tells what comes after a payback that does not last.
func reversalText(p lcc.Payback) string {
	if p.Recovery > 0 {
		return fmt.Sprintf("the balance turns negative again in year %d, and positive in year %d", p.Reversal, p.Recovery)
	}
	return fmt.Sprintf("the balance turns negative again in year %d, and stays negative to the end of the study", p.Reversal)
}

// standingRow says of each alternative whether it may be chosen.
func (t *teller) standingRow(set []int) Row {
	row := Row{Cells: []Cell{text(standing)}}
	for _, i := range set {
		cell := text(t.standsText(i, i == t.Answer.Lowest))
		if cell.Text == standsRuledOut {
			cell = state(standsRuledOut, "")
		}
		row.Cells = append(row.Cells, cell)
	}
	return row
}
