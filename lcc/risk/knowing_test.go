package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"roofyears/lcc"
)

// unitLoss is the unit normal loss integral φ(z) − z·(1 − Φ(z)) [Raiffa]: what
// is lost to a standard normal amount where it exceeds z.
func unitLoss(z float64) float64 {
	return distuv.UnitNormal.Prob(z) - z*distuv.UnitNormal.Survival(z)
}

const knowingTrials = 100_000

func run(t *testing.T, s *lcc.Study, o Options) *Result {
	t.Helper()
	r, err := Run(s, o)
	require.NoError(t, err)
	return r
}

// influenceOf is what an input does to a result.
func influenceOf(t *testing.T, r *Result, path string) Influence {
	t.Helper()
	for _, f := range r.Influences {
		if r.Study.Inputs[f.Ref].Path == path {
			return f
		}
	}
	t.Fatalf("%s is not among the influences", path)
	return Influence{}
}

// The costs of two alternatives differ by a normal amount of mean μ and
// standard deviation σ. Then everything has a closed form.
func TestTwoAlternativesThatDifferByANormalAmount(t *testing.T) {
	for _, c := range []struct {
		name, mean string // of the uncertain one; the other costs 1000
		sd         float64
	}{{"dearer", "1030", 100}, {"cheaper", "980", 50}, {"alike", "1000.5", 200}, {"far off", "1250", 100}} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := run(t, oneOff(normalPrice(c.mean, decOf(c.sd).String()), fixedPrice("1000")), Options{Trials: knowingTrials, Seed: 2})
			difference := dec(c.mean).InexactFloat64() - 1000 // mean cost of 0 above 1
			z := difference / c.sd
			n := math.Sqrt(knowingTrials)

			chance := distuv.UnitNormal.Survival(z)
			chanceError := math.Sqrt(chance * (1 - chance) / knowingTrials)
			assert.InDelta(t, chance, r.Alternatives[0].Cheapest, 4*chanceError, "chance of being cheapest")
			assert.InDelta(t, 1-chance, r.Alternatives[1].Cheapest, 4*chanceError)
			assert.InEpsilon(t, chanceError, r.Alternatives[0].CheapestError, 0.05)
			require.Len(t, r.Pairs, 1)
			assert.InDelta(t, chance, r.Pairs[0].Less, 4*chanceError)
			assert.InDelta(t, difference, r.Pairs[0].Mean, 4*c.sd/n)
			assert.InEpsilon(t, c.sd, r.Pairs[0].SD, 4/math.Sqrt2/n, "standard deviation")
			for p, got := range map[float64]float64{0.05: r.Pairs[0].P5, 0.5: r.Pairs[0].P50, 0.95: r.Pairs[0].P95} {
				at := distuv.UnitNormal.Quantile(p)
				quantileError := c.sd * math.Sqrt(p*(1-p)) / distuv.UnitNormal.Prob(at) / n
				assert.InDelta(t, difference+c.sd*at, got, 4.5*quantileError, "quantile at %v of the difference", p)
			}

			// Loss of taking 0, or 1, where the other is cheaper.
			lossOf0, lossOf1 := c.sd*unitLoss(-z), c.sd*unitLoss(z)
			worth := math.Min(lossOf0, lossOf1)
			assert.InDelta(t, lossOf0, r.Alternatives[0].Regret, 4*c.sd/n, "regret")
			assert.InDelta(t, lossOf1, r.Alternatives[1].Regret, 4*c.sd/n, "regret")
			assert.Equal(t, difference < 0, r.Chosen == 0, "chosen")
			assert.Equal(t, 1-r.Chosen, r.Rival)
			assert.InDelta(t, worth, r.KnowingAll, 4*r.KnowingAllError, "knowing all")
			assert.Equal(t, r.Alternatives[r.Chosen].Regret, r.KnowingAll, "knowing all saves the regret of what is chosen")

			// There is one input to know.
			require.Len(t, r.Influences, 1)
			knowing := r.Influences[0].Knowing
			t.Logf("knowing all %.4f for %.4f, %.1f standard errors off; knowing the input %.4f",
				r.KnowingAll, worth, (r.KnowingAll-worth)/r.KnowingAllError, knowing)
			assert.InDelta(t, r.KnowingAll, knowing, 1e-3*c.sd, "knowing the only input")
			assert.LessOrEqual(t, knowing, r.KnowingAll)
			assert.InDelta(t, 1, r.Influences[0].Margin, 0.01)
		})
	}
}

// Two independent normal amounts in the difference: knowing one alone is worth
// the loss integral with its own standard deviation. Together they are worth
// more than either.
func TestKnowingOneOfTwo(t *testing.T) {
	t.Parallel()
	s := sums(func(a int) []lcc.Input {
		return [][]lcc.Input{{normalPrice("600", "80"), normalPrice("420", "60")}, {fixedPrice("1000")}}[a]
	}, 2)
	r := run(t, s, Options{Trials: knowingTrials, Seed: 3})
	of := func(sd float64) float64 { return sd * unitLoss(20/sd) }
	assert.InDelta(t, of(100), r.KnowingAll, 4*r.KnowingAllError)
	for path, sd := range map[string]float64{"price 0": 80, "price 0.1": 60} {
		f := influenceOf(t, r, path)
		t.Logf("%s: knowing it %.3f for %.3f; share of the margin %.4f for %.4f", path, f.Knowing, of(sd), f.Margin, sd*sd/1e4)
		// The decision turns on the mean of the other amount too, in each of
		// the slices near the turn: a standard error, and a slice's width.
		assert.InDelta(t, of(sd), f.Knowing, 4*100/math.Sqrt(knowingTrials)+2e-3*sd, path)
		assert.InDelta(t, sd*sd/1e4, f.Margin, 0.01, path)
	}
}

