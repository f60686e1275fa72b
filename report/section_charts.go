package report

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// curveStep is the distance of two points of the rate curve: half a per cent,
// or whole per cents where that would make more than some sixty points.
func (t *teller) curveStep() decimal.Decimal {
	span := t.RateRange[1].Sub(t.RateRange[0])
	if half := decimal.New(5, -3); span.LessThanOrEqual(half.Mul(decimal.NewFromInt(60))) {
		return half
	}
	return span.Div(decimal.NewFromInt(60)).RoundCeil(2)
}

// costSection shows in charts what each alternative costs: over the years,
// in payments, by category and at other discount rates.
func (t *teller) costSection() (Section, error) {
	s := Section{ID: "what-it-costs", Heading: t.costHeading()}
	s.Blocks = append(s.Blocks, List{Items: t.cashItems()})
	s.Blocks = append(s.Blocks, t.cumulativeBlocks()...)
	s.Blocks = append(s.Blocks, t.paymentBlocks()...)
	s.Blocks = append(s.Blocks, t.categoryBlocks()...)
	curve, err := t.curveBlocks()
	s.Blocks = append(s.Blocks, curve...)
	return s, err
}

// bySet makes a table for each set of alternatives that fits side by side;
// columns stand before those of the alternatives, row gives a row's cells.
func (t *teller) bySet(id, caption string, columns []Column, rows int, row func(i int, set []int) Row) []Table {
	var out []Table
	for n, set := range t.columnSets() {
		table := Table{ID: setID(id, n), Caption: caption, Columns: slices.Clone(columns), PageOnly: true}
		for _, a := range set {
			table.Columns = append(table.Columns, number(t.name(a)))
		}
		for i := range rows {
			table.Rows = append(table.Rows, row(i, set))
		}
		out = append(out, table)
	}
	return out
}

func decimals(n int) []decimal.Decimal {
	out := make([]decimal.Decimal, n+1)
	for i := range out {
		out[i] = decimal.NewFromInt(int64(i))
	}
	return out
}

// cumulativeBlocks show the present value spent up to each year, and where
// the answer's line passes the others'.
func (t *teller) cumulativeBlocks() []Block {
	n := t.study.Period
	sums := make([][]decimal.Decimal, len(t.Alternatives))
	fig := Figure{
		ID: "cumulative", Kind: Steps, Title: "Cost so far, year by year",
		X:     Axis{Title: "Years from the base date", Kind: YearCell, Values: decimals(n)},
		Y:     Axis{Title: fmt.Sprintf("Cumulated present value, %s", t.study.About.Currency), Kind: MoneyCell},
		Table: "cumulative-table",
	}
	for i := range t.Alternatives {
		sums[i] = t.Alternatives[i].Cumulative(n)
		fig.Series = append(fig.Series, Series{Name: t.name(i), Values: sums[i]})
	}
	lead := "Each line adds up what an alternative has cost up to a year, in present values. The residual value is deducted in the last year, so the lines end at the life-cycle costs. Marks show where the line of the lowest alternative crosses another."
	for i := range t.Alternatives {
		if t.Answer.Lowest < 0 || i == t.Answer.Lowest {
			continue
		}
		passes := crossings(sums[t.Answer.Lowest], sums[i])
		for _, year := range passes {
			fig.Marks = append(fig.Marks, Mark{Label: fmt.Sprintf("year %d", year), X: decimal.NewFromInt(int64(year)), Y: &sums[i][year]})
		}
		if len(passes) > 0 {
			lead += " " + t.passText(passes, i)
		}
	}
	if len(fig.Marks) == 0 && t.Answer.Lowest >= 0 {
		lead += fmt.Sprintf(" The line of “%s” crosses no other.", t.name(t.Answer.Lowest))
	}
	fig.Summary = fmt.Sprintf("Line chart of the cumulated present value of %s over %s.", Plural(len(t.Alternatives), "alternative"), Plural(n, "year"))
	tables := t.yearTables("cumulative-table", "Cumulated present value at the end of each year, "+t.study.About.Currency, sums)
	return []Block{Paragraph{Role: Lead, Text: lead}, t.behind(fig, tables)}
}

