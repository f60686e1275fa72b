package lcc

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Break-even values that are known in closed form.

// ties finds the ties of alternatives 0 and 1 in a range.
func (b *builder) ties(t *testing.T, in Ref, low, high string) []Tie {
	t.Helper()
	found, err := b.evaluate().Ties(in, 0, 1, dec(low), dec(high))
	require.NoError(t, err)
	return found
}

// roofOrRent is a roof of 100,000 and what is left of it, against a rent that
// is paid once: over a period, without discounting.
func roofOrRent(period int, life, rent string) (b *builder, in Ref) {
	b = newStudy(period, "0")
	roof := b.system("roof", life, func(y *System) { y.First = []Item{b.item("100000")} })
	b.alternative("roof", roof, nil)
	b.alternative("rent", b.system("rent", "1000", func(y *System) {
		y.First = []Item{b.item(rent).as(Fees)}
	}), nil)
	return b, b.s.Systems[roof].Life
}

// meets asserts that there is one tie, at a value, where the costs meet.
func meets(t *testing.T, at string, below, above int, found []Tie) {
	t.Helper()
	require.Len(t, found, 1, "%+v", found)
	assert.Equal(t, at, found[0].At.String())
	assert.Equal(t, []int{below, above}, []int{found[0].Below, found[0].Above})
	assert.False(t, found[0].Step, "%+v", found[0])
	assert.True(t, found[0].Crosses())
}

// 1,000 ft² at p per ft², and 200 a year for ten years at no discount, against
// 9,000: p = (9000 − 2000)/1000 = 7.
func TestBreakEvenOfAPrice(t *testing.T) {
	b := newStudy(10, "0").area("1000")
	item := b.perArea("5")
	coated := b.system("coated", "10", func(y *System) {
		y.First, y.Annual = []Item{item}, []Item{b.item("200").as(Maintenance)}
	})
	b.alternative("coated", coated, nil)
	b.alternative("new", b.system("new", "10", func(y *System) { y.First = []Item{b.item("9000")} }), nil)
	meets(t, "7", 0, 1, b.ties(t, item.Price, "0", "50"))
	meets(t, "7", 0, 1, b.ties(t, item.Price, "7", "50"))
	meets(t, "7", 0, 1, b.ties(t, item.Price, "0", "7"))
	// The area at the price of 5: 5a + 2000 = 9000.
	meets(t, "1400", 0, 1, b.ties(t, b.s.Area, "1", "10000"))
	assert.Empty(t, b.ties(t, item.Price, "0", "6.99"), "the tie is above the range")
	assert.Empty(t, b.ties(t, item.Price, "7.01", "50"), "the tie is below the range")
	assert.Empty(t, b.ties(t, b.s.Systems[coated].Life, "10", "10"), "a range of one value without a tie")

	turned, err := b.evaluate().Ties(item.Price, 1, 0, dec("0"), dec("50"))
	require.NoError(t, err)
	require.Len(t, turned, 1)
	assert.Equal(t, []int{1, 0, 0, 1}, []int{turned[0].A, turned[0].B, turned[0].Below, turned[0].Above})
}

// 1,050 a year later against 1,000 now: a discount rate of 5 %. With 10 years of
// work put off at e against a lump: 1000·1.02^10 = 1218.994….
func TestBreakEvenOfRates(t *testing.T) {
	b := newStudy(11, "0").escalate(Energy, "0.03")
	b.lumpSums("now", map[int]string{0: "1218.99441999475713024"}) // 1000·1.02¹⁰
	later := b.system("kept", "10", func(y *System) {
		y.InPlace, y.Then = true, len(b.s.Systems)+1
	})
	b.system("later", "1000", func(y *System) { y.First = []Item{b.item("1000").as(Energy)} })
	b.alternative("later", later, nil)
	found := b.ties(t, b.s.Escalation[Energy][0], "-0.05", "0.15")
	meets(t, "0.02", 1, 0, found)

	// One year's rate alone, the tenth of a list: 1000·1.03⁹·(1+e) = 1218.99….
	list := newStudy(11, "0").escalate(Energy, "0.03", "0.03", "0.03", "0.03", "0.03", "0.03", "0.03", "0.03", "0.03", "0.09", "0.5")
	list.lumpSums("now", map[int]string{0: "1218.99441999475713024"})
	later = list.system("kept", "10", func(y *System) { y.InPlace, y.Then = true, len(list.s.Systems)+1 })
	list.system("later", "1000", func(y *System) { y.First = []Item{list.item("1000").as(Energy)} })
	list.alternative("later", later, nil)
	want := dec("1.21899441999475713024").DivRound(power(dec("1.03"), 9), 30).Sub(one).Round(tiePlaces)
	meets(t, want.String(), 1, 0, list.ties(t, list.s.Escalation[Energy][9], "-0.4", "0.6"))
	assert.Empty(t, list.ties(t, list.s.Escalation[Energy][10], "-0.4", "0.6"), "the year after it is paid has no effect")
}

