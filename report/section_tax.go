package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/tax"
)

// taxSections show the study after tax, beside the figures before tax; none
// where it states no tax terms.
func (t *teller) taxSections() []Section {
	if t.Tax == nil {
		return nil
	}
	s := Section{ID: "after-tax", Heading: t.taxHeading(), Blocks: append(t.taxTables(), List{Role: Caution, Items: t.taxCautions()})}
	s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: "What the study states about tax:"}, List{Items: t.taxTerms()}, t.treatmentTable(),
		Paragraph{Role: Lead, Text: "How tax is counted:"}, List{Items: t.taxMethod()})
	return []Section{s}
}

// taxBrief is what the terminal shows of it.
func (t *teller) taxBrief() []Section {
	if t.Tax == nil {
		return nil
	}
	return []Section{{ID: "after-tax", Heading: t.taxHeading(), Blocks: append(t.taxTables(), List{Role: Caution, Items: t.taxCautions()[:1]})}}
}

// taxCheck is what the check of a file shows of it.
func (t *teller) taxCheck() []Section {
	if t.Tax == nil {
		return nil
	}
	return []Section{{ID: "after-tax", Heading: "What the study states about tax", Blocks: []Block{List{Items: t.taxTerms()}, t.treatmentTable()}}}
}

// taxTables set the alternatives side by side, before and after tax.
func (t *teller) taxTables() []Block {
	out := []Block{Paragraph{Role: Lead, Text: t.taxLead()}}
	for i, set := range t.columnSets() {
		out = append(out, t.taxTable(setID("tax", i), set))
	}
	return out
}

func (t *teller) taxTable(id string, set []int) Table {
	table := Table{
		ID: id,
		Caption: fmt.Sprintf("%s, present values over %s at %s discount rates; tax saved is negative",
			t.study.About.Currency, Plural(t.study.Period, "year"), t.study.Basis),
		Columns: []Column{words("")},
	}
	for _, i := range set {
		column := number(t.name(i))
		column.Lowest = i == t.Tax.Lowest
		table.Columns = append(table.Columns, column)
	}
	t.beforeTax(&table, set)
	t.afterTax(&table, set)
	return table
}

// side adds a row of a figure of each alternative.
func (t *teller) side(table *Table, set []int, role RowRole, label string, of func(i int) Cell) {
	row := Row{Role: role, Cells: []Cell{text(label)}}
	for _, i := range set {
		row.Cells = append(row.Cells, of(i))
	}
	table.Rows = append(table.Rows, row)
}

func blank(int) Cell { return text("") }

// savings is the cell of net savings; nil is the base case.
func savings(saved *decimal.Decimal) Cell {
	if saved == nil {
		return state(isBaseCase, "")
	}
	return money(*saved)
}

func (t *teller) beforeTax(table *Table, set []int) {
	t.side(table, set, Group, "Before tax, at "+Percent(t.Rate, 4), blank)
	t.side(table, set, Body, lccLabel, func(i int) Cell { return money(t.Alternatives[i].LCC) })
	if t.study.BaseCase() >= 0 {
		t.side(table, set, Body, savingsLabel, func(i int) Cell {
			if c := t.Alternatives[i].AgainstBase; c != nil {
				return savings(&c.NetSavings)
			}
			return savings(nil)
		})
	}
}

func (t *teller) afterTax(table *Table, set []int) {
	after := t.Tax.Alternatives
	t.side(table, set, Group, "After tax, at "+Percent(t.Tax.AfterTax, 4), blank)
	t.side(table, set, Body, "Costs before tax, at this rate", func(i int) Cell { return money(after[i].Costs) })
	for _, part := range t.taxParts() {
		t.side(table, set, Body, part.label, func(i int) Cell { return money(after[i].Sum(part.holds)) })
	}
	t.side(table, set, Total, lccLabel+" after tax", func(i int) Cell { return money(after[i].LCC) })
	t.side(table, set, Body, worthLabel, func(i int) Cell { return money(after[i].AnnualWorth) })
	if t.study.BaseCase() >= 0 {
		t.side(table, set, Body, savingsLabel, func(i int) Cell { return savings(after[i].NetSavings) })
	}
	t.side(table, set, Body, standing, func(i int) Cell { return text(t.standsText(i, i == t.Tax.Lowest)) })
}

// taxPart is a part of what tax does to the life-cycle cost. The parts together
// are all of it.
type taxPart struct {
	label string
	holds func(tax.Line) bool
}

