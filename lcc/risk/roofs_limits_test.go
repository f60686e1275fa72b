package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

func TestCommonInputs(t *testing.T) {
	t.Parallel()
	s := uncertainRich("rate", "existing.life", "area", "coating", "recoat", "growth", "drain")
	s.Inputs[s.Find("drain")].Moves = &lcc.Moves{With: s.Find("coating"), Rank: dec("0.5")}
	s.Inputs[s.Find("recoat")].Moves = &lcc.Moves{With: s.Find("existing.life"), Rank: dec("0.5")}
	s.Inputs[s.Find("coating")].Moves = &lcc.Moves{With: s.Find("edge"), Rank: dec("0.5")} // a plain value
	common := CommonInputs(s)
	for _, path := range []string{"rate", "inflation", "construction", "energy in year 7", "coating", "drain", "roofing"} {
		assert.Contains(t, common, s.Find(path), path)
	}
	for _, path := range []string{"recoat", "existing.life", "area", "growth", "repairs", "drains", "left"} {
		assert.NotContains(t, common, s.Find(path), path)
	}
}

func TestNewRoofsRefuses(t *testing.T) {
	t.Parallel()
	s := threeAlternatives()
	s.Inputs[s.Find("recoat.price")].Moves = &lcc.Moves{With: s.Find("recoat.life"), Rank: dec("0.5")}
	for _, c := range []struct {
		options RoofsOptions
		says    string
	}{
		{RoofsOptions{Trials: 0}, "0 trials are outside 1 to 1000000"},
		{RoofsOptions{Trials: MaxRoofsTrials + 1}, "1000001 trials are outside 1 to 1000000"},
		{RoofsOptions{Trials: 5, Common: []lcc.Ref{s.Find("recoat.price")}}, "recoat.price is common to all roofs and moves with recoat.life, which is not"},
	} {
		_, err := NewRoofs(s, nil, c.options)
		assert.EqualError(t, err, c.says)
	}
	_, err := NewRoofs(s, nil, RoofsOptions{Trials: 5, Common: []lcc.Ref{s.Find("recoat.price"), s.Find("recoat.life")}})
	assert.NoError(t, err)
	_, err = NewRoofs(&lcc.Study{}, nil, RoofsOptions{Trials: 5})
	assert.Error(t, err)
}

// A roof that cannot be simulated is in no total, and leaves the others as
// they are without it.
func TestRoofsThatFailAreLeftOut(t *testing.T) {
	t.Parallel()
	s := waiting(4, estimate{shape: lcc.Triangular, low: "4", likely: "6", high: "9"}.input(lcc.Years))
	huge := estimate{shape: lcc.Normal, likely: "100", spread: "4e13"}.input(lcc.Money)
	s.Inputs = append(s.Inputs, huge)
	s.Systems[1].First[0].Price = lcc.Ref(len(s.Inputs) - 1)
	refs := []lcc.Ref{s.Systems[0].Life, s.Systems[1].First[0].Price}
	calm := giving(plainRoof(refs, 0), 1, "1000")
	calm.Key = 1
	late, shares, wild := calm, giving(plainRoof(refs, 0), 1, "1000"), plainRoof(refs, 0)
	late = giving(late, 0, "3")
	shares.Choices = []int{2}
	wild.Key = 2
	loud := giving(calm, 1, "99999999999999999")
	r, err := NewRoofs(s, refs, RoofsOptions{Trials: 2_000, Seed: 3, Choices: 1})
	require.NoError(t, err)
	w, err := r.Worker()
	require.NoError(t, err)
	out := make([]RoofRisk, 7)
	w.Do([]Roof{calm, late, wild, shares, calm, loud, {}}, out)
	assert.ErrorContains(t, out[1].Err, `alternative "Wait" waits 4 years on "old", which lasts 3`)
	_, own := Run(studyWith(s, refs[0], "3"), Options{Trials: 10})
	assert.Error(t, own, "as its own study is refused")
	assert.ErrorContains(t, out[2].Err, "costs over 90071992547409.92 USD")
	assert.NotContains(t, out[2].Err.Error(), "in trial 1,", "it fails on the way")
	assert.EqualError(t, out[3].Err, "the choice 2 is outside the 2 alternatives")
	assert.ErrorContains(t, out[5].Err, "in trial 1, alternative")
	assert.ErrorContains(t, out[6].Err, "0 values for 2 inputs")

	_, _, want := together(t, s, refs, RoofsOptions{Trials: 2_000, Seed: 3, Choices: 1}, calm, calm)
	got, err := r.Result(w)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	assert.Equal(t, 2, got.Roofs)
}

// studyWith is a study with a plain value for an input.
func studyWith(s *lcc.Study, ref lcc.Ref, value string) *lcc.Study {
	own := *s
	own.Inputs = append([]lcc.Input(nil), s.Inputs...)
	own.Inputs[ref] = lcc.Input{Path: s.Inputs[ref].Path, Unit: s.Inputs[ref].Unit, Likely: dec(value)}
	return &own
}

// What is beyond an int64 is told, whoever added it up.
func TestTotalsBeyondAllBounds(t *testing.T) {
	t.Parallel()
	s := oneOff(fixedPrice("90000000000000"), fixedPrice("-90000000000000"))
	r, err := NewRoofs(s, nil, RoofsOptions{Trials: 2})
	require.NoError(t, err)
	one, err := r.Worker()
	require.NoError(t, err)
	other, err := r.Worker()
	require.NoError(t, err)
	roofs := someRoofs(600)
	one.Do(roofs, make([]RoofRisk, len(roofs)))
	got, err := r.Result(one)
	require.NoError(t, err)
	assert.Equal(t, 600*9e13, got.Alternatives[0].Cost.Mean)
	assert.Equal(t, -600*9e13, got.Alternatives[1].Cost.P50)
	other.Do(roofs, make([]RoofRisk, len(roofs)))
	_, err = r.Result(one, other)
	assert.ErrorContains(t, err, "more than can be added up")
	one.Do(roofs, make([]RoofRisk, len(roofs)))
	one.Do(roofs, make([]RoofRisk, len(roofs))) // back within, around the circle
	_, err = r.Result(one)
	assert.Error(t, err)
}

func TestRoofKeys(t *testing.T) {
	t.Parallel()
	assert.Equal(t, uint64(0x9ef32719fdd3d78a), RoofKey("R01"), "the same everywhere")
	assert.NotEqual(t, RoofKey("R01"), RoofKey("R02"))
	assert.NotZero(t, RoofKey(""))
	first := newSource(1, 8)
	assert.Equal(t, first, first.local(0))
	seen := map[uint64]bool{}
	for roof := range uint64(1000) {
		seen[first.local(roof).bits(0, 0)] = true
	}
	assert.Len(t, seen, 1000)
}

// Two roofs with the same inputs and other keys draw independently.
func TestLocalDrawsOfRoofsAreIndependent(t *testing.T) {
	t.Parallel()
	const n = 20_000
	first := newSource(7, 4)
	for _, keys := range [][2]uint64{{0, 1}, {1, 2}, {RoofKey("R01"), RoofKey("R02")}} {
		a, b := first.local(keys[0]), first.local(keys[1])
		x, y := make([]float64, n), make([]float64, n)
		for trial := range n {
			x[trial], y[trial] = a.at(trial, 2), b.at(trial, 2)
		}
		assert.Less(t, math.Abs(spearman(x, y)), 4*spearmanError(0, n), "keys %v", keys)
	}
}
