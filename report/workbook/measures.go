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
