package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Inputs that no roof has, but that the types allow. What is asked of them
// is modest: an answer or an error, no panic, no search without end, and
// nothing certified that is not so.

// A discount rate that the digits of the factors cannot tell from 0.
func TestADiscountRateNextToNothingIsNoPanic(t *testing.T) {
	for _, rate := range []string{"1e-12", "1e-30", "1e-41", "-1e-45"} {
		assert.NotPanics(t, func() {
			b := newStudy(40, rate)
			y := b.system("roof", "300", func(y *System) { y.InPlace, y.Annual = true, []Item{b.item("100").as(Fees)} })
			b.alternative("roof", y, nil)
			r := b.evaluate()
			assert.Equal(t, "4000", r.Alternatives[0].LCC.String())
			assert.Equal(t, "100", r.Alternatives[0].AnnualWorth.String())
		}, "a rate of %s", rate)
	}
}

// The longest life loses 20 millionths of the first cost; a longer one
// is refused by both evaluators.
func TestALifeBeyondTheLongestIsRefused(t *testing.T) {
	b := newStudy(20, "0.03")
	y := b.system("roof", MaxLife.String(), func(y *System) { y.First = []Item{b.item("1000")} })
	b.alternative("roof", y, nil)
	assert.Equal(t, "446.34", b.evaluate().Alternatives[0].LCC.String())
	k := b.s.NewKernel()
	assert.NoError(t, k.LoadExact(b.s.Likely()))
	minor, certified := k.Cents(0)
	assert.True(t, certified)
	assert.Equal(t, int64(44634), minor)

	v := b.s.Likely()
	v[b.s.Systems[y].Life] = dec("1e400")
	_, err := b.s.EvaluateAt(v)
	assert.Error(t, err)
	assert.Error(t, k.LoadExact(v))
}

// A wait a hair longer than the life: float64 does not see it, the ledger
// refuses it, and so must the kernel that is given the same decimals.
func TestTheKernelRefusesAWaitAHairOverTheLife(t *testing.T) {
	b := newStudy(20, "0.03")
	old := b.system("old", "6.99999999999999999999", func(y *System) { y.InPlace = true })
	y := b.system("roof", "300", func(y *System) { y.First = []Item{b.item("1000")} })
	b.alternative("wait", y, func(a *Alternative) { a.Wait = &Wait{On: old, Years: 7} })
	_, err := b.s.Evaluate()
	assert.Error(t, err)
	assert.Error(t, b.s.NewKernel().LoadExact(b.s.Likely()))
}

// Two alternatives that pay the same amounts in another order tie everywhere,
// though their sums are beyond the whole numbers of float64.
func TestTheSameAmountsInAnotherOrderAreNoCrossover(t *testing.T) {
	b := newStudy(20, "0.03")
	roof := func(name string, amounts ...string) {
		y := b.system(name, "300", func(y *System) {
			y.Residual.Mode = NoResidual
			for _, amount := range amounts {
				y.First = append(y.First, b.item(amount).as(Fees))
				y.Annual = append(y.Annual, b.item(amount).as(Fees))
			}
		})
		b.alternative(name, y, nil)
	}
	roof("one", "90071992547409.93", "0.01", "0.01")
	roof("other", "0.01", "0.01", "90071992547409.93")
	r := b.evaluate()
	assert.True(t, r.Difference(0, 1).IsZero())
	assert.Empty(t, r.Crossovers)
	assert.Equal(t, make(stream, 41), r.difference(0, 1))
}
