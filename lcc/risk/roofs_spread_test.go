package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"roofyears/lcc"
)

// someRoofs are so many plain roofs with draws of their own.
func someRoofs(n int, choices ...int) []Roof {
	var out []Roof
	for i := range n {
		f := plainRoof(nil, choices...)
		f.Key = uint64(i + 1)
		out = append(out, f)
	}
	return out
}

const (
	spreadRoofs  = 25
	spreadTrials = 20_000
)

// hasSpread asserts a mean and a standard deviation, within four standard
// errors of a sample whose kurtosis is at most a normal's.
func hasSpread(t *testing.T, mean, sd float64, got Range, what string) {
	t.Helper()
	assert.InDelta(t, mean, got.Mean, 4*sd/math.Sqrt(spreadTrials), "%s: mean", what)
	assert.InEpsilon(t, sd, got.SD, 4/math.Sqrt(2*spreadTrials), "%s: standard deviation", what)
}

// Of n roofs that cost the same uncertain amount, with mean m and standard
// deviation σ, all together cost n·m; with a common draw the deviation is n·σ, with
// draws of their own √n·σ.
func TestCommonDrawsAddUpAndLocalOnesLevelOut(t *testing.T) {
	t.Parallel()
	e := estimate{shape: lcc.Triangular, low: "8000", likely: "10000", high: "15000"}
	s := oneOff(e.input(lcc.Price), e.input(lcc.Money))
	// A triangle's variance: (a² + b² + c² − ab − ac − bc)/18.
	mean, sd := 11000.0, math.Sqrt((64+100+225-80-120-150)/18.0)*1000
	_, _, r := together(t, s, nil, RoofsOptions{Trials: spreadTrials, Seed: 4}, someRoofs(spreadRoofs)...)
	assert.Equal(t, []lcc.Ref{s.Find("price 0")}, r.Common)
	assert.Equal(t, []lcc.Ref{s.Find("price 1")}, r.Local)
	n := float64(spreadRoofs)
	hasSpread(t, n*mean, n*sd, r.Alternatives[0].Cost, "common")
	hasSpread(t, n*mean, math.Sqrt(n)*sd, r.Alternatives[1].Cost, "local")

	// The sum of a common amount is n times the amount: its quantiles, too.
	for p, got := range map[float64]float64{0.1: r.Alternatives[0].Cost.P10, 0.5: r.Alternatives[0].Cost.P50, 0.9: r.Alternatives[0].Cost.P90} {
		x := distuv.NewTriangle(8000, 15000, 10000, nil).Quantile(p)
		density := distuv.NewTriangle(8000, 15000, 10000, nil).Prob(x)
		assert.InDelta(t, n*x, got, 4*n*math.Sqrt(p*(1-p)/spreadTrials)/density, "quantile at %v", p)
	}
	// The sum of many independent ones is nearly normal: one in ten beyond 1.2816 deviations.
	tenth := distuv.UnitNormal.Quantile(0.9) * math.Sqrt(n) * sd
	assert.InDelta(t, n*mean+tenth, r.Alternatives[1].Cost.P90, 0.06*math.Sqrt(n)*sd)
	assert.InDelta(t, n*mean-tenth, r.Alternatives[1].Cost.P10, 0.06*math.Sqrt(n)*sd)
}

// The caller may say what is common.
func TestWhatIsCommonCanBeSaid(t *testing.T) {
	t.Parallel()
	s := oneOff(normalPrice("10000", "2000"), normalPrice("10000", "2000"))
	o := RoofsOptions{Trials: spreadTrials, Seed: 4, Common: []lcc.Ref{s.Find("price 1")}}
	_, _, r := together(t, s, nil, o, someRoofs(spreadRoofs)...)
	n := float64(spreadRoofs)
	hasSpread(t, n*10000, math.Sqrt(n)*2000, r.Alternatives[0].Cost, "local")
	hasSpread(t, n*10000, n*2000, r.Alternatives[1].Cost, "common")
}

// A life that is common ends in the same year on all roofs.
func TestCommonLives(t *testing.T) {
	t.Parallel()
	life := estimate{shape: lcc.Uniform, low: "1", likely: "5", high: "9"}.input(lcc.Years)
	s := waiting(0, life)
	_, _, r := together(t, s, nil, RoofsOptions{Trials: 500, Seed: 4, Common: []lcc.Ref{s.Find("old.life")}}, someRoofs(spreadRoofs)...)
	one, _, _ := together(t, s, nil, RoofsOptions{Trials: 500, Seed: 4}, plainRoof(nil))
	assert.InEpsilon(t, spreadRoofs*one[0].Mean[1], r.Alternatives[1].Cost.Mean, 1e-5)
	alone, _, _ := together(t, s, nil, RoofsOptions{Trials: 500, Seed: 4}, someRoofs(2)...)
	assert.NotEqual(t, alone[0].Mean[1], alone[1].Mean[1], "local lives")
}

