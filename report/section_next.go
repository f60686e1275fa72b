package report

import (
	"fmt"
	"slices"
	"strings"

	"roofyears/lcc"
)

// unknownSection says what the study does not know.
func (t *teller) unknownSection() Section {
	unknown := t.unknowns()
	return Section{ID: "not-known", Heading: unknownHeading(len(unknown)), Blocks: []Block{List{Items: unknown}}}
}

func (t *teller) unknowns() []string {
	var out []string
	for _, i := range t.unshown() {
		out = append(out, t.unshownText(i))
	}
	if !t.judged() && t.asksForSurvey() {
		out = append(out, "Whether the roof may be restored or roofed over at all: that takes a survey of moisture, deck, layers and adhesion, and the code that applies. The study takes what is not ruled out for possible; it has not been shown to be.")
	}
	sourced, total := t.sourced()
	bare := total - sourced
	switch {
	case bare == total:
		out = append(out, fmt.Sprintf("Where any of its %s comes from: none has a source.", Plural(total, "input")))
	case bare == 1:
		out = append(out, fmt.Sprintf("Where one of its %s comes from: it has no source.", Plural(total, "input")))
	case bare > 0:
		out = append(out, fmt.Sprintf("Where %d of its %s come from: they have no source.", bare, Plural(total, "input")))
	}
	if ranged := t.ranged(); ranged == 0 {
		out = append(out, "How sure its inputs are: none has a range, so nothing can be said about how sure the answer is.")
	}
	if idle := t.unkept(); len(idle) > 0 {
		out = append(out, fmt.Sprintf("What it costs to keep up %s: the study states no annual or periodic cost, as it does for others.", listed(idle)))
	}
	return append(out, "What is not in the file: warranties and their exclusions, "+t.leftOut()+".")
}

// unkept names the systems of the alternatives that cost nothing while they stand, where another one does.
func (t *teller) unkept() []string {
	var idle []string
	runs := false
	for i := range t.study.Systems {
		stands := slices.ContainsFunc(t.Alternatives, func(o lcc.Outcome) bool {
			return slices.ContainsFunc(o.Spells, func(p lcc.Spell) bool { return p.System == i && p.Until > p.From })
		})
		switch y := &t.study.Systems[i]; {
		case len(y.Annual)+len(y.Periodic) > 0:
			runs = runs || stands
		case stands:
			idle = append(idle, "“"+t.system(i)+"”")
		}
	}
	if !runs {
		return nil
	}
	return idle
}

// ranged counts the inputs that have a range or a distribution.
func (t *teller) ranged() int {
	n := 0
	for i := range t.study.Inputs {
		if t.study.Inputs[i].Shape != lcc.Fixed {
			n++
		}
	}
	return n
}

// asksForSurvey tells whether an alternative that is not ruled out leaves the
// old roof in place.
func (t *teller) asksForSurvey() bool {
	for _, i := range t.study.Eligible() {
		if w := t.startsWith(i); w == lcc.WorkRestore || w == lcc.WorkRecover {
			return true
		}
	}
	return false
}

// unshownText says what is not known of an alternative that nothing rules out.
func (t *teller) unshownText(i int) string {
	needs := t.missing(i)
	what := make([]string, len(needs))
	for k, n := range needs {
		what[k] = n.What
	}
	return fmt.Sprintf("Whether “%s” may be done to this roof: nothing rules it out, but %s. Not yet known: %s.",
		t.name(i), openText(len(needs)), strings.Join(what, "; "))
}

// findingSteps settle what is open for the answer and for what ties with it.
func (t *teller) findingSteps() []string {
	var needs []lcc.Need
	for _, i := range t.answers() {
		for _, n := range t.missing(i) {
			if !slices.Contains(needs, n) {
				needs = append(needs, n)
			}
		}
	}
	if len(needs) == 0 {
		return []string{"Before signing, have a licensed designer confirm what was found and what the rules made of it."}
	}
	var out []string
	for _, n := range needs {
		out = append(out, fmt.Sprintf("Still open: %s. %s. %s usually does this.", n.What, upperFirst(n.Next), upperFirst(n.By)))
	}
	return out
}

// nextSection says what the owner should do next.
func (t *teller) nextSection() Section {
	return Section{ID: "next", Heading: t.nextHeading(), Blocks: []Block{List{Items: t.nextSteps()}}}
}

func (t *teller) nextSteps() []string {
	a := t.Answer
	var out []string
	switch {
	case a.Lowest < 0:
		return []string{"Do not choose on these figures: every alternative is ruled out. Have a licensed designer say what may be done to this roof, and price that."}
	case a.RunnerUp < 0:
		out = append(out, "Price at least one other choice before deciding; a study of one alternative shows what it costs, not whether it is the best.")
	case a.Tie:
		out = append(out, fmt.Sprintf("Let something else than cost decide between %s: the money at hand this year, disruption of the building, who carries the risk.", listed(t.nearly())))
	}
	if t.isDoingNothing(a.Lowest) {
		out = append(out, t.keepSteps()...)
	} else {
		out = append(out, t.workSteps()...)
	}
	if len(t.Warnings) > 0 {
		out = append(out, "Settle the remarks on the study's inputs.")
	}
	return append(out, t.accountantStep())
}

// keepSteps are for an owner for whom no work pays yet.
func (t *teller) keepSteps() []string {
	spell := t.Alternatives[t.Answer.Lowest].Spells[0]
	if spell.End == lcc.AtHorizon {
		return []string{"Keep up inspections and repairs; look at the roof and at this comparison again every year."}
	}
	when := "when the roof's life runs out"
	if spell.End == lcc.ToRecoat {
		when = "when the roof is to be recoated"
	}
	return []string{fmt.Sprintf("Keep up inspections and repairs, and look at this comparison again well before year %d%s, %s.", spell.Until, t.inCalendar(spell.Until), when)}
}

// workSteps are for an owner for whom work pays.
func (t *teller) workSteps() []string {
	a := t.Alternatives[t.Answer.Lowest].Alternative
	var out []string
	switch work := t.startsWith(t.Answer.Lowest); {
	case t.judged():
		out = append(out, t.findingSteps()...)
	case work == lcc.WorkRestore:
		out = append(out, "Have the roof surveyed before signing: moisture, fasteners and seams, rust, and an adhesion test of the coating. Wet or unsound parts change the price, and may rule restoring out.")
	case work == lcc.WorkRecover:
		out = append(out, "Before signing, have the layers counted, the insulation tested for water and the structure checked for the added load.")
	case work == lcc.WorkTearOff:
		out = append(out, "Before signing, ask which insulation the energy code requires, have the deck looked at, and have asbestos ruled out.")
	}
	if a.Wait != nil && a.Wait.Years > 0 {
		out = append(out, fmt.Sprintf("Plan the work for year %d%s, keep the roof up until then, and move it forward if the roof fails sooner.", a.Wait.Years, t.inCalendar(a.Wait.Years)))
	}
	return append(out, "Set money aside for the later work that the table of dated work shows, and keep up the inspections it counts on.")
}