// 100 in the first year, growing at g, twice: 100 + 100(1+g) = 230 at g = 30 %.
func TestBreakEvenOfAGrowth(t *testing.T) {
	b := newStudy(2, "0")
	growing := b.growing(b.item("100").as(Maintenance), "0.1")
	b.alternative("kept", b.system("kept", "9", func(y *System) { y.InPlace, y.Annual = true, []Item{growing} }), nil)
	b.lumpSums("once", map[int]string{0: "230"})
	meets(t, "0.3", 0, 1, b.ties(t, growing.Growth, "-0.4", "0.9"))
}

// A nominal study: 100·(1+I)² two years on, at no discount, against 121 now.
func TestBreakEvenOfInflation(t *testing.T) {
	b := newStudy(3, "0")
	b.s.Basis, b.s.Inflation = Nominal, b.in("study.inflation", Rate, "0.02")
	b.lumpSums("later", map[int]string{2: "100"})
	b.lumpSums("now", map[int]string{0: "121"})
	meets(t, "0.1", 0, 1, b.ties(t, b.s.Inflation, "-0.05", "0.15"))
	b.s.Basis = Real
	assert.Empty(t, b.ties(t, b.s.Inflation, "-0.05", "0.15"), "a real study states inflation for show")
}

// A roof of 100,000 lasting L years, after 10: 100,000·10/L. Against 80,000 it
// ties at L = 12.5, in a year in which no work changes its place.
func TestBreakEvenOfALifeWithinAYear(t *testing.T) {
	b, life := roofOrRent(10, "20", "80000")
	meets(t, "12.5", 1, 0, b.ties(t, life, "11", "30"))
	meets(t, "12.5", 1, 0, b.ties(t, life, "12.5", "30"))
	meets(t, "12.5", 1, 0, b.ties(t, life, "11", "12.5"))
	assert.Empty(t, b.ties(t, life, "12.6", "30"))
	assert.Empty(t, b.ties(t, life, "11", "12.4"))
}

// Without residual value a roof of 100,000 that lasts 4 years is paid three
// times in ten years (at 0, 4 and 8), one of 5 years twice, of 10 years once. Against
// 250,000 it wins from a life of over 4 years on: a step from 50,000 dearer to
// 50,000 cheaper.
func TestBreakEvenOfALifeInAStep(t *testing.T) {
	b, life := roofOrRent(10, "20", "250000")
	b.s.Systems[0].Residual.Mode = NoResidual
	found := b.ties(t, life, "0.5", "30")
	require.Len(t, found, 1)
	want := Tie{A: 0, B: 1, At: dec("4"), Below: 1, Above: 0, Step: true, GapAt: dec("50000"), GapNext: dec("-50000")}
	assert.Equal(t, "4", found[0].At.String())
	assert.True(t, want.GapAt.Equal(found[0].GapAt), "%s", found[0].GapAt)
	assert.True(t, want.GapNext.Equal(found[0].GapNext), "%s", found[0].GapNext)
	want.At, want.GapAt, want.GapNext = found[0].At, found[0].GapAt, found[0].GapNext
	assert.Equal(t, want, found[0])
	assert.Len(t, b.ties(t, life, "3.7", "4.2"), 1)
	assert.Empty(t, b.ties(t, life, "0.5", "4"), "a life of 4 belongs to the side below the step")
	assert.Empty(t, b.ties(t, life, "4.1", "30"))
}

// A range that starts at a whole year holds that year's life: the step to what
// is longer lies in it.
func TestBreakEvenOfALifeInAStepAtTheStartOfTheRange(t *testing.T) {
	b, life := roofOrRent(10, "20", "250000")
	b.s.Systems[0].Residual.Mode = NoResidual
	found := b.ties(t, life, "4", "30")
	require.Len(t, found, 1, "at a life of 4 the rent is cheaper by 50,000, at any longer one the roof is")
	assert.Equal(t, "4", found[0].At.String())
	assert.True(t, found[0].Step)
}

// A tie at just a whole year, with no work moving there, is no step: the costs
// meet. 100,000·10/L ties with 50,000 at L = 20.
func TestABreakEvenLifeOfWholeYearsWhereTheCostsMeet(t *testing.T) {
	for _, c := range []struct {
		rent string
		life string
	}{{"50000", "20"}, {"62500", "16"}, {"40000", "25"}, {"80000", "12.5"}} {
		b, life := roofOrRent(10, "13", c.rent)
		meets(t, c.life, 1, 0, b.ties(t, life, "11", "30"))
	}
}

