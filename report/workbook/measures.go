package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/report"
)

// measurePlaces are the rows of the measures; 0 where there is none.
type measurePlaces struct {
	parts                                 []int
	lcc, worth, perArea                   int
	savings, sir, airr, simple, discount  int
	sirNote, airrNote, simpleN, discountN int
	categories                            []int
	residual, backless                    int // residual value; life-cycle cost without it
	eligible, unbacked                    int // life-cycle costs of those that may be chosen
	standing, unshown, reasons            int
	lowest                                string // cell: place of the lowest alternative, from 1; "" when none may be chosen

	best, next, backed found // the lowest, the next best, the lowest without residual value
	margin, tie, rests string
	tied               string // the lowest and all that cost the same, listed
}

// found are the cells of an alternative that was looked for.
type found struct{ place, name, cost string }

// measureHead is the row of the alternatives' names.
const measureHead = 4

// layMeasures sets the alternatives side by side.
func (b *book) layMeasures() {
	s, n := b.measure, len(b.r.Alternatives)
	s.widths, s.landscape, s.frozen, s.repeat = []float64{50}, true, [2]int{measureHead, 1}, measureHead
	s.onePage = true
	s.row(1, label("Measures: the alternatives side by side", title))
	for i := range b.ledgers {
		s.widths = append(s.widths, 26)
		s.put(measureHead, 2+i, label(b.alternative(i), numberHead))
	}
	s.put(measureHead, 1, label("", head))
	s.headLines(measureHead)
	caption := b.says(fmt.Sprintf("%s, present values at a %s discount rate of ", b.cur.Code, b.s.Basis)).and(b.rateText()).
		and(b.says(fmt.Sprintf(" over %s; %s", report.Plural(b.s.Period, "year"), b.words.MoneyOf())))
	s.text(2, 1+n, calc(caption.formula, caption.text, style{look: wrapped}))
	b.layCosts()
	if b.s.BaseCase() >= 0 {
		b.layAgainstBase()
	}
	b.layCategories()
	b.layStanding()
}

// measure adds a row with a cell for each alternative and gives its place.
func (b *book) measureRow(text string, s look, of func(i int) cell) int {
	row := b.measure.next()
	b.measure.put(row, 1, label(text, s))
	for i := range b.ledgers {
		b.measure.put(row, 2+i, of(i))
	}
	return row
}

// byKind sums present values of some kinds of an alternative's lines.
func (b *book) byKind(i int, when string, kinds ...lcc.Kind) string {
	l, out := b.ledgers[i], ""
	for k, kind := range kinds {
		if k > 0 {
			out += "+"
		}
		out += fmt.Sprintf("SUMIFS(%s,%s,%s%s)", l.part(ofPV), l.part(ofKind), literal(b.words.Kind(kind)), when)
	}
	return out
}

// layCosts writes the life-cycle costs, what they are made of and what they
// are as a level cost a year.
func (b *book) layCosts() {
	m := &b.measures
	parts := b.words.Parts()
	for k, part := range parts {
		m.parts = append(m.parts, b.measureRow(part.Label, plain, func(i int) cell {
			l := b.ledgers[i]
			later := fmt.Sprintf(`,%s,">0"`, l.part(ofYear))
			formula := [...]string{
				fmt.Sprintf("SUMIFS(%s,%s,0)", l.part(ofPV), l.part(ofYear)),
				b.byKind(i, later, lcc.Replacement, lcc.Recoat, lcc.Removal),
				b.byKind(i, later, lcc.Annual, lcc.Periodic),
				b.byKind(i, "", lcc.ResidualValue),
			}[k]
			return calc(b.footed(formula), part.Sum[i], style{form: money})
		}))
	}
	m.lcc = b.measureRow(report.LabelLCC, total, func(i int) cell {
		return calc(b.ledgers[i].at(b.ledgers[i].last+1, ofPV), b.r.Alternatives[i].LCC, style{money, total})
	})
	worth := func(i int) string {
		d, n := b.rate(), b.s.Period
		return fmt.Sprintf("%s*IF(%s=0,1/%d,%s/(1-1/(1+%s)^%d))", here(m.lcc, 2+i), d, n, d, d, n)
	}
	m.worth = b.measureRow(report.LabelAnnualWorth, plain, func(i int) cell {
		return calc(b.rounded(worth(i)), b.r.Alternatives[i].AnnualWorth, style{form: money})
	})
	m.perArea = b.measureRow(b.words.PerArea(), plain, func(i int) cell {
		return calc(b.rounded(worth(i)+"/"+b.inputs[b.s.Area]), b.r.Alternatives[i].WorthPerArea, style{form: money})
	})
}

