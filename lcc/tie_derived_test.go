package lcc

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// scanned looks for changes of sign at many points, which proves nothing but
// finds what a proof would have missed.
func scanned(t require.TestingT, r *Result, in Ref, lo, hi float64, points int) [][2]float64 {
	p, err := r.probe(in, 0, 1)
	require.NoError(t, err)
	var out [][2]float64
	last, at := 0.0, lo
	for i := range points {
		x := lo + (hi-lo)*(float64(i)+0.37)/float64(points)
		now := p.clear(p.at(x))
		if now*last < 0 {
			out = append(out, [2]float64{at, x})
		}
		if now != 0 {
			last, at = now, x
		}
	}
	return out
}

// agree checks ties against a scan: between two points of different sign lies
// an odd number of ties that cross, and the sign differs around each.
func agree(t require.TestingT, r *Result, in Ref, lo, hi float64, points int) []Tie {
	ties, err := r.Ties(in, 0, 1, decimal.NewFromFloat(lo), decimal.NewFromFloat(hi))
	require.NoError(t, err)
	path := r.Study.Inputs[in].Path
	for _, s := range scanned(t, r, in, lo, hi, points) {
		n := 0
		for _, tie := range ties {
			if x := tie.At.InexactFloat64(); tie.Crosses() && x >= s[0]-1e-9 && x <= s[1]+1e-9 {
				n++
			}
		}
		assert.Equal(t, 1, n%2, "%s: %d ties from %v to %v", path, n, s[0], s[1])
	}
	p, err := r.probe(in, 0, 1)
	require.NoError(t, err)
	for _, tie := range ties {
		if x := tie.At.InexactFloat64(); tie.Crosses() {
			step := 1e-7 * max(1, x)
			below, above := p.at(x-step), p.at(x+step)
			assert.Less(t, below*above, 1e-6, "%s: no crossing at %v: %v, %v", path, x, below, above)
			assert.Equal(t, cheaper(0, 1, below), tie.Below, "%s at %v", path, x)
		}
	}
	return ties
}

func TestTiesOfWhatOthersFollowFrom(t *testing.T) {
	s, at := coated(t)
	s.Inputs[at["labour"]].Likely = decimal.RequireFromString("1.5")
	r, err := s.Evaluate()
	require.NoError(t, err)
	found := map[string]int{}
	for name, to := range map[string]float64{"area": 100_000, "film": 200, "least": 19, "wear": 10, "solids": 1, "loss": 1, "factor": 11} {
		lo := 0.0
		if name == "area" {
			lo = 50
		}
		found[name] = len(agree(t, r, at[name], lo, to, 40_000))
	}
	assert.Positive(t, found["film"])
	assert.Positive(t, found["wear"])
	assert.Positive(t, found["solids"])
}

// A step of packs tells what either side costs, in the ledger's cents.
func TestStepOfPacks(t *testing.T) {
	s, at := coated(t)
	r, err := s.Evaluate()
	require.NoError(t, err)
	ties := agree(t, r, at["solids"], 0.01, 1, 1000)
	steps := 0
	for _, tie := range ties {
		if tie.Step {
			steps++
			assert.True(t, tie.Near)
			assert.NotEqual(t, tie.GapAt.Sign(), tie.GapNext.Sign(), "%s, %s", tie.GapAt, tie.GapNext)
		}
	}
	assert.Positive(t, steps)
}

func TestTiesOfRandomDerivations(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s, at := coated(t)
		draw := func(name string, lo, hi float64) {
			v := rapid.Float64Range(lo, hi).Draw(rt, name)
			s.Inputs[at[name]].Likely = decimal.NewFromFloat(v).Round(4)
		}
		draw("area", 500, 20_000)
		draw("film", 10, 40)
		draw("least", 1, 9)
		draw("wear", 0.5, 5)
		draw("solids", 0.3, 1)
		draw("loss", 0, 0.4)
		draw("paint", 10, 80)
		draw("labour", 0.2, 3)
		draw("roof", 2, 9)
		draw("new life", 5, 25)
		s.Derived[0].Pack = decimal.NewFromInt(int64(rapid.SampledFrom([]int{0, 1, 5, 55}).Draw(rt, "pack")))
		r, err := s.Evaluate()
		require.NoError(rt, err)
		name := rapid.SampledFrom([]string{"area", "film", "least", "wear", "solids", "loss", "factor"}).Draw(rt, "moved")
		now := r.Inputs[at[name]].InexactFloat64()
		most, bounded := map[string]float64{"solids": 1, "loss": 0.99, "least": 9.9}[name]
		if !bounded {
			most = 3 * now
		}
		agree(rt, r, at[name], 0.3*now, max(most, 0.31*now), 4000)
	})
}

func TestAnInputThatDividesIsNoPrice(t *testing.T) {
	s, at := coated(t)
	s.Systems[0].First[1].Quantity = at["solids"]
	assert.ErrorContains(t, s.Check(), "divides what follows from it")
}

func BenchmarkTiesThroughPacks(b *testing.B) {
	for _, name := range []string{"area", "film"} {
		b.Run(name, func(b *testing.B) {
			s, at := coated(b)
			r, err := s.Evaluate()
			require.NoError(b, err)
			for b.Loop() {
				_, err := r.Ties(at[name], 0, 1, decimal.NewFromInt(1), decimal.NewFromInt(100_000))
				require.NoError(b, err)
			}
		})
	}
}
