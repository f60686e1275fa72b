package report

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// noSource is how a missing source is shown, everywhere.
const noSource = "no source given"

// assumptionsSection lists what the figures rest on.
func (t *teller) assumptionsSection() Section {
	s := Section{ID: "assumptions", Heading: t.inputsHeading()}
	if len(t.Warnings) > 0 {
		s.Blocks = append(s.Blocks, List{Role: Remark, Items: t.remarks()})
	}
	s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: t.unsourcedText()}, t.inputTable(), t.settingTable())
	return s
}

// remarks are the warnings as sentences.
func (t *teller) remarks() []string {
	var out []string
	for _, w := range t.Warnings {
		out = append(out, fmt.Sprintf("%s: %s.", w.About, w.Text))
	}
	return out
}

// sourced counts the inputs that have a source; a list of rates is one. What
// follows from other inputs needs none.
func (t *teller) sourced() (sourced, total int) {
	for _, row := range t.inputRows() {
		if t.study.IsDerived(lcc.Ref(row.first)) {
			continue
		}
		total++
		if t.study.Inputs[row.first].Source != "" {
			sourced++
		}
	}
	return sourced, total
}

// sourcesLead says how many inputs have a source.
func (t *teller) sourcesLead() string {
	sourced, total := t.sourced()
	switch sourced {
	case total:
		return fmt.Sprintf("Every one of the %s has a source.", Plural(total, "input"))
	case 0:
		return fmt.Sprintf("None of the %s has a source in the study file: ask for them before relying on the result.", Plural(total, "input"))
	}
	return fmt.Sprintf("%d of %s have a source; the others rest on the preparer's word.", sourced, Plural(total, "input"))
}

// unsourcedText says what the heading of the inputs leaves unsaid.
func (t *teller) unsourcedText() string {
	switch sourced, total := t.sourced(); sourced {
	case total:
		return "It stands beside each of them."
	case 0:
		return "Ask the preparer for sources before relying on the result."
	}
	return "The others rest on the preparer's word."
}

// inputRow is an input, or the rates of a list from first to last.
type inputRow struct{ first, last int }

// inputRows makes one row of a list of plain rates with one source.
func (t *teller) inputRows() []inputRow {
	inputs := t.study.Inputs
	var rows []inputRow
	for i := range inputs {
		if n := len(rows); n > 0 && sameList(&inputs[rows[n-1].first], &inputs[i]) {
			rows[n-1].last = i
			continue
		}
		rows = append(rows, inputRow{i, i})
	}
	return rows
}

// sameList tells whether two inputs are plain entries of one list of rates.
func sameList(a, b *lcc.Input) bool {
	list := func(in *lcc.Input) string {
		name, _, found := strings.Cut(strings.TrimPrefix(in.Path, "study.escalation."), "[")
		if !found || in.Unit != lcc.Rate || in.Of != "" {
			return ""
		}
		return name
	}
	return a.Shape == lcc.Fixed && b.Shape == lcc.Fixed && a.Source == b.Source && list(a) != "" && list(a) == list(b)
}

// inputTable lists every input with its range and source.
func (t *teller) inputTable() Table {
	table := Table{ID: "inputs", Caption: "Inputs: the plain study uses the value; the range serves the question what would change the answer",
		Columns: []Column{words("Input"), number("Value"), words("Range"), words("Source")}}
	group := ""
	for _, row := range t.inputRows() {
		in := &t.study.Inputs[row.first]
		if in.Of != group {
			group = in.Of
			table.Rows = append(table.Rows, Row{Role: Group, Cells: []Cell{text(group), text(""), text(""), text("")}})
		}
		table.Rows = append(table.Rows, t.inputCells(row))
	}
	return table
}

func (t *teller) inputCells(row inputRow) Row {
	in := &t.study.Inputs[row.first]
	source := text(in.Source)
	if in.Source == "" {
		source = state(noSource, "")
	}
	label, value, spread := in.Label, t.inputValue(in, t.Inputs[row.first]), t.inputRange(in)
	if t.study.IsDerived(lcc.Ref(row.first)) {
		value = t.shown(lcc.Ref(row.first), t.Inputs[row.first])
	}
	if row.last > row.first {
		rates := t.Inputs[row.first : row.last+1]
		label = fmt.Sprintf("%s to %d", in.Label, row.last-row.first+1)
		value = "by year"
		spread = fmt.Sprintf("%s in the first year, %s in the last", Percent(rates[0], 4), Percent(rates[len(rates)-1], 4))
	}
	return plainRow(text(label), text(value), text(spread), source)
}

