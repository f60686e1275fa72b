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

// sourceOf is the source of a measure; what follows from others has none of
// its own.
func (w *worker) sourceOf(m *takeoff.Measure) Cell {
	if w.study.IsDerived(m.In) {
		return stated(m.Source, "–")
	}
	return stated(m.Source, noSource)
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

// boughtTable lists the materials.
func (w *worker) boughtTable() Table {
	table := Table{ID: "bought", Caption: fmt.Sprintf("Materials, losses included; prices and costs in %s at base-date prices", w.study.About.Currency),
		Columns: []Column{words("Material"), words("For"), number("Takes"), number("Rate"), number("Packs"), number("Bought"), number("Left over"),
			number("Unit price"), number("Cost")}}
	for _, g := range w.goods() {
		table.Rows = append(table.Rows, plainRow(text(materialName(&g)), text(w.stepName(g.Step)), w.measured(g.Needed, 2, g.Unit), w.spreadCell(&g),
			w.packs(&g), w.measured(g.Bought, 2, g.Unit), w.measured(g.Over(), 2, g.Unit), w.price(g.Price), w.costCell(g.Step, materialCost)))
	}
	if len(table.Rows) > 0 && len(w.costs) > 0 {
		blank := text("")
		table.Rows = append(table.Rows, totalRow(text("All materials"), blank, blank, blank, blank, blank, blank, blank, money(w.sum(materialCost))))
	}
	return table
}

func materialName(g *goods) string {
	if g.Colour == "" {
		return g.Name
	}
	return g.Name + ", " + g.Colour
}

// stepName numbers a step; a cost of no step is the whole work's.
func (w *worker) stepName(step int) string {
	if step < 0 {
		return "the whole work"
	}
	return fmt.Sprintf("%d. %s", step+1, w.off.Steps[step].Name)
}

func (w *worker) spreadCell(g *goods) Cell {
	if g.Rate.Per == "" {
		return state("–", "")
	}
	return w.measured(g.Rate.Quantity, 3, "").per(unitSign(g.Unit), unitSign(g.Rate.Per))
}

// per makes a quantity one of so much per something.
func (c Cell) per(unit, per string) Cell {
	c.Unit = "per " + per
	if unit != "" {
		c.Unit = unit + " " + c.Unit
	}
	return c
}

func (w *worker) packs(g *goods) Cell {
	if !g.Pack.IsPositive() {
		return state("not in packs", "")
	}
	return w.measured(g.Packs(), 0, "× "+trimmed(g.Pack, 6)+" "+unitSign(g.Unit))
}

func (w *worker) price(r lcc.Ref) Cell {
	if r == lcc.NoRef {
		return state(noneStated, "")
	}
	return text(w.inputValue(&w.study.Inputs[r], w.Inputs[r]))
}

func (w *worker) costCell(step int, kind costKind) Cell {
	if amount, ok := w.cost(step, kind); ok {
		return money(amount)
	}
	return state("–", "")
}

// coatsTable lists the films that are to be on the roof.
func (w *worker) coatsTable() Table {
	table := Table{ID: "coats", Caption: "Coats: the film that shall be there when dry, and what a gauge shows while it is wet",
		Columns: []Column{words("Coat"), number("Dry film"), number("Volume solids"), number("Loss"), number("Wet film to aim for"), number("Notch of the gauge")}}
	for _, g := range w.goods() {
		if g.Coat == nil {
			continue
		}
		table.Rows = append(table.Rows, plainRow(text(w.stepName(g.Step)), w.filmCell(g.Coat.Dry), w.share(g.Coat.Solids), w.share(g.Coat.Loss),
			w.filmCell(g.Coat.Wet), w.notchCell(&g)))
	}
	return table
}

func (w *worker) share(r lcc.Ref) Cell {
	if v, ok := w.film(r); ok {
		return rate(v)
	}
	return state(noneStated, "")
}

// filmCell shows a film: a stated one as it is, a derived one to a tenth.
func (w *worker) filmCell(r lcc.Ref) Cell {
	v, ok := w.film(r)
	if !ok {
		return state(noneStated, "")
	}
	digits := int32(6)
	if w.study.IsDerived(r) {
		digits = 1
	}
	return w.measured(v, digits, w.study.Inputs[r].UnitText)
}

func (w *worker) notchCell(g *goods) Cell {
	v, ok := w.notch(g.Step)
	if !ok {
		return state("–", "")
	}
	c := w.measured(v, 1, w.study.Inputs[g.Coat.Wet].UnitText)
	if w.study.Inputs[g.Coat.Wet].UnitText != "mil" {
		return c.noted("Gauges are divided in mils (ASTM D4414); the notch is converted.")
	}
	return c
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
		table.Rows = append(table.Rows, plainRow(text(c.Name), text(w.stepName(c.Step)), text(string(c.Kind)), quantity, w.price(c.Price), money(c.Amount)))
	}
	blank := text("")
	total := func(label string, kind costKind) {
		table.Rows = append(table.Rows, totalRow(text(label), blank, blank, blank, blank, money(w.sum(kind))))
	}
	total("Labour", labourCost)
	total("Material", materialCost)
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
