package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
	"roofyears/scenarios/units"
)

var zero = decimal.Zero

// Keys of what follows from the survey, for the per of a cost item.
const (
	keySurface   = "roof_surface"   // on the slope, openings deducted
	keyDeveloped = "developed_area" // along the profile, openings deducted
	keyCoated    = "coated_area"    // the developed area without what is perforated
	keySeams     = "side_seams"
	keyLaps      = "end_laps"
	keyScrews    = "screws"
)

// planArea gives the roof the sum of its planes when the file states none.
func (y *surveying) planArea() {
	if y.quantities["area"].ref != lcc.NoRef || y.areaStated || len(y.planes) == 0 {
		return
	}
	parts := make([]part, len(y.planes))
	for i, a := range y.planes {
		parts[i] = product(a.plan, a.slopeNote(a.plan), a.size...)
	}
	unit := y.areaUnit()
	q := y.quantities["area"]
	q.unit = unit
	in := y.derive(lcc.Input{Path: "roof.area", Label: labelArea, Unit: lcc.Area, UnitText: unit}, y.at, zero, parts...)
	y.study.Area, y.study.About.AreaUnit = in, unit
	q.ref = in
	if in != lcc.NoRef {
		y.told = append(y.told, measuredHow{takeoff.Measure{Group: takeoff.Areas, Key: "area", Label: labelArea, In: in}, parts})
	}
}

// areas derives the surface on the slope and along the profile. Openings are
// measured in the surface, and taken off both.
func (y *surveying) areas() {
	if len(y.planes) == 0 {
		return
	}
	var on, developed []part
	for _, a := range y.planes {
		note := a.slopeNote(a.on)
		on = append(on, product(a.on, note, a.size...))
		developed = append(developed, product(a.on.Mul(a.panel.factor), note+a.panel.factorNote(note != ""), a.size...))
	}
	for _, o := range y.opens {
		on = append(on, product(unity.Neg(), "("+o.name+")", o.count, o.area))
		developed = append(developed, product(o.panel.factor.Neg(), strings.TrimSpace(o.panel.factorNote(false)+" ("+o.name+")"), o.count, o.area))
	}
	y.follows(takeoff.Areas, keySurface, labelSurface, y.areaUnit(), y.at, on...)
	y.follows(takeoff.Areas, keyDeveloped, labelDeveloped, y.areaUnit(), y.at, developed...)
}

// factorNote shows the factor of a profile: × 1.08 (main).
func (p *panel) factorNote(after bool) string {
	if p.factor.Equal(unity) {
		return ""
	}
	note := "× " + p.factor.String() + " (profile of " + p.name + ")"
	if after {
		return " " + note
	}
	return note
}

// seams derives side seams and end laps from the panels, skylights included:
// translucent sheets have seams too.
func (y *surveying) seams() {
	for _, s := range []struct {
		key, label, what string
		each             func(*panel) decimal.Decimal
	}{
		{keySeams, labelSeams, "cover", func(p *panel) decimal.Decimal { return p.cover }},
		{keyLaps, labelLaps, "length", func(p *panel) decimal.Decimal { return p.length }},
	} {
		var parts []part
		var left []*panel
		for _, a := range y.planes {
			each := s.each(a.panel)
			if !each.IsPositive() {
				left = append(left, a.panel)
				continue
			}
			note := a.slopeNote(a.on)
			if note != "" {
				note += " "
			}
			note += fmt.Sprintf("÷ %s (%s of a panel)", inWords(each, y.lengthUnit()), s.what)
			parts = append(parts, product(units.Quotient(a.on, each), note, a.size...))
		}
		if len(parts) > 0 {
			y.follows(takeoff.Lengths, s.key, s.label, y.lengthUnit(), y.at, parts...)
			if s.key == keySeams { // a panel without a length goes from eave to ridge in one piece
				y.leftOut(left, s.key, s.what)
			}
		}
	}
}

// leftOut tells, of what is counted on some planes, the panels whose planes are
// not counted because the file lacks a dimension of them.
func (y *surveying) leftOut(panels []*panel, key, what string) {
	for i, p := range panels {
		if p.screwed() && !slices.Contains(panels[:i], p) {
			y.suspect(p.at, "survey.panels."+p.name, panelLeftOut(p.name, key, what))
		}
	}
}

