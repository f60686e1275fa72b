package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

const smokeDraws = 1_000_000

// leastP is how unlikely a test of chance may find its sample: such a sample
// of true chance occurs once in a million seeds.
const leastP = 1e-6

// chiSquareP is how likely counts as uneven as these are.
func chiSquareP(counts []int) float64 {
	total := 0
	for _, c := range counts {
		total += c
	}
	expected, sum := float64(total)/float64(len(counts)), 0.0
	for _, c := range counts {
		sum += (float64(c) - expected) * (float64(c) - expected) / expected
	}
	return distuv.ChiSquared{K: float64(len(counts) - 1)}.Survival(sum)
}

func TestSourceIsUniform(t *testing.T) {
	t.Parallel()
	s := newSource(20, 5)
	for _, dimension := range []int{0, 1, 4} {
		counts := make([]int, 100)
		for trial := range smokeDraws {
			counts[int(100*s.at(trial, dimension))]++
		}
		p := chiSquareP(counts)
		t.Logf("dimension %d: p = %.3f", dimension, p)
		assert.Greater(t, p, leastP, "dimension %d", dimension)
	}
}

// Neighbours know nothing of each other: the next trial, the next dimension,
// the same place under another seed.
func TestSourceNeighboursAreIndependent(t *testing.T) {
	t.Parallel()
	s, other := newSource(20, 5), newSource(21, 5)
	neighbours := map[string]func(trial int) float64{
		"next trial":         func(trial int) float64 { return s.at(trial+1, 2) },
		"next dimension":     func(trial int) float64 { return s.at(trial, 3) },
		"last to first":      func(trial int) float64 { return s.at(trial+1, 0) },
		"another seed":       func(trial int) float64 { return other.at(trial, 2) },
		"256 trials further": func(trial int) float64 { return s.at(trial+256, 2) },
	}
	for name, neighbour := range neighbours {
		pairs := make([]int, 100)
		x, y := make([]float64, smokeDraws/2), make([]float64, smokeDraws/2)
		for trial := range x {
			x[trial], y[trial] = s.at(trial, 2), neighbour(trial)
			pairs[10*int(10*x[trial])+int(10*y[trial])]++
		}
		z := stat.Correlation(x, y, nil) * math.Sqrt(float64(len(x)))
		p := chiSquareP(pairs)
		t.Logf("%s: correlation %.1f standard errors, p of pairs %.3f", name, z, p)
		assert.Less(t, math.Abs(z), 4.9, "%s: correlation", name)
		assert.Greater(t, p, leastP, "%s: pairs", name)
	}
}

// No two places of a simulation share a number.
func TestSourcePlacesDoNotOverlap(t *testing.T) {
	t.Parallel()
	for _, dimensions := range []int{1, 2, 3, 8, 9, 100} {
		s := newSource(7, dimensions)
		require.GreaterOrEqual(t, s.stride, uint64(dimensions))
		seen := map[float64]bool{}
		for trial := range 500 {
			for d := range dimensions {
				seen[s.at(trial, d)] = true
			}
		}
		assert.Len(t, seen, 500*dimensions)
	}
}

func TestSourceSeeds(t *testing.T) {
	t.Parallel()
	read := func(seed uint64) []float64 {
		s := newSource(seed, 3)
		var out []float64
		for trial := range 100 {
			out = append(out, s.at(trial, 0), s.at(trial, 2))
		}
		return out
	}
	assert.Equal(t, read(5), read(5))
	for _, seed := range []uint64{0, 4, 6, 1 << 32, math.MaxUint64} {
		a, b := read(5), read(seed)
		for i := range a {
			assert.NotEqual(t, a[i], b[i], "seeds 5 and %d at %d", seed, i)
		}
	}
}

// The reference numbers of SplitMix64 from state 0 (from memory; they stand in
// several of its implementations).
func TestMixIsSplitMix64(t *testing.T) {
	t.Parallel()
	state := uint64(0)
	for _, want := range []uint64{0xe220a8397b1dcdaf, 0x6e789e6aa1b965f4, 0x06c45d188009454f} {
		state += golden
		assert.Equal(t, want, mix(state))
	}
}

// unmix undoes mix, which is one to one.
func unmix(z uint64) uint64 {
	unshift := func(z uint64, by uint) uint64 {
		x := z
		for range 64 / by {
			x = z ^ x>>by
		}
		return x
	}
	inverse := func(odd uint64) uint64 { // Newton's iteration modulo 2⁶⁴
		x := odd
		for range 6 {
			x *= 2 - odd*x
		}
		return x
	}
	z = unshift(z, 31) * inverse(0x94d049bb133111eb)
	z = unshift(z, 27) * inverse(0xbf58476d1ce4e5b9)
	return unshift(z, 30)
}

// seedFor is the seed whose first number comes from the given bits.
func seedFor(bits uint64) uint64 { return unmix(unmix(bits)) - golden }

// The interval is open, at the seeds too that come nearest to its ends: at 0
// and 1 a distribution may have no quantile.
func TestSourceNeverGivesAnEnd(t *testing.T) {
	t.Parallel()
	require.Equal(t, uint64(0x1234567890abcdef), mix(unmix(0x1234567890abcdef)))
	for _, bits := range []uint64{0, 1, 1 << 11, 1 << 63, math.MaxUint64 - 1<<11, math.MaxUint64} {
		u := newSource(seedFor(bits), 1).at(0, 0)
		assert.Greater(t, u, 0.0, "bits %x", bits)
		assert.Less(t, u, 1.0, "bits %x, seed %d", bits, seedFor(bits))
	}
}
