package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/tax"
)

// taxDetails hold the tax of each alternative year by year, and its depreciation.
func (t *teller) taxDetails() []Section {
	if t.Tax == nil {
		return nil
	}
	s := Section{ID: "tax-ledgers", Appendix: true, Heading: "Appendix C: tax, year by year", Blocks: []Block{Paragraph{Role: Lead,
		Text: "Every figure after tax is one of these, a sum of them, or a stated function of such sums. Amounts are in money of the day, present values in money of the base date."}}}
	for i := range t.Alternatives {
		f := Fold{ID: fmt.Sprintf("tax-of-%d", i+1), Summary: fmt.Sprintf("Tax C%d: “%s”, %s", i+1, t.name(i), Plural(len(t.Tax.Alternatives[i].Lines), "line")),
			Blocks: []Block{t.taxYears(i)}}
		if len(t.Tax.Alternatives[i].Vintages) > 0 {
			f.Blocks = append(f.Blocks, t.vintageTable(i))
		}
		s.Blocks = append(s.Blocks, f)
	}
	return []Section{s}
}

// taxYear is a year of an alternative after tax.
type taxYear struct {
	costs, deducted, depreciated, written, income, tax, pv decimal.Decimal
	any                                                    bool
}

func (y *taxYear) add(of taxYear) {
	for _, pair := range [][2]*decimal.Decimal{
		{&y.costs, &of.costs}, {&y.deducted, &of.deducted}, {&y.depreciated, &of.depreciated},
		{&y.written, &of.written}, {&y.income, &of.income}, {&y.tax, &of.tax}, {&y.pv, &of.pv},
	} {
		*pair[0] = pair[0].Add(*pair[1])
	}
	y.any = y.any || of.any
}

// enter adds a line of the tax ledger.
func (y *taxYear) enter(l tax.Line) {
	y.any, y.tax, y.pv = true, y.tax.Add(l.Amount), y.pv.Add(l.PV)
	switch l.Kind {
	case tax.Expense, tax.AtOnce:
		y.deducted = y.deducted.Add(l.Deduction)
	case tax.Depreciation:
		y.depreciated = y.depreciated.Add(l.Deduction)
	case tax.TornOff, tax.EndOfStudy:
		y.written = y.written.Add(l.Deduction)
	case tax.ResidualTaxed, tax.CreditTaxed:
		y.income = y.income.Sub(l.Deduction)
	}
}

func (y *taxYear) row(role RowRole, label string) Row {
	return Row{Role: role, Cells: []Cell{text(label), money(y.costs), money(y.deducted), money(y.depreciated), money(y.written), money(y.income), money(y.tax), money(y.pv)}}
}

// taxYears is an alternative after tax, year by year; what comes after the study
// is one row.
func (t *teller) taxYears(i int) Table {
	o, n := &t.Tax.Alternatives[i], t.study.Period
	table := Table{
		ID:       fmt.Sprintf("tax-years-%d", i+1),
		Caption:  fmt.Sprintf("“%s” after tax, %s in money of the day; the total present value, of costs and tax, is the life-cycle cost after tax", t.name(i), t.study.About.Currency),
		Columns:  []Column{{Head: "Year", Unbroken: true}, number("Costs, less residual value"), number("Deducted in the year"), number("Depreciation"), number("Written off"), number("Income"), number("Tax and credits"), number("Present value")},
		PageOnly: true,
	}
	years, last := make([]taxYear, n+2), n
	for _, line := range o.Ledger {
		y := &years[line.Time.Year()]
		y.any, y.costs, y.pv = true, y.costs.Add(line.Current), y.pv.Add(line.PV)
	}
	for _, line := range o.Lines {
		years[min(line.Year, n+1)].enter(line)
		last = max(last, line.Year)
	}
	var sum taxYear
	for k := range years {
		label := fmt.Sprint(k)
		if k > n {
			label = yearsFromTo(n+1, last)
		}
		if years[k].any {
			table.Rows = append(table.Rows, years[k].row(Body, label))
		}
		sum.add(years[k])
	}
	table.Rows = append(table.Rows, sum.row(Total, "Total"))
	return table
}

func yearsFromTo(from, to int) string {
	if to <= from {
		return fmt.Sprint(from)
	}
	return fmt.Sprintf("%d to %d", from, to)
}

// vintageTable is the depreciation of an alternative, by what was paid when; years
// with the same deduction are one row.
func (t *teller) vintageTable(i int) Table {
	o := &t.Tax.Alternatives[i]
	table := Table{
		ID:       fmt.Sprintf("depreciation-%d", i+1),
		Caption:  fmt.Sprintf("Depreciation of “%s”, %s in money of the day", t.name(i), t.study.About.Currency),
		Columns:  []Column{words("Years"), words("Deduction"), number("In each year"), number("Left after it")},
		PageOnly: true,
	}
	for k := range o.Vintages {
		v := &o.Vintages[k]
		table.Rows = append(table.Rows, Row{Role: Group, Cells: []Cell{text(t.vintageText(v)), text(""), text(""), text("")}})
		left := v.Basis
		for _, run := range runs(o.Lines, k) {
			each := run[0].Deduction
			left = left.Sub(each.Mul(decimal.NewFromInt(int64(len(run)))))
			if run[0].Kind == tax.AtOnce {
				left = v.Basis
			}
			table.Rows = append(table.Rows, plainRow(text(yearsFromTo(run[0].Year, run[len(run)-1].Year)), text(deductionText(run[0].Kind)), money(each), money(left)))
		}
	}
	return table
}

// runs joins the lines of a vintage whose deductions follow each other and are
// the same.
func runs(lines []tax.Line, vintage int) [][]tax.Line {
	var out [][]tax.Line
	for _, line := range lines {
		if line.Vintage != vintage {
			continue
		}
		if n := len(out); n > 0 {
			run := out[n-1]
			before := run[len(run)-1]
			if before.Kind == line.Kind && before.Year+1 == line.Year && before.Deduction.Equal(line.Deduction) {
				out[n-1] = append(run, line)
				continue
			}
		}
		out = append(out, []tax.Line{line})
	}
	return out
}

func deductionText(k tax.Kind) string {
	return map[tax.Kind]string{
		tax.AtOnce: "at once, within the limit", tax.Depreciation: "depreciation", tax.TornOff: "written off: torn off", tax.EndOfStudy: "written off: end of study",
	}[k]
}

// vintageText says what was paid, and what of it is depreciated how.
func (t *teller) vintageText(v *tax.Vintage) string {
	if v.System == tax.BeforeStudy {
		return fmt.Sprintf("What is left of the roof that was there: %s, in equal amounts", t.cur.Amount(v.Basis))
	}
	out := fmt.Sprintf("%s of “%s”, first deducted in year %d: %s paid", upperFirst(costText(v.Cost)), t.system(v.System), v.First, t.cur.Amount(v.Paid))
	if !v.Reduced.IsZero() {
		out += fmt.Sprintf(", less %s for credits", t.cur.Amount(v.Reduced))
	}
	if !v.AtOnce.IsZero() {
		out += fmt.Sprintf(", of which %s at once", t.cur.Amount(v.AtOnce))
	}
	if v.Basis.IsZero() {
		return out + "; nothing is left to depreciate"
	}
	return out + "; " + t.scheduleText(v.By)
}

func costText(k lcc.Kind) string {
	if k == lcc.Annual || k == lcc.Periodic {
		return kindText(k) + " cost"
	}
	return kindText(k)
}
