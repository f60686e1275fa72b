package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// firstYear is the row of year 0 on the sheets that go by year.
const firstYear = 6

// onOnePage is up to how many years, or rates, a table and its chart are
// printed on one page.
const onOnePage = 60

// yearRow is the row of a year.
func yearRow(year int) int { return firstYear + year }

// lastYear is the row of the last year.
func (b *book) lastYear() int { return yearRow(b.s.Period) }

// layYears shows what each alternative has cost up to a year, and what is paid
// in it.
func (b *book) layYears() {
	s, n := b.years, len(b.r.Alternatives)
	b.yearHeads(s, "By year: what each alternative has cost, and what it asks for", 2*n)
	s.text(2, 2+2*n, label("Cost so far: the present values up to and including a year; in the last year the residual value is deducted, so the column ends at the life-cycle cost. Payments: what has to be paid in a year, in "+b.words.MoneyPaid()+"; the residual value is a worth at the end, not a payment, and is left out.", wrapped))
	s.put(firstYear-2, 3, label("Cost so far, "+b.cur.Code, heading))
	s.put(firstYear-2, 3+n, label("Payments, "+b.cur.Code, heading))
	for i := range b.ledgers {
		s.put(firstYear-1, 3+i, label(b.alternative(i), numberHead))
		s.put(firstYear-1, 3+n+i, label(b.alternative(i), numberHead))
		b.layCumulated(i, 3+i)
		b.layPayments(i, 3+n+i)
	}
	s.put(b.lastYear()+1, 1, label("Sum", total))
	s.put(b.lastYear()+1, 2, cell{style: style{look: total}})
	for i := range b.ledgers {
		s.put(b.lastYear()+1, 3+i, cell{style: style{look: total}})
	}
	s.headLines(firstYear - 1)
	s.onePage = b.s.Period <= onOnePage
	b.cumulatedChart()
}

// yearHeads makes a sheet with a row for each year, and so many columns more.
func (b *book) yearHeads(s *sheet, text string, columns int) {
	s.widths, s.landscape, s.frozen, s.repeat = []float64{7, 10}, true, [2]int{firstYear - 1, 2}, firstYear-1
	for range columns {
		s.widths = append(s.widths, 16)
	}
	s.row(1, label(text, title))
	s.row(firstYear-1, label("Year", numberHead), label("Calendar", numberHead))
	for year := 0; year <= b.s.Period; year++ {
		s.put(yearRow(year), 1, data(number(year), style{}))
		if calendar := b.words.Calendar(year); calendar != 0 {
			s.put(yearRow(year), 2, data(number(calendar), style{form: whole}))
		}
	}
}

// inYear sums a column of a ledger over what belongs to the year in column A:
// a time of t − ½ belongs to year t.
func (l *ledger) inYear(col, row int, further string) string {
	year := fixedColumn(row, 1)
	return fmt.Sprintf(`SUMIFS(%s,%s,">"&%s-1,%s,"<="&%s%s)`, l.part(col), l.part(ofYear), year, l.part(ofYear), year, further)
}

func (b *book) layCumulated(i, col int) {
	for year, value := range b.r.Alternatives[i].Cumulative(b.s.Period) {
		row := yearRow(year)
		formula := b.ledgers[i].inYear(ofPV, row, "")
		if year > 0 {
			formula = here(row-1, col) + "+" + formula
		}
		b.years.put(row, col, calc(b.footed(formula), value, style{form: money}))
	}
}

func (b *book) layPayments(i, col int) {
	l, of := b.ledgers[i], ofAmount
	if b.r.HasCurrentMoney() {
		of = ofCurrent
	}
	further := fmt.Sprintf(",%s,%s", l.part(ofKind), literal("<>"+b.words.Kind(lcc.ResidualValue)))
	all := decimal.Zero
	for year, value := range b.r.PaidIn(i) {
		row := yearRow(year)
		b.years.put(row, col, calc(b.footed(l.inYear(of, row, further)), value, style{form: money}))
		all = all.Add(value)
	}
	formula := fmt.Sprintf("SUM(%s:%s)", here(firstYear, col), here(b.lastYear(), col))
	b.years.put(b.lastYear()+1, col, calc(b.footed(formula), all, style{money, total}))
}

