package workbook

import (
	"fmt"

	"roofyears/lcc"
	"roofyears/report"
)

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
		again, literal(", and stays negative to the end of the study"), again, literal(", and positive in year "), year(3))
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
