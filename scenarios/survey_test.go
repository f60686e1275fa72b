package scenarios

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// surveyed reads a good file and finds the places of its inputs.
func surveyed(t *testing.T, name string) (*File, func(path string) lcc.Ref) {
	t.Helper()
	f, diagnostics := read(t, filepath.Join(testdata, "good", name))
	require.NotNil(t, f, told(diagnostics))
	return f, func(path string) lcc.Ref {
		ref := f.Study.Find(path)
		require.NotEqual(t, lcc.NoRef, ref, path)
		return ref
	}
}

// checkValues compares derived inputs with numbers worked by hand.
func checkValues(t *testing.T, name string, worked map[string]string) {
	t.Helper()
	f, find := surveyed(t, name)
	for path, want := range worked {
		ref := find(path)
		assert.True(t, f.Study.IsDerived(ref), path)
		assert.Contains(t, f.Study.Inputs[ref].Source, "follows from ", path)
		d := decimal.RequireFromString(want)
		got := f.Study.Inputs[ref].Likely.Round(max(0, -d.Exponent()))
		assert.True(t, d.Equal(got), "%s is %s, by hand %s", path, got, want)
	}
}

// Worked by hand. Slope 1/2:12: √(1 + (0.5/12)²) = 1.000868. Rib: its sides are
// hypot(0.9, 1.25) = 1.540292 in each over a run of 0.9 in, so the factor is
// 1 + 2 × 0.640292/12 = 1.106715.
func TestASurveyInFeetByHand(t *testing.T) {
	checkValues(t, "survey.yaml", map[string]string{
		"roof.area":             "62000",      // 310 × 100 + 31,000
		"survey.roof_surface":   "61267.816",  // 62,000 × 1.000868 − 24 × 32 − 2 × 9
		"survey.developed_area": "67806.0110", // 61,267.816 × 1.106715
		"survey.perforated":     "919.0172",   // 1.5 % of 61,267.816
		"survey.coated_area":    "66788.9208", // 67,806.0110 × 0.985
		"survey.light_rust":     "8136.7213",  // 12 % of 67,806.0110
		"survey.scaled_rust":    "1356.1202",  // 2 % of it
		"survey.side_seams":     "20684.6053", // 62,053.816 ÷ 3
		"survey.end_laps":       "1551.3454",  // 62,053.816 ÷ 40
		"survey.screws":         "24821.5264", // 62,053.816 × (1/(5 × 1) + 1/(3 × 20/12)) = × 0.4
		"survey.loose_screws":   "4467.8748",  // 18 % of them
		"survey.curbs_girth":    "192",        // 12 × 16
		"survey.brush_gaps":     "2400",       // 1/16 in
		"survey.trowel_gaps":    "312",        // 1/8 and 3/16 in
		"survey.closed_gaps":    "40",         // 3/8 in
		// A gallon is a film of 1604.1667 mil on a square foot.
		"takeoff.steps[3].material.needed":   "26.5215",   // 8,136.7213 × 2 ÷ (1604.1667 × 0.45 × 0.85)
		"takeoff.steps[3].material.bought":   "30",        // 6 pails of 5
		"takeoff.steps[3].material.wet_film": "4.4444",    // 2 ÷ 0.45
		"takeoff.steps[4].material.bought":   "345",       // 20,684.6053 ÷ 60 = 344.74: 69 pails
		"takeoff.steps[5].material.needed":   "6.5",       // 26 ÷ 4
		"takeoff.steps[6].material.needed":   "1009.3249", // 66,788.9208 × 12 ÷ (1604.1667 × 0.55 × 0.9)
		"takeoff.steps[6].material.bought":   "1045",      // 19 drums of 55
		"takeoff.steps[7].material.needed":   "832.6930",  // 66,788.9208 × 8 × 1.25 ÷ (1604.1667 × 0.5)
		"takeoff.steps[7].material.bought":   "880",       // 16 drums
		"systems.restoration.life":           "12",        // (12 + 8 − 8) ÷ 1
		"systems.restoration.recoat.life":    "12",        // (20 − 8) ÷ 1
	})
}

