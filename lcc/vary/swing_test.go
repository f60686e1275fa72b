package vary

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

func swingsOf(t *testing.T, b *builder) ([]Swing, *lcc.Result) {
	t.Helper()
	r := b.evaluate(t)
	swings, err := Swings(r)
	require.NoError(t, err)
	return swings, r
}

// Every input with a range swings, the widest first; each end has the margin
// of an evaluation there.
func TestSwingsAreTheLedgerAtBothEnds(t *testing.T) {
	b := roof()
	b.Alternatives = b.Alternatives[:3] // without the wait, which some ends would outlast
	swings, r := swingsOf(t, b)
	require.Equal(t, []int{1, 0}, []int{r.Answer.Lowest, r.Answer.RunnerUp})
	var paths []string
	for i, s := range swings {
		in := b.Inputs[s.In]
		paths = append(paths, in.Path)
		assert.True(t, s.Low.Value.Equal(in.Low) && s.High.Value.Equal(in.High), in.Path)
		assert.False(t, s.Quantiles)
		flips, least, most := false, r.Answer.Margin, r.Answer.Margin
		for _, e := range []End{s.Low, s.High} {
			at, err := b.at(map[lcc.Ref]decimal.Decimal{s.In: e.Value})
			require.NoError(t, err)
			assert.Equal(t, at.Difference(0, 1).StringFixed(2), e.Margin.StringFixed(2), "%s at %s", in.Path, e.Value)
			assert.Equal(t, at.Answer.Lowest, e.Lowest, "%s at %s", in.Path, e.Value)
			flips = flips || at.Answer.Lowest != 1
			least, most = decimal.Min(least, e.Margin), decimal.Max(most, e.Margin)
		}
		assert.Equal(t, flips, s.Flips, in.Path)
		assert.Equal(t, most.Sub(least).String(), s.Width.String(), in.Path)
		assert.True(t, i == 0 || s.Width.LessThanOrEqual(swings[i-1].Width), "%s is wider than the one before", in.Path)
	}
	assert.ElementsMatch(t, []string{"rate", "construction", "existing.life", "patching", "restoration.life", "restoration.price"}, paths)
	var flipping []string
	for _, s := range swings {
		if s.Flips {
			flipping = append(flipping, b.Inputs[s.In].Path)
		}
	}
	assert.Contains(t, flipping, "restoration.price", "at 9.60 per ft² keeping is cheaper")
	assert.NotContains(t, flipping, "construction")
}

// A margin may be widest at the plain value: the swing reaches up to it.
func TestAWidthReachesToThePlainMargin(t *testing.T) {
	b := newBuilder(10)
	b.Rate, b.Area = b.fixed("rate", lcc.Rate, "0"), b.fixed("area", lcc.Area, "1")
	life := b.three("life", lcc.Years, "4", "5", "6") // two roofs at 5, three at 4, two at 6
	b.Systems = []lcc.System{
		{Key: "short", Life: life, First: cost(b.fixed("short.price", lcc.Money, "100"), lcc.NoRef, lcc.Fees)},
		{Key: "long", Then: 1, Life: b.fixed("long.life", lcc.Years, "10"), First: cost(b.fixed("long.price", lcc.Money, "250"), lcc.NoRef, lcc.Fees)},
	}
	b.Alternatives = []lcc.Alternative{{Name: "short", Start: 0}, {Name: "long", Start: 1}}
	swings, r := swingsOf(t, b)
	require.Len(t, swings, 1)
	assert.Equal(t, "50", r.Answer.Margin.String())
	s := swings[0]
	assert.Equal(t, []string{"-50", "50", "100"}, []string{s.Low.Margin.String(), s.High.Margin.String(), s.Width.String()})
	assert.True(t, s.Flips)
	assert.Equal(t, []int{1, 0}, []int{s.Low.Lowest, s.High.Lowest})
}

// Inputs that swing alike stand in the order of the study.
func TestSwingsOfOneWidthKeepTheirOrder(t *testing.T) {
	b := newBuilder(10)
	b.Rate, b.Area = b.fixed("rate", lcc.Rate, "0"), b.fixed("area", lcc.Area, "1")
	for _, name := range []string{"a", "b", "c"} {
		b.Systems = append(b.Systems, lcc.System{Key: name, Then: len(b.Systems), Life: b.fixed(name+".life", lcc.Years, "10"),
			First: cost(b.three(name, lcc.Money, "90", "100", "110"), lcc.NoRef, lcc.Fees)})
		b.Alternatives = append(b.Alternatives, lcc.Alternative{Name: name, Start: len(b.Systems) - 1})
	}
	swings, _ := swingsOf(t, b)
	require.Len(t, swings, 3)
	// The third is neither the answer nor the runner-up: the margin of those stays, and yet it flips.
	for i, want := range []struct {
		path, width string
		flips       bool
	}{{"a", "20", true}, {"b", "20", true}, {"c", "0", true}} {
		assert.Equal(t, want.path, b.Inputs[swings[i].In].Path)
		assert.Equal(t, want.width, swings[i].Width.String())
		assert.Equal(t, want.flips, swings[i].Flips, want.path)
	}
}

