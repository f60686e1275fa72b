package report

import (
	"fmt"
	"slices"
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
	case !v.Round(1).Equal(one):
		noun += "s"
	}
	about := ""
	if !v.Equal(v.Round(1)) {
		about = "about "
	}
	return strings.TrimSpace(about + trimmed(v, 1) + " " + noun)
}

func isBought(v decimal.Decimal) string {
	if v.Round(1).Equal(one) {
		return "is"
	}
	return "are"
}

// filmLife says what a life rests on that follows from a film; "" where none
// does. No standard for a rate of wear was found, and one trade text that
// states any.
func (w *worker) filmLife() string {
	system := &w.study.Systems[w.off.System]
	var lives, sources []string
	add := func(what string, r lcc.Ref) {
		if w.study.IsDerived(r) {
			lives = append(lives, fmt.Sprintf("%s (%s)", what, yearsText(w.Inputs[r].Round(1))))
			sources = append(sources, w.divisorSources(r)...)
		}
	}
	add(fmt.Sprintf("the service life of “%s”", system.Name), system.Life)
	if system.Recoat != nil {
		add(fmt.Sprintf("the life that a recoat of “%s” gives", system.Name), system.Recoat.Life)
	}
	if len(lives) == 0 {
		return ""
	}
	verb, source := "follows", "The study names no source for its own rate."
	if len(lives) > 1 {
		verb = "follow"
	}
	if len(sources) > 0 {
		slices.Sort(sources)
		source = "The study names for its own rate: " + listed(slices.Compact(sources)) + "."
	}
	return fmt.Sprintf("%s %s from the film and how fast it wears. Rates of wear are weakly sourced: no standard states one, and what is published is a single trade text. %s Have the film measured over the years.",
		upperFirst(listed(lives)), verb, source)
}

// divisorSources are the sources of what a derived input is divided by: of a
// life, the rates of wear.
func (w *worker) divisorSources(r lcc.Ref) []string {
	var out []string
	for _, d := range w.study.Derived {
		for _, term := range d.Terms {
			for _, f := range term.Factors {
				if source := w.study.Inputs[f.Of].Source; d.In == r && f.How == lcc.Over && source != "" {
					out = append(out, source)
				}
			}
		}
	}
	return out
}
