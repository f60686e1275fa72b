package lcc

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Measures that have no meaning, and those that just have one. Rates are 0, so
// every figure is worked by hand.

// keepOr is a study of n years, undiscounted, of a roof that stands there at
// no first cost and another choice; the roof is the base case.
func keepOr(n int, keep, choice func(*builder, *System)) *Result {
	b := newStudy(n, "0")
	roof := b.system("keep", "300", func(y *System) { y.InPlace = true; keep(b, y) })
	other := b.system("choice", "300", func(y *System) { y.Residual.Mode = NoResidual; choice(b, y) })
	b.alternative("Keep", roof, func(a *Alternative) { a.BaseCase = true })
	b.alternative("Choice", other, nil)
	return b.evaluate()
}

// costs gives a system a first cost and an annual cost; "" is none.
func costs(first, annual string) func(*builder, *System) {
	return func(b *builder, y *System) {
		if first != "" {
			y.First = []Item{b.item(first).as(Fees)}
		}
		if annual != "" {
			y.Annual = []Item{b.item(annual).as(Maintenance)}
		}
	}
}

func TestMeasuresOfAnInvestmentThatPays(t *testing.T) {
	c := keepOr(10, costs("", "300"), costs("1000", "100")).Alternatives[1].AgainstBase
	assert.Equal(t, "1000", c.NetSavings.String())
	assert.Equal(t, Measure{Value: c.SIR.Value}, c.SIR)
	assert.Equal(t, "2", c.SIR.Value.String())
	assert.Equal(t, "0.071773462536", c.AIRR.Value.StringFixed(12)) // 2^(1/10) − 1
	assert.Equal(t, Payback{Year: 5}, c.Simple)
	assert.Equal(t, Payback{Year: 5}, c.Discounted)
	assert.True(t, c.SIR.Defined() && c.AIRR.Defined() && c.Simple.Defined())
}

// The payback is reached in the year in which the savings equal the extra cost,
// and a cent less is a year later.
func TestPaybackToTheCent(t *testing.T) {
	for first, year := range map[string]int{"1000": 5, "1000.01": 6, "999.99": 5, "800.01": 5, "800": 4, "0.01": 1} {
		c := keepOr(10, costs("", "300"), costs(first, "100")).Alternatives[1].AgainstBase
		assert.Equal(t, Payback{Year: year}, c.Simple, "a first cost of %s", first)
	}
}

// At 25 % savings of 300, 200 and 100 are worth less than they are.
func TestDiscountedPaybackComesLater(t *testing.T) {
	b := newStudy(10, "0.25")
	roof := b.system("keep", "300", func(y *System) {
		y.InPlace = true
		costs("", "500")(b, y)
	})
	choice := b.system("choice", "300", costsOf(b, "1000", ""))
	b.alternative("Keep", roof, func(a *Alternative) { a.BaseCase = true })
	b.alternative("Choice", choice, nil)
	c := b.evaluate().Alternatives[1].AgainstBase
	assert.Equal(t, Payback{Year: 2}, c.Simple)
	// 400 + 320 + 256 = 976, and 204.80 in the fourth year.
	assert.Equal(t, Payback{Year: 4}, c.Discounted)
}

func costsOf(b *builder, first, annual string) func(*System) {
	return func(y *System) { costs(first, annual)(b, y) }
}

func TestNoRatioWithoutExtraInvestment(t *testing.T) {
	for name, r := range map[string]*Result{
		"no more investment": keepOr(10, costs("", "300"), costs("", "100")),
		"a credit at the start": keepOr(10, costs("", "300"), func(b *builder, y *System) {
			y.First = []Item{b.item("-500").as(Fees)}
		}),
	} {
		c := r.Alternatives[1].AgainstBase
		require.False(t, c.SIR.Defined(), name)
		assert.Equal(t, "counting later work and what is left at the end, it asks for no more investment than the base case", c.SIR.Reason, name)
		assert.Equal(t, c.SIR.Reason, c.AIRR.Reason, name)
		assert.True(t, c.SIR.Value.IsZero() && c.AIRR.Value.IsZero(), name)
		assert.Equal(t, "it costs no more at the start than the base case, so any saving is immediate", c.Simple.Reason, name)
		assert.Equal(t, c.Simple, c.Discounted, name)
		assert.Zero(t, c.Simple.Year, name)
	}
}