// An amount that both alternatives pay, one too small to turn the decision,
// and one of an alternative out of the running.
func TestKnowingWhatCannotTurnTheDecision(t *testing.T) {
	t.Parallel()
	s := sums(func(a int) []lcc.Input {
		return [][]lcc.Input{
			{estimate{shape: lcc.Triangular, low: "50", likely: "60", high: "90"}.input(lcc.Money)},
			{fixedPrice("100"), estimate{shape: lcc.Uniform, low: "-2", likely: "0", high: "2"}.input(lcc.Money)},
			{normalPrice("5000", "100")},
		}[a]
	}, 3)
	// What both pay for.
	shared := s.Add(lcc.Input{Path: "shared", Unit: lcc.Money, Shape: lcc.Normal, Likely: dec("300"), Spread: dec("250")})
	for a := range 2 {
		s.Systems[a].First = append(s.Systems[a].First, lcc.Item{Name: "shared", Price: shared, Quantity: lcc.NoRef, Growth: lcc.NoRef})
	}
	r := run(t, s, Options{Trials: 50_000, Seed: 4})
	assert.Equal(t, 0, r.Chosen)
	assert.Equal(t, 1, r.Rival)
	for _, path := range []string{"price 0", "price 1.1", "price 2", "shared"} {
		assert.InDelta(t, 0, influenceOf(t, r, path).Knowing, 1e-9, path) // but for the roundings of sums
	}
	assert.Zero(t, r.KnowingAll)
	assert.InDelta(t, 0, influenceOf(t, r, "shared").Margin, 0.005, "the difference does not feel what both pay")
	assert.Greater(t, influenceOf(t, r, "shared").Costs[0], 0.9, "the cost does")
}

// Chance is not taken for knowledge: an input that nothing depends on is
// worth nothing, though two alternatives are nearly alike.
func TestKnowingWhatDoesNotMatter(t *testing.T) {
	t.Parallel()
	s := oneOff(normalPrice("1000", "100"), normalPrice("1000.1", "100"))
	s.Add(estimate{shape: lcc.Weibull, likely: "3", spread: "2"}.input(lcc.Money))
	margins := 0.0
	for seed := range uint64(3) {
		r := run(t, s, Options{Trials: 40_000, Seed: seed})
		f := influenceOf(t, r, "weibull 3, 2")
		// The noise of a mean difference is 141/200.
		assert.Less(t, f.Knowing, 2*100*math.Sqrt2/math.Sqrt(40_000), "seed %d", seed)
		margins += f.Margin / 3
	}
	// Chance alone puts 249/40,000 of the variance between the 250 slices; nine
	// tenths of that and more are taken out.
	assert.Less(t, margins, 249.0/40_000/10)
}

// First-order shares of a sum of independent amounts are those of its
// variance [Saltelli].
func TestSharesOfALinearModel(t *testing.T) {
	t.Parallel()
	s := sums(func(a int) []lcc.Input {
		return [][]lcc.Input{{normalPrice("700", "40"), normalPrice("300", "20")}, {normalPrice("950", "40")}}[a]
	}, 2)
	r := run(t, s, Options{Trials: knowingTrials, Seed: 6})
	big, small, other := influenceOf(t, r, "price 0"), influenceOf(t, r, "price 0.1"), influenceOf(t, r, "price 1")
	t.Logf("shares of cost: %.4f and %.4f", big.Costs[0], small.Costs[0])
	assert.InDelta(t, 0.8, big.Costs[0], 0.01)
	assert.InDelta(t, 0.2, small.Costs[0], 0.01)
	assert.InDelta(t, 0, other.Costs[0], 0.002)
	assert.InDelta(t, 1, other.Costs[1], 0.01)
	// Of the margin, variances are as 4 to 1 to 4.
	assert.InDelta(t, 4.0/9, big.Margin, 0.01)
	assert.InDelta(t, 1.0/9, small.Margin, 0.01)
	assert.InDelta(t, 4.0/9, other.Margin, 0.01)
	assert.Equal(t, "price 0.1", s.Inputs[r.Influences[2].Ref].Path, "the least influential comes last")
}

// A product of two amounts of mean 0 depends on each only together with the
// other: neither explains anything alone.
func TestSharesOfAnInteraction(t *testing.T) {
	t.Parallel()
	s := oneOff(normalPrice("0", "10"), fixedPrice("5"))
	quantity := s.Add(estimate{shape: lcc.Normal, likely: "0", spread: "3"}.input(lcc.Price))
	s.Systems[0].First[0].Quantity = quantity
	r := run(t, s, Options{Trials: 100_000, Seed: 6})
	for _, f := range r.Influences {
		assert.Less(t, f.Costs[0], 0.005)
	}
	assert.InEpsilon(t, 30, r.Alternatives[0].SD, 0.05, "standard deviation of the product")
}
