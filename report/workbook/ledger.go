package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/report"
)

// ledger is the sheet of an alternative.
type ledger struct {
	*sheet
	first, last int // rows of lines and events
	lines       int // how many lines there are, those of nothing too
}

// The columns of a ledger.
const (
	ofYear = iota + 1
	ofCalendar
	ofItem
	ofCategory
	ofKind
	ofPrice
	ofQuantity
	ofMultiple
	ofEscalation
	ofDiscount
	ofBase
	ofUnrounded
	ofAmount
	ofPV
	ofCurrent
	ofLife
	ofRunsOut
	ofLaidOut
	ofCheck
)

// firstLine is the row of a ledger's first event.
const firstLine = 6

// part is a column of a ledger, from its first line to its last.
func (l *ledger) part(col int) string { return l.column(l.first, l.last, col) }

// layLedger writes what happens to the roof under an alternative, and every
// cost of it.
func (b *book) layLedger(i int) {
	l := b.ledgers[i]
	l.first = firstLine
	l.widths = []float64{6, 9, 40, 13, 12, 12, 11, 10, 11, 10, 14, 17, 14, 14, 14, 9, 9, 9, 13}
	l.printed = ofCurrent
	l.landscape, l.frozen, l.repeat = true, [2]int{firstLine - 1, 3}, firstLine-1
	l.row(1, label(b.alternative(i), title))
	l.text(2, ofPV, label(b.words.Story(i), wrapped))
	l.text(3, ofPV, label(b.ledgerNote(i), note))
	b.ledgerHeads(l)
	lines := append(append([]lcc.Line(nil), b.r.Alternatives[i].Ledger...), b.r.UsedUp(i)...)
	row, next := firstLine, 0
	for n, p := range b.r.Alternatives[i].Spells {
		b.layEvent(l, row, p, b.r.Alternatives[i].Alternative.Wait != nil && n == 0)
		row++
		for last := n == len(b.r.Alternatives[i].Spells)-1; next < len(lines) && (last || belongs(&lines[next], p)); next++ {
			b.layLine(l, row, &lines[next])
			row++
		}
	}
	l.last, l.lines = row-1, len(lines)
	b.layTotals(l, i)
	b.layChainCheck(l)
}

// ledgerNote says whether an alternative may be chosen, and which money its
// columns are in.
func (b *book) ledgerNote(i int) string {
	out := "Standing: " + b.words.Stands(i, false) + "."
	if text := b.words.Unshown(i); text != "" {
		out += " " + text
	}
	return fmt.Sprintf("%s All amounts are in %s; escalated amounts are in %s, present values in money of the base date.", out, b.cur.Code, b.words.MoneyOf())
}

// belongs tells whether the next line of a ledger was written for a spell:
// lines stand in the order of the chain, and what the next spell begins with is
// paid in the year in which this one ends.
func belongs(line *lcc.Line, p lcc.Spell) bool {
	if until := lcc.YearEnd(p.Until); line.Time != until {
		return line.Time < until
	}
	return line.Kind != lcc.FirstCost && line.Kind != lcc.Replacement && line.Kind != lcc.Recoat
}

// ledgerHeads writes the heads of the columns.
func (b *book) ledgerHeads(l *ledger) {
	heads := []string{"Year", "Calendar", "Item", "Category", "Kind", "Price", "Quantity", "Ageing, or share left", "Escalation", "Discount factor",
		"At base-date prices", "Escalated, before rounding", "Escalated amount", "Present value", "In money of the day",
		"Service life, years", "Runs out in year", "Laid out up to year", "Years of work"}
	if !b.r.HasCurrentMoney() {
		heads[ofCurrent-1] = ""
	}
	l.head(firstLine-1, heads, ofItem, ofCategory, ofKind, ofCheck)
}