// An investment that saves nothing, or costs more to run, has a ratio, but no
// rate of return.
func TestNoRateOfReturnWithoutAPositiveRatio(t *testing.T) {
	for annual, ratio := range map[string]string{"300": "0", "400": "-1"} {
		c := keepOr(10, costs("", "300"), costs("1000", annual)).Alternatives[1].AgainstBase
		require.True(t, c.SIR.Defined())
		assert.Equal(t, ratio, c.SIR.Value.String())
		assert.Equal(t, "the savings-to-investment ratio is not positive", c.AIRR.Reason)
		assert.True(t, c.AIRR.Value.IsZero())
		assert.Equal(t, Payback{Reason: NotReached}, c.Simple)
	}
}

// The extra first cost is paid back in year 4; a renewal in year 6 turns the
// balance again until year 9, a second one in year 12 does not count any more.
func TestPaybackReachedAndReversed(t *testing.T) {
	r := keepOr(20, costs("", "300"), func(b *builder, y *System) {
		y.First = []Item{b.item("1000").as(Fees)}
		y.Recoat = &Recoating{AtMost: 9, Life: b.in("recoat life", Years, "6"), Costs: []Item{b.item("1500").as(Fees)}}
		b.s.Inputs[y.Life].Likely = dec("6")
	})
	c := r.Alternatives[1].AgainstBase
	assert.Equal(t, Payback{Year: 4, Reversal: 6, Recovery: 9}, c.Simple)
	assert.Equal(t, Payback{Year: 4, Reversal: 6, Recovery: 9}, c.Discounted)
	assert.True(t, c.Simple.Defined())
}

// The residual value of year N counts in the payback: it is what pays here.
func TestPaybackByTheResidualValue(t *testing.T) {
	r := keepOr(10, costs("", ""), func(b *builder, y *System) {
		y.First = []Item{b.item("1000").as(Fees)}
		y.Residual = Residual{Mode: FixedAmount, Amount: b.in("residual", Money, "1000")}
	})
	assert.Equal(t, Payback{Year: 10}, r.Alternatives[1].AgainstBase.Simple)
}

// Mid-year savings of year 5 count in year 5.
func TestPaybackOfMidYearCosts(t *testing.T) {
	b := newStudy(10, "0")
	b.s.Timing = MidYear
	roof := b.system("keep", "300", func(y *System) { y.InPlace = true; costs("", "200")(b, y) })
	choice := b.system("choice", "300", costsOf(b, "1000", ""))
	b.alternative("Keep", roof, func(a *Alternative) { a.BaseCase = true })
	b.alternative("Choice", choice, nil)
	assert.Equal(t, Payback{Year: 5}, b.evaluate().Alternatives[1].AgainstBase.Simple)
}

func TestNoComparisonWithoutABaseCase(t *testing.T) {
	for _, a := range restoreOrTearOff().evaluate().Alternatives {
		assert.Nil(t, a.AgainstBase)
	}
	r := keepOr(10, costs("", "300"), costs("1000", "100"))
	assert.Nil(t, r.Alternatives[0].AgainstBase, "the base case is not compared with itself")
	assert.NotNil(t, r.Alternatives[1].AgainstBase)
}

func TestTwoBaseCasesAreAnError(t *testing.T) {
	b := restoreOrTearOff()
	b.s.Alternatives[0].BaseCase, b.s.Alternatives[1].BaseCase = true, true
	r, err := b.s.Evaluate()
	assert.ErrorContains(t, err, "at most one")
	assert.Nil(t, r)
}

// choices is a study of lump sums, one an alternative.
func choices(firsts ...string) *builder {
	b := newStudy(10, "0.03")
	for _, first := range firsts {
		y := b.system("roof", "300", func(y *System) { y.First, y.Residual.Mode = []Item{b.item(first).as(Fees)}, NoResidual })
		b.alternative(first, y, nil)
	}
	return b
}

