package scenarios

import (
	"regexp"

	"roofyears/lcc"
)

const maxQuantities = 500

// keyPattern is how systems and quantities are named.
var keyPattern = regexp.MustCompile(`^[a-z][a-z0-9_]{0,63}$`)

// inPath shows a key in a path: as it is, or shortened and escaped when it is
// not one that can be.
func inPath(key string) string {
	if keyPattern.MatchString(key) {
		return key
	}
	return clip(key)
}

// roof reads the plan area and the named quantities.
func (r *reader) roof(n *node) {
	s, ok := r.section(n, "roof", underRoof, roofKeys)
	if !ok {
		return
	}
	area := &measured{ref: lcc.NoRef, used: true}
	r.quantities["area"] = area
	r.areaStated = s.has("area") || !r.hasPlanes
	if v := s.areaNode(); v != nil {
		if area.ref = r.estimate(v, planArea, subject{path: "roof.area", label: labelArea}); area.ref >= 0 {
			area.unit = r.study.Inputs[area.ref].UnitText
		}
		r.study.Area, r.study.About.AreaUnit = area.ref, area.unit
		r.units = systemOf(area.unit)
	}
	if v := s.get("quantities"); v != nil {
		r.quantitiesOf(v)
	}
}

// areaNode is the plan area, which must be there unless it follows from planes.
func (s *section) areaNode() *node {
	if s.r.hasPlanes {
		return s.get("area")
	}
	return s.need("area")
}

func (r *reader) quantitiesOf(n *node) {
	const path = "roof.quantities"
	switch {
	case n.shape != mapping:
		r.wrongShape(n, path, expectQuantities)
		return
	case len(n.keys) > maxQuantities:
		r.fail(n.place, path, tooMany(len(n.keys), maxQuantities))
	}
	for i, key := range n.keys[:min(len(n.keys), maxQuantities)] {
		q := &measured{}
		switch {
		case key.text == "area":
			r.fail(key.place, path, areaReserved())
			continue
		case !keyPattern.MatchString(key.text):
			r.fail(key.place, path, badName(key.text))
		default:
			r.quantities[key.text] = q
		}
		v, at := n.values[i], path+"."+inPath(key.text)
		if v.shape == broken {
			continue
		}
		if q.ref = r.estimate(v, quantity, subject{path: at, label: labelQuantity(key.text)}); q.ref >= 0 {
			q.unit = r.study.Inputs[q.ref].UnitText
		}
	}
}