// A distribution without ends swings from its 5 % to its 95 % quantile, known
// in closed form: 1.6448536 standard deviations of a normal one; exp(μ ± 1.6448536·σ) of a
// lognormal one, σ² = ln(1 + (sd/mean)²), μ = ln mean − σ²/2; mean/Γ(1+1/k) ·
// (−ln(1−p))^(1/k) of a Weibull one.
func TestSwingsOfDistributionsWithoutEnds(t *testing.T) {
	const z = 1.6448536269514722
	b := roof()
	b.Alternatives = b.Alternatives[:3]
	b.Inputs[b.Find("existing.life")] = lcc.Input{Path: "existing.life", Unit: lcc.Years, Shape: lcc.Weibull, Likely: dec("5"), Spread: dec("4")}
	b.Inputs[b.Find("patching")] = lcc.Input{Path: "patching", Unit: lcc.Money, Shape: lcc.Lognormal, Likely: dec("9000"), Spread: dec("3000")}
	b.Inputs[b.Find("restoration.price")] = lcc.Input{Path: "restoration.price", Unit: lcc.Price, Shape: lcc.Normal, Likely: dec("4.8"), Spread: dec("0.5")}
	b.Inputs[b.Rate] = lcc.Input{Path: "rate", Unit: lcc.Rate, Shape: lcc.Normal, Likely: dec("0.03"), Spread: dec("0.01")}
	swings, _ := swingsOf(t, b)
	sigma := math.Sqrt(math.Log(1 + 1.0/9))
	mu := math.Log(9000) - sigma*sigma/2
	weibull := func(p float64) float64 { return 5 / math.Gamma(1.25) * math.Pow(-math.Log(1-p), 0.25) }
	want := map[string][2]float64{
		"existing.life":     {weibull(0.05), weibull(0.95)},
		"patching":          {math.Exp(mu - z*sigma), math.Exp(mu + z*sigma)},
		"restoration.price": {4.8 - z*0.5, 4.8 + z*0.5},
		"rate":              {0.03 - z*0.01, 0.03 + z*0.01},
	}
	met := 0
	for _, s := range swings {
		in := b.Inputs[s.In]
		ends, uncertain := want[in.Path]
		assert.Equal(t, uncertain, s.Quantiles, in.Path)
		if !uncertain {
			continue
		}
		met++
		within := 0.50001e-4 // rounded to four decimals; a rate to a ten-thousandth of a per cent
		if in.Unit == lcc.Rate {
			within = 0.50001e-6
		}
		assert.InDelta(t, ends[0], s.Low.Value.InexactFloat64(), within, in.Path)
		assert.InDelta(t, ends[1], s.High.Value.InexactFloat64(), within, in.Path)
		for _, e := range []End{s.Low, s.High} {
			at, err := b.at(map[lcc.Ref]decimal.Decimal{s.In: e.Value})
			require.NoError(t, err)
			assert.Equal(t, at.Difference(0, 1).StringFixed(2), e.Margin.StringFixed(2), in.Path)
		}
	}
	assert.Equal(t, 4, met)
}

// Where a low life is shorter than a wait, that end says so and does not
// count; the other one does.
func TestSwingsWhereAWaitIsLongerThanALife(t *testing.T) {
	swings, r := swingsOf(t, roof())
	met := false
	for _, s := range swings {
		if r.Study.Inputs[s.In].Path != "existing.life" {
			assert.Empty(t, s.Low.Problem+s.High.Problem)
			continue
		}
		met = true
		assert.Contains(t, s.Low.Problem, `alternative "Wait" waits 4 years on "existing", which lasts 3`)
		assert.Equal(t, -1, s.Low.Lowest)
		assert.Empty(t, s.High.Problem)
		assert.Equal(t, s.High.Margin.Sub(r.Answer.Margin).Abs().String(), s.Width.String())
		assert.Equal(t, s.High.Lowest != r.Answer.Lowest, s.Flips)
	}
	assert.True(t, met)
}

func TestAStudyWithoutARunnerUpHasNoSwings(t *testing.T) {
	one := roof()
	one.Alternatives = one.Alternatives[:1]
	eligibleOne := roof()
	none := roof()
	for i := range none.Alternatives {
		none.Alternatives[i].RuledOut = &lcc.Ruling{Rule: "a rule", Finding: "a finding"}
		if i > 0 {
			eligibleOne.Alternatives[i].RuledOut = none.Alternatives[i].RuledOut
		}
	}
	for name, b := range map[string]*builder{"one": one, "one eligible": eligibleOne, "none": none} {
		swings, r := swingsOf(t, b)
		assert.Empty(t, swings, name)
		assert.Less(t, r.Answer.RunnerUp, 0, name)
	}
}

func TestEndsOfASweep(t *testing.T) {
	b := roof()
	b.Inputs[b.Find("patching")] = lcc.Input{Path: "patching", Unit: lcc.Money, Shape: lcc.Normal, Likely: dec("9000"), Spread: dec("1000")}
	r := b.evaluate(t)
	for path, want := range map[string][2]string{
		"rate":              {"0", "0.12"},
		"restoration.price": {"3.9", "9.6"},
		"tear_off.price":    {"12.5", "12.5"},
		"patching":          {"7355.1464", "10644.8536"},
	} {
		from, to := Ends(r, b.Find(path))
		assert.Equal(t, want, [2]string{from.String(), to.String()}, path)
	}
}