// layAgainstBase measures the alternatives against the base case.
func (b *book) layAgainstBase() {
	m, base := &b.measures, b.s.BaseCase()
	against := func(text string, s style, of func(i int, c *lcc.Comparison) (string, any)) int {
		return b.measureRow(text, plain, func(i int) cell {
			if i == base {
				return data(report.TextBaseCase, s)
			}
			formula, value := of(i, b.r.Alternatives[i].AgainstBase)
			return calc(formula, value, s)
		})
	}
	notes := func(of func(i int, c *lcc.Comparison) (string, any)) int {
		row := b.measureRow("", note, func(i int) cell {
			if i == base {
				return cell{}
			}
			formula, value := of(i, b.r.Alternatives[i].AgainstBase)
			return calc(formula, value, style{look: noteRight})
		})
		b.measure.heights[row] = noteHeight
		return row
	}
	m.savings = against(report.LabelNetSavings, style{form: money}, func(i int, c *lcc.Comparison) (string, any) {
		return b.footed(here(m.lcc, 2+base) + "-" + here(m.lcc, 2+i)), c.NetSavings
	})
	m.sir = against(report.LabelSIR, style{form: ratio}, func(i int, c *lcc.Comparison) (string, any) {
		extra := b.extra(i)
		saved := b.footed(here(m.parts[2], 2+base) + "-" + here(m.parts[2], 2+i))
		return fmt.Sprintf("IF(%s>0,ROUND(%s/%s,12),%s)", extra, saved, extra, literal(report.TextNotDefined)), measured(c.SIR)
	})
	m.sirNote = notes(func(i int, c *lcc.Comparison) (string, any) {
		return fmt.Sprintf("IF(ISNUMBER(%s),%s,%s)", here(m.sir, 2+i), literal(""), literal(lcc.NoExtraInvestment)), c.SIR.Reason
	})
	m.airr = against(report.LabelAIRR, style{form: rate}, func(i int, c *lcc.Comparison) (string, any) {
		sir, none := here(m.sir, 2+i), literal(report.TextNotDefined)
		return fmt.Sprintf("IF(ISNUMBER(%s),IF(%s>0,ROUND((1+%s)*%s^(1/%d)-1,12),%s),%s)", sir, sir, b.rate(), sir, b.s.Period, none, none), measured(c.AIRR)
	})
	m.airrNote = notes(func(i int, c *lcc.Comparison) (string, any) {
		return fmt.Sprintf("IF(ISNUMBER(%s),%s,IF(ISNUMBER(%s),%s,%s))", here(m.airr, 2+i), literal(""), here(m.sir, 2+i),
			literal(lcc.RatioNotPositive), here(m.sirNote, 2+i)), c.AIRR.Reason
	})
	m.simple = against(report.LabelSimplePayback, style{form: yearNumber}, func(i int, c *lcc.Comparison) (string, any) {
		return b.paybackFormula(b.balances[i].simple), paidBack(c.Simple)
	})
	m.simpleN = notes(func(i int, c *lcc.Comparison) (string, any) {
		return b.paybackNote(b.balances[i].simple, m.simple, i), paybackRemark(c.Simple)
	})
	m.discount = against(report.LabelDiscountedPayback, style{form: yearNumber}, func(i int, c *lcc.Comparison) (string, any) {
		return b.paybackFormula(b.balances[i].discounted), paidBack(c.Discounted)
	})
	m.discountN = notes(func(i int, c *lcc.Comparison) (string, any) {
		return b.paybackNote(b.balances[i].discounted, m.discount, i), paybackRemark(c.Discounted)
	})
}

// extra is the investment that an alternative asks for beyond the base case:
// what is no running cost, less residual value, in present values.
func (b *book) extra(i int) string {
	m, base := &b.measures, b.s.BaseCase()
	return b.footed(fmt.Sprintf("(%s-%s)-(%s-%s)", here(m.lcc, 2+i), here(m.parts[2], 2+i), here(m.lcc, 2+base), here(m.parts[2], 2+base)))
}

// measured is the value of a measure, or that it has none.
func measured(m lcc.Measure) any {
	if !m.Defined() {
		return report.TextNotDefined
	}
	return m.Value
}

// paybackFormula reads the first year from the states beside a balance.
func (b *book) paybackFormula(col int) string {
	s := b.payback
	return fmt.Sprintf("IF(%s>=0,%s,IFERROR(MATCH(1,%s,0),%s))", s.at(firstYear, col), literal(report.TextNotDefined),
		s.column(yearRow(1), b.lastYear(), col+1), literal(report.TextNotReached))
}

func paidBack(p lcc.Payback) any {
	switch {
	case p.Reason == lcc.NotReached:
		return report.TextNotReached
	case !p.Defined():
		return report.TextNotDefined
	}
	return number(p.Year)
}