// balancePlaces are the columns of an alternative's balances against the base
// case: the balance, and how far it has come.
type balancePlaces struct{ simple, discounted int }

// layPayback shows the cumulated savings against the base case, from which
// paybacks are read.
func (b *book) layPayback() {
	if b.payback == nil {
		return
	}
	s, n := b.payback, len(b.r.Alternatives)
	b.yearHeads(s, "Paybacks: what has been saved against the base case so far", n)
	s.text(2, 2+n+4*(n-1), label("A balance begins with minus the extra first cost. Beside it: 0 while it has not been paid back, 1 once it is, 2 when the balance is negative again, 3 when it is not any more. Simple: escalated amounts, residual value included; discounted: present values.", wrapped))
	s.put(firstYear-2, 3, label("Amounts in each year, "+b.cur.Code, heading))
	for i := range b.ledgers {
		s.put(firstYear-1, 3+i, label(b.alternative(i), numberHead))
		for year, value := range b.inYears(i) {
			row := yearRow(year)
			s.put(row, 3+i, calc(b.footed(b.ledgers[i].inYear(ofAmount, row, "")), value, style{form: money}))
		}
	}
	for range n - 1 {
		s.widths = append(s.widths, 15, 7, 15, 7)
	}
	col := 3 + n
	for _, i := range b.all() {
		if i == b.s.BaseCase() {
			continue
		}
		b.balances[i] = balancePlaces{col, col + 2}
		b.layBalances(i)
		col += 4
	}
	s.headLines(firstYear - 1)
}

// inYears are the escalated amounts of an alternative by year.
func (b *book) inYears(i int) []decimal.Decimal {
	out := make([]decimal.Decimal, b.s.Period+1)
	for _, line := range b.r.Alternatives[i].Ledger {
		out[line.Time.Year()] = out[line.Time.Year()].Add(line.Amount)
	}
	return out
}

// layBalances writes both balances of an alternative.
func (b *book) layBalances(i int) {
	s, at, base := b.payback, b.balances[i], b.s.BaseCase()
	s.put(firstYear-2, at.simple, label(b.alternative(i), heading))
	for k, text := range []string{"Simple balance", "State", "Discounted balance", "State"} {
		s.put(firstYear-1, at.simple+k, label(text, numberHead))
	}
	ours, bases := b.inYears(i), b.inYears(base)
	worths, baseWorths := b.r.Alternatives[i].Cumulative(b.s.Period), b.r.Alternatives[base].Cumulative(b.s.Period)
	simple := decimal.Zero
	var states [2]int
	for year := range ours {
		row := yearRow(year)
		simple = simple.Add(bases[year]).Sub(ours[year])
		formula := fmt.Sprintf("%s-%s", here(row, 3+base), here(row, 3+i))
		if year > 0 {
			formula = here(row-1, at.simple) + "+" + formula
		}
		s.put(row, at.simple, calc(b.footed(formula), simple, style{form: money}))
		discounted := baseWorths[year].Sub(worths[year])
		formula = fmt.Sprintf("%s-%s", b.years.at(row, 3+base), b.years.at(row, 3+i))
		s.put(row, at.discounted, calc(b.footed(formula), discounted, style{form: money}))
		for k, balance := range []decimal.Decimal{simple, discounted} {
			col := at.simple + 2*k
			states[k] = state(year, states[k], balance)
			s.put(row, col+1, calc(stateFormula(year, row, col), number(states[k]), style{}))
		}
	}
}

// state is how far a balance has come; see layPayback.
func state(year, before int, balance decimal.Decimal) int {
	switch {
	case year > 0 && before%2 == 0 && !balance.IsNegative(), year > 0 && before == 1 && balance.IsNegative():
		return before + 1
	}
	return before
}

func stateFormula(year, row, col int) string {
	if year == 0 {
		return "0"
	}
	before, balance := here(row-1, col+1), here(row, col)
	return fmt.Sprintf("IF(AND(OR(%s=0,%s=2),%s>=0),%s+1,IF(AND(%s=1,%s<0),2,%s))", before, before, balance, before, before, balance, before)
}
