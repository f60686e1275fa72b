package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/report"
)

// The columns of the answer's table.
var answerWidths = []float64{36, 15, 16, 15, 15, 16, 15, 16, 26}

// layAnswer writes the first sheet.
func (b *book) layAnswer() {
	s := b.answer
	s.widths, s.landscape = answerWidths, true
	last := len(answerWidths)
	s.row(1, label(b.s.About.Title, title))
	row := 2
	for _, fact := range b.words.About() {
		s.row(row, label(fact.Label, note), label(fact.Text, plain))
		row++
	}
	rate := b.percent(b.rate(), b.r.Rate)
	s.row(row, label("Discount rate, "+b.s.Basis.String(), note), calc(rate.formula, rate.text, style{}))
	s.text(row+2, last, label(b.words.Question(), heading))
	row += 3
	first := row
	for _, sentence := range b.answerSentences() {
		s.text(row, last, calc(sentence.formula, sentence.text, style{look: answer}))
		row++
	}
	s.alert(area{first, 1, row - 1, last}, verdictIsBad(row+1))
	row = b.layVerdict(row + 1)
	row = b.layAnswerTable(row + 1)
	b.partsChart(row + 1)
	row += 2 + chartRows
	for _, part := range []struct {
		head  string
		texts []string
	}{{"What is ruled out", b.words.RuledOut()}, {"What is not yet shown to be allowed", b.unshown()}, {"To look at before relying on this", b.words.Remarks()}} {
		row = b.layList(s, row, part.head, part.texts, last)
	}
	s.text(row, last, label(b.words.Opinion(), note))
}

// rateRow is the row of the discount rate.
func (b *book) rateRow() int { return 2 + len(b.words.About()) }

// layList writes texts under a heading and gives the row after them.
func (b *book) layList(s *sheet, row int, head string, texts []string, lastCol int) int {
	if len(texts) == 0 {
		return row
	}
	s.row(row, label(head, heading))
	for _, text := range texts {
		row++
		s.text(row, lastCol, label(text, wrapped))
	}
	return row + 2
}