// paybackNote says why there is no payback, or what comes after it. The texts
// are those of report.Reversed.
func (b *book) paybackNote(col, row, i int) string {
	s := b.payback
	states := s.column(yearRow(1), b.lastYear(), col+1)
	year := func(state int) string { return fmt.Sprintf("MATCH(%d,%s,0)", state, states) }
	again := literal("the balance turns negative again in year ") + "&" + year(2)
	return fmt.Sprintf("IF(%s>=0,%s,IF(COUNTIF(%s,2)=0,%s,IF(COUNTIF(%s,3)=0,%s&%s,%s&%s&%s)))",
		s.at(firstYear, col), literal(lcc.PaysAtOnce), states, literal(""), states,
		again, literal(" and stays so"), again, literal(", and positive in year "), year(3))
}

func paybackRemark(p lcc.Payback) string {
	switch {
	case p.Reason == lcc.NotReached:
		return ""
	case !p.Defined():
		return p.Reason
	case p.Reversal > 0:
		return report.Reversed(p)
	}
	return ""
}

// layCategories divides present values by category.
func (b *book) layCategories() {
	m, s := &b.measures, b.measure
	s.put(s.next()+1, 1, label("Present value by cost category", heading))
	for c := range lcc.NumCategories {
		m.categories = append(m.categories, b.measureRow(b.words.Category(c), plain, func(i int) cell {
			l := b.ledgers[i]
			formula := fmt.Sprintf("SUMIFS(%s,%s,%s)", l.part(ofPV), l.part(ofCategory), literal(b.words.Category(c)))
			return calc(b.footed(formula), b.r.Alternatives[i].ByCategory[c], style{form: money})
		}))
	}
	m.residual = b.measureRow(report.LabelResidualInCategory, plain, func(i int) cell {
		return calc(here(m.parts[3], 2+i), b.r.Alternatives[i].Residual.PV.Neg(), style{form: money})
	})
	m.backless = b.measureRow("Life-cycle cost without residual value", total, func(i int) cell {
		formula := fmt.Sprintf("%s-%s", here(m.lcc, 2+i), here(m.residual, 2+i))
		return calc(b.footed(formula), b.withoutResidual(i), style{money, total})
	})
}

func (b *book) withoutResidual(i int) decimal.Decimal {
	o := &b.r.Alternatives[i]
	return o.LCC.Add(o.Residual.PV)
}

// layStanding finds the lowest of those that may be chosen.
func (b *book) layStanding() {
	m, s, a := &b.measures, b.measure, b.r.Answer
	s.put(s.next()+1, 1, label("Which is the lowest", heading))
	may := func(text string, of func(i int) cell) int {
		return b.measureRow(text, plain, func(i int) cell {
			if !b.s.Alternatives[i].Eligible() {
				return data(report.TextRuledOut, style{form: money})
			}
			return of(i)
		})
	}
	m.eligible = may("Life-cycle cost, of those that may be chosen", func(i int) cell {
		return calc(here(m.lcc, 2+i), b.r.Alternatives[i].LCC, style{form: money})
	})
	m.unbacked = may("The same without residual value", func(i int) cell {
		return calc(here(m.backless, 2+i), b.withoutResidual(i), style{form: money})
	})
	if a.Lowest < 0 {
		return
	}
	m.best = b.find("The lowest, the first where several tie", m.eligible, m.lcc, a.Lowest)
	m.lowest = m.best.place
	m.backed = b.find("The lowest without residual value", m.unbacked, m.backless, b.leastUnbacked())
	m.rests = b.fact("What the lowest costs more than that, without residual value",
		b.footed(b.among(s, m.backless, m.lowest)+"-"+m.backed.cost), b.withoutResidual(a.Lowest).Sub(b.withoutResidual(b.leastUnbacked())), style{form: money})
	rest := may("Life-cycle cost, of the others that may be chosen", func(i int) cell {
		value := any(b.r.Alternatives[i].LCC)
		if i == a.Lowest {
			value = lowestText
		}
		return calc(fmt.Sprintf("IF(%s=%d,%s,%s)", m.lowest, i+1, literal(lowestText), here(m.lcc, 2+i)), value, style{form: money})
	})
	if a.RunnerUp >= 0 {
		b.layMargin(rest)
		b.layTied()
	}
	m.standing = b.measureRow(report.LabelStanding, total, func(i int) cell {
		is, not := b.words.Stands(i, true), b.words.Stands(i, false)
		value := not
		if i == a.Lowest {
			value = is
		}
		return calc(fmt.Sprintf("IF(%s=%d,%s,%s)", m.lowest, i+1, literal(is), literal(not)), value, style{money, total})
	})
	if len(b.words.RuledOut()) > 0 {
		m.reasons = b.measureRow("What rules it out", plain, func(i int) cell {
			if b.s.Alternatives[i].Eligible() {
				return cell{}
			}
			return label(b.words.RuledOutBy(i), noteRight)
		})
		s.heights[m.reasons] = noteHeight
	}
	if len(b.unshown()) > 0 {
		m.unshown = b.measureRow("What is open", plain, func(i int) cell { return label(b.words.Unshown(i), noteRight) })
		s.heights[m.unshown] = noteHeight
	}
}