// checkOpenings tells openings that are together larger than the surface, or
// than the plane that they are said to be in, at the likely values or where the
// ranges end: beyond, there is no area to price.
func (y *surveying) checkOpenings() {
	for _, c := range []struct {
		at         string
		open, roof func(lcc.Ref) decimal.Decimal
	}{{"", y.likely, y.likely}, {"where the ranges end ", y.most, y.least}} {
		gross, open, within := y.sum(c.roof, onSlope), zero, map[string]decimal.Decimal{}
		for _, o := range y.opens {
			if o.count == lcc.NoRef || o.area == lcc.NoRef {
				return
			}
			one := c.open(o.count).Mul(c.open(o.area))
			open, within[o.plane] = open.Add(one), within[o.plane].Add(one)
		}
		if gross.IsPositive() && open.GreaterThanOrEqual(gross) {
			y.fail(y.opens[0].at, "survey.openings", openingsTooLarge(open, gross, y.areaUnit(), c.at))
			return
		}
		for _, a := range y.planes {
			if of := a.area(c.roof, onSlope); a.name != "" && of.IsPositive() && within[a.name].GreaterThan(of) {
				first := slices.IndexFunc(y.opens, func(o opening) bool { return o.plane == a.name })
				y.fail(y.opens[first].at, "survey.openings", openingsOverPlane(a.name, within[a.name], of, y.areaUnit(), c.at))
				return
			}
		}
	}
}

// checkWater tells water over more than the roof, in plan or on the slope,
// whichever is larger, at the likely values or with the most of it.
func (y *surveying) checkWater(s *section) {
	roof := decimal.Max(y.sum(y.likely, inPlan), y.sum(y.likely, onSlope))
	if area := y.quantities["area"].ref; area != lcc.NoRef {
		roof = decimal.Max(roof, convert(y.likely(area), y.study.Inputs[area].UnitText, y.areaUnit()))
	}
	for _, key := range []string{"wet", "ponding"} {
		in := y.study.Find(s.sub(key) + ".area")
		if in != lcc.NoRef && roof.IsPositive() && y.most(in).GreaterThan(roof) {
			y.fail(s.place(key), s.sub(key), waterTooLarge(key, y.most(in), roof, y.areaUnit()))
		}
	}
}

func inPlan(a *plane) decimal.Decimal  { return a.plan }
func onSlope(a *plane) decimal.Decimal { return a.on }

// sum adds up an area of the planes at some of their values; 0 when one of them
// was told to be wrong.
func (y *surveying) sum(value func(lcc.Ref) decimal.Decimal, factor func(*plane) decimal.Decimal) decimal.Decimal {
	sum := zero
	for _, a := range y.planes {
		area := a.area(value, factor)
		if area.IsZero() {
			return zero
		}
		sum = sum.Add(area)
	}
	return sum
}

// area is that of a plane at some of its values; 0 when it was told to be wrong.
func (a *plane) area(value func(lcc.Ref) decimal.Decimal, factor func(*plane) decimal.Decimal) decimal.Decimal {
	area := factor(a)
	for _, ref := range a.size {
		if ref == lcc.NoRef {
			return zero
		}
		area = area.Mul(value(ref))
	}
	return area
}

// planDiffers is by which share of the stated plan area the planes may differ
// from it before that looks like a mistake.
var planDiffers = decimal.New(2, -2)

// comparePlan keeps, for the warnings, a plan area that the planes contradict.
func (y *surveying) comparePlan() {
	if area := y.quantities["area"].ref; y.areaStated && area != lcc.NoRef {
		given, sum := y.study.Inputs[area].Likely, y.sum(y.likely, inPlan)
		given = convert(given, y.study.Inputs[area].UnitText, y.areaUnit())
		if sum.IsPositive() && sum.Sub(given).Abs().GreaterThan(given.Mul(planDiffers)) {
			y.suspect(y.places["roof.area"], "roof.area", planContradicted(given, sum.Round(0), y.areaUnit()))
		}
	}
}

// suspect keeps a warning until the file is known to have no error.
func (r *reader) suspect(at place, path string, m message) {
	r.suspected = append(r.suspected, suspicion{at, path, m})
}
