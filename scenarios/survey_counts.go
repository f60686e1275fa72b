package scenarios

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
	"roofyears/scenarios/units"
)

// edges reads the lengths of the roof's edges.
func (y *surveying) edges(n *node) {
	s, ok := y.section(n, "survey.edges", inEdges, edgeKeys)
	if !ok {
		return
	}
	for _, key := range edgeKeys {
		if s.has(key) {
			label := labelQuantity(key)
			in := y.estimated(s, key, label, length, y.lengthUnit())
			y.measured(takeoff.Lengths, key, label, y.lengthUnit(), in, s.place(key))
		}
	}
}

// screws reads or derives how many screws the roof has, and which part of them
// is loose, stripped or missing.
func (y *surveying) screws(n *node) {
	s, ok := y.section(n, "survey.screws", inScrews, screwKeys)
	if !ok {
		y.screwsOfPanels(y.at)
		return
	}
	screws := lcc.NoRef
	if s.has("count") {
		screws = y.estimated(s, "count", labelScrews, pieces, "")
		y.measured(takeoff.Counts, keyScrews, labelScrews, "", screws, s.place("count"))
	} else {
		screws, ok = y.screwsOfPanels(s.at)
	}
	shares := []string{"loose", "stripped", "missing"}
	for _, key := range shares {
		if !s.has(key) {
			continue
		}
		if !ok {
			y.fail(s.place(key), s.path, noScrews())
			return
		}
		label := labelQuantity(key) + " screws"
		share := y.estimated(s, key, label+", share", shareOf, "")
		y.follows(takeoff.Counts, key+"_screws", label, "", s.place(key), product(unity, "", screws, share))
	}
	y.atMostWhole(s, shares)
	if s.has("extra_at_seams") {
		in := y.estimated(s, "extra_at_seams", labelExtraScrews, pieces, "")
		y.measured(takeoff.Counts, "extra_screws", labelExtraScrews, "", in, s.place("extra_at_seams"))
	}
}

// screwsOfPanels derives the number of screws from the panels; not ok when the
// panels do not say how they are screwed down.
func (y *surveying) screwsOfPanels(at place) (lcc.Ref, bool) {
	var parts []part
	var left []*panel
	for _, a := range y.planes {
		if !a.panel.screws.IsPositive() {
			left = append(left, a.panel)
			continue
		}
		note := a.slopeNote(a.on)
		if note != "" {
			note += " "
		}
		note += fmt.Sprintf("× %s per %s (screws of %s)", a.panel.screws.Round(factorPlaces), unitWord(y.areaUnit()), a.panel.name)
		parts = append(parts, product(a.on.Mul(a.panel.screws), note, a.size...))
	}
	if len(parts) == 0 {
		return lcc.NoRef, false
	}
	y.leftOut(left, keyScrews, "screws")
	return y.follows(takeoff.Counts, keyScrews, labelScrews, "", at, parts...), true
}

// atMostWhole tells shares that are together more than the whole, at the likely
// values or with one of them at the end of its range.
func (y *surveying) atMostWhole(s *section, keys []string) {
	sum, further, widest := decimal.Zero, decimal.Zero, ""
	for _, key := range keys {
		if ref := y.study.Find(s.sub(key)); ref != lcc.NoRef {
			sum = sum.Add(y.likely(ref))
			if more := y.most(ref).Sub(y.likely(ref)); more.GreaterThan(further) {
				further, widest = more, key
			}
		}
	}
	switch end := sum.Add(further); {
	case sum.GreaterThan(unity):
		y.fail(s.at, s.path, sharesOverWhole(sum, ""))
	case end.GreaterThan(unity):
		y.fail(s.at, s.path, sharesOverWhole(end, widest))
	}
}

// penetrations reads counts of what goes through the roof, each under a key of
// its own, and the length around them where one of them has a girth.
func (y *surveying) penetrations(s *section) {
	for i, n := range s.list("penetrations", maxSurveyed) {
		q, ok := y.section(n, entry(s.sub("penetrations"), i), inPenetration, penetrationKeys)
		if !ok {
			continue
		}
		name, key := q.needLine("name"), q.needLine("key")
		q.need("count")
		count := y.estimated(q, "count", name, pieces, "")
		switch {
		case key == "":
			continue
		case !keyPattern.MatchString(key):
			y.fail(q.values["key"].place, q.sub("key"), badName(key))
			continue
		}
		y.measured(takeoff.Counts, key, name, "", count, q.values["key"].place)
		if q.has("girth") {
			girth := y.estimated(q, "girth", name+", around one", length, y.own(units.Lengths))
			y.follows(takeoff.Lengths, key+"_girth", name+", around all", y.lengthUnit(), q.values["key"].place, product(unity, "", count, girth))
		}
	}
}