// noteHeight has room for the longest note.
const noteHeight = 34

// fact adds a row with one cell and gives that.
func (b *book) fact(text, formula string, value any, as style) string {
	s, row := b.measure, b.measure.next()
	s.row(row, label(text, plain), calc(formula, value, as))
	return s.at(row, 2)
}

// find looks for the least of a row and gives the cells of whose it is.
func (b *book) find(text string, row, cost, value int) found {
	cells := b.measure.line(row, 2, 1+len(b.ledgers))
	var out found
	out.place = b.fact(text+": place", fmt.Sprintf("MATCH(MIN(%s),%s,0)", cells, cells), number(value+1), style{})
	out.name = b.fact(text+": name", b.among(b.measure, measureHead, out.place), b.alternative(value), style{form: money})
	amount := b.r.Alternatives[value].LCC
	if cost == b.measures.backless {
		amount = b.withoutResidual(value)
	}
	out.cost = b.fact(text+": cost", b.among(b.measure, cost, out.place), amount, style{form: money})
	return out
}

// layTied lists the lowest and all that cost the same: each cell goes on from
// the one before it.
func (b *book) layTied() {
	m, s := &b.measures, b.measure
	at := s.next()
	row := b.measureRow("Those that cost the least, listed", plain, func(i int) cell {
		before, col := "", 2+i
		if i > 0 {
			before = here(at, col-1) + "&"
		}
		so := fmt.Sprintf("COUNTIF(%s:%s,%s)", fixedColumn(m.eligible, 2), here(m.eligible, col), m.best.cost)
		all := fmt.Sprintf("COUNTIF(%s,%s)", s.line(m.eligible, 2, 1+len(b.ledgers)), m.best.cost)
		formula := fmt.Sprintf(`%sIF(%s=%s,IF(%s=1,"",IF(%s=%s," and ",", "))&"“"&%s&"”","")`, before,
			here(m.eligible, col), m.best.cost, so, so, all, here(measureHead, col))
		return calc(formula, b.tied(i), style{look: noteRight})
	})
	s.heights[row] = noteHeight
	m.tied = s.at(row, 1+len(b.ledgers))
}

// tied lists those that cost the least, up to an alternative.
func (b *book) tied(last int) string {
	least, all := b.r.Alternatives[b.r.Answer.Lowest].LCC, 0
	is := func(i int) bool { return b.s.Alternatives[i].Eligible() && b.r.Alternatives[i].LCC.Equal(least) }
	for i := range b.ledgers {
		if is(i) {
			all++
		}
	}
	out, so := "", 0
	for i := range last + 1 {
		if !is(i) {
			continue
		}
		switch so++; {
		case so == 1:
		case so == all:
			out += " and "
		default:
			out += ", "
		}
		out += "“" + b.alternative(i) + "”"
	}
	return out
}

// layMargin finds the next best, and whether it is too close to call.
func (b *book) layMargin(rest int) {
	m, a := &b.measures, b.r.Answer
	m.next = b.find("The next best", rest, m.lcc, a.RunnerUp)
	m.margin = b.fact("Margin: what the next best costs more", b.footed(m.next.cost+"-"+m.best.cost), a.Margin, style{form: money})
	is := tieNo
	if a.Tie {
		is = tieYes
	}
	m.tie = b.fact(fmt.Sprintf("Is the margin nothing, or under %s of the lowest cost?", report.Percent(lcc.TieShare, 1)),
		fmt.Sprintf("IF(OR(%s=0,%s<%s*ABS(%s)),%s,%s)", m.margin, m.margin, lcc.TieShare, m.best.cost, literal(tieYes), literal(tieNo)), is, style{form: money})
}

// Whether two alternatives tie.
const (
	tieYes = "a tie"
	tieNo  = "no tie"
)

const lowestText = "the lowest"

// leastUnbacked is the first of those that may be chosen with the least cost
// without residual value.
func (b *book) leastUnbacked() int {
	best := -1
	for i := range b.r.Alternatives {
		if b.s.Alternatives[i].Eligible() && (best < 0 || b.withoutResidual(i).LessThan(b.withoutResidual(best))) {
			best = i
		}
	}
	return best
}
