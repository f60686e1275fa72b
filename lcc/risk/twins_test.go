package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// twins is a roof that waits three years for one of two systems of the same
// price, one of them in two parts whose float64 sum is not quite that price.
func twins() *lcc.Study {
	b := newBuilder(20)
	s := b.s
	s.Rate, s.Area = b.three("rate", lcc.Rate, "0.01", "0.03", "0.05"), b.fixed(lcc.Area, "1000")
	item := func(value string) []lcc.Item {
		return b.item(b.fixed(lcc.Money, value), lcc.NoRef, lcc.Construction)
	}
	life, wait := b.fixed(lcc.Years, "25"), &lcc.Wait{On: 0, Years: 3}
	s.Systems = []lcc.System{
		{Key: "old", InPlace: true, Life: b.fixed(lcc.Years, "5"), Then: 1,
			Annual: b.item(b.three("patch", lcc.Money, "1000", "2000.3", "9000"), lcc.NoRef, lcc.Maintenance)},
		{Key: "a", Life: life, Then: 1, First: append(item("10000.1"), item("20000.2")...)},
		{Key: "b", Life: life, Then: 2, First: item("30000.3")},
	}
	s.Alternatives = []lcc.Alternative{{Name: "A", Start: 1, BaseCase: true, Wait: wait}, {Name: "B", Start: 2, Wait: wait}}
	return s
}

// Two alternatives of one price share every trial, and neither costs less.
func TestTwinsShareEveryTrial(t *testing.T) {
	t.Parallel()
	r := run(t, twins(), Options{Trials: 2000, Seed: 7})
	for _, a := range r.Alternatives {
		assert.InDelta(t, 0.5, a.Cheapest, 1e-12)
	}
	require.Len(t, r.Pairs, 1)
	assert.Zero(t, r.Pairs[0].Less)
	assert.Equal(t, 0, r.Chosen, "the first of equals")
}

// A cent between two amounts of the size of a roof is none of that noise.
func TestACentIsNoTie(t *testing.T) {
	t.Parallel()
	shares := make([]float64, 3)
	award(shares, []float64{30_000_000.01, 30_000_000, 29_999_999.99}, []int{0, 1, 2})
	award(shares, []float64{-5, -5, -5.01}, []int{0, 1})
	assert.Equal(t, []float64{0.5, 0.5, 1}, shares)
}
