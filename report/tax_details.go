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
	n := t.study.Period
	table := Table{
		ID:       fmt.Sprintf("tax-years-%d", i+1),
		Caption:  fmt.Sprintf("“%s” after tax, %s in money of the day; the total present value, of costs and tax, is the life-cycle cost after tax", t.name(i), t.study.About.Currency),
		Columns:  []Column{{Head: "Year", Unbroken: true}, number("Costs, less residual value"), number("Deducted in the year"), number("Depreciation"), number("Written off"), number("Income"), number("Tax and credits"), number("Present value")},
		PageOnly: true,
	}
	years := t.yearsAfterTax(i)
	var sum, after taxYear
	for k, y := range years {
		switch {
		case k > n:
			after.add(y)
		case y.any:
			table.Rows = append(table.Rows, y.row(Body, fmt.Sprint(k)))
		}
		sum.add(y)
	}
	if after.any {
		table.Rows = append(table.Rows, after.row(Body, yearsFromTo(n+1, len(years)-1)))
	}
	table.Rows = append(table.Rows, sum.row(Total, "Total"))
	return table
}

// yearsAfterTax are the years of an alternative from 0, the base date, to the
// end of the study or the last tax effect after it.
func (t *teller) yearsAfterTax(i int) []taxYear {
	o, last := &t.Tax.Alternatives[i], t.study.Period
	for _, line := range o.Lines {
		last = max(last, line.Year)
	}
	years := make([]taxYear, last+1)
	for _, line := range o.Ledger {
		y := &years[line.Time.Year()]
		y.any, y.costs, y.pv = true, y.costs.Add(line.Current), y.pv.Add(line.PV)
	}
	for _, line := range o.Lines {
		years[line.Year].enter(line)
	}
	return years
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
		for _, run := range runs(deductionsOf(o, k)) {
			first, last := run[0], run[len(run)-1]
			table.Rows = append(table.Rows, plainRow(text(yearsFromTo(first.Year, last.Year)), text(deductionText(first.Kind)), money(first.Deduction), money(last.left)))
		}
	}
	return table
}

// deduction is one of a vintage, with what is left of its basis after it.
type deduction struct {
	tax.Line
	left decimal.Decimal
}

// deductionsOf are those of a vintage, by year. What is deducted at once is no
// part of the basis.
func deductionsOf(o *tax.Outcome, vintage int) (out []deduction) {
	left := o.Vintages[vintage].Basis
	for _, line := range o.Lines {
		if line.Vintage != vintage {
			continue
		}
		if line.Kind != tax.AtOnce {
			left = left.Sub(line.Deduction)
		}
		out = append(out, deduction{line, left})
	}
	return out
}

// runs joins deductions that follow each other and are the same.
func runs(of []deduction) [][]deduction {
	var out [][]deduction
	for _, d := range of {
		if n := len(out); n > 0 {
			run := out[n-1]
			before := run[len(run)-1]
			if before.Kind == d.Kind && before.Year+1 == d.Year && before.Deduction.Equal(d.Deduction) {
				out[n-1] = append(run, d)
				continue
			}
		}
		out = append(out, []deduction{d})
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
