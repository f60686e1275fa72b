package scenarios

import (
	"slices"

	"roofyears/lcc"
	"roofyears/lcc/tax"
)

// keyTreatment is the key of a cost's own treatment. It is no everyday word, so
// that a text that goes on with "tax" in braces is still read as text.
const keyTreatment = "tax_treatment"

// treatmentWords are the words for treatments.
func treatmentWords() []string {
	words := []string{"expensed", "not_deducted"}
	for _, table := range tax.Named() {
		words = append(words, table.String())
	}
	return words
}

// treatmentOf reads a cost's own treatment, as a place in the list of all, from
// 1; 0 when it states none, and −1 when what it states was told to be wrong.
func (s *section) treatmentOf(key string) int {
	if s.has(key) && s.r.treatedAt == (place{}) {
		s.r.treatedAt = s.place(key)
	}
	n := s.get(key)
	if n == nil {
		return 0
	}
	k, ok := s.r.treatment(n, s.sub(key))
	if !ok {
		return -1
	}
	return s.r.treatmentPlace(k)
}

// treatmentPlace is the place of a treatment in the list of all, from 1.
func (r *reader) treatmentPlace(k tax.Treatment) int {
	i := slices.Index(r.treatments, k)
	if i < 0 {
		i = len(r.treatments)
		r.treatments = append(r.treatments, k)
	}
	return i + 1
}

// treatment reads a treatment: a word, {straight_line: 15}, or {immediate_then: …}.
func (r *reader) treatment(n *node, path string) (tax.Treatment, bool) {
	if n.shape == scalar {
		i := r.oneOf(n, path, treatmentWords())
		switch i {
		case -1:
			return tax.Treatment{}, false
		case 0:
			return tax.Treatment{Way: tax.Expensed}, true
		case 1:
			return tax.Treatment{}, true
		}
		return tax.Treatment{Way: tax.Depreciated, By: tax.Schedule{Table: tax.Named()[i-2]}}, true
	}
	if n.shape != mapping {
		r.wrongShape(n, path, expectTreatment)
		return tax.Treatment{}, false
	}
	s, ok := r.section(n, path, inTreatment, treatmentKeys)
	if !ok {
		return tax.Treatment{}, false
	}
	switch {
	case s.has("straight_line") == s.has("immediate_then"):
		s.lacks(treatmentUnclear(), treatmentKeys...)
	case s.has("straight_line"):
		if v := s.get("straight_line"); v != nil {
			years, ok := r.wholeNumber(v, s.sub("straight_line"), 1, maxTaxYears)
			return tax.Treatment{Way: tax.Depreciated, By: tax.Schedule{Years: years}}, ok
		}
	default:
		return s.immediate()
	}
	return tax.Treatment{}, false
}

// immediate reads how the rest of a cost is depreciated.
func (s *section) immediate() (tax.Treatment, bool) {
	n := s.get("immediate_then")
	if n == nil {
		return tax.Treatment{}, false
	}
	k, ok := s.r.treatment(n, s.sub("immediate_then"))
	if ok && (k.Way != tax.Depreciated || k.AtOnce) {
		s.r.fail(n.place, s.sub("immediate_then"), restNotDepreciated())
		return k, false
	}
	k.AtOnce = true
	return k, ok
}

// costLists are the lists of costs of a system, in the order of taxListKeys.
func costLists(y *lcc.System) [5][]lcc.Item {
	lists := [5][]lcc.Item{0: y.First, 2: y.Annual, 3: y.Periodic, 4: y.Removal}
	if y.Recoat != nil {
		lists[1] = y.Recoat.Costs
	}
	return lists
}

// treatments gives every cost its treatment: its own, or that of its list in its
// system, or that of its list. A cost without one is an error.
func (t *taxing) treatments() {
	general := t.defaults(t.get("treatments"), t.sub("treatments"))
	own := map[int][5]int{}
	if len(t.r.systemKeys) > 0 { // without any, the systems were told already
		if s, ok := t.r.section(t.get("systems"), t.sub("systems"), inTaxSystems, t.r.systemKeys); ok {
			for _, key := range t.r.systemKeys {
				own[t.r.systems[key]] = t.defaults(s.get(key), s.sub(key))
			}
		}
	}
	for i := range t.r.study.Systems {
		for list, items := range costLists(&t.r.study.Systems[i]) {
			for k := range items {
				t.treat(&items[k], own[i][list], general[list])
				t.note(&items[k], i, list)
			}
		}
	}
}

// treat gives a cost that states no treatment of its own the first that is stated
// for it.
func (*taxing) treat(it *lcc.Item, stated ...int) {
	for _, place := range stated {
		if it.Tax == 0 {
			it.Tax = place
		}
	}
}

// note takes down the treatment that a cost has, or tells that it has none.
func (t *taxing) note(it *lcc.Item, system, list int) {
	switch {
	case it.Tax == 0:
		t.untreated(it, system, list)
	case it.Tax < 0:
		t.wrong = true
	default:
		t.used = append(t.used, t.r.treatments[it.Tax-1])
	}
}

// defaults reads treatments by list; 0 where none is stated.
func (t *taxing) defaults(n *node, path string) (out [5]int) {
	s, ok := t.r.section(n, path, inTreatments, taxListKeys)
	if !ok {
		return out
	}
	for i, key := range taxListKeys {
		out[i] = s.treatmentOf(key)
	}
	return out
}

// untreated tells a cost without a treatment, at its price.
func (t *taxing) untreated(it *lcc.Item, system, list int) {
	y := &t.r.study.Systems[system]
	at, known := place{}, false
	path := "systems." + inPath(y.Key)
	if it.Price != lcc.NoRef {
		at, known = t.r.places[t.r.study.Inputs[it.Price].Path]
	}
	if !known {
		at = t.r.places["systems."+y.Key]
	}
	t.r.fail(at, path, noTreatment(it.Name, taxListKeys[list], y.Key))
}

// systemIn reads the key of a system in a list.
func (r *reader) systemIn(n *node, path string) (int, bool) {
	name := r.line(n, path)
	if name == "" || len(r.systemKeys) == 0 {
		return 0, false
	}
	return r.systemCalled(n, path, name)
}
