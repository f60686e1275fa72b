package risk

import (
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// 10,001 trials are three blocks, the last of them not full.
const workersTrials = 10_001

func TestWorkersDoNotChangeTheResult(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	s.Inputs[s.Find("restoration.price")].Moves = &lcc.Moves{With: s.Rate, Rank: dec("0.5")}
	want := run(t, s, Options{Trials: workersTrials, Seed: 17, Workers: 1})
	require.Len(t, want.Influences, 12)
	for _, workers := range []int{1, 2, 3, 8} {
		assert.Equal(t, want, run(t, s, Options{Trials: workersTrials, Seed: 17, Workers: workers}), "%d workers", workers)
	}
}

// Not in parallel: it sets the number of processors.
func TestProcessorsDoNotChangeTheResult(t *testing.T) {
	s := threeAlternatives()
	want := run(t, s, Options{Trials: workersTrials, Seed: 17, Workers: 1})
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for _, processors := range []int{1, 2, 5} {
		runtime.GOMAXPROCS(processors)
		assert.Equal(t, want, run(t, s, Options{Trials: workersTrials, Seed: 17}), "%d processors", processors)
	}
}

func TestSeedsMakeTheResult(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	a := run(t, s, Options{Trials: 2_000, Seed: 1})
	assert.Equal(t, a, run(t, threeAlternatives(), Options{Trials: 2_000, Seed: 1}), "the same study made again")
	b := run(t, s, Options{Trials: 2_000, Seed: 2})
	assert.Equal(t, uint64(2), b.Seed)
	for i := range a.Alternatives {
		assert.NotEqual(t, a.Alternatives[i].Mean, b.Alternatives[i].Mean)
		assert.NotEqual(t, a.Alternatives[i].P50, b.Alternatives[i].P50)
	}
}

// A shorter run is the beginning of a longer one.
func TestTrialsDoNotDependOnHowManyFollow(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	short, err := simulate(s, Options{Trials: 4_500, Seed: 3})
	require.NoError(t, err)
	long, err := simulate(s, Options{Trials: workersTrials, Seed: 3})
	require.NoError(t, err)
	for a := range short.costs {
		assert.Equal(t, short.costs[a], long.costs[a][:4_500])
	}
}

func TestRunLeavesTheStudyAlone(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	run(t, s, Options{Trials: 100, Seed: 3})
	assert.Equal(t, threeAlternatives(), s)
}
