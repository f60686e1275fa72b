package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// waiting is a study at 3 % over ten years that keeps a roof of uncertain life
// for some years at 100 a year, then pays 1000 for a new one and 50 for taking
// away the old; the other alternative keeps it to its end.
func waiting(years int, life lcc.Input) *lcc.Study {
	b := newBuilder(10)
	s := b.s
	s.Rate = b.fixed(lcc.Rate, "0.03")
	s.Area = b.fixed(lcc.Area, "1")
	life.Path = "old.life"
	amount := func(value string, c lcc.Category) []lcc.Item {
		return b.item(b.fixed(lcc.Money, value), lcc.NoRef, c)
	}
	s.Systems = []lcc.System{
		{Key: "old", InPlace: true, Life: s.Add(life), Then: 1,
			Annual: amount("100", lcc.Maintenance), Removal: amount("50", lcc.Disposal)},
		{Key: "new", Life: b.fixed(lcc.Years, "40"), Then: 1, First: amount("1000", lcc.Construction),
			Residual: lcc.Residual{Mode: lcc.NoResidual}},
	}
	s.Alternatives = []lcc.Alternative{
		{Name: "Wait", Start: 1, Wait: &lcc.Wait{On: 0, Years: years}}, {Name: "Keep", Start: 0},
	}
	return s
}

// keptFor is what that costs when the old roof is kept for so many years.
func keptFor(years int) float64 {
	cost := 1050 / math.Pow(1.03, float64(years))
	for year := 1; year <= years; year++ {
		cost += 100 / math.Pow(1.03, float64(year))
	}
	return cost
}

// The life lies evenly from 1 to 6 years, so that it ends in the second to
// the sixth year with a chance of a fifth each. A wait of four years lasts
// two, three, or four.
func TestWaitEndsWithTheLife(t *testing.T) {
	t.Parallel()
	const n = 20_000
	life := estimate{shape: lcc.Uniform, low: "1", likely: "5", high: "6"}.input(lcc.Years)
	drawn, err := simulate(waiting(4, life), Options{Trials: n, Seed: 1})
	require.NoError(t, err)
	chances := map[int]float64{2: 0.2, 3: 0.2, 4: 0.6}
	found, mean := map[int]float64{}, 0.0
	for trial, cost := range drawn.costs[0] {
		years := 0
		for k := range chances {
			if math.Abs(cost-keptFor(k)) < 1e-9 {
				years = k
			}
		}
		require.NotZero(t, years, "trial %d costs %v", trial, cost)
		// The other alternative lives the same life to its end.
		to := 0
		for k := 2; k <= 6; k++ {
			if math.Abs(drawn.costs[1][trial]-keptFor(k)) < 1e-9 {
				to = k
			}
		}
		require.Equal(t, years, min(to, 4), "trial %d", trial)
		found[years]++
		mean += cost / n
	}
	want := 0.0
	for years, p := range chances {
		assert.InDelta(t, p, found[years]/n, 4*math.Sqrt(p*(1-p)/n), "%d years", years)
		want += p * keptFor(years)
	}
	assert.InDelta(t, want, mean, 4*math.Abs(keptFor(4)-keptFor(2))/2/math.Sqrt(n))
}

// A wait of no years takes no life.
func TestWaitOfNoYears(t *testing.T) {
	t.Parallel()
	life := estimate{shape: lcc.Weibull, likely: "3", spread: "0.8"}.input(lcc.Years)
	r := run(t, waiting(0, life), Options{Trials: 500, Seed: 1})
	assert.InDelta(t, keptFor(0), r.Alternatives[0].Mean, 1e-9)
	assert.InDelta(t, 0, r.Alternatives[0].SD, 1e-9)
	assert.Greater(t, r.Alternatives[1].SD, 1.0)
}

// What is stated is not cut: such a study is refused, as by the plain study.
func TestStatedWaitLongerThanTheLifeIsRefused(t *testing.T) {
	t.Parallel()
	life := estimate{shape: lcc.Weibull, likely: "3", spread: "4"}.input(lcc.Years)
	_, err := Run(waiting(4, life), Options{Trials: 10, Seed: 1})
	assert.ErrorContains(t, err, "waits 4 years")
}
