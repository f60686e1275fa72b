package workbook

import (
	"fmt"

	"roofyears/lcc"
)

// factorPlaces are the columns of the factors.
type factorPlaces struct {
	discount, inflation int // inflation 0: the study states none
	escalation          [lcc.NumCategories]int
}

// firstFactor is the row of time 0.
const firstFactor = 5

// row is the row of a time.
func (b *book) factorRow(t lcc.Time) int {
	if b.mid {
		return firstFactor + int(t)
	}
	return firstFactor + int(t)/2
}

// factorCell is a factor at a time, for a formula.
func (b *book) factorCell(column int, t lcc.Time) string { return b.factor.at(b.factorRow(t), column) }

// layFactors shows how amounts grow and shrink with time.
func (b *book) layFactors() {
	s := b.factor
	s.widths, s.landscape, s.frozen, s.repeat = []float64{10}, true, [2]int{firstFactor - 1, 1}, firstFactor-1
	s.row(1, label("Factors: how amounts grow, and what later money counts", title))
	heads := []string{"Year", "Discount factor"}
	b.factorAt.discount = 2
	for c := range lcc.NumCategories {
		heads = append(heads, "Escalation of "+b.words.Category(c))
		b.factorAt.escalation[c] = len(heads)
	}
	if b.s.Inflation != lcc.NoRef {
		heads = append(heads, "General inflation")
		b.factorAt.inflation = len(heads)
	}
	for range heads[1:] {
		s.widths = append(s.widths, 14)
	}
	s.head(firstFactor-1, heads)
	s.text(2, len(heads), label("The ledgers take their factors from here: what 1 at base-date prices has become at the end of a year (of half a year, in the middle of one), and what 1 paid then is worth at the base date.", wrapped))
	for t := lcc.Time(0); t <= lcc.YearEnd(b.s.Period); t++ {
		if b.mid || t%2 == 0 {
			b.layFactorRow(t)
		}
	}
}

func (b *book) layFactorRow(t lcc.Time) {
	s, row, year := b.factor, b.factorRow(t), fixedColumn(b.factorRow(t), 1)
	six := style{form: factor}
	s.put(row, 1, data(t.Decimal(), style{}))
	s.put(row, b.factorAt.discount, calc(fmt.Sprintf("1/(1+%s)^%s", b.rate(), year), b.factors.Discount(t), six))
	for c := range lcc.NumCategories {
		s.put(row, b.factorAt.escalation[c], calc(b.escalation(c, t, year), b.factors.Escalation(c, t), six))
	}
	if b.s.Inflation != lcc.NoRef {
		s.put(row, b.factorAt.inflation, calc(fmt.Sprintf("(1+%s)^%s", b.inputs[b.s.Inflation], year), b.factors.Inflation(t), six))
	}
}

// fixedColumn is a cell whose column does not move when it is copied.
func fixedColumn(row, col int) string { return "$" + here(row, col) }

// escalation is the formula of a category's factor.
func (b *book) escalation(c lcc.Category, t lcc.Time, year string) string {
	series, row, col := b.s.Escalation[c], b.factorRow(t), b.factorAt.escalation[c]
	switch {
	case len(series) == 0 && b.s.Basis == lcc.Real, t == 0:
		return "1"
	case len(series) == 0:
		return here(row, b.factorAt.inflation)
	case len(series) == 1:
		return fmt.Sprintf("(1+%s)^%s", b.inputs[series[0]], year)
	}
	step := "(1+" + b.inputs[series[t.Year()-1]] + ")"
	if t%2 == 1 {
		return here(row-1, col) + "*SQRT" + step
	}
	before := b.factorRow(t - 2)
	return here(before, col) + "*" + step
}
