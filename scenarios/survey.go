package scenarios

import (
	"slices"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
	"roofyears/scenarios/units"
)

// Limits that keep a survey to a size that a person could have written.
const maxSurveyed = 100 // entries in a list of a survey, panels

// surveying is the reading of what was measured on the roof. Every number that
// was estimated becomes an input, and what follows from it a derived one; both
// can be named by the per of a cost item.
type surveying struct {
	*reader
	at     place
	source string // of what has none of its own
	panels map[string]*panel
	planes []*plane
	opens  []opening
	told   []measuredHow
}

// measuredHow is a measure whose values are not known yet.
type measuredHow struct {
	takeoff.Measure
	parts []part
}

// peekSurvey finds out, before the roof is read, whether its plan area may
// follow from planes, and in which units the study measures.
func (r *reader) peekSurvey(survey *node) {
	for _, n := range under(under([]*node{survey}, "planes"), "") {
		r.hasPlanes = true
		for _, key := range []string{"length", "width", "area"} {
			for _, v := range under([]*node{n}, key) {
				if text := firstNumber(v); text != "" {
					if v, _, ok := parseNumber(text); ok {
						r.units = systemOf(unitNames[v.unit])
						return
					}
				}
			}
		}
	}
}

// under gives the values of a key of mappings, or with "" the entries of lists.
func under(nodes []*node, key string) []*node {
	var out []*node
	for _, n := range nodes {
		if n == nil {
			continue
		}
		if key == "" && n.shape == list {
			out = append(out, n.values...)
		}
		for i, k := range n.keys {
			if k.text == key {
				out = append(out, n.values[i])
			}
		}
	}
	return out
}

// numbersOf are the keys of an estimate that hold numbers of its unit, or what
// does.
var numbersOf = []string{"value", "low", "likely", "high", "mean", "weibull", "normal", "lognormal"}

// firstNumber is the text of a number, or of one of an estimate, in whatever
// order its keys stand; "" when there is none.
func firstNumber(n *node) string {
	if n.shape != mapping {
		return n.text
	}
	for _, key := range numbersOf {
		for _, v := range under([]*node{n}, key) {
			if text := firstNumber(v); text != "" {
				return text
			}
		}
	}
	return ""
}

// survey reads what was measured on the roof.
func (r *reader) survey(n *node) {
	s, ok := r.section(n, "survey", underSurvey, surveyKeys)
	if !ok {
		return
	}
	if r.quantities["area"] == nil { // without it, the roof was told already
		r.quantities["area"] = &measured{ref: lcc.NoRef, used: true}
	}
	r.places["survey"] = s.at
	y := &surveying{reader: r, at: s.at, panels: map[string]*panel{}}
	y.source = s.line("by")
	if date := s.date("date"); date != "" && y.source != "" {
		y.source += ", " + date
	} else if date != "" {
		y.source = "survey of " + date
	}
	y.readPanels(s.get("panels"))
	y.readPlanes(s)
	y.readOpenings(s)
	y.planArea()
	y.areas()
	y.seams()
	y.edges(s.get("edges"))
	y.screws(s.get("screws"))
	y.penetrations(s)
	y.rust(s.get("rust"))
	y.water(s)
	y.gaps(s)
	r.settle()
	y.checkOpenings()
	y.checkWater(s)
	y.comparePlan()
	for _, m := range y.told {
		if m.How = r.how(m.parts); m.Source == "" {
			m.Source = r.study.Inputs[m.In].Source
		}
		r.measures = append(r.measures, m.Measure)
	}
}

// estimated reads a number of the survey, in a unit of the study; "" is none.
func (y *surveying) estimated(s *section, key, label string, k measure, unit string) lcc.Ref {
	v := s.get(key)
	if v == nil {
		return lcc.NoRef
	}
	about := subject{path: s.sub(key), label: label, source: y.source}
	if k.share {
		about.unitText = percentText
		return y.estimate(v, k, about)
	}
	return y.estimateIn(v, k, unit, about)
}

// defects are what a survey finds and work is done to, piece by piece. Light
// rust and gaps that a compound fills are often treated with all of the surface
// and all of the seams.
var defects = []string{"loose_screws", "stripped_screws", "missing_screws", "scaled_rust", "perforated", "closed_gaps"}

// measured makes an input a quantity by which cost items can be priced. Its
// unit is known even where the number was told to be wrong, so that nothing
// else is told of what rests on it.
func (y *surveying) measured(g takeoff.Group, key, label, unit string, in lcc.Ref, at place, parts ...part) {
	if y.quantities[key] != nil {
		y.fail(at, "survey", quantityTwice(key))
		return
	}
	found := slices.Contains(defects, key)
	y.quantities[key] = &measured{ref: in, unit: unit, used: !found, found: found}
	if in == lcc.NoRef {
		return
	}
	y.told = append(y.told, measuredHow{takeoff.Measure{Group: g, Key: key, Label: label, In: in}, parts})
}

// follows derives a quantity by which cost items can be priced.
func (y *surveying) follows(g takeoff.Group, key, label, unit string, at place, parts ...part) lcc.Ref {
	in := y.derive(lcc.Input{Path: "survey." + key, Label: label, Unit: kindOf(unit), UnitText: unit}, at, zero, parts...)
	y.measured(g, key, label, unit, in, at, parts...)
	return in
}

// onSurface tells whether planes say how large the roof is; without them, what
// is a share of its surface is told.
func (y *surveying) onSurface(at place, path string) bool {
	if len(y.planes) == 0 {
		y.fail(at, path, noPlanes())
		return false
	}
	return true
}

func (y *surveying) lengthUnit() string { return y.own(units.Lengths) }
func (y *surveying) areaUnit() string   { return y.own(units.Areas) }
