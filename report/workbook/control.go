package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/report"
)

// layControl finds the totals a second way: by the spreadsheet's own NPV, PMT
// and RATE.
func (b *book) layControl() {
	s, n := b.control, len(b.ledgers)
	s.widths, s.landscape, s.frozen, s.repeat = []float64{54}, true, [2]int{controlHead, 1}, controlHead
	s.row(1, label("Control sums: the totals a second way", title))
	s.put(controlHead, 1, label("", head))
	for i := range b.ledgers {
		s.widths = append(s.widths, 22)
		s.put(controlHead, 2+i, label(b.alternative(i), numberHead))
	}
	s.text(2, 1+n, label("The spreadsheet's own functions know nothing of the present values in the ledgers. NPV takes the amounts of each year before rounding, which stand further down, so it may differ from the life-cycle cost by half a unit of the last digit for each line; PMT and RATE start from the totals.", wrapped))
	s.headLines(controlHead)
	flows := controlHead + 20
	b.layFlows(flows)
	b.layNPV(flows)
	b.layPMT()
	b.layRATE()
	b.layFooting()
	b.layControlVerdict()
}

// controlHead is the row of the alternatives' names.
const controlHead = 5

// controlRow adds a row with a cell for each alternative and gives its place.
func (b *book) controlRow(row int, text string, s look, of func(i int) cell) int {
	b.control.put(row, 1, label(text, s))
	for i := range b.ledgers {
		b.control.put(row, 2+i, of(i))
	}
	return row
}

// layFlows sums the amounts before rounding by when they fall.
func (b *book) layFlows(row int) {
	s := b.control
	s.row(row-1, label("Escalated amounts before rounding, by the end of the year", heading))
	for year := 0; year <= b.s.Period; year++ {
		b.flowRow(row+year, lcc.YearEnd(year))
	}
	if !b.mid {
		return
	}
	middle := row + b.s.Period + 2
	s.row(middle, label("Escalated amounts before rounding, by the middle of the year", heading))
	for year := 1; year <= b.s.Period; year++ {
		b.flowRow(middle+year, lcc.YearEnd(year)-1)
	}
}

func (b *book) flowRow(row int, t lcc.Time) {
	b.control.put(row, 1, data(t.Decimal(), style{}))
	for i, l := range b.ledgers {
		flow := 0.0
		for _, line := range b.r.Alternatives[i].Ledger {
			if line.Time == t {
				flow += line.Origin().Amount
			}
		}
		formula := fmt.Sprintf("SUMIFS(%s,%s,%s)", l.part(ofUnrounded), l.part(ofYear), fixedColumn(row, 1))
		b.control.put(row, 2+i, calc(formula, decimal.NewFromFloat(flow), style{form: unrounded}))
	}
}

// layNPV compares the life-cycle costs with the spreadsheet's present values.
func (b *book) layNPV(flows int) {
	n, row := b.s.Period, controlHead+1
	npv := b.controlRow(row, "NPV of the amounts", plain, func(i int) cell {
		col := 2 + i
		formula := fmt.Sprintf("%s+NPV(%s,%s:%s)", here(flows, col), b.rate(), here(flows+1, col), here(flows+n, col))
		if middle := flows + n + 2; b.mid {
			formula += fmt.Sprintf("+NPV(%s,%s:%s)*SQRT(1+%s)", b.rate(), here(middle+1, col), here(middle+n, col), b.rate())
		}
		worth := 0.0
		for _, line := range b.r.Alternatives[i].Ledger {
			worth += float64(line.Origin().Amount * b.factors.Discount(line.Time).InexactFloat64())
		}
		return calc(formula, decimal.NewFromFloat(worth), style{form: unrounded})
	})
	total := b.controlRow(row+1, report.LabelLCC, plain, func(i int) cell {
		return calc(b.measure.at(b.measures.lcc, 2+i), b.r.Alternatives[i].LCC, style{form: money})
	})
	allowed := b.controlRow(row+2, "Allowed by rounding: half a unit a line", plain, func(i int) cell {
		half := decimal.New(5, -b.cur.Digits-1)
		formula := fmt.Sprintf("%s*COUNT(%s)", half, b.ledgers[i].part(ofPV))
		return calc(formula, half.Mul(number(b.ledgers[i].lines)), style{form: unrounded})
	})
	b.controlRow(row+3, "NPV and life-cycle cost", plain, func(i int) cell {
		col := 2 + i
		return b.agree(fmt.Sprintf("ABS(%s-%s)<=%s+%s", here(npv, col), here(total, col), here(allowed, col), b.dust(here(total, col))))
	})
}

// dust is what binary arithmetic may lose of a sum.
func (b *book) dust(of string) string { return fmt.Sprintf("0.000000001*(1+ABS(%s))", of) }

// agree says whether a control sum agrees.
func (b *book) agree(condition string) cell {
	return calc(fmt.Sprintf("IFERROR(IF(%s,%s,%s),%s)", condition, literal(kept), literal(differs), literal(differs)), kept, style{form: money})
}

const differs = "differs"

