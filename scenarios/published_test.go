package scenarios

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/checks"
)

// publishedSurvey are printed values that follow from a whole study file.
type publishedSurvey struct {
	About string `json:"about"`
	Pails []struct {
		ID      string `json:"id"`
		Covers  string `json:"covers"`
		Pack    string `json:"pack"`
		Printed int64  `json:"printed_ft2"` // that one pack covers, whole
		Source  string `json:"source"`
		Note    string `json:"note"`
	} `json:"pails"`
	Measured []struct {
		ID        string          `json:"id"`
		Cover     string          `json:"cover"`
		Developed string          `json:"developed"`
		Printed   decimal.Decimal `json:"printed"`
		Tolerance decimal.Decimal `json:"tolerance"`
		Computed  decimal.Decimal `json:"computed"` // apart from this project, to the digits shown
		Source    string          `json:"source"`
		Differs   string          `json:"differs"` // why the print does not follow
	} `json:"measured"`
}

func readPublishedSurvey(t *testing.T) (p publishedSurvey) {
	checks.Read(t, "../testdata/published/roof/survey.json", &p)
	return p
}

// readText reads a study of what every one here has and of these further lines.
func readText(t *testing.T, more string) *File {
	t.Helper()
	f, diagnostics := Read(Source{Name: "study.yaml", Text: []byte(`roofyears: 1
study: {title: T, base_date: 2026-10-01, period: 20, currency: USD, rate_basis: real, discount_rate: 3%}
systems:
  coated: {name: Coated, work: restore, life: 12, first_costs: [{item: Set-up, amount: 900}]}
alternatives: [{name: Coat, start: coated, base_case: true}]
` + more)})
	require.NotNil(t, f, told(diagnostics))
	return f
}

// A pail is enough for the area that is printed, and not for a square foot more.
func TestPublishedPails(t *testing.T) {
	p := readPublishedSurvey(t)
	require.Len(t, p.Pails, 2)
	for _, c := range p.Pails {
		require.NotEmpty(t, c.Source, c.ID)
		for area, pails := range map[int64]int64{c.Printed: 1, c.Printed + 1: 2} {
			f := readText(t, fmt.Sprintf("roof: {area: %d ft2}\n"+
				"takeoff: {for: coated, steps: [{step: Coat, over: area, labour: 1, material: {name: Coating, covers: %s, pack: %s, price: 40}}]}\n",
				area, c.Covers, c.Pack))
			m := f.TakeOff.Steps[0].Material
			bought := f.Study.Inputs[m.Bought].Likely
			assert.True(t, bought.Equal(m.Pack.Mul(decimal.NewFromInt(pails))), "%s: %s gal for %d ft2", c.ID, bought, area)
		}
	}
}

// A measured section is its length along the sheet over what it covers.
func TestPublishedMeasuredSections(t *testing.T) {
	p := readPublishedSurvey(t)
	require.Len(t, p.Measured, 1)
	for _, c := range p.Measured {
		require.NotEmpty(t, c.Source, c.ID)
		require.True(t, c.Tolerance.IsPositive(), c.ID)
		f := readText(t, fmt.Sprintf("survey:\n  by: own survey\n  panels: {deck: {profile: measured, cover: %s, developed: %s}}\n"+
			"  planes: [{name: Deck, area: 1000 ft2, panel: deck}]\n", c.Cover, c.Developed))
		developed, flat := f.Study.Find("survey.developed_area"), f.Study.Find("survey.roof_surface")
		require.NotEqual(t, lcc.NoRef, developed)
		factor := f.Study.Inputs[developed].Likely.Div(f.Study.Inputs[flat].Likely)
		agrees := factor.Sub(c.Printed).Abs().LessThanOrEqual(c.Tolerance)
		assert.Equal(t, c.Differs == "", agrees, "%s: %s is computed, %s printed", c.ID, factor, c.Printed)
		assert.True(t, factor.Round(-c.Computed.Exponent()).Equal(c.Computed), "%s: %s", c.ID, factor)
	}
}
