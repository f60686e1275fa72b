package scenarios

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"roofyears/lcc"
)

// measuredRoof is a study of a surveyed roof in feet. {…} marks what has
// another number and unit in metres; so does a price: $30/gal.
const measuredRoof = `roofyears: 1
study: {title: T, base_date: 2026-10-01, period: 20, currency: USD, rate_basis: real, discount_rate: 3%%}
roof: {}
survey:
  panels: {main: {profile: trapezoid, pitch: <12 in>, base: <2.8 in>, top: <1 in>, height: <1.25 in>, cover: <36 in>, length: <40 ft>, purlins: <5 ft>, screws: {field: <12 in>, stitch: <20 in>}}}
  planes:
    - {name: East, length: <%d ft>, width: <97 ft>, slope: "1/2:12", panel: main}
    - {name: West, area: <31000 ft2>, slope: "5 deg", measured_on: slope, panel: main}
  openings: [{name: Skylights, count: %d, area: <32 ft2>, plane: East}]
  screws: {loose: 18%%}
  rust: {light: 12%%, perforated: 1.5%%}
systems:
  coated:
    name: Coated
    work: restore
    life: {from_film: {film: takeoff, worn_at: <4 mil>, wear: {value: <1 mil>, source: common practice}}}
    first_costs: [{item: Replace perforated sheets, unit_price: $8.20/ft2, per: perforated}]
    then: new_roof
  new_roof: {name: New, work: tear_off, life: 24, first_costs: [{item: New roof, unit_price: $11/ft2, per: area}]}
takeoff:
  for: coated
  steps:
    - {step: Re-fasten, over: loose_screws, labour: 1.35}
    - {step: Seal seams, over: side_seams, labour: $1.10/ft, material: {name: Compound, covers: <60 ft/gal>, pack: <5 gal>, price: $44/gal}}
    - {step: Base coat, over: coated_area, labour: $0.45/ft2, material: {name: Base, film: {low: <10 mil>, likely: <%d mil>, high: <400 mil>}, solids: 55%%, loss: 10%%, pack: <55 gal>, price: $31/gal, colour: grey}}
    - {step: Finish coat, over: coated_area, labour: $0.45/ft2, material: {name: Finish, film: <8 mil>, solids: 50%%, extra: 25%%, pack: <5 gal>, price: $36/gal, colour: white}}
alternatives: [{name: Coat, start: coated, base_case: true}, {name: New, start: new_roof}]
`

var (
	sized  = regexp.MustCompile(`<([0-9.]+) ([a-z0-9/]+)>`)
	priced = regexp.MustCompile(`\$([0-9.]+)/([a-z0-9]+)`)
	inSI   = map[string]string{"ft": "m", "in": "mm", "ft2": "m2", "mil": "um", "gal": "L", "ft/gal": "m/L"}
)

// written gives the study in feet, or in metres with every figure converted.
// Figures keep 38 digits, more than a file may round away of a cent.
func written(text string, metric bool) string {
	number := func(x, from string, price bool) string {
		v := decimal.RequireFromString(x)
		if metric && price {
			v = convert(v, "ft/"+from, "ft/"+inSI[from])
		} else if metric {
			v = convert(v, from, inSI[from])
		}
		return v.Round(36).String()
	}
	unit := func(u string) string {
		if metric {
			return inSI[u]
		}
		return u
	}
	text = sized.ReplaceAllStringFunc(text, func(s string) string {
		m := sized.FindStringSubmatch(s)
		return number(m[1], m[2], false) + " " + unit(m[2])
	})
	return priced.ReplaceAllStringFunc(text, func(s string) string {
		m := priced.FindStringSubmatch(s)
		return number(m[1], m[2], true)
	})
}

func roofOf(t require.TestingT, length, openings, film int, metric bool) (*File, *lcc.Result) {
	text := written(fmt.Sprintf(measuredRoof, length, openings, film), metric)
	f, diagnostics := Read(Source{Name: "roof.yaml", Text: []byte(text)})
	require.NotNil(t, f, told(diagnostics))
	r, err := f.Study.Evaluate()
	require.NoError(t, err)
	return f, r
}

