package scenarios

import (
	"slices"
	"strings"
	"unicode"

	"roofyears/lcc"
	"roofyears/scenarios/eligibility"
)

// Limits that keep a study to a size that a person could have written.
const (
	maxSystems      = 200
	maxAlternatives = 50
	maxItems        = 500 // in one list of cost items
	maxRecoats      = 100
	maxEvery        = 1000 // years
)

// residuals are the words for a residual value that is no amount.
var residuals = []string{"prorated", "none"}

// worksOf are the words for kinds of work, in the order of lcc.Work.
var worksOf = []string{"other", "existing", "restore", "recover", "tear_off"}

// systemsOf reads all systems. Their keys are known before the first one is
// read, since systems name each other.
func (r *reader) systemsOf(n *node) {
	switch {
	case n == nil:
		return
	case n.shape != mapping:
		r.wrongShape(n, "systems", expectSystems)
		return
	case len(n.keys) == 0:
		r.fail(n.place, "systems", noSystems())
	case len(n.keys) > maxSystems:
		r.fail(n.place, "systems", tooMany(len(n.keys), maxSystems))
		return
	}
	for i, key := range n.keys {
		if !keyPattern.MatchString(key.text) {
			r.fail(key.place, "systems", badName(key.text))
		}
		r.systems[key.text] = i
		r.systemKeys = append(r.systemKeys, key.text)
		r.places["systems."+key.text] = key.place
	}
	r.aimTakeOff()
	thens := make([]*node, len(n.keys))
	for i, key := range n.keys {
		system, then := r.system(n.values[i], key.text, i)
		r.study.Systems = append(r.study.Systems, system)
		thens[i] = then
	}
	r.chains(thens)
}

// system reads one system; also the node that names what follows it, nil when
// it is replaced by itself.
func (r *reader) system(n *node, key string, index int) (lcc.System, *node) {
	y := lcc.System{Key: key, Name: key, Then: index}
	r.options = append(r.options, eligibility.Option{})
	s, ok := r.section(n, "systems."+inPath(key), inSystem, systemKeys)
	if !ok {
		return y, nil
	}
	if name := s.needLine("name"); name != "" {
		y.Name = name
	}
	y.InPlace = s.yes("in_place")
	y.Work = s.work(&y)
	life := subject{path: s.sub("life"), of: y.Name, label: labelLife(y.InPlace)}
	v := s.need("life")
	if v != nil && !isFromFilm(v) {
		y.Life = r.estimate(v, years, life)
	}
	y.First = s.items("first_costs", y.Name, lcc.Construction)
	y.Annual = s.items("annual_costs", y.Name, lcc.Maintenance)
	y.Periodic = s.items("periodic_costs", y.Name, lcc.Maintenance)
	y.Removal = s.items("removal", y.Name, lcc.Disposal)
	y.Recoat = r.recoat(s.get("recoat"), s.sub("recoat"), y.Name)
	y.Residual = s.residual(y.Name)
	r.coolRoof(s.get("cool_roof"), s.sub("cool_roof"), &y, index)
	r.takeOff.charge(&y, index)
	if v != nil && isFromFilm(v) {
		y.Life = r.fromFilm(v, life, r.takeOff.films(index))
	}
	r.options[index] = r.withFilmLoad(r.planned(s.get("eligibility"), s.sub("eligibility"), &y), index)
	then, follows := r.systemNamed(s, "then")
	if !follows {
		return y, nil
	}
	y.Then = then
	return y, s.values["then"]
}

// work reads what kind of work it is, or takes it from the system's key or,
// where that says nothing, from its name.
func (s *section) work(y *lcc.System) lcc.Work {
	if s.has("work") {
		return lcc.Work(max(0, s.word("work", worksOf)))
	}
	if y.InPlace {
		return lcc.WorkExisting
	}
	if w := workIn(y.Key); w != lcc.WorkOther {
		return w
	}
	return workIn(strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(y.Name)))
}

// workIn finds the kind of work in a key, or in a name written as one.
func workIn(key string) lcc.Work {
	has := func(parts ...string) bool {
		return slices.ContainsFunc(parts, func(part string) bool { return strings.Contains(key, part) })
	}
	switch {
	case has("tear_off", "tearoff", "replace"):
		return lcc.WorkTearOff
	case has("restor") || isCoating(key):
		return lcc.WorkRestore
	case has("recover", "roof_over", "overlay"):
		return lcc.WorkRecover
	}
	return lcc.WorkOther
}

// isCoating tells whether a key speaks of a coat that is put on. Of new panels
// that come coated from the factory it says so further on: pre_coated_metal_roof.
func isCoating(key string) bool {
	words := strings.FieldsFunc(key, func(c rune) bool { return !unicode.IsLetter(c) })
	return slices.ContainsFunc(words, func(word string) bool {
		return strings.HasPrefix(word, "coat") && word != "coated" || strings.HasPrefix(word, "recoat")
	}) || len(words) > 0 && words[0] == "coated"
}

func (r *reader) recoat(n *node, path, system string) *lcc.Recoating {
	s, ok := r.section(n, path, inRecoat, recoatKeys)
	if !ok {
		return nil
	}
	recoat := &lcc.Recoating{}
	recoat.AtMost, _ = s.whole("at_most", 1, maxRecoats, labelAtMost(system))
	life := subject{path: s.sub("life"), of: system, label: labelRecoatLife}
	if v := s.need("life"); v != nil && isFromFilm(v) {
		recoat.Life = r.fromFilm(v, life, nil)
	} else if v != nil {
		recoat.Life = r.estimate(v, years, life)
	}
	if v := s.need("costs"); v != nil && v.shape == list && len(v.values) == 0 {
		r.fail(v.place, s.sub("costs"), noRecoatCosts())
	}
	recoat.Costs = s.items("costs", system, lcc.Construction)
	return recoat
}

// residual reads prorated, none or an amount.
func (s *section) residual(system string) lcc.Residual {
	n := s.get("residual")
	switch {
	case n == nil || n.shape == scalar && n.text == "prorated":
		return lcc.Residual{Mode: lcc.Prorated}
	case n.shape == scalar && n.text == "none":
		return lcc.Residual{Mode: lcc.NoResidual}
	case n.shape == list:
		s.r.wrongShape(n, s.sub("residual"), expectResidual)
		return lcc.Residual{}
	case n.shape == scalar && isWord(n.text):
		s.r.fail(n.place, s.sub("residual"), notResidual(n.text, nearest(n.text, residuals)))
		return lcc.Residual{}
	}
	value := s.r.estimate(n, amount, subject{path: s.sub("residual"), of: system, label: labelResidual})
	return lcc.Residual{Mode: lcc.FixedAmount, Amount: value}
}

func isWord(text string) bool { return !strings.ContainsAny(text, "0123456789") }

// systemNamed reads a key whose value names a system; not ok when the key is
// not there or names none.
func (r *reader) systemNamed(s *section, key string) (int, bool) {
	name := s.line(key)
	if name == "" || len(r.systemKeys) == 0 { // without any, the systems were told already
		return 0, false
	}
	return r.systemCalled(s.values[key], s.sub(key), name)
}

// systemCalled finds a system by its key, which a node holds.
func (r *reader) systemCalled(n *node, path, name string) (int, bool) {
	i, ok := r.systems[name]
	if !ok {
		meant := ""
		if !r.full() {
			meant = nearest(name, r.systemKeys)
		}
		r.fail(n.place, path, noSuchSystem(name, r.systemKeys, meant))
	}
	return i, ok
}