func TestAnswerOfOneAlternative(t *testing.T) {
	a := choices("500").evaluate().Answer
	assert.Equal(t, Answer{Lowest: 0, RunnerUp: -1, Margin: a.Margin,
		From: RateBound{a.From.Rate, -1}, To: RateBound{a.To.Rate, -1}}, a)
	assert.True(t, a.Margin.IsZero())
	assert.Equal(t, "0", a.From.Rate.String())
	assert.Equal(t, "0.12", a.To.Rate.String())
}

func TestNoAnswerWhenAllAreRuledOut(t *testing.T) {
	b := choices("500", "600")
	for i := range b.s.Alternatives {
		b.s.Alternatives[i].RuledOut = &Ruling{Rule: "deck", Finding: "wet"}
	}
	r := b.evaluate()
	assert.Equal(t, -1, r.Answer.Lowest)
	assert.Equal(t, -1, r.Answer.RunnerUp)
	assert.False(t, r.Answer.Tie)
	assert.Equal(t, "500", r.Alternatives[0].LCC.String(), "the figures are told all the same")
}

// The cheapest is ruled out: it is never the answer, nor the runner-up.
func TestTheAnswerPassesOverWhatIsRuledOut(t *testing.T) {
	for _, firsts := range [][]string{{"100", "500", "600"}, {"500", "100", "600"}, {"600", "500", "100"}} {
		b := choices(firsts...)
		for i, first := range firsts {
			if first == "100" {
				b.s.Alternatives[i].RuledOut = &Ruling{Rule: "deck", Finding: "wet"}
			}
		}
		a := b.evaluate().Answer
		assert.Equal(t, "500", b.s.Alternatives[a.Lowest].Name)
		assert.Equal(t, "600", b.s.Alternatives[a.RunnerUp].Name)
		assert.Equal(t, "100", a.Margin.String())
	}
}

func TestRunnerUpInAnyOrder(t *testing.T) {
	for _, firsts := range [][]string{
		{"100", "200", "300"}, {"100", "300", "200"}, {"200", "100", "300"},
		{"200", "300", "100"}, {"300", "100", "200"}, {"300", "200", "100"},
	} {
		b := choices(firsts...)
		a := b.evaluate().Answer
		assert.Equal(t, "100", b.s.Alternatives[a.Lowest].Name, "%v", firsts)
		assert.Equal(t, "200", b.s.Alternatives[a.RunnerUp].Name, "%v", firsts)
		assert.Equal(t, "100", a.Margin.String(), "%v", firsts)
	}
}

// A tie to the cent goes to the one that stands first, and is told as a tie.
func TestATieToTheCent(t *testing.T) {
	r := choices("700", "500", "500").evaluate()
	assert.Equal(t, 1, r.Answer.Lowest)
	assert.Equal(t, 2, r.Answer.RunnerUp)
	assert.True(t, r.Answer.Margin.IsZero())
	assert.True(t, r.Answer.Tie)
	zero := choices("0", "0").evaluate()
	assert.True(t, zero.Answer.Tie, "nothing against nothing is a tie")
}

// A margin under 2 % of the lowest is a tie for practical purposes; 2 % is none.
func TestATieForPracticalPurposes(t *testing.T) {
	for other, tie := range map[string]bool{"1019.99": true, "1020": false, "1000.01": true, "2000": false} {
		assert.Equal(t, tie, choices("1000", other).evaluate().Answer.Tie, "1000 against %s", other)
	}
	assert.True(t, choices("-1000", "-990").evaluate().Answer.Tie, "2 % of a credit is as much")
}

// A result keeps no figure that is not a number of money.
func TestWorthPerAreaIsOfTheArea(t *testing.T) {
	b := choices("1000").area("250")
	b.s.Inputs[b.s.Rate].Likely = decimal.Zero
	a := b.evaluate().Alternatives[0]
	assert.Equal(t, "100", a.AnnualWorth.String())
	assert.Equal(t, "0.4", a.WorthPerArea.String())
}