// unshown are the alternatives that are not shown to be allowed.
func (b *book) unshown() []string {
	var out []string
	for i := range b.ledgers {
		if text := b.words.Unshown(i); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// answerSentences are the answer as formulas. The words are those of the
// report's own sentences.
func (b *book) answerSentences() []saying {
	a, m := b.r.Answer, &b.measures
	if a.Lowest < 0 {
		return []saying{b.says(report.NoneEligible)}
	}
	lowest := saying{m.best.name, b.alternative(a.Lowest)}
	cost := b.amount(m.best.cost, b.r.Alternatives[a.Lowest].LCC)
	terms := b.says(fmt.Sprintf(" over %s at a %s discount rate of ", report.Plural(b.s.Period, "year"), b.s.Basis)).and(b.rateText())
	if a.RunnerUp < 0 {
		only := "” is the only alternative of this study: it costs "
		if len(b.ledgers) > 1 {
			only = "” is the only alternative that is not ruled out: it costs "
		}
		out := []saying{b.says("“").and(lowest, b.says(only), cost, terms, b.says(". There is nothing to compare it with."))}
		return append(append(out, b.open()...), b.cheaper()...)
	}
	out := append([]saying{b.comparison(lowest, cost, terms)}, b.open()...)
	return append(append(out, b.rests()), b.cheaper()...)
}

// comparison tells the lowest from the next best, or that they tie.
func (b *book) comparison(lowest, cost, terms saying) saying {
	a, m := b.r.Answer, &b.measures
	next, margin := saying{m.next.name, b.alternative(a.RunnerUp)}, b.amount(m.margin, a.Margin)
	same := saying{m.tied, b.tied(len(b.ledgers) - 1)}.and(b.says(" tie to the last digit: each has a life-cycle cost of "), cost, terms, b.says("."))
	near := b.says("For practical purposes “").and(lowest, b.says("” and “"), next, b.says("” tie: “"), lowest, b.says("” has the lowest life-cycle cost, "), cost, terms,
		b.says(", but only "), margin, b.says(" less than the other, closer than the estimates behind it."))
	clear := b.says("“").and(lowest, b.says("” has the lowest life-cycle cost, "), cost, terms, b.says(": "), margin, b.says(" less than the next best, “"), next, b.says("”."))
	text := clear.text
	switch {
	case a.Margin.IsZero():
		text = same.text
	case a.Tie:
		text = near.text
	}
	return saying{fmt.Sprintf("IF(%s=0,%s,IF(%s=%s,%s,%s))", m.margin, same.formula, m.tie, literal(tieYes), near.formula, clear.formula), text}
}

// open warns of an answer that is not shown to be allowed; where two tie, of
// both.
func (b *book) open() []saying {
	m, a := &b.measures, b.r.Answer
	if m.unshown == 0 {
		return nil
	}
	out := saying{b.among(b.measure, m.unshown, m.best.place) + `&""`, b.words.Unshown(a.Lowest)}
	if a.RunnerUp < 0 {
		return []saying{out}
	}
	next := saying{fmt.Sprintf(`IF(%s=%s," "&%s,"")`, m.tie, literal(tieYes), b.among(b.measure, m.unshown, m.next.place)), ""}
	if a.Tie {
		next.text = " " + b.words.Unshown(a.RunnerUp)
	}
	return []saying{out.and(next)}
}

// rests warns of an answer that rests on residual values.
func (b *book) rests() saying {
	m, best := &b.measures, b.leastUnbacked()
	gap := b.withoutResidual(b.r.Answer.Lowest).Sub(b.withoutResidual(best))
	warn := b.says("This rests on what is left of the roofs at the end of the study: without residual values “").
		and(saying{m.backed.name, b.alternative(best)}, b.says("” would be the lowest, by "), b.amount(m.rests, gap), b.says("."))
	return warn.when(m.rests+">0", gap.IsPositive())
}

// cheaper names what would cost less but may not be chosen.
func (b *book) cheaper() []saying {
	var out []saying
	for i := range b.ledgers {
		if b.s.Alternatives[i].Eligible() {
			continue
		}
		m := &b.measures
		gap := b.footed(m.best.cost + "-" + b.measure.at(m.lcc, 2+i))
		less := b.r.Difference(b.r.Answer.Lowest, i)
		text := b.says("“").and(saying{b.measure.at(measureHead, 2+i), b.alternative(i)}, b.says("” would cost "), b.amount(gap, less),
			b.says(" less, but is ruled out: "), saying{b.measure.at(m.reasons, 2+i), b.words.RuledOutBy(i)}, b.says("."))
		out = append(out, text.when(gap+">0", less.IsPositive()))
	}
	return out
}

// The sentences of the checks.
const (
	allKept    = "The checks of this workbook are kept: inputs within bounds, years of work those of the service lives, control sums equal."
	badInput   = "CHECK: an input is outside its bounds; see the check beside it."
	badChain   = "CHECK: a service life gives other years of work than are laid out here, so the figures do not hold. Put the life into the study file and make the workbook again."
	badControl = "CHECK: the control sums differ; see the sheet of them."
)

// layVerdict says whether every check is kept, and gives the row after it.
func (b *book) layVerdict(row int) int {
	formula := literal(allKept)
	formula = fmt.Sprintf("IF(%s<>%s,%s,%s)", b.checks.controls, literal(kept), literal(badControl), formula)
	formula = fmt.Sprintf("IF(%s<>%s,%s,%s)", b.checks.allChains, literal(kept), literal(badChain), formula)
	formula = fmt.Sprintf("IFERROR(IF(%s<>%s,%s,%s),%s)", b.checks.inputs, literal(kept), literal(badInput), formula, literal(badControl))
	last := len(answerWidths)
	b.answer.put(row, 1, calc(formula, allKept, style{look: verdict}))
	b.answer.merged = append(b.answer.merged, area{row, 1, row, last})
	b.answer.alert(area{row, 1, row, last}, verdictIsBad(row))
	b.answer.grow(row, 2)
	return row + 1
}

// verdictIsBad is the condition that the verdict, in the first column of a row,
// tells of a check that is not kept: then the answer is as red as the verdict.
func verdictIsBad(row int) string {
	return fmt.Sprintf("LEFT($A$%d,6)=%s", row, literal("CHECK:"))
}

// layAnswerTable sets the alternatives under each other and gives the row
// after them.
func (b *book) layAnswerTable(row int) int {
	s, m := b.answer, &b.measures
	parts := b.words.Parts()
	heads := []string{"Alternative"}
	for _, part := range parts {
		heads = append(heads, part.Short)
	}
	heads = append(heads, report.LabelLCC, "Annual worth", "Net savings", report.LabelStanding)
	s.head(row, heads, 1, len(heads))
	b.answerHead = row
	for i := range b.ledgers {
		row++
		amount := func(of int, value decimal.Decimal) cell {
			return calc(b.measure.at(of, 2+i), value, style{form: moneySign})
		}
		o := &b.r.Alternatives[i]
		s.row(row, beside(b.alternative(i), wrapped))
		s.grow(row, linesOf(b.alternative(i), s.widths[0]))
		for k, part := range parts {
			s.put(row, 2+k, amount(m.parts[k], part.Sum[i]))
		}
		s.put(row, 6, amount(m.lcc, o.LCC))
		s.cells[row-1][5].style.look = strong
		s.put(row, 7, amount(m.worth, o.AnnualWorth))
		switch {
		case o.AgainstBase != nil:
			s.put(row, 8, amount(m.savings, o.AgainstBase.NetSavings))
		case i == b.s.BaseCase():
			s.put(row, 8, data(report.TextBaseCase, style{form: moneySign}))
		}
		s.put(row, 9, b.standing(i))
	}
	s.text(row+1, len(answerWidths), label(fmt.Sprintf("Amounts are present values in %s; annual worth is %s", b.cur.Code, worthWords), note))
	if text := b.words.BeforeTax(); text != "" {
		row++
		s.text(row+1, len(answerWidths), label(text, note))
	}
	return row + 2
}

const worthWords = "the level yearly cost over the study period that has the same present value. Net savings are against the base case."

// standing says of an alternative whether it may be chosen.
func (b *book) standing(i int) cell {
	if b.measures.standing == 0 {
		return beside(b.words.Stands(i, false), plain)
	}
	value := b.measure.cells[b.measures.standing-1][1+i].value
	return calc(b.measure.at(b.measures.standing, 2+i), value, style{form: words})
}