// Worked by hand. 5°: 1/cos 5° = 1.003820. The wave: with k = π × 18/76 =
// 0.744062 and m = k²/(1 + k²) = 0.356346, √(1 + k²) × (1 − m/4 − 3m²/64 −
// 5m³/256 − …) = 1.246446 × 0.903854 = 1.126605.
func TestASurveyInMetresByHand(t *testing.T) {
	checkValues(t, "survey-metric.yaml", map[string]string{
		"survey.roof_surface": "2488.82", // 1000 × 1.003820 + 500 + 500 + 300 + 200 − 15
		// 1003.82 × (400 + 2 × 50)/400 + 500 × 1.126605 + 485 + 300 × 1.125/0.9 + 200 × 1.3
		"survey.developed_area":              "2938.0775",
		"survey.coated_area":                 "2938.0775",
		"survey.side_seams":                  "3690.9695", // 1003.82/0.4 + 500/0.836 + 500/2 + 300/0.9
		"survey.end_laps":                    "83.6517",   // 1003.82 ÷ 12
		"survey.loose_screws":                "450",       // 5 % of 9000
		"takeoff.steps[1].material.needed":   "1632.2653", // 2938.0775 × 0.3 ÷ (0.6 × 0.9)
		"takeoff.steps[1].material.bought":   "1640",      // 82 pails of 20 L
		"takeoff.steps[1].material.wet_film": "500",       // µm: 300 ÷ 0.6
		"takeoff.steps[2].material.needed":   "1175.231",  // 2938.0775 × 0.2 ÷ 0.5
		"takeoff.steps[3].material.bought":   "740",       // 3690.9695 ÷ 5 = 738.19
		"takeoff.steps[4].material.bought":   "40.5",      // 40 in packs of 1.5 m²
		"systems.coated.life":                "12",        // (300 + 200 − 200) ÷ 25
	})
}

// firstCosts are the lines of an alternative at time 0, by their names.
func firstCosts(t *testing.T, f *File, alternative int) (map[string]string, decimal.Decimal) {
	t.Helper()
	r, err := f.Study.Evaluate()
	require.NoError(t, err)
	lines := map[string]string{}
	for _, line := range r.Alternatives[alternative].Ledger {
		if line.Time == 0 {
			require.NotContains(t, lines, line.Item)
			lines[line.Item] = line.Amount.StringFixed(2)
		}
	}
	return lines, r.Alternatives[alternative].First
}

// Each line is quantity × price, rounded once.
func TestFirstCostsComeFromTheTakeOffToTheCent(t *testing.T) {
	f, _ := surveyed(t, "survey.yaml")
	lines, first := firstCosts(t, f, 1)
	assert.Equal(t, map[string]string{
		"Inspection during the work":                      "6500.00",
		"Replace perforated sheets":                       "7535.94", // 919.01724 × 8.20
		"Clean drains":                                    "240.00",
		"Replace stripped screws":                         "2382.87", // 6 % of 24,821.5264 × 1.60
		"Add missing screws":                              "347.50",  // 1 % of them × 1.40
		"Wire-brush scaled rust":                          "1627.34", // 1,356.1202 × 1.20
		"Close wide gaps":                                 "380.00",  // 40 × 9.50
		"Set up and protect":                              "8500.00",
		"Re-fasten with a larger size: labour":            "6031.63",  // 4,467.874752 × 1.35
		"Re-fasten with a larger size: Screw with washer": "1350.00",  // 18 boxes of 250 × 0.30
		"Treat rust: labour":                              "7323.05",  // 8,136.7213 × 0.90
		"Treat rust: Rust primer":                         "1860.00",  // 30 × 62
		"Seal seams: labour":                              "22753.07", // 20,684.6053 × 1.10
		"Seal seams: Seam compound":                       "15180.00", // 345 × 44
		"Flash pipes: labour":                             "2210.00",  // 26 × 85
		"Flash pipes: Flashing compound":                  "286.00",   // 6.5 × 44
		"Base coat: labour":                               "30055.01", // 66,788.9208 × 0.45
		"Base coat: Acrylic base coat, grey":              "32395.00", // 1045 × 31
		"Finish coat: labour":                             "30055.01",
		"Finish coat: Acrylic finish coat, white":         "31680.00", // 880 × 36
	}, lines)
	assert.Equal(t, "208692.42", first.StringFixed(2))

	metric, _ := surveyed(t, "survey-metric.yaml")
	_, first = firstCosts(t, metric, 0)
	// 11,752.31 × 2 + 1640 × 9 + 1175.231 × 11 + 740 × 12 + 40 × 30 + 40.5 × 14 + 450 × 0.90
	assert.Equal(t, "62244.16", first.StringFixed(2))
}

