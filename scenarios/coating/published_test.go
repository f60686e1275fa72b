package coating

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios/units"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// val reads "20 mil".
func val(t require.TestingT, text string) units.Value {
	number, name, _ := strings.Cut(text, " ")
	unit, err := units.Named(name)
	require.NoError(t, err)
	return units.Of(dec(number), unit)
}

type published struct {
	About  string `json:"about"`
	Checks []struct {
		ID        string            `json:"id"`
		Ask       string            `json:"ask"`
		Given     map[string]string `json:"given"`
		Unit      units.Unit        `json:"unit"`
		Printed   float64           `json:"printed"`
		Tolerance float64           `json:"tolerance"`
		Source    string            `json:"source"`
		Note      string            `json:"note"`
	} `json:"checks"`
	Recomputed struct {
		About   string  `json:"about"`
		Litres  float64 `json:"litres_per_m2_of_a_gal_per_square"`
		Implied []struct {
			Dry     string  `json:"dry"`
			Applied string  `json:"applied"`
			Value   float64 `json:"value"`
			Digits  float64 `json:"digits"`
		} `json:"implied_solids"`
		Coverages []struct {
			Dry    decimal.Decimal `json:"dry_mil"`
			Solids decimal.Decimal `json:"solids"`
			Gal    float64         `json:"gal_per_square"`
			Wet    float64         `json:"wet_mil"`
		} `json:"coverages"`
		Wear []struct {
			Wear  decimal.Decimal `json:"wear_mil"`
			Years float64         `json:"years"`
		} `json:"years_to_lose_10_of_20_mil"`
		Loads []struct {
			Dry     decimal.Decimal `json:"dry_mil"`
			Density decimal.Decimal `json:"kg_per_litre"`
			PSF     float64         `json:"psf"`
		} `json:"loads"`
	} `json:"recomputed"`
	LeftOut []struct{ Case, Why string } `json:"left_out"`
}

func readPublished(t *testing.T) published {
	t.Helper()
	file, err := os.Open("../../testdata/published/roof/coating.json")
	require.NoError(t, err)
	defer file.Close()
	d := json.NewDecoder(file)
	d.DisallowUnknownFields()
	var p published
	require.NoError(t, d.Decode(&p))
	return p
}

func TestPublishedChecks(t *testing.T) {
	p := readPublished(t)
	require.Len(t, p.Checks, 10)
	for _, c := range p.Checks {
		t.Run(c.ID, func(t *testing.T) {
			require.NotEmpty(t, c.Source)
			require.Positive(t, c.Tolerance)
			got, err := ask(t, c.Ask, c.Given, c.Unit)
			require.NoError(t, err)
			assert.Equal(t, c.Unit, got.Unit)
			assert.InDelta(t, c.Printed, got.Number.InexactFloat64(), c.Tolerance)
		})
	}
	require.Len(t, p.LeftOut, 4)
	for _, c := range p.LeftOut {
		assert.NotEmpty(t, c.Case)
		assert.NotEmpty(t, c.Why, c.Case)
	}
}

// ask puts a question of the file to the package.
func ask(t *testing.T, what string, given map[string]string, in units.Unit) (units.Value, error) {
	t.Helper()
	var p Paint
	if s, ok := given["solids"]; ok {
		p.Solids = dec(s)
	}
	switch what {
	case "spread":
		return p.Spread(val(t, given["dry"]), in)
	case "wet":
		return WetOf(val(t, given["applied"]), in)
	case "dry":
		return p.DryOf(val(t, given["volume"]), val(t, given["area"]), in)
	case "covered":
		return Covered(val(t, given["volume"]), val(t, given["spread"]), in)
	}
	t.Fatalf("nobody answers %q", what)
	return units.Value{}, nil
}

// near compares with a value rounded to so many decimals.
func near(t *testing.T, want float64, got decimal.Decimal, decimals float64, about string) {
	t.Helper()
	assert.InDelta(t, want, got.InexactFloat64(), 0.5*math.Pow(10, -decimals)+1e-9, about)
}

func TestRecomputedCoverages(t *testing.T) {
	r := readPublished(t).Recomputed
	litres, err := units.Of(one, units.GallonPerSquare).To(units.LitrePerSquareMetre)
	require.NoError(t, err)
	near(t, r.Litres, litres.Number, 6, "1 gal/square")
	require.Len(t, r.Coverages, 48)
	for _, c := range r.Coverages {
		p, dry := Paint{Solids: c.Solids}, units.Of(c.Dry, units.Mil)
		about := dry.String() + " at " + c.Solids.String()
		used, err := p.Coverage(dry, units.GallonPerSquare)
		require.NoError(t, err, about)
		near(t, c.Gal, used.Number, 3, about)
		wet, err := p.Wet(dry)
		require.NoError(t, err, about)
		near(t, c.Wet, wet.Number, 2, about)
	}
}

func TestRecomputedSolids(t *testing.T) {
	r := readPublished(t).Recomputed
	require.Len(t, r.Implied, 4)
	for _, c := range r.Implied {
		wet, err := WetOf(val(t, c.Applied), units.Mil)
		require.NoError(t, err)
		got, err := ImpliedSolids(val(t, c.Dry), wet)
		require.NoError(t, err)
		near(t, c.Value, got, c.Digits, c.Dry+" of "+c.Applied)
	}
}

func TestRecomputedWearAndLoads(t *testing.T) {
	r := readPublished(t).Recomputed
	require.Len(t, r.Wear, 5)
	for _, c := range r.Wear {
		got, err := FilmLife(val(t, "20 mil"), val(t, "10 mil"), units.Of(c.Wear, units.Mil))
		require.NoError(t, err)
		near(t, c.Years, got, 1, c.Wear.String())
	}
	require.Len(t, r.Loads, 6)
	for _, c := range r.Loads {
		got, err := AddedLoad(units.Of(c.Dry, units.Mil), units.Of(c.Density, units.KilogramPerLitre), units.PoundPerSquareFoot)
		require.NoError(t, err)
		near(t, c.PSF, got.Number, 3, c.Dry.String()+" mil of "+c.Density.String())
	}
}
