package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

// noneStated is how a figure is shown that the study could state and does not.
const noneStated = "none stated"

// percentUnit is the unit of a fraction that is written in per cent.
const percentUnit = "%"

// groupNames are the headings of what was measured.
var groupNames = map[takeoff.Group]string{
	takeoff.Areas: "Areas", takeoff.Lengths: "Lengths", takeoff.Counts: "Counts", takeoff.Condition: "Condition",
}

// measuredTable lists what was measured, by group.
func (w *worker) measuredTable() Table {
	table := Table{ID: "measured", Caption: "Measures of the roof",
		Columns: []Column{words("Measure"), number("Quantity"), words("How it comes about"), words("Source")}}
	for group := takeoff.Areas; group <= takeoff.Condition; group++ {
		named := false
		for _, m := range w.off.Measured {
			if m.Group != group {
				continue
			}
			if !named {
				table.Rows = append(table.Rows, Row{Role: Group, Cells: []Cell{text(groupNames[group]), text(""), text(""), text("")}})
				named = true
			}
			table.Rows = append(table.Rows, plainRow(text(m.Label), w.quantity(m.In), text(howText(&m)), w.sourceOf(&m)))
		}
	}
	return table
}

// howText says how a measure comes about.
func howText(m *takeoff.Measure) string {
	switch {
	case m.How != "":
		return m.How
	case m.Group == takeoff.Counts:
		return "as counted"
	}
	return "as measured"
}

// sourceOf is the source of a measure; where it follows from others, how it
// comes about says so already.
func (w *worker) sourceOf(m *takeoff.Measure) Cell {
	switch {
	case !w.study.IsDerived(m.In):
		return stated(m.Source, noSource)
	case m.How != "":
		return state("–", "")
	}
	return stated(m.Source, "–")
}

// stated is a text, or a word for its absence.
func stated(s, absent string) Cell {
	if s == "" {
		return state(absent, "")
	}
	return text(s)
}

// quantity is an input with its unit: as it is stated, or, where it is
// derived, with two decimals and small ones with four.
func (w *worker) quantity(r lcc.Ref) Cell {
	digits := int32(6)
	if v := w.Inputs[r]; w.study.IsDerived(r) {
		if digits = 2; v.LessThan(decimal.NewFromInt(10)) {
			digits = 4
		}
	}
	return w.measured(w.Inputs[r], digits, w.study.Inputs[r].UnitText)
}

// measured is a quantity with at most so many decimals and a unit of the study.
func (w *worker) measured(v decimal.Decimal, digits int32, unit string) Cell {
	if unit == percentUnit {
		return rate(v)
	}
	return Cell{Kind: QuantityCell, Number: v, Digits: digits, Unit: unitSign(unit)}
}

// stepsTable lists the steps in the order of doing.
func (w *worker) stepsTable() Table {
	table := Table{ID: "steps", Caption: "Steps in the order of doing",
		Columns: []Column{words("Step"), words("To mind"), number("Done to"), number("Then wait")}}
	for i, s := range w.off.Steps {
		wait := state(noneStated, "")
		switch {
		case s.Wait.IsPositive():
			wait = w.measured(s.Wait, 2, hours(s.Wait))
		case i == len(w.off.Steps)-1:
			wait = state("–", "")
		}
		over := state("done once", "")
		if s.Over != lcc.NoRef {
			over = w.quantity(s.Over)
		}
		table.Rows = append(table.Rows, plainRow(text(w.stepName(i)), stated(s.Note, "–"), over, wait))
	}
	return table
}

func hours(v decimal.Decimal) string {
	if v.Equal(one) {
		return "hour"
	}
	return "hours"
}

// costsTable lists the first costs, line by line as the ledger has them.
func (w *worker) costsTable() Table {
	table := Table{ID: "work-costs", Caption: fmt.Sprintf("First costs of “%s”, %s at base-date prices", w.system(w.off.System), w.study.About.Currency),
		Columns: []Column{words("Cost"), words("For"), words("Kind"), number("Quantity"), number("Price"), number("Amount")}}
	for _, c := range w.costs {
		quantity := state("lump sum", "")
		if c.Quantity != lcc.NoRef {
			quantity = w.measured(w.Inputs[c.Quantity], w.enough(&c), w.study.Inputs[c.Quantity].UnitText)
		}
		step := state("no step", "")
		if c.Step >= 0 {
			step = text(w.stepName(c.Step))
		}
		table.Rows = append(table.Rows, plainRow(text(c.Name), step, text(string(c.Kind)), quantity, w.price(c.Price), money(c.Amount)))
	}
	blank := text("")
	total := func(label string, kind costKind) {
		table.Rows = append(table.Rows, totalRow(text(label), blank, blank, blank, blank, money(w.sum(kind))))
	}
	total("Labour", labourCost)
	total("Material", materialCost)
	if !w.sum(lumpCost).IsZero() {
		total("Lump sums", lumpCost)
	}
	if !w.sum(otherCost).IsZero() {
		total("Other", otherCost)
	}
	total("All first costs", "")
	return table
}

// enough is with how many decimals a quantity times its price is the amount.
func (w *worker) enough(c *workCost) int32 {
	quantity, price := w.Inputs[c.Quantity], w.Inputs[c.Price]
	for digits := range int32(12) {
		if quantity.Round(digits).Mul(price).Round(w.study.About.Digits).Equal(c.Amount) {
			return digits
		}
	}
	return 12
}

// stepName numbers a step.
func (w *worker) stepName(step int) string {
	return fmt.Sprintf("%d. %s", step+1, w.off.Steps[step].Name)
}

func (w *worker) price(r lcc.Ref) Cell {
	if r == lcc.NoRef {
		return state(noneStated, "")
	}
	return text(w.inputValue(&w.study.Inputs[r], w.Inputs[r]))
}
