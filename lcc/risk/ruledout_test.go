package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/lcc"
)

var ruling = &lcc.Ruling{Rule: "two layers already", Finding: "two layers"}

// ruledOut rules out alternatives of a study of three: 900, 1000 and 1020 on
// average.
func ruledOut(which ...int) *lcc.Study {
	s := oneOff(normalPrice("900", "30"), normalPrice("1000", "40"), normalPrice("1020", "50"))
	for _, a := range which {
		s.Alternatives[a].RuledOut = ruling
	}
	return s
}

// A ruled-out alternative keeps its figures and is never named.
func TestRuledOutIsNeverChosen(t *testing.T) {
	t.Parallel()
	const n = 20_000
	all := run(t, ruledOut(), Options{Trials: n, Seed: 2})
	assert.Equal(t, 0, all.Chosen)
	assert.Equal(t, 1, all.Rival)
	assert.Greater(t, all.Alternatives[0].Cheapest, 0.9)

	r := run(t, ruledOut(0), Options{Trials: n, Seed: 2})
	assert.Equal(t, 1, r.Chosen)
	assert.Equal(t, 2, r.Rival)
	out := r.Alternatives[0]
	assert.Equal(t, all.Alternatives[0].Moments, out.Moments, "its figures stay")
	assert.Equal(t, Spread{Moments: out.Moments}, out, "it has no chance and no regret")
	assert.Equal(t, all.Pairs, r.Pairs)
	assert.InDelta(t, 1, r.Alternatives[1].Cheapest+r.Alternatives[2].Cheapest, 1e-9)

	// The two that are left are compared as if they were alone.
	assert.InDelta(t, r.Pairs[2].Less, r.Alternatives[1].Cheapest, 1e-9)
	assert.InDelta(t, r.Alternatives[2].Regret-r.Alternatives[1].Regret, -r.Pairs[2].Mean, 1e-9)
	assert.InDelta(t, 0, influenceOf(t, r, "price 0").Knowing, 1e-9, "sums in another order differ by roundings")
	assert.Greater(t, influenceOf(t, r, "price 1").Knowing, 1.0)
}

func TestAllRuledOut(t *testing.T) {
	t.Parallel()
	r := run(t, ruledOut(0, 1, 2), Options{Trials: 5_000, Seed: 2})
	assert.Equal(t, -1, r.Chosen)
	assert.Equal(t, -1, r.Rival)
	assert.Zero(t, r.KnowingAll)
	assert.Len(t, r.Pairs, 3)
	for _, a := range r.Alternatives {
		assert.Equal(t, Spread{Moments: a.Moments}, a)
		assert.Greater(t, a.Mean, 800.0)
	}
	for _, f := range r.Influences {
		assert.Zero(t, f.Margin)
		assert.Zero(t, f.Knowing)
		assert.Len(t, f.Costs, 3)
	}
	until := run(t, ruledOut(0, 1, 2), Options{Trials: 70_000, Seed: 2, Until: 0.001})
	assert.Equal(t, firstLook, until.Trials, "no chance is left to be known")
}

func TestOneAlternative(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]*lcc.Study{"alone": oneOff(normalPrice("900", "30")), "the others ruled out": ruledOut(1, 2)} {
		r := run(t, s, Options{Trials: 5_000, Seed: 2})
		assert.Equal(t, 0, r.Chosen, name)
		assert.Equal(t, -1, r.Rival, name)
		assert.InDelta(t, 1, r.Alternatives[0].Cheapest, 1e-12, name)
		assert.Zero(t, r.Alternatives[0].CheapestError, name)
		assert.Zero(t, r.Alternatives[0].Regret, name)
		assert.Zero(t, r.KnowingAll, name)
		own := influenceOf(t, r, "price 0")
		assert.Greater(t, own.Costs[0], 0.85, name) // five slices leave a tenth unexplained
		assert.Zero(t, own.Margin, name)
		assert.Zero(t, own.Knowing, name)
	}
}
