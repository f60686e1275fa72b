package scenarios

import (
	"fmt"
	"strings"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
	"roofyears/scenarios/coating"
	"roofyears/scenarios/units"
)

// rust reads which shares of the surface are rusted. Light and scaled rust are
// cleaned and primed along the profile, so they are shares of the developed
// area; perforated sheets are replaced, so they are a share of the surface that
// they cover, and are not coated.
func (y *surveying) rust(n *node) {
	at := y.at
	developed := y.quantities[keyDeveloped]
	s, ok := y.section(n, "survey.rust", inSurveyRust, rustKeys)
	if ok && y.onSurface(s.at, s.path) {
		for _, key := range rustKeys {
			if !s.has(key) {
				continue
			}
			of, quantity, label := developed, key+"_rust", labelQuantity(key)+" rust"
			if key == "perforated" {
				of, quantity, label = y.quantities[keySurface], key, labelPerforated
			}
			share := y.estimated(s, key, label+", share", shareOf, "")
			y.follows(takeoff.Condition, quantity, label, y.areaUnit(), s.place(key), product(unity, "", of.ref, share))
		}
		y.atMostWhole(s, rustKeys)
		at = s.at
	}
	if developed == nil || len(y.planes) == 0 {
		return
	}
	coated := product(unity, "", developed.ref)
	if share := y.study.Find("survey.rust.perforated"); share != lcc.NoRef {
		coated = coated.by(share, lcc.Rest)
	}
	y.follows(takeoff.Areas, keyCoated, labelCoated, y.areaUnit(), at, coated)
}

// water reads wet insulation and ponding water.
func (y *surveying) water(s *section) {
	for _, w := range []struct{ key, label string }{{"wet", labelWet}, {"ponding", labelPonding}} {
		q, ok := y.section(s.get(w.key), s.sub(w.key), inWater, waterKeys)
		if !ok {
			continue
		}
		q.need("area")
		own := y.source
		if by := q.line("found_by"); by != "" {
			y.source = strings.TrimPrefix(own+": "+by, ": ")
		}
		in := y.estimated(q, "area", w.label, surface, y.areaUnit())
		y.source = own
		y.measured(takeoff.Condition, w.key, w.label, y.areaUnit(), in, s.place(w.key))
	}
}

// gaps reads open seams and holes by their width, and sums their lengths by the
// grade of compound that they get.
func (y *surveying) gaps(s *section) {
	grades := []struct {
		treatment  coating.Treatment
		key, label string
	}{
		{coating.BrushGrade, "brush_gaps", labelBrushGaps},
		{coating.TrowelGrade, "trowel_gaps", labelTrowelGaps},
		{coating.CloseFirst, "closed_gaps", labelClosedGaps},
	}
	parts := map[coating.Treatment][]part{}
	for i, n := range s.list("gaps", maxSurveyed) {
		q, ok := y.section(n, entry(s.sub("gaps"), i), inGap, gapKeys)
		if !ok {
			continue
		}
		q.need("length")
		v := q.need("width")
		if v == nil {
			continue
		}
		width, okWidth := y.dimension(v, q.sub("width"), string(units.Inch))
		if !okWidth {
			continue
		}
		shown := strings.TrimSpace(v.text)
		in := y.estimated(q, "length", fmt.Sprintf("Gaps of %s", shown), length, y.lengthUnit())
		treatment, err := coating.TreatmentOf(units.Of(width, units.Inch))
		if err == nil {
			parts[treatment] = append(parts[treatment], product(unity, "("+shown+")", in))
		}
	}
	for _, g := range grades {
		if len(parts[g.treatment]) > 0 {
			y.follows(takeoff.Condition, g.key, g.label, y.lengthUnit(), s.place("gaps"), parts[g.treatment]...)
		}
	}
}
