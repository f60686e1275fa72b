package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"roofyears/lcc"
)

// place names a life: the slot of a system, or of its recoat, and which
// installation.
type place struct{ slot, nth int }

// recorder passes a worker's lives on and keeps what was asked.
type recorder struct {
	*worker
	asked map[place][]float64
}

func (r recorder) Life(slot, nth int) float64 {
	life := r.worker.Life(slot, nth)
	r.asked[place{slot, nth}] = append(r.asked[place{slot, nth}], life)
	return life
}

// oneWorker draws the trials of a study.
func oneWorker(t *testing.T, s *lcc.Study, seed uint64) *worker {
	t.Helper()
	ks, err := kernels(s, 1)
	require.NoError(t, err)
	return newWorker(newSampler(s, seed), ks[0])
}

// eachTrial gives the lives asked in each trial by all alternatives.
func eachTrial(t *testing.T, s *lcc.Study, trials int, look func(asked map[place][]float64)) {
	t.Helper()
	w := oneWorker(t, s, 21)
	for trial := range trials {
		w.trial(trial)
		r := recorder{w, map[place][]float64{}}
		for a := range s.Alternatives {
			cost := w.kernel.LCCWith(a, r)
			require.False(t, math.IsNaN(cost) || math.IsInf(cost, 0), "trial %d costs %v", trial, cost)
		}
		look(r.asked)
	}
}

func TestLivesAreTheSameInAllAlternatives(t *testing.T) {
	t.Parallel()
	shared := 0
	eachTrial(t, threeAlternatives(), 3_000, func(asked map[place][]float64) {
		seen := map[float64]place{}
		for at, lives := range asked {
			for _, life := range lives {
				require.Equal(t, lives[0], life, "%v", at)
			}
			if len(lives) > 1 {
				shared++
			}
			other, twice := seen[lives[0]]
			require.False(t, twice, "%v lives as long as %v", at, other)
			seen[lives[0]] = at
		}
	})
	assert.Greater(t, shared, 3_000, "alternatives share lives in every trial")
}

// The nth life has the stated distribution, and knows nothing of the others.
func TestEachInstallationDrawsALifeOfItsOwn(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	m := newSampler(s, 22)
	tearOff := m.slots[0]
	var lives [][]float64
	for nth := range 4 {
		lives = append(lives, column(m, tearOff, nth))
		hasMarginal(t, lives[nth], distributionOf(&s.Inputs[s.Systems[0].Life]), "life of an installation")
	}
	for i := range lives {
		for j := range i {
			assert.Less(t, math.Abs(stat.Correlation(lives[i], lives[j], nil)), 4.5/math.Sqrt(movesTrials), "installations %d and %d", j, i)
		}
	}
}

// A life drawn may be far less than a year; it is over 0, and the year it
// ends in is the first. Even then no more installations are asked than there
// are numbers set aside.
func TestLivesDrawnAreOverZero(t *testing.T) {
	t.Parallel()
	for _, e := range []estimate{
		{shape: lcc.Weibull, likely: "0.01", spread: "0.8"},
		{shape: lcc.Weibull, likely: "1", spread: "0.1"},
		{shape: lcc.Triangular, low: "0", likely: "0.0001", high: "0.001"},
		{shape: lcc.PERT, low: "0", likely: "0.001", high: "3"},
		{shape: lcc.Lognormal, likely: "1", spread: "10"},
		{shape: lcc.Uniform, low: "0", likely: "1", high: "2"},
		// Not in a file, whose lives are over 0.
		{shape: lcc.Normal, likely: "1", spread: "5"},
	} {
		t.Run(e.String(), func(t *testing.T) {
			s := threeAlternatives()
			s.Systems[0].Life = s.Add(e.input(lcc.Years))
			// The roof in place, of no wait and of the same system.
			s.Alternatives = append(s.Alternatives, lcc.Alternative{Name: "Again", Start: 0, Wait: &lcc.Wait{On: 0}})
			most := 0
			eachTrial(t, s, 150, func(asked map[place][]float64) {
				for at, lives := range asked {
					for _, life := range lives {
						require.Greater(t, life, 0.0)
					}
					most = max(most, at.nth)
				}
			})
			assert.LessOrEqual(t, most, s.Period)
			assert.Greater(t, most, 3)
		})
	}
}

// In the shortest lives there are as many installations as years, and one
// more where the first wait has no years.
func TestLivesOfAYearAreAllDrawn(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	s.Period = lcc.MaxPeriod
	s.Systems[0].Life = s.Add(estimate{shape: lcc.Uniform, low: "0.1", likely: "0.5", high: "0.9"}.input(lcc.Years))
	s.Alternatives = []lcc.Alternative{{Name: "Again", Start: 0, Wait: &lcc.Wait{On: 0}}}
	eachTrial(t, s, 50, func(asked map[place][]float64) {
		require.Len(t, asked, lcc.MaxPeriod+1)
	})
}

// Under the least shape the lives would soon be no numbers, which would upset
// the walk: such a study is refused, and the least shape draws numbers.
func TestLivesOfAnAbsurdWeibull(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	s.Systems[0].Life = s.Add(estimate{shape: lcc.Weibull, likely: "22", spread: "0.001"}.input(lcc.Years))
	_, err := Run(s, Options{Trials: 1, Seed: 1})
	require.ErrorContains(t, err, "shape of a Weibull distribution")

	s.Systems[0].Life = s.Add(estimate{shape: lcc.Weibull, likely: "22", spread: lcc.MinWeibullShape.String()}.input(lcc.Years))
	s.Inputs[len(s.Inputs)-2].Shape = lcc.Fixed // the refused one
	w := oneWorker(t, s, 21)
	for trial := range 100 {
		w.trial(trial)
		life := w.Life(0, 0)
		require.False(t, math.IsNaN(life), "trial %d: the life is no number", trial)
		require.Greater(t, life, 0.0)
	}
}

// A certain life is the stated one, in every installation.
func TestCertainLivesAreNotDrawn(t *testing.T) {
	t.Parallel()
	s := richStudy()
	with(s, "tear_off.life", estimate{shape: lcc.Weibull, likely: "24", spread: "4"})
	eachTrial(t, s, 20, func(asked map[place][]float64) {
		require.Equal(t, 6.0, asked[place{0, 0}][0])
		require.Equal(t, 20.0, asked[place{2, 0}][0])
		require.Equal(t, 9.5, asked[place{3, 0}][0])
		require.NotEqual(t, 24.0, asked[place{4, 0}][0])
	})
}
