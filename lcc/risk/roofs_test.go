package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// plainRoof is a roof that gives no value of its own.
func plainRoof(refs []lcc.Ref, choices ...int) Roof {
	return Roof{Values: make(lcc.Vector, len(refs)), Given: make([]bool, len(refs)), Choices: choices}
}

// giving is a roof with a value of its own for one of the inputs.
func giving(f Roof, at int, value string) Roof {
	f.Values, f.Given = append(lcc.Vector(nil), f.Values...), append([]bool(nil), f.Given...)
	f.Values[at], f.Given[at] = dec(value), true
	return f
}

// together simulates roofs with one worker, none of which fails.
func together(t *testing.T, s *lcc.Study, refs []lcc.Ref, o RoofsOptions, roofs ...Roof) ([]RoofRisk, *RoofsWorker, *RoofsResult) {
	t.Helper()
	r, err := NewRoofs(s, refs, o)
	require.NoError(t, err)
	w, err := r.Worker()
	require.NoError(t, err)
	out := make([]RoofRisk, len(roofs))
	w.Do(roofs, out)
	for i := range out {
		require.NoError(t, out[i].Err, "roof %d", i)
	}
	result, err := r.Result(w)
	require.NoError(t, err)
	return out, w, result
}

// sameAsRun asserts that a roof whose draws are those of a single study costs
// in every trial what that study costs, to half a minor unit.
func sameAsRun(t *testing.T, own, template *lcc.Study, refs []lcc.Ref, f Roof) {
	t.Helper()
	const n, seed = 300, 5
	want, err := Run(own, Options{Trials: n, Seed: seed})
	require.NoError(t, err)
	drawn, err := simulate(own, Options{Trials: n, Seed: seed})
	require.NoError(t, err)
	got, w, _ := together(t, template, refs, RoofsOptions{Trials: n, Seed: seed}, f)
	for a := range own.Alternatives {
		assert.Equal(t, want.Alternatives[a].Cheapest, got[0].Cheapest[a], "chance of alternative %d", a)
		assert.InEpsilon(t, want.Alternatives[a].Mean, got[0].Mean[a], 1e-12, "mean of alternative %d", a)
		for trial, cost := range drawn.costs[a] {
			require.Equal(t, int64(math.RoundToEven(cost*100)), w.sums.of(trial)[a], "alternative %d in trial %d", a, trial)
		}
	}
}

// uncertainRich is a study with a cost of every kind, some of them uncertain.
func uncertainRich(paths ...string) *lcc.Study {
	s := richStudy()
	for _, path := range paths {
		e := estimate{shape: lcc.PERT, low: "0.01", likely: s.Inputs[s.Find(path)].Likely.String(), high: "40000"}
		switch s.Inputs[s.Find(path)].Unit {
		case lcc.Rate:
			e.high = "0.09"
		case lcc.Years:
			e.low, e.high = "3", "33"
		}
		with(s, path, e)
	}
	return s
}

func TestARoofOfItsOwnIsTheSingleStudy(t *testing.T) {
	t.Parallel()
	moving := threeAlternatives()
	moving.Inputs[moving.Find("tear_off.price")].Moves = &lcc.Moves{With: moving.Rate, Rank: dec("0.6")}
	moving.Inputs[moving.Find("patching")].Moves = &lcc.Moves{With: moving.Find("tear_off.price"), Rank: dec("-0.4")}
	moving.Inputs[moving.Find("tear_off.life")].Moves = &lcc.Moves{With: moving.Find("existing.life"), Rank: dec("0.7")}
	ruled := threeAlternatives()
	ruled.Alternatives[1].RuledOut = ruling
	for name, s := range map[string]*lcc.Study{
		"lives, prices and rates": threeAlternatives(),
		"inputs that move":        moving,
		"one ruled out":           ruled,
		"nothing uncertain":       richStudy(),
		"common rates":            uncertainRich("rate", "inflation", "construction", "energy in year 7", "coating", "recoat"),
		"local growth":            uncertainRich("rate", "growth", "existing.life", "repairs"),
		"amounts and quantities":  uncertainRich("area", "edge length", "drains", "inspection", "left", "energy", "scrap", "recoat.life"),
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			sameAsRun(t, s, s, nil, plainRoof(nil))
		})
	}
}