// settingTable lists the conventions and whole numbers of the study.
func (t *teller) settingTable() Table {
	table := Table{ID: "settings", Caption: "Settings of the study", Columns: []Column{words("Setting"), words("Value")}}
	add := func(label, value string) { table.Rows = append(table.Rows, plainRow(text(label), text(value))) }
	add("Base date (time 0)", t.study.About.BaseDate)
	add("Currency", t.study.About.Currency)
	add("Rate basis", t.study.Basis.String()+": "+t.moneyOf())
	add("Timing of annual and periodic costs", t.study.Timing.String())
	for _, c := range t.plainCategories() {
		add("Escalation of "+c.String(), t.plainEscalation())
	}
	for _, set := range t.Settings {
		add(set.Label, set.Value)
	}
	return table
}

// plainCategories are the categories in use for which the study states no
// escalation.
func (t *teller) plainCategories() []lcc.Category {
	var out []lcc.Category
	for c := range lcc.NumCategories {
		if len(t.study.Escalation[c]) == 0 && t.uses(c) {
			out = append(out, c)
		}
	}
	return out
}

func (t *teller) uses(c lcc.Category) bool {
	for i := range t.Alternatives {
		for _, line := range t.Alternatives[i].Ledger {
			if line.Category == c {
				return true
			}
		}
	}
	return false
}

// plainEscalation is what a category without a stated escalation does.
func (t *teller) plainEscalation() string {
	if t.study.Basis == lcc.Nominal {
		return "none stated: with general inflation"
	}
	return "none stated: 0% (with general prices)"
}

// inputValue writes a value of an input with its unit.
func (t *teller) inputValue(in *lcc.Input, v decimal.Decimal) string {
	switch in.Unit {
	case lcc.Rate:
		return Percent(v, 4)
	case lcc.Years:
		return yearsText(v)
	case lcc.Money:
		return trimmedMoney(t.cur, v)
	case lcc.Price:
		return trimmedMoney(t.cur, v) + " " + unitText(in)
	}
	switch in.UnitText {
	case "":
		return trimmed(v, 6)
	case "%":
		return Percent(v, 4)
	}
	return trimmed(v, 6) + " " + unitSign(in.UnitText)
}

// inputRange writes the range or distribution of an input.
func (t *teller) inputRange(in *lcc.Input) string {
	show := func(v decimal.Decimal) string { return t.inputValue(in, v) }
	switch in.Shape {
	case lcc.Triangular:
		return show(in.Low) + " to " + show(in.High)
	case lcc.PERT, lcc.Uniform:
		return fmt.Sprintf("%s to %s (%s)", show(in.Low), show(in.High), shapeName(in.Shape))
	case lcc.Weibull:
		return fmt.Sprintf("Weibull, mean %s, shape %s", show(in.Likely), trimmed(in.Spread, 6))
	case lcc.Normal, lcc.Lognormal:
		return fmt.Sprintf("%s, mean %s, standard deviation %s", shapeName(in.Shape), show(in.Likely), show(in.Spread))
	}
	return "–"
}

func shapeName(s lcc.Shape) string {
	if s == lcc.PERT {
		return "PERT"
	}
	return s.String()
}

func yearsText(v decimal.Decimal) string {
	if v.Equal(decimal.NewFromInt(1)) {
		return "1 year"
	}
	return trimmed(v, 6) + " years"
}

// trimmedMoney writes an amount of the study file with the digits it has, and
// no fewer than the currency's.
func trimmedMoney(cur Currency, v decimal.Decimal) string {
	if -v.Exponent() <= cur.Digits {
		return cur.Amount(v)
	}
	digits := min(-v.Exponent(), 10)
	return Currency{Code: cur.Code, Digits: digits}.Amount(v.Round(digits))
}

// unitText is what a price is per, as people write it: per ft².
func unitText(in *lcc.Input) string {
	unit := strings.TrimPrefix(in.UnitText, "per ")
	if unit == "" {
		return "each"
	}
	return "per " + unitSign(unit)
}