// Two alternatives that cost the same over whole years of lives, and change
// places from the one end of them to the other, have a break-even value there.
func TestABreakEvenLifePastAStretchOfTies(t *testing.T) {
	// Paid at 0, 4, 8: 300,000; at 0 and 5: 200,000; at 0 and 9: 200,000; from 10 on: 100,000.
	b, life := roofOrRent(10, "20", "200000")
	b.s.Systems[0].Residual.Mode = NoResidual
	found := b.ties(t, life, "0.5", "30")
	require.NotEmpty(t, found, "up to 4 years the rent is cheaper, from 5 to 9 they tie, past 9 the roof is cheaper")
	assert.Equal(t, 1, found[0].Below)
	assert.Equal(t, 0, found[len(found)-1].Above)
}

// Alternatives that pay the same tie everywhere, and so at no value: also
// where the one's items stand in another order or are told in parts.
func TestAlternativesThatPayTheSameHaveNoBreakEvenValues(t *testing.T) {
	amounts := []string{"1000.1", "2000.2", "3000.7"}
	make := func(order []int, b *builder, prices []Item) func(*System) {
		return func(y *System) {
			for _, i := range order {
				y.First = append(y.First, prices[i])
				y.Annual = append(y.Annual, prices[i].as(Energy))
			}
			y.Residual.Mode = NoResidual
		}
	}
	b := newStudy(30, "0.03").area("7000").escalate(Energy, "0.04").escalate(Construction, "0.01")
	var prices []Item
	for _, amount := range amounts {
		prices = append(prices, b.item(amount))
	}
	life := b.in("life", Years, "7")
	for i, order := range [][]int{{0, 1, 2}, {2, 0, 1}} {
		name := fmt.Sprint("order ", i)
		y := b.system(name, "7", make(order, b, prices))
		b.s.Systems[y].Life = life
		b.alternative(name, y, nil)
	}
	r := b.evaluate()
	require.True(t, r.Difference(0, 1).IsZero())
	for i, in := range b.s.Inputs {
		low, high := "-0.05", "0.15"
		if in.Unit != Rate {
			low, high = "1", "60000"
		}
		if in.Unit == Years {
			high = "60"
		}
		found, err := r.Ties(Ref(i), 0, 1, dec(low), dec(high))
		require.NoError(t, err)
		assert.Empty(t, found, "%s", in.Path)
	}
}

func TestAnInputWithoutEffectHasNoBreakEvenValues(t *testing.T) {
	b := newStudy(30, "0.03").escalate(Energy, "0.04")
	item := b.item("12345.67")
	unused := b.in("unused", Money, "5")
	life := b.in("unused life", Years, "5")
	b.alternative("one", b.system("one", "9", func(y *System) { y.First = []Item{item} }), nil)
	b.alternative("other", b.system("other", "9", func(y *System) {
		y.InPlace, y.Annual = true, []Item{b.item("777.77").as(Energy)}
	}), nil)
	assert.Empty(t, b.ties(t, unused, "0", "1000000"))
	assert.Empty(t, b.ties(t, life, "0.5", "99"))
	assert.Empty(t, b.ties(t, b.s.Area, "0.001", "10"), "nothing is priced by the area")
}

// What both alternatives pay alike does not make them tie, however much it is.
func TestWhatBothPayAlikeMakesNoBreakEven(t *testing.T) {
	b := newStudy(60, "0.031").area("123456.7").escalate(Energy, "0.017")
	shared := b.item("987654.3").as(Energy)
	for i, lump := range []string{"0.01", "0.02"} {
		b.alternative(lump, b.system(lump, "61", func(y *System) {
			y.First = []Item{b.item(lump).as(Fees)}
			y.Annual = []Item{shared}
			if i == 1 { // told in another order
				y.Annual = []Item{b.item("0").as(Fees), shared}
			}
		}), nil)
	}
	assert.Empty(t, b.ties(t, shared.Price, "-1000000000", "1000000000"))
	assert.Empty(t, b.ties(t, b.s.Escalation[Energy][0], "-0.05", "0.15"))
	assert.Empty(t, b.ties(t, b.s.Rate, "-0.05", "0.15"))
}

func TestBreakEvenRefusesWhatIsNoRange(t *testing.T) {
	b, life := roofOrRent(10, "20", "80000")
	r := b.evaluate()
	price := b.s.Systems[0].First[0].Price
	for _, c := range []struct {
		in        Ref
		low, high string
		says      string
	}{
		{price, "2", "1", "empty"},
		{life, "9", "8", "empty"},
		{b.s.Rate, "0.05", "0.01", "empty"},
		{NoRef, "1", "2", "no such input"},
		{Ref(len(b.s.Inputs)), "1", "2", "no such input"},
		{b.s.Rate, "-0.5", "0.1", "outside the range from over -50% to 1000%"},
		{b.s.Rate, "0", "10.01", "outside the range from over -50% to 1000%"},
	} {
		found, err := r.Ties(c.in, 0, 1, dec(c.low), dec(c.high))
		assert.ErrorContains(t, err, c.says, "%+v", c)
		assert.Empty(t, found)
	}
	_, err := r.Ties(b.s.Rate, 0, 1, dec("-0.49"), dec("10"))
	assert.NoError(t, err)
}

