package report

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

// goods is a material that a step takes, and what is bought of it.
type goods struct {
	*takeoff.Material
	Step   int // index in TakeOff.Steps
	Needed decimal.Decimal
	Bought decimal.Decimal
	Unit   string // of both, as the study writes it
	Rate   spread
}

// spread is how much is needed on so much of the roof.
type spread struct {
	Quantity decimal.Decimal
	Per      string // "100 ft2"; "" when there is no such figure
}

// goods are the materials of the work, in the order of its steps.
func (w *worker) goods() []goods {
	var out []goods
	for i := range w.off.Steps {
		if m := w.off.Steps[i].Material; m != nil {
			g := goods{Material: m, Step: i, Needed: w.Inputs[m.Needed], Bought: w.Inputs[m.Bought], Unit: w.study.Inputs[m.Needed].UnitText}
			g.Rate = w.spread(m, w.off.Steps[i].Over)
			out = append(out, g)
		}
	}
	return out
}

// spread is a need by what the step is done to: by 100 ft² (a square, the
// measure of the trade) or 100 ft, by m², m or piece. What is bought by that
// very quantity has none.
func (w *worker) spread(m *takeoff.Material, over lcc.Ref) spread {
	if over == lcc.NoRef || over == m.Needed || !w.Inputs[over].IsPositive() {
		return spread{}
	}
	rate := w.Inputs[m.Needed].DivRound(w.Inputs[over], rateDigits)
	switch unit := w.study.Inputs[over].UnitText; unit {
	case "ft", "ft2":
		return spread{rate.Shift(2), "100 " + unit}
	case "":
		return spread{rate, "piece"}
	default:
		return spread{rate, unit}
	}
}

// rateDigits is with how many decimals a need by area is found.
const rateDigits = 20

// Packs is in how many packs it is bought; 0 when it is not sold in packs.
func (g *goods) Packs() decimal.Decimal {
	if !g.Pack.IsPositive() {
		return decimal.Zero
	}
	return g.Bought.DivRound(g.Pack, 0)
}

// Over is what is left over of what is bought.
func (g *goods) Over() decimal.Decimal { return decimal.Max(decimal.Zero, g.Bought.Sub(g.Needed)) }

// film is a figure of a coat; false when the study has none.
func (w *worker) film(r lcc.Ref) (decimal.Decimal, bool) {
	if r == lcc.NoRef {
		return decimal.Zero, false
	}
	return w.Inputs[r], true
}

// notch is the gauge's notch of a step; false when it has none.
func (w *worker) notch(step int) (decimal.Decimal, bool) {
	if step >= len(w.off.Notches) || !w.off.Notches[step].IsPositive() {
		return decimal.Zero, false
	}
	return w.off.Notches[step], true
}

// coatingBought adds up what is bought of all coats; false when they are not
// measured in one unit, or there is none.
func (w *worker) coatingBought() (sum decimal.Decimal, unit string, ok bool) {
	for _, g := range w.goods() {
		if g.Coat == nil {
			continue
		}
		if ok && g.Unit != unit {
			return decimal.Zero, "", false
		}
		sum, unit, ok = sum.Add(g.Bought), g.Unit, true
	}
	return sum, unit, ok
}
