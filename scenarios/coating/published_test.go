package coating

import (
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/checks"
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
		About     string  `json:"about"`
		Litres    float64 `json:"litres_per_m2_of_a_gal_per_square"`
		Coverages []struct {
			Dry    decimal.Decimal `json:"dry_mil"`
			Solids decimal.Decimal `json:"solids"`
			Gal    float64         `json:"gal_per_square"`
		} `json:"coverages"`
		Loads []struct {
			Dry     decimal.Decimal `json:"dry_mil"`
			Density decimal.Decimal `json:"kg_per_litre"`
			PSF     float64         `json:"psf"`
		} `json:"loads"`
	} `json:"recomputed"`
	LeftOut []struct{ Case, Why string } `json:"left_out"`
}

func readPublished(t *testing.T) (p published) {
	checks.Read(t, "../../testdata/published/roof/coating.json", &p)
	return p
}

func TestPublishedChecks(t *testing.T) {
	p := readPublished(t)
	require.Len(t, p.Checks, 8)
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

// ask puts a question of the file to the package: the area that a gallon
// covers, or the dry film that a volume makes on an area.
func ask(t *testing.T, what string, given map[string]string, in units.Unit) (units.Value, error) {
	t.Helper()
	p := Paint{Solids: dec(given["solids"])}
	switch what {
	case "spread":
		gallons, err := p.Volume(val(t, "1 ft2"), val(t, given["dry"]), units.Gallon)
		return units.Of(units.Quotient(one, gallons.Number), units.SquareFootPerGallon), err
	case "dry":
		volume := val(t, given["volume"])
		ofAMil, err := p.Volume(val(t, given["area"]), val(t, "1 mil"), volume.Unit)
		return units.Of(units.Quotient(volume.Number, ofAMil.Number), units.Mil), err
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
		used, err := p.Volume(val(t, "1 square"), dry, units.Gallon)
		require.NoError(t, err, about)
		near(t, c.Gal, used.Number, 3, about)
	}
}

func TestRecomputedLoads(t *testing.T) {
	r := readPublished(t).Recomputed
	require.Len(t, r.Loads, 6)
	for _, c := range r.Loads {
		got, err := AddedLoad(units.Of(c.Dry, units.Mil), units.Of(c.Density, units.KilogramPerLitre), units.PoundPerSquareFoot)
		require.NoError(t, err)
		near(t, c.PSF, got.Number, 3, c.Dry.String()+" mil of "+c.Density.String())
	}
}
