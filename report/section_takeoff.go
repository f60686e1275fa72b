package report

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

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