// What is shown of a measure is how it comes about, and the take-off holds
// places among the inputs only.
func TestTheTakeOff(t *testing.T) {
	f, find := surveyed(t, "survey.yaml")
	require.NotNil(t, f.TakeOff)
	assert.Equal(t, "restoration", f.Study.Systems[f.TakeOff.System].Key)
	how, sources := map[string]string{}, map[string]string{}
	for _, m := range f.TakeOff.Measured {
		how[m.Key], sources[m.Key] = m.How, m.Source
	}
	assert.Equal(t, "310 ft × 100 ft + 31,000 ft²", how["area"])
	assert.Equal(t, "310 ft × 100 ft × 1.000868 (slope 1/2:12) + 31,000 ft² × 1.000868 (slope 1/2:12) − 24 × 32 ft² (Skylights) − 2 × 9 ft² (Hatches)", how["roof_surface"])
	assert.Equal(t, "67,806.01 ft² × (100% − 1.5%)", how["coated_area"])
	assert.Equal(t, "300 ft (1/8 in) + 12 ft (3/16 in)", how["trowel_gaps"])
	assert.Empty(t, how["ridge"])
	assert.Equal(t, "roof survey, 2026-06-18", sources["ridge"])
	assert.Equal(t, "roof survey, 2026-06-18: infrared, verified by cores", sources["wet"])

	metric, _ := surveyed(t, "survey-metric.yaml")
	for _, m := range metric.TakeOff.Measured {
		assert.NotContains(t, m.How, "  ", m.Key)
	}

	require.Len(t, f.TakeOff.Steps, 7)
	setUp, fasten, rust, base := f.TakeOff.Steps[0], f.TakeOff.Steps[1], f.TakeOff.Steps[2], f.TakeOff.Steps[5]
	assert.Equal(t, lcc.NoRef, setUp.Over)
	assert.Equal(t, find("takeoff.steps[1].lump"), setUp.Labour)
	assert.Equal(t, find("survey.loose_screws"), fasten.Material.Needed)
	assert.Nil(t, fasten.Material.Coat)
	assert.Equal(t, "24", rust.Wait.String())
	assert.Equal(t, find("survey.coated_area"), base.Over)
	assert.Equal(t, "grey", base.Material.Colour)
	assert.Equal(t, "55", base.Material.Pack.String())
	assert.Equal(t, find("takeoff.steps[6].material.film"), base.Material.Coat.Dry)
	assert.Equal(t, lcc.NoRef, base.Material.Coat.Extra)
	last := f.TakeOff.Steps[6].Material.Coat
	assert.Equal(t, lcc.NoRef, last.Loss)
	assert.Equal(t, find("takeoff.steps[7].material.extra"), last.Extra)

	plain, _ := surveyed(t, "forms.yaml")
	assert.Nil(t, plain.TakeOff)
}

// The order of the keys of an estimate decides nothing: a source that begins
// with a digit, or the shape of a distribution, is no measured length.
func TestOrderOfKeysDecidesNoUnit(t *testing.T) {
	for _, length := range []string{
		`{value: 30 m, source: "2026 survey"}`, `{source: "2026 survey", value: 30 m}`, `{distribution: pert, low: 29 m, likely: 30 m, high: 31 m}`,
		`{weibull: {shape: 9, mean: 30 m}}`, `{rank_correlation: 0.5, moves_with: study.discount_rate, low: 29 m, likely: 30 m, high: 31 m}`,
	} {
		f, diagnostics := Read(Source{Name: "units.yaml", Text: []byte(fmt.Sprintf(`roofyears: 1
study: {title: T, base_date: 2026-10-01, period: 20, currency: EUR, rate_basis: real, discount_rate: {low: 2%%, likely: 3%%, high: 4%%}}
survey: {planes: [{name: A, length: %s, width: 30 m}]}
systems:
  new_roof: {name: New, life: 24, first_costs: [{item: New roof, unit_price: 11.40, per: area}]}
alternatives: [{name: New, start: new_roof, base_case: true}]
`, length))})
		require.NotNil(t, f, told(diagnostics))
		assert.Equal(t, "m2", f.Study.About.AreaUnit, length)
		r, err := f.Study.Evaluate()
		require.NoError(t, err)
		assert.InDelta(t, 10260, r.Alternatives[0].First.InexactFloat64(), 60, length) // 900 m² at 11.40
	}
	for text, unit := range map[string]string{
		`30`: "", `30 um`: "um", `{source: "3 sites", value: 25 um}`: "um",
	} {
		assert.Equal(t, unit, unitOf(parse(text, nil)), text)
	}
}