// passText says in which years the answer's cumulated cost passes another's.
func (t *teller) passText(passes []int, other int) string {
	lowest := t.name(t.Answer.Lowest)
	years := make([]string, len(passes))
	for i, y := range passes {
		years[i] = fmt.Sprintf("%d", y)
	}
	noun := "year"
	if len(years) > 1 {
		noun = "years"
	}
	return fmt.Sprintf("“%s” and “%s” change places in %s %s.", lowest, t.name(other), noun, listed(years))
}

// yearTables have a row a year and a column an alternative.
func (t *teller) yearTables(id, caption string, values [][]decimal.Decimal) []Table {
	return t.bySet(id, caption, []Column{number("Year"), number("Calendar")}, t.study.Period+1, func(y int, set []int) Row {
		row := plainRow(year(y), text(t.calendar(y)))
		for _, a := range set {
			row.Cells = append(row.Cells, money(values[a][y]))
		}
		return row
	})
}

// moneyPaid says in which money payments are told.
func (t *teller) moneyPaid() string {
	if t.HasCurrentMoney() {
		return "money of the day"
	}
	return "money of the base date (the study states no inflation)"
}

// paymentBlocks show what is paid in each year, a chart for each alternative
// to one scale.
func (t *teller) paymentBlocks() []Block {
	inMoney := t.moneyPaid()
	blocks := []Block{Paragraph{Role: Lead, Text: fmt.Sprintf(
		"What has to be paid in each year, in %s and to one scale. The residual value is a worth at the end, not a payment, and is left out.", inMoney)}}
	paid := make([][]decimal.Decimal, len(t.Alternatives))
	top := decimal.Zero
	for i := range paid {
		paid[i] = t.PaidIn(i)
		for _, v := range paid[i] {
			top = decimal.Max(top, v)
		}
	}
	tables := t.yearTables("payments-table", fmt.Sprintf("Payments in each year, %s, %s", t.study.About.Currency, inMoney), paid)
	for n, set := range t.columnSets() {
		sum := totalRow(text("Sum"), text(""))
		for _, a := range set {
			sum.Cells = append(sum.Cells, money(decimal.Sum(decimal.Zero, paid[a]...)))
		}
		tables[n].Rows = append(tables[n].Rows, sum)
	}
	name := t.number("Payments by year", tables)
	for i := range paid {
		blocks = append(blocks, Figure{
			ID: fmt.Sprintf("payments-%d", i+1), Kind: Columns, Title: "Payments by year: " + t.name(i),
			Summary: fmt.Sprintf("Bar chart of the payments of “%s” in each year.", t.name(i)),
			X:       Axis{Title: "Year", Kind: YearCell, Values: decimals(t.study.Period)},
			Y:       Axis{Title: t.study.About.Currency + ", " + inMoney, Kind: MoneyCell},
			Top:     top, Hue: i, Series: []Series{{Name: t.name(i), Values: paid[i]}},
			Table: "payments-table", TableName: name,
		})
	}
	return blocks
}

// residualCategory stands beside the cost categories.
const residualCategory = "residual value"

// categoryBlocks show what the money goes to.
func (t *teller) categoryBlocks() []Block {
	fig := Figure{
		ID: "categories", Kind: Stacked, Title: "Present value by cost category",
		Summary: "Stacked bar chart of the present value of each alternative by cost category.",
		X:       Axis{Kind: TextCell, Categories: t.names()},
		Y:       Axis{Title: "Present value, " + t.study.About.Currency, Kind: MoneyCell},
		Table:   "categories-table",
	}
	add := func(label string, of func(*lcc.Outcome) decimal.Decimal) {
		series, any := Series{Name: label}, false
		for i := range t.Alternatives {
			v := of(&t.Alternatives[i])
			any = any || !v.IsZero()
			series.Values = append(series.Values, v)
		}
		if any {
			fig.Series = append(fig.Series, series)
		}
	}
	for c := range lcc.NumCategories {
		add(c.String(), func(o *lcc.Outcome) decimal.Decimal { return o.ByCategory[c] })
	}
	add(residualCategory, func(o *lcc.Outcome) decimal.Decimal { return o.Residual.PV.Neg() })
	tables := t.bySet("categories-table", "Present value by cost category, "+t.study.About.Currency, []Column{words("Category")}, len(fig.Series),
		func(i int, set []int) Row {
			row := plainRow(text(fig.Series[i].Name))
			for _, a := range set {
				row.Cells = append(row.Cells, money(fig.Series[i].Values[a]))
			}
			return row
		})
	for n, set := range t.columnSets() {
		tables[n].Rows = append(tables[n].Rows, t.compareRow(set, Total, "Life-cycle cost", func(o *lcc.Outcome) Cell { return money(o.LCC) }))
	}
	return []Block{t.behind(fig, tables)}
}