// taxParts are the parts that occur in the study.
func (t *teller) taxParts() []taxPart {
	end := t.study.Period
	kinds := func(of ...tax.Kind) func(tax.Line) bool {
		return func(l tax.Line) bool {
			for _, k := range of {
				if l.Kind == k && l.Year <= end {
					return true
				}
			}
			return false
		}
	}
	all := []taxPart{
		{"Tax saved by costs deducted in their year", kinds(tax.Expense, tax.AtOnce)},
		{"Tax saved by depreciation within the study", kinds(tax.Depreciation)},
		{"Tax saved by depreciation after the study", func(l tax.Line) bool { return l.Year > end }},
		{"Tax saved by basis that is written off", kinds(tax.TornOff, tax.EndOfStudy)},
		{"Tax on residual value", kinds(tax.ResidualTaxed)},
		{"Credits and rebates", kinds(tax.CreditReceived)},
		{"Tax on credits and rebates", kinds(tax.CreditTaxed)},
	}
	var out []taxPart
	for _, part := range all {
		if t.anyTax(part.holds) {
			out = append(out, part)
		}
	}
	return out
}

// anyTax tells whether a line of any alternative is such.
func (t *teller) anyTax(holds func(tax.Line) bool) bool {
	for i := range t.Tax.Alternatives {
		for _, line := range t.Tax.Alternatives[i].Lines {
			if holds(line) {
				return true
			}
		}
	}
	return false
}

// treatmentTable says how tax treats every cost, list by list where all of a list
// are treated alike.
func (t *teller) treatmentTable() Table {
	table := Table{ID: "tax-treatments", Caption: "How tax treats each cost, as the study states it", Columns: []Column{words("Cost"), words("Treatment")}}
	for i := range t.study.Systems {
		if !t.stands(i) {
			continue
		}
		y, head := &t.study.Systems[i], len(table.Rows)
		for _, list := range costLists(y) {
			table.Rows = append(table.Rows, t.treatmentRows(list)...)
		}
		if len(table.Rows) > head {
			group := Row{Role: Group, Cells: []Cell{text(y.Name), text("")}}
			table.Rows = append(table.Rows[:head], append([]Row{group}, table.Rows[head:]...)...)
		}
	}
	return table
}

// stands tells whether a system stands on the roof in any alternative.
func (t *teller) stands(system int) bool {
	for i := range t.Alternatives {
		for _, p := range t.Alternatives[i].Spells {
			if p.System == system {
				return true
			}
		}
	}
	return false
}

// costList is one list of the costs of a system.
type costList struct {
	name, key string // for people, and that of the tax section of a study file
	items     []lcc.Item
}

func costLists(y *lcc.System) []costList {
	out := []costList{
		{"First costs", "first_costs", y.First}, {"Annual costs", "annual_costs", y.Annual},
		{"Periodic costs", "periodic_costs", y.Periodic}, {"Removal", "removal", y.Removal},
	}
	if y.Recoat != nil {
		out = append(out, costList{"Recoats", "recoat", y.Recoat.Costs})
	}
	return out
}

func (t *teller) treatmentRows(list costList) []Row {
	alike := true
	for _, it := range list.items {
		alike = alike && it.Tax == list.items[0].Tax
	}
	switch {
	case len(list.items) == 0:
		return nil
	case alike:
		return []Row{plainRow(text(list.name), text(t.treatmentText(list.items[0].Tax)))}
	}
	var out []Row
	for _, it := range list.items {
		out = append(out, plainRow(text(list.name+": "+it.Name), text(t.treatmentText(it.Tax))))
	}
	return out
}

func (t *teller) treatmentText(place int) string {
	k := t.Tax.Terms.Treatment[place-1]
	switch {
	case k.Way == tax.Expensed:
		return "expensed: deducted in its year"
	case k.Way == tax.NotDeducted:
		return "not deducted"
	case k.AtOnce:
		return "deducted at once up to the limit of the year; the rest " + t.scheduleText(k.By)
	}
	return t.scheduleText(k.By)
}

// scheduleText names a schedule: depreciated over 39 years.
func (t *teller) scheduleText(s tax.Schedule) string {
	years := map[tax.Table]string{tax.MACRS5: "5", tax.MACRS7: "7", tax.MACRS15: "15", tax.MACRS27: "27.5", tax.MACRS39: "39"}[s.Table]
	switch {
	case s.Table == tax.StraightLine:
		return "depreciated in equal amounts over " + Plural(s.Years, "year")
	case s.Table.ByMonth():
		return fmt.Sprintf("depreciated over %s years (MACRS, mid-month, month %d)", years, t.Tax.Month)
	}
	return fmt.Sprintf("depreciated over %s years (MACRS, half-year)", years)
}
