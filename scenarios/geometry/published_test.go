package geometry

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/checks"
)

// printed is a published value. Where it does not follow from the dimensions,
// differs tells why, and the test fails once it does follow.
type printed struct {
	ID        string            `json:"id"`
	Profile   map[string]string `json:"profile"`
	Slope     string            `json:"slope"`
	Printed   float64           `json:"printed"`
	Tolerance float64           `json:"tolerance"`
	Source    string            `json:"source"`
	Differs   string            `json:"differs"`
	Note      string            `json:"note"`
}

// recomputed is a value worked out apart from this package.
type recomputed struct {
	ID      string            `json:"id"`
	Profile map[string]string `json:"profile"`
	Slope   string            `json:"slope"`
	Value   float64           `json:"value"`
}

type published struct {
	About      string    `json:"about"`
	Factors    []printed `json:"factors"`
	Slopes     []printed `json:"slopes"`
	Recomputed struct {
		About   string       `json:"about"`
		Factors []recomputed `json:"factors"`
		Slopes  []recomputed `json:"slopes"`
	} `json:"recomputed"`
	LeftOut []struct{ Case, Why string } `json:"left_out"`
}

func readPublished(t *testing.T) (p published) {
	checks.Read(t, "../../testdata/published/roof/geometry.json", &p)
	return p
}

// profileOf builds a profile of the file; no dimension may be left over.
func profileOf(t *testing.T, from map[string]string) Profile {
	t.Helper()
	used := 1
	length := func(name string) float64 {
		require.Contains(t, from, name)
		used++
		return readLength(from[name])
	}
	var p Profile
	switch from["kind"] {
	case "sine":
		p = Sine{length("pitch"), length("depth")}
	case "arcs":
		p = arcs{length("pitch"), length("depth")}
	case "trapezoid":
		p = Trapezoid{length("pitch"), length("base"), length("top"), length("height")}
	case "standing seam":
		p = StandingSeam{length("cover"), length("height")}
	}
	require.NotNil(t, p, "kind %q", from["kind"])
	require.Len(t, from, used)
	return p
}

func TestPublishedFactors(t *testing.T) {
	p := readPublished(t)
	require.Len(t, p.Factors, 6)
	for _, c := range p.Factors {
		t.Run(c.ID, func(t *testing.T) {
			got, err := profileOf(t, c.Profile).Factor()
			require.NoError(t, err)
			c.compare(t, got)
		})
	}
}

func TestPublishedSlopes(t *testing.T) {
	p := readPublished(t)
	require.Len(t, p.Slopes, 6)
	for _, c := range p.Slopes {
		t.Run(c.Slope, func(t *testing.T) {
			s, err := ParseSlope(c.Slope)
			require.NoError(t, err)
			c.compare(t, s.Factor())
		})
	}
}

func (c printed) compare(t *testing.T, got float64) {
	t.Helper()
	require.NotEmpty(t, c.Source)
	require.Positive(t, c.Tolerance)
	off := math.Abs(got - c.Printed)
	if c.Differs == "" {
		assert.LessOrEqual(t, off, c.Tolerance, "%g is computed, %g printed", got, c.Printed)
		return
	}
	assert.Greater(t, off, c.Tolerance, "%g is computed, and agrees with the print after all", got)
}

// What is left out is named with its reason.
func TestPublishedLeftOut(t *testing.T) {
	p := readPublished(t)
	require.Len(t, p.LeftOut, 3)
	for _, c := range p.LeftOut {
		assert.NotEmpty(t, c.Case)
		assert.NotEmpty(t, c.Why, c.Case)
	}
}

// half is half a unit of the last of so many decimals, and a hair for values
// that lie on it.
func half(decimals float64) float64 { return 0.5*math.Pow(10, -decimals) + 1e-9 }

func TestRecomputedFactors(t *testing.T) {
	r := readPublished(t).Recomputed
	require.Len(t, r.Factors, 18)
	for _, c := range r.Factors {
		got, err := profileOf(t, c.Profile).Factor()
		require.NoError(t, err, c.ID)
		assert.InDelta(t, c.Value, got, half(4), c.ID)
	}
	require.Len(t, r.Slopes, 9)
	for _, c := range r.Slopes {
		s, err := ParseSlope(c.Slope)
		require.NoError(t, err)
		assert.InDelta(t, c.Value, s.Factor(), half(4), c.Slope)
	}
}
