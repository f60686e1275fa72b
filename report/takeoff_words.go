package report

import (
	"fmt"
	"strings"

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
	if other := w.sum(otherCost); !other.IsZero() {
		parts = append(parts, w.cur.Amount(other)+" for the rest")
	}
	return fmt.Sprintf("That is %s. Each line is a first cost of “%s” as the ledger has it at base-date prices, and the lines add up to the cent.",
		listed(parts), w.system(w.off.System))
}

// takeOffSection is the take-off in the owner's page: materials and steps.
// There is none where the study has no take-off.
func (t *teller) takeOffSection() []Section {
	if t.TakeOff == nil {
		return nil
	}
	w := t.work()
	s := Section{ID: "take-off", Heading: w.workHeading(), Blocks: w.boughtBlocks()}
	if len(w.off.Steps) > 0 {
		s.Blocks = append(s.Blocks, w.stepsTable(), List{Role: Caution, Items: w.practices()})
	}
	if note := w.filmLife(); note != "" {
		s.Blocks = append(s.Blocks, Paragraph{Role: Remark, Text: note})
	}
	return []Section{s}
}

// workHeading is over the take-off in the owner's page.
func (w *worker) workHeading() string {
	heading := fmt.Sprintf("“%s” takes %s of work", w.system(w.off.System), counted(len(w.off.Steps), "step"))
	volume, unit, ok := w.coatingBought()
	if !ok {
		return heading
	}
	if volume.IsZero() {
		return heading + ", and no coating is bought for it"
	}
	return fmt.Sprintf("%s, and %s of coating %s bought for it", heading, amountOf(volume, unit), isBought(volume))
}

// amountOf writes a volume in words: 1,240 gallons.
func amountOf(v decimal.Decimal, unit string) string {
	noun := map[string]string{"gal": "gallon", "L": "litre"}[unit]
	switch {
	case noun == "":
		noun = unitSign(unit)
	case !v.Equal(one):
		noun += "s"
	}
	about := ""
	if !v.Equal(v.Round(1)) {
		about = "about "
	}
	return strings.TrimSpace(about + trimmed(v, 1) + " " + noun)
}

func isBought(v decimal.Decimal) string {
	if v.Equal(one) {
		return "is"
	}
	return "are"
}

// filmLife says what a life rests on that follows from a film; "" where none
// does. That wear is weakly published is what [scenarios/coating] found.
func (w *worker) filmLife() string {
	system := &w.study.Systems[w.off.System]
	lives, from := []string{}, ""
	add := func(what string, r lcc.Ref) {
		if w.study.IsDerived(r) {
			lives = append(lives, fmt.Sprintf("%s of “%s”, %s,", what, system.Name, yearsText(w.Inputs[r].Round(1))))
			from = w.study.Inputs[r].Source
		}
	}
	add("The service life", system.Life)
	if system.Recoat != nil {
		add("the life that a recoat gives", system.Recoat.Life)
	}
	if len(lives) == 0 {
		return ""
	}
	verb := "follows"
	if len(lives) > 1 {
		verb = "follow"
	}
	note := fmt.Sprintf("%s %s from the film and how fast it wears. Rates of wear are weakly sourced: no standard states one, and what is published is a single trade text. Have the film measured over the years.",
		upperFirst(listed(lives)), verb)
	if from != "" {
		note += " The study names as its source: " + from + "."
	}
	return note
}