// Local amounts that move with a common price correlate with each other, by
// the square of the correlation of their scores with its.
func TestLocalInputsMoveWithCommonOnes(t *testing.T) {
	t.Parallel()
	s := oneOff(estimate{shape: lcc.Normal, likely: "10000", spread: "2000"}.input(lcc.Price), normalPrice("10000", "2000"))
	s.Inputs[s.Find("price 1")].Moves = &lcc.Moves{With: s.Find("price 0"), Rank: dec("0.7")}
	_, _, r := together(t, s, nil, RoofsOptions{Trials: spreadTrials, Seed: 4}, someRoofs(spreadRoofs)...)
	assert.Equal(t, []lcc.Ref{s.Find("price 1")}, r.Local)
	n, rho := float64(spreadRoofs), 2*math.Sin(math.Pi/6*0.7)
	hasSpread(t, n*10000, 2000*math.Sqrt(n+n*(n-1)*rho*rho), r.Alternatives[1].Cost, "local amounts that move")
	// Sum of the one less sum of the other.
	apart := 2000 * math.Sqrt(n*n+n+n*(n-1)*rho*rho-2*n*n*rho)
	s.Alternatives[0].BaseCase = true
	_, _, r = together(t, s, nil, RoofsOptions{Trials: spreadTrials, Seed: 4}, someRoofs(spreadRoofs)...)
	hasSpread(t, 0, apart, r.Alternatives[1].Saving, "saving")
}

// Two sets of choices: the first takes the second alternative for all roofs but one,
// which stays with the base case; the second leaves that one out.
func TestSetsOfChoices(t *testing.T) {
	t.Parallel()
	s := oneOff(normalPrice("10000", "2000"), normalPrice("9800", "1000"), fixedPrice("7"))
	s.Alternatives[0].BaseCase = true
	s.Alternatives[2].RuledOut = ruling
	roofs := someRoofs(spreadRoofs, 1, 1)
	roofs[3].Choices = []int{0, -1}
	out, _, r := together(t, s, nil, RoofsOptions{Trials: spreadTrials, Seed: 6, Choices: 2}, roofs...)
	n := float64(spreadRoofs - 1)
	assert.Equal(t, spreadRoofs, r.Choices[0].Roofs)
	assert.Equal(t, spreadRoofs-1, r.Choices[1].Roofs)
	assert.Equal(t, spreadRoofs, r.Alternatives[2].RuledOut)
	assert.InDelta(t, 7*spreadRoofs, r.Alternatives[2].Cost.Mean, 1e-9)
	hasSpread(t, n*9800+10000, math.Sqrt(n*1000*1000+2000*2000), r.Choices[0].Cost, "cost of the first set")
	hasSpread(t, n*9800, math.Sqrt(n)*1000, r.Choices[1].Cost, "cost of the second set")
	sd := math.Sqrt(n * (2000*2000 + 1000*1000))
	for i, set := range r.Choices {
		hasSpread(t, n*200, sd, set.Saving, "saving")
		want := distuv.UnitNormal.CDF(n * 200 / sd)
		assert.InDelta(t, want, set.Saves, 4*math.Sqrt(want*(1-want)/spreadTrials), "chance that set %d saves", i)
		assert.InDelta(t, math.Sqrt(want*(1-want)/spreadTrials), set.SavesError, 1e-4)
	}
	assert.Zero(t, r.Alternatives[0].Saves, "the base case does not save against itself")
	assert.Len(t, r.Curve.Counts, 5)
	wins := distuv.UnitNormal.CDF(200 / math.Hypot(2000, 1000))
	for i := range out {
		assert.InDelta(t, 1, out[i].Cheapest[0]+out[i].Cheapest[1], 1e-9)
		assert.InDelta(t, wins, out[i].Cheapest[1], 5*math.Sqrt(wins*(1-wins)/spreadTrials), "roof %d", i)
		assert.Zero(t, out[i].Cheapest[2], "it is ruled out")
	}
}

// Without a base case nothing is saved, and without a roof nothing costs.
func TestTotalsOfNothing(t *testing.T) {
	t.Parallel()
	s := oneOff(normalPrice("10000", "2000"), fixedPrice("9000"))
	_, _, r := together(t, s, nil, RoofsOptions{Trials: 10, Seed: 6, Choices: 1})
	assert.Equal(t, RoofsTotal{}, r.Choices[0])
	assert.Equal(t, RoofsTotal{}, r.Alternatives[0])
	_, _, r = together(t, s, nil, RoofsOptions{Trials: 10, Seed: 6, Choices: 1}, someRoofs(3, 1)...)
	assert.Equal(t, RoofsTotal{Roofs: 3, Cost: Range{Mean: 27000, P10: 27000, P50: 27000, P90: 27000}}, r.Choices[0])
}