// layPMT compares annual worths with the spreadsheet's level payments.
func (b *book) layPMT() {
	row := controlHead + 6
	pmt := b.controlRow(row, "PMT of the life-cycle cost", plain, func(i int) cell {
		formula := fmt.Sprintf("-PMT(%s,%d,%s)", b.rate(), b.s.Period, b.measure.at(b.measures.lcc, 2+i))
		worth := b.r.Alternatives[i].LCC.Mul(lcc.CapitalRecovery(b.r.Rate, b.s.Period))
		return calc(formula, worth, style{form: unrounded})
	})
	worth := b.controlRow(row+1, report.LabelAnnualWorth, plain, func(i int) cell {
		return calc(b.measure.at(b.measures.worth, 2+i), b.r.Alternatives[i].AnnualWorth, style{form: money})
	})
	b.controlRow(row+2, "PMT and annual worth", plain, func(i int) cell {
		col := 2 + i
		return b.agree(fmt.Sprintf("ABS(%s-%s)<=%s+%s", here(pmt, col), here(worth, col), decimal.New(5, -b.cur.Digits-1), b.dust(here(worth, col))))
	})
}

// layRATE compares the adjusted internal rate of return with the rate at which
// the extra investment grows to what the savings have become.
func (b *book) layRATE() {
	if b.payback == nil {
		return
	}
	row, m := controlHead+10, &b.measures
	against := func(row int, text string, of func(i int) cell) int {
		return b.controlRow(row, text, plain, func(i int) cell {
			if i == b.s.BaseCase() {
				return data(report.TextBaseCase, style{form: money})
			}
			return of(i)
		})
	}
	found := against(row, "RATE at which the extra investment grows to the reinvested savings", func(i int) cell {
		formula := fmt.Sprintf("IF(ISNUMBER(%s),RATE(%d,0,-1,%s*(1+%s)^%d,0,%s),%s)", b.measure.at(m.airr, 2+i), b.s.Period,
			b.measure.at(m.sir, 2+i), b.rate(), b.s.Period, b.measure.at(m.airr, 2+i), literal(report.TextNotDefined))
		return calc(formula, measured(b.r.Alternatives[i].AgainstBase.AIRR), style{form: rate})
	})
	against(row+1, "RATE and adjusted internal rate of return", func(i int) cell {
		rate := b.measure.at(m.airr, 2+i)
		return b.agree(fmt.Sprintf("IF(ISNUMBER(%s),ABS(%s-%s)<=0.0000001*(1+ABS(%s)),TRUE)", rate, here(found, 2+i), rate, rate))
	})
}

// layFooting adds parts and categories up, and compares with the rate curve.
func (b *book) layFooting() {
	row, m := controlHead+13, &b.measures
	b.controlRow(row, "Parts, and categories less residual value, add up to the life-cycle cost", plain, func(i int) cell {
		col := 2 + i
		total := b.measure.at(m.lcc, col)
		parts := b.footed(fmt.Sprintf("SUM(%s)", b.measure.column(m.parts[0], m.parts[len(m.parts)-1], col)))
		kinds := b.footed(fmt.Sprintf("SUM(%s)", b.measure.column(m.categories[0], m.residual, col)))
		return b.agree(fmt.Sprintf("AND(%s=%s,%s=%s)", parts, total, kinds, total))
	})
	b.controlRow(row+1, "The rate curve at the study's own rate, and the last year's cost so far", plain, func(i int) cell {
		col := 2 + i
		total := b.measure.at(m.lcc, col)
		return b.agree(fmt.Sprintf("AND(%s=%s,%s=%s)", b.rates.at(ownRate, col), total, b.years.at(b.lastYear(), 3+i), total))
	})
}

// layControlVerdict gathers the checks for the answer.
func (b *book) layControlVerdict() {
	s, n := b.control, len(b.ledgers)
	all := s.at(controlHead+1, 2) + ":" + fixed(controlHead+14, 1+n)
	s.row(3, label("Control sums", wrapped), calc(fmt.Sprintf("IF(COUNTIF(%s,%s)=0,%s,%s)", all, literal(differs), literal(kept), literal(differs)), kept, style{words, verdict}))
	b.checks.controls = s.at(3, 2)
	chains := b.controlRow(controlHead+15, "Years of work", plain, func(i int) cell {
		formula := fmt.Sprintf("IF(%s=%s,%s,%s)", b.checks.chains[i], literal(chainKept), literal(kept), literal(otherYears))
		return calc(formula, kept, style{form: money})
	})
	lives := s.line(chains, 2, 1+n)
	s.row(4, label("Years of work on the sheets of the alternatives", wrapped),
		calc(fmt.Sprintf("IF(COUNTIF(%s,%s)=%d,%s,%s)", lives, literal(kept), n, literal(kept), literal(otherYears)), kept, style{words, verdict}))
	b.checks.allChains = s.at(4, 2)
	s.alert(area{3, 2, 4, 2}, fmt.Sprintf("%s<>%s", here(3, 2), literal(kept)))
	sums := here(controlHead+1, 2)
	s.alert(area{controlHead + 1, 2, controlHead + 15, 1 + n}, fmt.Sprintf("OR(%s=%s,%s=%s)", sums, literal(differs), sums, literal(otherYears)))
}