// layEvent writes what a spell starts with, and checks when it ends.
func (b *book) layEvent(l *ledger, row int, p lcc.Spell, wait bool) {
	for col := ofYear; col <= ofCheck; col++ {
		l.put(row, col, cell{style: style{look: event}})
	}
	b.when(l, row, lcc.YearEnd(p.From), style{general, event})
	l.put(row, ofItem, beside(b.words.Event(p), event))
	life := b.s.LifeAt(p.Slot)
	l.put(row, ofLife, calc(b.inputs[life], b.r.Inputs[life], style{general, event}))
	runsOut := fmt.Sprintf("MIN(%d,%s+%s)", b.s.Period, here(row, ofYear), wholeUp(here(row, ofLife)))
	if wait { // served in full, or refused
		runsOut = fmt.Sprintf("IF(%s>=%s,%s,ROUNDDOWN(%s,0))", here(row, ofLife), here(row, ofLaidOut), here(row, ofLaidOut), here(row, ofLife))
	}
	l.put(row, ofRunsOut, calc(runsOut, number(p.Until), style{general, event}))
	l.put(row, ofLaidOut, data(number(p.Until), style{general, event}))
	l.put(row, ofCheck, calc(fmt.Sprintf("IFERROR(IF(%s=%s,%s,%s),%s)", here(row, ofRunsOut), here(row, ofLaidOut), literal(kept), literal(otherYears), literal(otherYears)),
		kept, style{words, event}))
}

// otherYears is what a check says where a life was edited past what the years
// of work, as they are laid out, can follow.
const otherYears = "other years"

// when writes year and calendar year of a row.
func (b *book) when(l *ledger, row int, t lcc.Time, s style) {
	l.put(row, ofYear, data(t.Decimal(), s))
	if year := b.words.Calendar(t.Year()); year != 0 {
		l.put(row, ofCalendar, data(number(year), style{whole, s.look}))
	}
}

// layLine writes a ledger line: its amounts are formulas of inputs and
// factors.
func (b *book) layLine(l *ledger, row int, line *lcc.Line) {
	o := line.Origin()
	b.when(l, row, line.Time, style{})
	l.put(row, ofItem, beside(line.Item, wrapped))
	l.grow(row, linesOf(line.Item, l.widths[ofItem-1]))
	l.put(row, ofCategory, beside(b.words.Category(line.Category), plain))
	l.put(row, ofKind, beside(b.words.Kind(line.Kind), plain))
	l.put(row, ofPrice, calc(b.inputs[o.Price], b.r.Inputs[o.Price], style{form: price}))
	base := here(row, ofPrice)
	if o.Quantity != lcc.NoRef {
		l.put(row, ofQuantity, calc(b.inputs[o.Quantity], b.r.Inputs[o.Quantity], style{}))
		base += "*" + here(row, ofQuantity)
	}
	if multiple := b.multiple(line, o); multiple != "" {
		l.put(row, ofMultiple, calc(multiple, b.r.Multiple(line), style{form: factor}))
		base += "*" + here(row, ofMultiple)
	}
	formula, value := b.ledgerEscalation(line, o)
	l.put(row, ofEscalation, calc(formula, value, style{form: factor}))
	l.put(row, ofDiscount, calc(b.factorCell(b.factorAt.discount, line.Time), b.factors.Discount(line.Time), style{form: factor}))
	amounts := style{form: money}
	l.put(row, ofBase, calc(b.rounded(base), line.Base, amounts))
	l.put(row, ofUnrounded, calc(base+"*"+here(row, ofEscalation), decimal.NewFromFloat(o.Amount), style{form: unrounded}))
	l.put(row, ofAmount, calc(b.rounded(here(row, ofUnrounded)), line.Amount, amounts))
	l.put(row, ofPV, calc(b.rounded(here(row, ofUnrounded)+"*"+here(row, ofDiscount)), line.PV, amounts))
	switch {
	case b.s.Basis == lcc.Nominal:
		l.put(row, ofCurrent, calc(here(row, ofAmount), line.Current, amounts))
	case b.s.Inflation != lcc.NoRef:
		inflated := here(row, ofUnrounded) + "*" + b.factorCell(b.factorAt.inflation, line.Time)
		l.put(row, ofCurrent, calc(b.rounded(inflated), line.Current, amounts))
	}
}

