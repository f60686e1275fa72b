package cooling

import (
	"encoding/json"
	"math"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/checks"
)

// The published check values; the README.md of the folder tells the format.

const publishedDir = "../../testdata/published/cool-roof"

type publishedCase struct {
	ID         string             `json:"id"`
	Title      string             `json:"title"`
	Place      string             `json:"place"`
	Kind       string             `json:"kind"`
	Convention string             `json:"convention"`
	Inputs     json.RawMessage    `json:"inputs"`
	Expected   map[string]float64 `json:"expected"`
	Tolerance  *float64           `json:"tolerance"`
	Note       string             `json:"note"`
}

// otherThanPrint are the rows that do not round to the printed index.
var otherThanPrint = map[string]bool{"row-067-085": true, "row-083-092": true}

func TestPublished(t *testing.T) {
	for _, c := range publishedCases(t) {
		t.Run(c.ID, func(t *testing.T) {
			require.NotNil(t, c.Tolerance, "no tolerance")
			require.NotEmpty(t, c.Expected, "nothing is expected")
			figures := c.figures(t)
			for name, want := range c.Expected {
				got, known := figures[name]
				require.Truef(t, known, "there is no figure %q", name)
				assert.InDelta(t, want, got, *c.Tolerance, name)
				if name == "sri" && want == math.Trunc(want) {
					assert.Equal(t, !otherThanPrint[c.ID], math.Round(got) == want, "rounds to the print: %v for %v", got, want)
				}
			}
		})
	}
}

// figures is what the package gives for a case.
func (c publishedCase) figures(t *testing.T) map[string]float64 {
	t.Helper()
	switch c.Kind {
	case "surface":
		var in struct {
			Reflectance, Emittance float64
			Wind                   string
		}
		require.NoError(t, checks.Strict(c.Inputs, &in))
		wind := map[string]Wind{"low": LowWind, "medium": MediumWind, "high": HighWind}[in.Wind]
		s := Surface{in.Reflectance, in.Emittance}
		sri, err := SRI(s, wind)
		require.NoError(t, err)
		kelvin, err := SurfaceTemperature(s, wind)
		require.NoError(t, err)
		return map[string]float64{"sri": sri, "kelvin": kelvin}
	case "sol-air":
		var in struct {
			Emittance, Film decimal.Decimal
			SkyLoss         decimal.Decimal `json:"sky_loss"`
		}
		require.NoError(t, checks.Strict(c.Inputs, &in))
		got, err := solAir(solAirHour{Emittance: in.Emittance, SkyLoss: in.SkyLoss, Film: in.Film})
		require.NoError(t, err)
		return map[string]float64{"correction": got.InexactFloat64()}
	}
	t.Fatalf("there is no kind %q", c.Kind)
	return nil
}

// Everything published is either run or left out by name, and both are counted.
func TestPublishedCasesAreRunOrLeftOutByName(t *testing.T) {
	var out struct {
		Run    int               `json:"run"`
		Values int               `json:"values"`
		Cases  map[string]string `json:"cases"`
	}
	checks.Read(t, filepath.Join(publishedDir, "left-out.json"), &out)
	run, values := map[string]bool{}, 0
	for _, c := range publishedCases(t) {
		assert.Falsef(t, run[c.ID], "case %q stands twice", c.ID)
		run[c.ID] = true
		values += len(c.Expected)
	}
	assert.Len(t, run, out.Run, "cases run")
	assert.Equal(t, out.Values, values, "published values")
	for id := range otherThanPrint {
		assert.Truef(t, run[id], "there is no case %q", id)
	}
	for id, reason := range out.Cases {
		assert.Falsef(t, run[id], "case %q is both run and left out", id)
		assert.NotEmptyf(t, reason, "case %q is left out without a reason", id)
	}
}

func publishedCases(t *testing.T) []publishedCase {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(publishedDir, "*.json"))
	require.NoError(t, err)
	var cases []publishedCase
	for _, path := range paths {
		if filepath.Base(path) == "left-out.json" {
			continue
		}
		var file struct {
			Source string
			Cases  []publishedCase
		}
		checks.Read(t, path, &file)
		require.NotEmptyf(t, file.Source, "%s names no source", path)
		require.NotEmptyf(t, file.Cases, "%s has no cases", path)
		cases = append(cases, file.Cases...)
	}
	require.NotEmpty(t, cases, "no cases")
	return cases
}
