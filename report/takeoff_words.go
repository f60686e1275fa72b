package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// measuredSection tells what was measured.
func (w *worker) measuredSection() Section {
	n := len(w.off.Measured)
	s := Section{ID: "measured-roof", Heading: fmt.Sprintf("The survey gives %s of this roof", counted(n, "measure"))}
	if n > 0 {
		s.Blocks = append(s.Blocks, w.measuredTable())
	}
	return s
}

// boughtSection tells what is bought.
func (w *worker) boughtSection() Section {
	return Section{ID: "what-to-buy", Heading: w.boughtHeading(), Blocks: w.boughtBlocks()}
}

// boughtBlocks are the tables of materials and coats, where there are any.
func (w *worker) boughtBlocks() []Block {
	var out []Block
	if len(w.goods()) > 0 {
		out = append(out, w.boughtTable())
	}
	if coats := w.coatsTable(); len(coats.Rows) > 0 {
		out = append(out, coats)
	}
	return out
}

// boughtHeading is over the materials.
func (w *worker) boughtHeading() string {
	materials, unpriced := 0, 0
	for _, g := range w.goods() {
		if !g.Bought.IsPositive() {
			continue
		}
		materials++
		if g.Price == lcc.NoRef {
			unpriced++
		}
	}
	if materials == 0 {
		return "Nothing has to be bought for the work"
	}
	heading := fmt.Sprintf("%s %s to be bought", upperFirst(counted(materials, "material")), hasHave(materials))
	switch {
	case unpriced == materials:
		return heading + ", without a stated price"
	case unpriced > 0:
		return fmt.Sprintf("%s, %s of them without a stated price", heading, few(unpriced))
	case len(w.costs) == 0:
		return heading
	}
	return heading + ", for " + w.cur.Amount(w.sum(materialCost))
}

func hasHave(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

// stepsSection tells what is done in which order.
func (w *worker) stepsSection() Section {
	s := Section{ID: "what-to-do", Heading: w.stepsHeading()}
	if len(w.off.Steps) > 0 {
		s.Blocks = append(s.Blocks, w.stepsTable())
	}
	cautions := append([]string{cautionFalls, cautionFumes, cautionWashWater}, w.practices()...)
	s.Blocks = append(s.Blocks, List{Role: Caution, Items: cautions})
	return s
}

// stepsHeading is over the steps. What is waited after the last step is not
// between steps.
func (w *worker) stepsHeading() string {
	n := len(w.off.Steps)
	if n == 0 {
		return "No step of work is planned"
	}
	heading, wait := "The work is done in "+counted(n, "step"), decimal.Zero
	for _, s := range w.off.Steps[:n-1] {
		wait = wait.Add(s.Wait)
	}
	if wait.IsPositive() {
		heading += fmt.Sprintf(", with at least %s %s of waiting between them", trimmed(wait, 2), hours(wait))
	}
	return heading
}

// practices are cautions of the work itself. Those without a source are common
// practice.
func (w *worker) practices() []string {
	out := []string{"Washing: work down the slope, and never spray into seams, laps or openings; let the roof dry before the next step (common practice)."}
	if len(w.coatsTable().Rows) == 0 {
		return out
	}
	return append(out,
		"Wet film: push the gauge into the coat as soon as it is on; where the notch named here is wetted, the film is reached (ASTM D4414). A gauge does not tell the solids, so thinned paint passes it.",
		"Weather: nothing is coated while the roof is wet, nor when rain, dew or frost will come before the coat has set; the maker’s data sheet has the limits, and goes before the waiting times here (common practice).")
}

// costsSection tells what the work costs.
func (w *worker) costsSection() Section {
	s := Section{ID: "work-cost", Heading: w.costsHeading()}
	if len(w.costs) > 0 {
		s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: w.costsLead()}, w.costsTable())
	}
	return s
}

// costsHeading is over the costs of the work.
func (w *worker) costsHeading() string {
	switch total := w.sum(""); {
	case len(w.study.Systems[w.off.System].First) == 0:
		return "No cost of the work is stated"
	case len(w.costs) == 0:
		return fmt.Sprintf("No alternative installs “%s” within the study period, so the ledgers hold no cost of it", w.system(w.off.System))
	default:
		return fmt.Sprintf("The work costs %s", w.cur.Amount(total))
	}
}

// costsLead says what the lines are.
func (w *worker) costsLead() string {
	parts := []string{w.cur.Amount(w.sum(labourCost)) + " for labour", w.cur.Amount(w.sum(materialCost)) + " for material"}
	if lumps := w.sum(lumpCost); !lumps.IsZero() {
		parts = append(parts, w.cur.Amount(lumps)+" in lump sums")
	}
	if other := w.sum(otherCost); !other.IsZero() {
		parts = append(parts, w.cur.Amount(other)+" for the rest")
	}
	return fmt.Sprintf("That is %s. Each line is a first cost of “%s” as the ledger has it at base-date prices, and the lines add up to the cent.",
		listed(parts), w.system(w.off.System))
}