// multiple is the formula of what price and quantity are multiplied by; "" for
// 1. See lcc.Origin.
func (b *book) multiple(line *lcc.Line, o lcc.Origin) string {
	switch {
	case line.Kind != lcc.ResidualValue && o.Growth == lcc.NoRef:
		return ""
	case line.Kind != lcc.ResidualValue:
		return fmt.Sprintf("(1+%s)^%d", b.inputs[o.Growth], o.Age)
	case o.Life == lcc.NoRef:
		return "-1"
	}
	life := b.inputs[o.Life]
	return fmt.Sprintf("-MAX(0,%s-%d)/%s", life, line.Time.Year()-o.Priced.Year(), life)
}

// ledgerEscalation is the factor by which a line's amount has grown. What is
// left at the end of a nominal study is worth what was paid, restated by
// general inflation.
func (b *book) ledgerEscalation(line *lcc.Line, o lcc.Origin) (string, decimal.Decimal) {
	formula, value := b.factorCell(b.factorAt.escalation[o.Escalates], o.Priced), b.factors.Escalation(o.Escalates, o.Priced)
	if line.Kind != lcc.ResidualValue || o.Life == lcc.NoRef || b.s.Basis == lcc.Real {
		return formula, value
	}
	inflation := b.factorAt.inflation
	return fmt.Sprintf("%s*%s/%s", formula, b.factorCell(inflation, line.Time), b.factorCell(inflation, o.Priced)),
		value.Mul(b.factors.Inflation(line.Time)).DivRound(b.factors.Inflation(o.Priced), 40)
}

// layTotals adds the columns of amounts up.
func (b *book) layTotals(l *ledger, i int) {
	row := l.last + 1
	for col := ofYear; col <= ofCheck; col++ {
		l.put(row, col, cell{style: style{look: total}})
	}
	l.put(row, ofItem, beside("Total; of the present values: "+report.LabelLCC, total))
	sums := map[int]func(lcc.Line) decimal.Decimal{
		ofBase:   func(l lcc.Line) decimal.Decimal { return l.Base },
		ofAmount: func(l lcc.Line) decimal.Decimal { return l.Amount },
		ofPV:     func(l lcc.Line) decimal.Decimal { return l.PV },
	}
	if b.r.HasCurrentMoney() {
		sums[ofCurrent] = func(l lcc.Line) decimal.Decimal { return l.Current }
	}
	for col, of := range sums {
		value := decimal.Zero
		for _, line := range b.r.Alternatives[i].Ledger {
			value = value.Add(of(line))
		}
		formula := fmt.Sprintf("SUM(%s:%s)", here(l.first, col), here(l.last, col))
		l.put(row, col, calc(b.footed(formula), value, style{money, total}))
	}
}

// checkPlaces are the cells of the checks that the answer looks at.
type checkPlaces struct {
	inputs, controls, allChains string
	chains                      []string // one for each alternative
}

// layChainCheck says whether the lives still give the years that are laid out.
func (b *book) layChainCheck(l *ledger) {
	broken := fmt.Sprintf("COUNTIF(%s,%s)>0", l.part(ofCheck), literal(otherYears))
	b.checks.chains = append(b.checks.chains, l.at(4, ofItem))
	l.put(4, ofItem, calc(fmt.Sprintf("IF(%s,%s,%s)", broken, literal(chainBroken), literal(chainKept)), chainKept, style{words, verdict}))
	l.merged = append(l.merged, area{4, ofItem, 4, ofPV})
	l.alert(area{4, ofItem, 4, ofPV}, here(4, ofItem)+"<>"+literal(chainKept))
	l.alert(area{l.first, ofRunsOut, l.last, ofCheck}, fmt.Sprintf("$%s=%s", here(l.first, ofCheck), literal(otherYears)))
}

// What the check of a chain says.
const (
	chainKept   = "The years of work are those of the service lives."
	chainBroken = "A service life gives other years of work than are laid out here: this sheet cannot follow, and its figures do not hold. Put the life into the study file and make the workbook again."
)