// curveBlocks show the life-cycle costs at other discount rates.
func (t *teller) curveBlocks() ([]Block, error) {
	curve, err := t.RateCurve(t.curveStep())
	if err != nil {
		return nil, err
	}
	fig := Figure{
		ID: "rate-curve", Kind: Lines, Title: "Life-cycle cost at other discount rates",
		Summary: "Line chart of the life-cycle cost of each alternative against the discount rate.",
		X:       Axis{Title: fmt.Sprintf("Discount rate (%s)", t.study.Basis), Kind: RateCell},
		Y:       Axis{Title: "Life-cycle cost, " + t.study.About.Currency, Kind: MoneyCell},
		Table:   "rate-table",
	}
	for i, name := range t.names() {
		fig.Series = append(fig.Series, Series{Name: name})
		for _, p := range curve {
			fig.Series[i].Values = append(fig.Series[i].Values, p.LCC[i])
		}
	}
	for _, p := range curve {
		fig.X.Values = append(fig.X.Values, p.Rate)
	}
	tables := t.bySet("rate-table", "Life-cycle cost at other discount rates, "+t.study.About.Currency, []Column{number("Discount rate")}, len(curve),
		func(i int, set []int) Row {
			row := plainRow(rate(curve[i].Rate))
			for _, a := range set {
				row.Cells = append(row.Cells, money(curve[i].LCC[a]))
			}
			return row
		})
	fig.Marks = append(fig.Marks, Mark{Label: "this study", X: t.Rate})
	for _, c := range t.Crossovers {
		y := interpolated(curve, c)
		fig.Marks = append(fig.Marks, Mark{Label: Percent(c.Rate, 2), X: c.Rate, Y: &y})
	}
	blocks := []Block{Paragraph{Role: Lead, Text: t.curveLead()}, t.behind(fig, tables)}
	if len(t.Crossovers) > 0 {
		blocks = append(blocks, t.crossoverTable())
	}
	return blocks, nil
}

// curveLead introduces the rate curve.
func (t *teller) curveLead() string {
	lead := "A higher discount rate counts later costs for less, and so favours the alternative that puts costs off."
	low, high := Percent(t.RateRange[0], 2), Percent(t.RateRange[1], 2)
	if len(t.Crossovers) == 0 {
		return fmt.Sprintf("%s Between %s and %s no two alternatives change places.", lead, low, high)
	}
	if len(t.Crossovers) == 1 {
		return fmt.Sprintf("%s Between %s and %s there is one crossover, a rate at which two alternatives cost the same.", lead, low, high)
	}
	return fmt.Sprintf("%s Between %s and %s there are %s, rates at which two alternatives cost the same.",
		lead, low, high, Plural(len(t.Crossovers), "crossover"))
}

// interpolated places a crossover's mark on the drawn line. It is a position
// in a picture, never shown as a figure.
func interpolated(curve []lcc.RatePoint, c lcc.Crossover) decimal.Decimal {
	for i := 1; i < len(curve); i++ {
		left, right := curve[i-1], curve[i]
		if c.Rate.LessThanOrEqual(right.Rate) {
			share := c.Rate.Sub(left.Rate).DivRound(right.Rate.Sub(left.Rate), 6)
			return left.LCC[c.A].Add(right.LCC[c.A].Sub(left.LCC[c.A]).Mul(share)).Round(2)
		}
	}
	return curve[len(curve)-1].LCC[c.A]
}
