package report

import (
	"fmt"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

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
		table.Rows = append(table.Rows, plainRow(text(w.stepName(g.Step)), w.filmCell(g.Coat.Dry), w.share(g.Coat.Solids), w.lossCell(g.Coat),
			w.filmCell(g.Coat.Wet), w.notchCell(&g)))
	}
	return table
}

// lossCell shows what makes no film: a share of the paint, or how much more
// paint it takes than a smooth surface.
func (w *worker) lossCell(c *takeoff.Coat) Cell {
	if extra, ok := w.film(c.Extra); ok && c.Loss == lcc.NoRef {
		return text(Percent(extra, 4) + " more paint")
	}
	return w.share(c.Loss)
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