func valueOf(t require.TestingT, f *File, r *lcc.Result, path string) decimal.Decimal {
	ref := f.Study.Find(path)
	require.NotEqual(t, lcc.NoRef, ref, path)
	return r.Inputs[ref]
}

// The same roof costs the same in feet and in metres.
func TestFeetAndMetresGiveTheSameMoney(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.IntRange(40, 900).Draw(t, "length")
		openings := rapid.IntRange(0, 60).Draw(t, "openings")
		film := rapid.IntRange(10, 60).Draw(t, "film")
		us, inFeet := roofOf(t, length, openings, film, false)
		si, inMetres := roofOf(t, length, openings, film, true)
		assert.Equal(t, "ft2", us.Study.About.AreaUnit)
		assert.Equal(t, "m2", si.Study.About.AreaUnit)
		for a := range inFeet.Alternatives {
			feet, metres := inFeet.Alternatives[a], inMetres.Alternatives[a]
			require.Len(t, metres.Ledger, len(feet.Ledger))
			for i, line := range feet.Ledger {
				assert.True(t, line.Amount.Equal(metres.Ledger[i].Amount), "%s: %s, %s", line.Item, line.Amount, metres.Ledger[i].Amount)
			}
			assert.True(t, feet.LCC.Equal(metres.LCC), "%s, %s", feet.LCC, metres.LCC)
		}
		assert.Equal(t, inFeet.Inputs[us.Study.Systems[0].Life].String(), inMetres.Inputs[si.Study.Systems[0].Life].Round(20).String())
	})
}

// More film never takes less paint, and lasts longer.
func TestMoreFilmTakesMorePaint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		film := rapid.IntRange(10, 200).Draw(t, "film")
		more := film + rapid.IntRange(1, 200).Draw(t, "more")
		f, thin := roofOf(t, 310, 24, film, false)
		_, thick := roofOf(t, 310, 24, more, false)
		const material = "takeoff.steps[3].material."
		assert.True(t, valueOf(t, f, thick, material+"needed").GreaterThan(valueOf(t, f, thin, material+"needed")))
		assert.True(t, valueOf(t, f, thick, material+"bought").GreaterThanOrEqual(valueOf(t, f, thin, material+"bought")))
		assert.True(t, valueOf(t, f, thick, "systems.coated.life").GreaterThan(valueOf(t, f, thin, "systems.coated.life")))
		bought, needed := valueOf(t, f, thin, material+"bought"), valueOf(t, f, thin, material+"needed")
		assert.True(t, bought.GreaterThanOrEqual(needed) && bought.LessThan(needed.Add(decimal.NewFromInt(55))), "%s for %s", bought, needed)
	})
}

// More openings never leave more area, nor dearer work.
func TestMoreOpeningsLeaveLessArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		openings := rapid.IntRange(0, 200).Draw(t, "openings")
		more := openings + rapid.IntRange(1, 200).Draw(t, "more")
		f, few := roofOf(t, 310, openings, 12, false)
		_, many := roofOf(t, 310, more, 12, false)
		for _, path := range []string{"survey.roof_surface", "survey.developed_area", "survey.coated_area", "survey.light_rust", "survey.perforated"} {
			assert.True(t, valueOf(t, f, many, path).LessThan(valueOf(t, f, few, path)), path)
		}
		assert.True(t, many.Alternatives[0].First.LessThan(few.Alternatives[0].First))
	})
}

// A measure of the survey moves all that follows from it: the study of another
// length is the study read with that length.
func TestAVectorMovesWhatFollows(t *testing.T) {
	f, r := roofOf(t, 310, 24, 12, false)
	_, longer := roofOf(t, 350, 24, 12, false)
	v := append(lcc.Vector(nil), r.Inputs...)
	v[f.Study.Find("survey.planes[1].length")] = decimal.NewFromInt(350)
	moved, err := f.Study.EvaluateAt(v)
	require.NoError(t, err)
	for a := range longer.Alternatives {
		assert.True(t, moved.Alternatives[a].LCC.Equal(longer.Alternatives[a].LCC))
	}
	assert.False(t, moved.Alternatives[0].LCC.Equal(r.Alternatives[0].LCC))
}