// A given value is what the same roof's own study would state plainly. Where
// that is certain in the template too, or comes after all that is drawn and fills
// no further power of two, the draws of the rest are the same.
func TestAGivenValueIsAPlainOne(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		template *lcc.Study
		path     string
		value    string
	}{
		{threeAlternatives(), "patching", "7100"},
		{uncertainRich("rate", "existing.life", "coating"), "area", "12345.6"},
		{uncertainRich("rate", "existing.life", "coating", "recoat"), "recoat", "3.1"}, // a common one
		{uncertainRich("existing.life", "coating", "tear_off.life"), "rate", "0.071"},  // a roof with factors of its own
		{uncertainRich("rate", "coating", "tear_off.life"), "growth", "0.11"},
		{uncertainRich("rate", "coating", "tear_off.life"), "existing.life", "9.5"},
	} {
		refs := []lcc.Ref{c.template.Find("restoration.life"), c.template.Find(c.path)}
		own := *c.template
		own.Inputs = append([]lcc.Input(nil), own.Inputs...)
		own.Inputs[refs[1]] = lcc.Input{Path: c.path, Unit: own.Inputs[refs[1]].Unit, Likely: dec(c.value)}
		sameAsRun(t, &own, c.template, refs, giving(plainRoof(refs), 1, c.value))
	}
}

// What comes after a given value draws other numbers than in a study of the
// roof's own, from the same distributions.
func TestAGivenValueLeavesTheOthersTheirDistributions(t *testing.T) {
	t.Parallel()
	const n = 40_000
	template, own := threeAlternatives(), threeAlternatives()
	template.Inputs[template.Find("patching")].Moves = &lcc.Moves{With: template.Find("existing.life"), Rank: dec("-0.9")}
	own.Inputs[own.Find("existing.life")] = lcc.Input{Path: "existing.life", Unit: lcc.Years, Likely: dec("3.2")}
	refs := []lcc.Ref{template.Find("existing.life")}
	want := run(t, own, Options{Trials: n, Seed: 1})
	got, _, _ := together(t, template, refs, RoofsOptions{Trials: n, Seed: 2}, giving(plainRoof(refs), 0, "3.2"))
	for a, o := range want.Alternatives {
		assert.InDelta(t, o.Mean, got[0].Mean[a], 4*math.Sqrt2*o.SD/math.Sqrt(n), "mean of alternative %d", a)
		assert.InDelta(t, o.Cheapest, got[0].Cheapest[a], 4*math.Sqrt2*o.CheapestError, "chance of alternative %d", a)
	}
}

// A roof comes out the same whichever stands before it in a lot.
func TestNothingOfARoofStays(t *testing.T) {
	t.Parallel()
	s := uncertainRich("rate", "growth", "existing.life", "area", "coating")
	refs := []lcc.Ref{s.Rate, s.Find("existing.life"), s.Area, s.Find("growth")}
	plain := plainRoof(refs)
	other := giving(giving(giving(giving(plain, 0, "0.08"), 1, "3"), 2, "100"), 3, "-0.1")
	other.Eligible = []bool{false, true, false}
	o := RoofsOptions{Trials: 100, Seed: 1}
	alone, _, _ := together(t, s, refs, o, plain)
	r, err := NewRoofs(s, refs, o)
	require.NoError(t, err)
	w, err := r.Worker()
	require.NoError(t, err)
	out := make([]RoofRisk, 1)
	w.Do([]Roof{other}, out)
	assert.Equal(t, []float64{0, 1, 0}, out[0].Cheapest)
	w.Do([]Roof{plain}, out)
	assert.Equal(t, alone, out)
}
