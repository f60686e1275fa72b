package scenarios

import (
	"slices"
	"strings"

	"roofyears/lcc"
	"roofyears/scenarios/eligibility"
)

// notDone is written where no cost item does a thing.
const notDone = "none"

// ruleWorks are the kinds of work that rules know, by those of a system; a
// work of another kind is not stated to them.
var ruleWorks = map[lcc.Work]eligibility.Work{
	lcc.WorkExisting: eligibility.Keep, lcc.WorkRestore: eligibility.Restore,
	lcc.WorkRecover: eligibility.Recover, lcc.WorkTearOff: eligibility.TearOff,
}

// planned reads what rules ask of a system: what it is, and which of its first
// costs do what a roof may need.
func (r *reader) planned(n *node, path string, y *lcc.System) eligibility.Option {
	o := eligibility.Option{Work: ruleWorks[y.Work]}
	s, ok := r.section(n, path, inPlanned, plannedKeys)
	if !ok {
		return o
	}
	if r.plannedAt == (place{}) {
		r.plannedAt = s.at
	}
	o.Coating = stated(s, "coating", wordOf(r, eligibility.Uncoated))
	o.SeparateSystem = stated(s, "separate_system", r.boolean)
	o.AddedLoad = stated(s, "added_load", numberOf(r, addedLoad))
	o.Share = stated(s, "share_of_roof", numberOf(r, share))
	o.WetPartReplaced = s.doneBy("wet_part_replaced_by", y.First)
	o.PanelsReplaced = s.doneBy("panels_replaced_by", y.First)
	o.DrainageCorrected = s.doneBy("drainage_corrected_by", y.First)
	o.DeckRepaired = s.doneBy("deck_repaired_by", y.First)
	o.ParapetsBraced = s.doneBy("parapets_braced_by", y.First)
	o.AsbestosPriced = s.doneBy("asbestos_handled_by", y.First)
	o.Insulation = s.insulation(y.First)
	o.FireShown = stated(s, "fire_class_shown", r.boolean)
	o.WindShown = stated(s, "wind_shown", r.boolean)
	return o
}

// doneBy reads which first cost does a thing. Without a source of its own, the
// cost item is the source.
func (s *section) doneBy(key string, first []lcc.Item) eligibility.Known[bool] {
	name := stated(s, key, func(n *node, path string) (string, bool) { return s.r.costItem(n, path, first) })
	item, known := name.Get()
	switch {
	case !known:
		return eligibility.Known[bool]{}
	case item == notDone:
		return eligibility.Found(false, name.Source())
	case name.Source() != "":
		return eligibility.Found(true, name.Source())
	}
	return eligibility.Found(true, fromItem(item))
}

// costItem reads the name of a first cost, or none.
func (r *reader) costItem(n *node, path string, first []lcc.Item) (string, bool) {
	name := r.line(n, path)
	if name == "" {
		return "", false
	}
	names := []string{notDone}
	for _, it := range first {
		names = append(names, it.Name)
	}
	if !slices.Contains(names, name) {
		r.fail(n.place, path, noSuchItem(name, names, nearest(name, names)))
		return "", false
	}
	return name, true
}

// noReasons are words that answer whether something is waived, not why.
var noReasons = []string{"false", "no", notDone, "n/a", "na", "-", "true", "yes"}

// insulation reads what is done about the energy code: a cost item, or why it
// is left out.
func (s *section) insulation(first []lcc.Item) eligibility.Known[eligibility.Insulation] {
	if s.has("insulation_upgraded_by") && s.has("insulation_waived") {
		s.r.fail(s.place("insulation_waived"), s.path, upgradedAndWaived())
		return eligibility.Known[eligibility.Insulation]{}
	}
	reason := stated(s, "insulation_waived", func(n *node, path string) (string, bool) {
		text := s.r.line(n, path)
		if slices.Contains(noReasons, strings.ToLower(text)) {
			s.r.fail(n.place, path, noReason(text))
			return "", false
		}
		return text, text != ""
	})
	if why, known := reason.Get(); known {
		return eligibility.Found(eligibility.Insulation{Waived: why}, reason.Source())
	}
	done := s.doneBy("insulation_upgraded_by", first)
	priced, known := done.Get()
	if !known {
		return eligibility.Known[eligibility.Insulation]{}
	}
	return eligibility.Found(eligibility.Insulation{Priced: priced}, done.Source())
}
