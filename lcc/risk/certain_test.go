package risk

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// certain takes every distribution out of a study.
func certain(s *lcc.Study) *lcc.Study {
	for i := range s.Inputs {
		s.Inputs[i].Shape = lcc.Fixed
	}
	return s
}

// Without an uncertain input every trial is the plain study, but for the
// rounding of its lines: half a cent each.
func TestCertainStudyIsThePlainStudy(t *testing.T) {
	t.Parallel()
	for _, s := range []*lcc.Study{certain(threeAlternatives()), richStudy()} {
		plain, err := s.Evaluate()
		require.NoError(t, err)
		drawn, err := simulate(s, Options{Trials: 100, Seed: 1})
		require.NoError(t, err)
		r := run(t, s, Options{Trials: 100, Seed: 1})
		assert.Equal(t, 100, r.Trials)
		assert.Empty(t, r.Influences)
		cheapest := 0
		for a, o := range plain.Alternatives {
			if o.LCC.LessThan(plain.Alternatives[cheapest].LCC) {
				cheapest = a
			}
			want, slack := o.LCC.InexactFloat64(), 0.005*float64(len(o.Ledger))+1e-6
			for trial, cost := range drawn.costs[a] {
				require.InDelta(t, want, cost, slack, "trial %d of %q", trial, o.Alternative.Name)
			}
			got := r.Alternatives[a]
			assert.InDelta(t, want, got.Mean, slack)
			// The mean of equal numbers is rounded, to some 10⁻¹⁶ of them.
			assert.InDelta(t, 0, got.SD, 1e-14*want)
			for _, q := range []float64{got.P5, got.P50, got.P95} {
				assert.InDelta(t, want, q, slack)
			}
		}
		for a, got := range r.Alternatives {
			chance := 0.0
			if a == cheapest {
				chance = 1
			}
			assert.InDelta(t, chance, got.Cheapest, 1e-12, "chance of %q", s.Alternatives[a].Name)
			assert.InDelta(t, 0, got.CheapestError, 1e-6)
			assert.InDelta(t, plain.Difference(a, cheapest).InexactFloat64(), got.Regret, 1)
		}
		assert.Equal(t, cheapest, r.Chosen)
		assert.Zero(t, r.KnowingAll)
		assert.Zero(t, r.KnowingAllError)
	}
}

// A tie is shared.
func TestAlikeAlternativesShareTheChance(t *testing.T) {
	t.Parallel()
	s := certain(threeAlternatives())
	s.Alternatives = []lcc.Alternative{s.Alternatives[0], s.Alternatives[2], s.Alternatives[2]}
	s.Alternatives[1].BaseCase = false
	r := run(t, s, Options{Trials: 64, Seed: 1})
	chances := []float64{r.Alternatives[0].Cheapest, r.Alternatives[1].Cheapest, r.Alternatives[2].Cheapest}
	best := slices.Index(chances, slices.Max(chances))
	if best == 0 {
		assert.Equal(t, []float64{1, 0, 0}, chances)
	} else {
		assert.Equal(t, []float64{0, 0.5, 0.5}, chances)
	}
	assert.Zero(t, r.Pairs[2].Mean)
	assert.Zero(t, r.Pairs[2].Less, "neither costs less")
}

// Alternatives that are alike are compared on the same futures: they tie in
// every trial, whatever is drawn.
func TestAlikeAlternativesTieWhateverIsDrawn(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	s.Alternatives = []lcc.Alternative{s.Alternatives[1], s.Alternatives[1]}
	r := run(t, s, Options{Trials: 5000, Seed: 8})
	assert.Greater(t, r.Alternatives[0].SD, 1e4)
	assert.Equal(t, 0.5, r.Alternatives[0].Cheapest)
	assert.Equal(t, r.Alternatives[0], r.Alternatives[1])
	assert.Zero(t, r.Pairs[0].SD)
	assert.Zero(t, r.Pairs[0].Less)
	assert.Zero(t, r.KnowingAll)
}
