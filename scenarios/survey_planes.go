package scenarios

import (
	"errors"
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/geometry"
	"roofyears/scenarios/units"
)

// plane is a part of the roof with one slope and one kind of panel.
type plane struct {
	name, slope string
	size        []lcc.Ref       // length and width, or area
	plan, on    decimal.Decimal // area in plan and on the slope over the product of size
	onSlope     bool            // measured on the slope
	panel       *panel
}

// opening is what is deducted from the surface: so many of an area each.
type opening struct {
	name        string
	count, area lcc.Ref
	panel       *panel // of its plane; nil when a plane has none
	plane       string // that it is cut from; "" when it may be any
	at          place
}

var measuredOn = []string{"plan", "slope"}

func contains(list []string, s string) bool { return slices.Contains(list, s) }

// readPlanes reads the planes: length × width, or an area, in plan unless they
// were measured on the slope.
func (y *surveying) readPlanes(s *section) {
	names := map[string]bool{}
	for i, n := range s.list("planes", maxSurveyed) {
		p, ok := y.section(n, entry(s.sub("planes"), i), inPlane, planeKeys)
		if !ok {
			y.planes = append(y.planes, &plane{size: []lcc.Ref{lcc.NoRef}, plan: unity, on: unity, panel: flatPanel})
			continue
		}
		a := y.readPlane(p)
		if names[a.name] && a.name != "" {
			y.fail(p.values["name"].place, p.sub("name"), nameTwice(a.name, "plane"))
		}
		names[a.name] = true
		y.planes = append(y.planes, a)
	}
}

// flatPanel stands for the surface of a roof whose survey names no panels.
var flatPanel = &panel{factor: unity, profile: "flat"}

func (y *surveying) readPlane(s *section) *plane {
	a := &plane{name: s.needLine("name"), plan: unity, on: unity, panel: flatPanel}
	switch {
	case s.has("area") && (s.has("length") || s.has("width")):
		y.fail(s.place("area"), s.path, areaAndLength())
		a.size = []lcc.Ref{lcc.NoRef}
	case s.has("area"):
		a.size = []lcc.Ref{y.estimated(s, "area", a.name+", area", planeArea, y.areaUnit())}
	case !s.has("length") && !s.has("width"):
		s.lacks(noSize(), "area", "length", "width")
		a.size = []lcc.Ref{lcc.NoRef}
	default:
		s.need("length")
		s.need("width")
		a.size = []lcc.Ref{y.estimated(s, "length", a.name+", length", side, y.lengthUnit()), y.estimated(s, "width", a.name+", width", side, y.lengthUnit())}
	}
	y.slope(s, a)
	if len(y.panels) == 0 && !s.has("panel") {
		return a
	}
	s.need("panel")
	if name := s.line("panel"); name != "" {
		if p := y.panels[name]; p != nil {
			a.panel = p
		} else {
			y.fail(s.values["panel"].place, s.sub("panel"), noSuchPanel(name, sortedKeys(y.panels)))
		}
	}
	return a
}

// slope reads how steep a plane is; without it the plane is level.
func (y *surveying) slope(s *section, a *plane) {
	a.onSlope = s.word("measured_on", measuredOn) == 1
	a.slope = s.line("slope")
	if a.slope == "" {
		if a.onSlope {
			y.fail(s.values["measured_on"].place, s.sub("measured_on"), slopeMissing())
		}
		return
	}
	slope, err := geometry.ParseSlope(a.slope)
	if err != nil {
		y.fail(s.values["slope"].place, s.sub("slope"), notSlope(a.slope, errors.Is(err, geometry.ErrTooSteep)))
		return
	}
	factor := decimal.NewFromFloat(slope.Factor()).Round(factorPlaces)
	if a.onSlope {
		a.plan = units.Quotient(unity, factor).Round(factorPlaces)
	} else {
		a.on = factor
	}
}

// slopeNote shows the factor between plan and slope: × 1.000868 (slope 1/2:12).
func (a *plane) slopeNote(factor decimal.Decimal) string {
	if factor.Equal(unity) {
		return ""
	}
	return "× " + factor.String() + " (slope " + a.slope + ")"
}

func (y *surveying) readOpenings(s *section) {
	for i, n := range s.list("openings", maxSurveyed) {
		q, ok := y.section(n, entry(s.sub("openings"), i), inOpening, openingKeys)
		if !ok || !y.onSurface(q.at, q.path) {
			continue
		}
		o := opening{name: q.needLine("name"), at: q.at}
		q.need("count")
		q.need("area")
		o.count = y.estimated(q, "count", o.name+", count", pieces, "")
		o.area = y.estimated(q, "area", o.name+", area of one", surface, y.areaUnit())
		o.panel, o.plane = y.panelUnder(q), q.line("plane")
		y.opens = append(y.opens, o)
	}
}

// panelUnder finds the panel that an opening is cut from. An opening without a
// plane may lie in any, so that all must have the same profile.
func (y *surveying) panelUnder(s *section) *panel {
	if name := s.line("plane"); name != "" {
		names := make([]string, len(y.planes))
		for i, a := range y.planes {
			if names[i] = a.name; a.name == name {
				return a.panel
			}
		}
		y.fail(s.values["plane"].place, s.sub("plane"), noSuchPlane(name, names))
	} else if !s.has("plane") {
		for _, a := range y.planes[1:] {
			if !a.panel.factor.Equal(y.planes[0].panel.factor) {
				y.fail(s.at, s.path, whichPlane())
				break
			}
		}
	}
	return y.planes[0].panel
}
