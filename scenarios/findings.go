package scenarios

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/eligibility"
)

// Limits of what is counted on a roof.
const (
	mostCoverings = 20
	mostPlaces    = 1000 // of an adhesion test
	mostTests     = 100
)

// findings reads what was found out about the roof. Without the section no
// rule is put to the study.
func (r *reader) findings(n *node) {
	if s, ok := r.section(n, "findings", inFindings, findingKeys); ok {
		r.found, r.judging = r.findingsOf(s, r.surveyFindings()), true
	}
}

// findingsOf makes the findings that rules are put to: those of the section
// beside those that a survey in the file gives. What both give is an error.
func (r *reader) findingsOf(s *section, surveyed eligibility.Findings) eligibility.Findings {
	f := eligibility.Findings{Units: r.unitSystem()}
	f.Coverings = stated(s, "coverings", wholeOf(r, 0, mostCoverings))
	f.Covering = stated(s, "covering", wordOf[eligibility.Covering](r))
	f.Surface = stated(s, "surface", wordOf[eligibility.Surface](r))
	f.ExistingCoating = stated(s, "existing_coating", wordOf[eligibility.Chemistry](r))
	f.BaseSound = stated(s, "base_sound", r.boolean)
	f.WaterSoaked = stated(s, "water_soaked", r.boolean)
	f.WetShare = once(s, "wet_share", surveyed.WetShare, stated(s, "wet_share", numberOf(r, share)))
	f.WetFoundBy = once(s, "wet_found_by", surveyed.WetFoundBy, stated(s, "wet_found_by", wordOf[eligibility.WetMethod](r)))
	f.WetLimit = s.wetLimit("wet_limit")
	f.Ponding = once(s, "ponding_share", surveyed.Ponding, stated(s, "ponding_share", numberOf(r, share)))
	f.Adhesion = stated(s, "adhesion_tests", r.adhesionTests)
	f.Rust = once(s, "rust", surveyed.Rust, s.rust("rust"))
	f.SectionLoss = stated(s, "section_loss", r.boolean)
	f.Deck = stated(s, "deck", wordOf[eligibility.Deck](r))
	f.DeckSound = stated(s, "deck_sound", r.boolean)
	f.Reserve = stated(s, "load_reserve", numberOf(r, reserve))
	f.PullOutsTested = stated(s, "pull_outs_tested", r.boolean)
	f.Parapets = stated(s, "masonry_parapets", r.boolean)
	f.Seismic = stated(s, "seismic_category", wordOf[eligibility.Seismic](r))
	f.Code = stated(s, "building_code", wordOf[eligibility.Code](r))
	f.EnergyCode = stated(s, "energy_code", wordOf[eligibility.EnergyCode](r))
	f.AboveDeck = stated(s, "insulation_above_deck", r.boolean)
	f.InEnvelope = stated(s, "in_thermal_envelope", r.boolean)
	f.Asbestos = stated(s, "asbestos", wordOf[eligibility.Asbestos](r))
	return f
}

// once gives what the section states, or else what the survey does.
func once[T any](s *section, key string, surveyed, here eligibility.Known[T]) eligibility.Known[T] {
	if !surveyed.IsKnown() {
		return here
	}
	if s.has(key) {
		s.r.fail(s.place(key), s.path, statedTwice(key))
	}
	return surveyed
}

// wetLimit reads the local limit of wet area: a share, or a mapping.
func (s *section) wetLimit(key string) eligibility.WetLimit {
	n := s.get(key)
	if n == nil {
		return eligibility.WetLimit{}
	}
	read := numberOf(s.r, wetLimit)
	if n.shape != mapping {
		v, _ := read(n, s.sub(key))
		return eligibility.WetLimit{Share: v}
	}
	m, ok := s.r.section(n, s.sub(key), inWetLimit, wetLimitKeys)
	if !ok {
		return eligibility.WetLimit{}
	}
	l := eligibility.WetLimit{From: m.line("source"), ReplaceAll: m.yes("replace_all")}
	if v := m.need("share"); v != nil {
		l.Share, _ = read(v, m.sub("share"))
	}
	return l
}

// perforatedRust is the grade of metal that is rusted through.
const perforatedRust = "perforated"

// rust reads the shares of the metal by the grade of their rust. What rules ask
// of is what is rusted through: unless that is stated, it is not known.
func (s *section) rust(key string) eligibility.Known[eligibility.Rust] {
	m, ok := s.r.section(s.get(key), s.sub(key), inRust, rustShareKeys)
	if !ok {
		return eligibility.Known[eligibility.Rust]{}
	}
	if !slices.ContainsFunc(rustShareKeys[:3], m.has) {
		m.lacks(noGrade(), rustShareKeys[:3]...)
	}
	var grades [3]decimal.Decimal
	sum := decimal.Zero
	for i, grade := range rustShareKeys[:3] {
		if n := m.get(grade); n != nil {
			grades[i], _ = numberOf(s.r, share)(n, m.sub(grade))
			sum = sum.Add(grades[i])
		}
	}
	if sum.GreaterThan(share.high) {
		s.r.fail(m.at, m.path, rustOverAll(sum))
	}
	if !m.has(perforatedRust) {
		return eligibility.Known[eligibility.Rust]{}
	}
	return eligibility.Found(eligibility.Rust{Light: grades[0], Scaled: grades[1], Perforated: grades[2]}, m.line("source"))
}

// adhesionTests reads a list of peel tests.
func (r *reader) adhesionTests(n *node, path string) ([]eligibility.AdhesionTest, bool) {
	switch {
	case n.shape != list:
		r.wrongShape(n, path, expectTests)
		return nil, false
	case len(n.values) > mostTests:
		r.fail(n.place, path, tooMany(len(n.values), mostTests))
		return nil, false
	}
	var out []eligibility.AdhesionTest
	for i, v := range n.values {
		if s, ok := r.section(v, entry(path, i), inTest, testKeys); ok {
			out = append(out, s.adhesionTest())
		}
	}
	return out, true
}

func (s *section) adhesionTest() eligibility.AdhesionTest {
	var t eligibility.AdhesionTest
	if n := s.need("coating"); n != nil {
		t.Coating, _ = wordOf(s.r, eligibility.Uncoated)(n, s.sub("coating"))
	}
	if n := s.need("least"); n != nil {
		t.Least, _ = numberOf(s.r, peel)(n, s.sub("least"))
	}
	if n := s.need("places"); n != nil {
		t.Places, _ = s.r.wholeNumber(n, s.sub("places"), 1, mostPlaces)
	}
	return t
}
