package scenarios

import (
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/geometry"
	"roofyears/scenarios/units"
)

// panel is a kind of sheet on the roof. Its dimensions are settings: nobody
// estimates them. Lengths are in the study's unit; 0 is not stated.
type panel struct {
	name    string
	factor  decimal.Decimal // developed over covered, to six decimals
	cover   decimal.Decimal // width that a panel covers
	length  decimal.Decimal // of a panel; 0: from eave to ridge in one piece
	screws  decimal.Decimal // on a unit of area on the slope; 0: not to be counted from the panel
	profile string
	at      place
}

// screwed tells a panel that has side seams, and screws through it, whether or
// not its file says how many.
func (p *panel) screwed() bool { return p.profile == "trapezoid" || p.profile == "sine" }

// factorPlaces is to how many decimals the factors of profiles and slopes are
// rounded before they enter a study: far finer than any tape.
const factorPlaces = 6

var (
	profiles    = []string{"trapezoid", "sine", "standing_seam", "flat", "measured"}
	profileUses = [][]string{{"pitch", "base", "top", "height"}, {"pitch", "depth"}, {"height"}, {}, {"developed"}} // by profile
	sectionKeys = []string{"pitch", "base", "top", "height", "depth", "developed"}
)

func (y *surveying) readPanels(n *node) {
	switch {
	case n == nil:
		return
	case n.shape != mapping:
		y.wrongShape(n, "survey.panels", expectPanels)
		return
	case len(n.keys) > maxSurveyed:
		y.fail(n.place, "survey.panels", tooMany(len(n.keys), maxSurveyed))
		return
	}
	for i, key := range n.keys {
		if !keyPattern.MatchString(key.text) {
			y.fail(key.place, "survey.panels", badName(key.text))
		}
		p := &panel{name: key.text, factor: unity, at: key.place}
		y.panels[key.text] = p
		if s, ok := y.section(n.values[i], "survey.panels."+inPath(key.text), inPanel, panelKeys); ok {
			y.readPanel(s, p)
		}
	}
}

// readPanel reads the dimensions of a panel. A key that its profile does not
// use is told.
func (y *surveying) readPanel(s *section, p *panel) {
	if s.need("profile") == nil {
		return
	}
	kind := s.word("profile", profiles)
	if kind < 0 {
		return
	}
	p.profile = profiles[kind]
	uses := profileUses[kind]
	for _, key := range sectionKeys {
		if s.has(key) && !contains(uses, key) {
			y.fail(s.place(key), s.path, notOfProfile(key, p.profile, uses))
		}
	}
	for _, d := range []struct {
		key  string
		into *decimal.Decimal
	}{{"cover", &p.cover}, {"length", &p.length}} {
		if s.has(d.key) {
			*d.into, _ = s.dimension(d.key)
		}
	}
	if p.profile == "standing_seam" {
		s.need("cover")
	}
	y.profileFactor(s, p, uses)
	y.panelScrews(s, p)
}

// profileFactor asks scenarios/geometry how much sheet a panel has over the
// width that it covers.
func (y *surveying) profileFactor(s *section, p *panel, uses []string) {
	unit := string([]units.Unit{units.Inch, units.Millimetre}[y.units])
	d := map[string]float64{"cover": convert(p.cover, y.lengthUnit(), unit).InexactFloat64()}
	for _, key := range uses {
		if key == "developed" {
			if !y.developed(s, p) {
				return
			}
			continue
		}
		v, ok := s.dimensionIn(key, unit)
		if !ok {
			return
		}
		d[key] = v.InexactFloat64()
	}
	var profile geometry.Profile
	switch p.profile {
	case "trapezoid":
		profile = geometry.Trapezoid{Pitch: d["pitch"], Base: d["base"], Top: d["top"], Height: d["height"]}
	case "sine":
		profile = geometry.Sine{Pitch: d["pitch"], Depth: d["depth"]}
	case "standing_seam":
		if !p.cover.IsPositive() {
			return
		}
		profile = geometry.StandingSeam{Cover: d["cover"], Height: d["height"]}
	default:
		return // flat is 1, measured was read
	}
	factor, err := profile.Factor()
	if err != nil {
		y.fail(s.at, s.path, noProfile(err, unit))
		return
	}
	p.factor = decimal.NewFromFloat(factor).Round(factorPlaces)
}

// developed reads a measured section: a factor, or the length along the sheet
// over the covered width.
func (y *surveying) developed(s *section, p *panel) bool {
	n := s.need("developed")
	if n == nil {
		return false
	}
	if v, _, ok := parseNumber(strings.TrimSpace(n.text)); n.shape == scalar && ok && v.unit == "" && !v.percent {
		p.factor = v.value.Round(factorPlaces)
	} else {
		along, ok := s.dimension("developed")
		if !ok || s.need("cover") == nil || !p.cover.IsPositive() {
			return false
		}
		p.factor = units.Quotient(along, p.cover).Round(factorPlaces)
	}
	if p.factor.LessThan(unity) || p.factor.GreaterThan(decimal.NewFromInt(10)) {
		y.fail(n.place, s.sub("developed"), notDeveloped(n.text))
		return false
	}
	return true
}

// panelScrews reads how a panel is screwed down: one screw a field spacing
// along every purlin, one a stitch spacing along every side lap; their number on
// a unit of area, exactly, follows from plane geometry and is not whole. Screws
// of eaves, ridges, flashings and end laps come on top. A rule of thumb of 75 to
// 100 screws a square, from a single source, fits purlins about 2 ft apart; on
// purlins 5 ft apart there are about half as many.
func (y *surveying) panelScrews(s *section, p *panel) {
	if !s.has("screws") {
		if s.has("purlins") {
			s.dimension("purlins")
		}
		return
	}
	q, ok := y.section(s.get("screws"), s.sub("screws"), inPanelScrews, spacingKeys)
	if !ok {
		return
	}
	purlins, okPurlins := s.dimension("purlins")
	field, okField := q.dimension("field")
	if okPurlins && okField {
		p.screws = units.Quotient(unity, purlins.Mul(field))
	}
	if !q.has("stitch") {
		return
	}
	stitch, okStitch := q.dimension("stitch")
	if s.need("cover") != nil && p.cover.IsPositive() && okStitch {
		p.screws = p.screws.Add(units.Quotient(unity, p.cover.Mul(stitch)))
	}
}