// A life is greater than 0 and at most a million years; what is looked at
// outside is no value of it.
func TestBreakEvenRefusesLivesThatAreNone(t *testing.T) {
	b, life := roofOrRent(10, "20", "80000")
	for _, c := range [][2]string{{"-3", "30"}, {"0", "30"}, {"5", "1000001"}} {
		assert.NotPanics(t, func() {
			_, err := b.evaluate().Ties(life, 0, 1, dec(c[0]), dec(c[1]))
			assert.Error(t, err, "lives from %s to %s", c[0], c[1])
		})
	}
}

// An area is greater than 0.
func TestBreakEvenRefusesAreasThatAreNone(t *testing.T) {
	b := newStudy(10, "0").area("1000")
	b.alternative("by area", b.system("by area", "10", func(y *System) { y.First = []Item{b.perArea("5")} }), nil)
	b.alternative("credit", b.system("credit", "10", func(y *System) { y.First = []Item{b.item("-5000")} }), nil)
	found, err := b.evaluate().Ties(b.s.Area, 0, 1, dec("-2000"), dec("2000"))
	assert.True(t, err != nil || len(found) == 0, "a tie at an area of %v", found)
}

// A value at which a wait is longer than the life of the roof that is waited
// on cannot be evaluated, so it is no break-even value.
func TestNoBreakEvenWhereAWaitIsLongerThanALife(t *testing.T) {
	b := newStudy(10, "0")
	kept := b.system("kept", "8", func(y *System) { y.InPlace, y.Annual = true, []Item{b.item("1000").as(Maintenance)} })
	roof := b.system("roof", "100", func(y *System) {
		y.First, y.Residual.Mode = []Item{b.item("50000")}, NoResidual
	})
	b.s.Systems[kept].Then = roof
	b.alternative("keep", kept, nil)
	b.alternative("wait", roof, func(a *Alternative) { a.Wait = &Wait{On: kept, Years: 6} })
	b.lumpSums("rent", map[int]string{0: "53500"})
	// Waiting costs 6,000 and the roof: 56,000; keeping, at a life of 3 years, 53,000, of 4 years 54,000.
	in := b.s.Systems[kept].Life
	r := b.evaluate()
	for _, rivals := range [][2]int{{0, 1}, {1, 2}, {0, 2}} {
		found, err := r.Ties(in, rivals[0], rivals[1], dec("0.5"), dec("12"))
		require.NoError(t, err)
		for _, tie := range found {
			v := append(Vector(nil), r.Inputs...)
			v[in] = tie.At
			_, err := b.s.EvaluateAt(v)
			assert.NoError(t, err, "%v tie at a life of %s", rivals, tie.At)
		}
	}
}

// An escalation in one year may be looked at up to 1000 %, over the longest
// period too: 1000·(1+e) ties with 5,000 at 400 %.
func TestBreakEvenOfAHighEscalationOverALongPeriod(t *testing.T) {
	for _, period := range []int{50, 140, MaxPeriod} {
		b := newStudy(period, "0")
		rates := make([]string, period)
		for i := range rates {
			rates[i] = "0"
		}
		b.escalate(Energy, rates...)
		b.lumpSums("now", map[int]string{0: "5000"})
		later := b.system("kept", "1", func(y *System) { y.InPlace, y.Then = true, len(b.s.Systems)+1 })
		b.system("later", "1000", func(y *System) { y.First = []Item{b.item("1000").as(Energy)} })
		b.alternative("later", later, nil)
		t.Run(fmt.Sprint(period), func(t *testing.T) {
			meets(t, "4", 1, 0, b.ties(t, b.s.Escalation[Energy][0], "-0.49", "10"))
		})
	}
}

// Ties of inputs of a study with the amounts of a currency that has no minor
// unit are told as finely as others.
func TestBreakEvenIsFinerThanTheMinorUnit(t *testing.T) {
	b := newStudy(10, "0").area("3")
	b.s.About.Digits = 0
	item := b.perArea("5")
	b.alternative("by area", b.system("by area", "10", func(y *System) { y.First = []Item{item} }), nil)
	b.alternative("lump", b.system("lump", "10", func(y *System) { y.First = []Item{b.item("100")} }), nil)
	meets(t, decimal.NewFromInt(100).DivRound(decimal.NewFromInt(3), tiePlaces).String(), 0, 1, b.ties(t, item.Price, "0", "100"))
}
