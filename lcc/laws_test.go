package lcc

import (
	"math/big"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The laws of life-cycle costing that hold for every study, with their
// conditions. Money is compared to the minor unit: a total is a sum of rounded
// lines, so two ways to one total may differ by half a unit a line and way.

// minorUnit is the least amount of a study's currency.
func minorUnit(s *Study) decimal.Decimal { return decimal.New(1, -s.About.Digits) }

// within tells whether two amounts differ by at most so many minor units.
func within(s *Study, a, b decimal.Decimal, units int) bool {
	return a.Sub(b).Abs().LessThanOrEqual(minorUnit(s).Mul(decimal.NewFromInt(int64(units))))
}

// nominalTwin is a real study in current money: (1+D) = (1+d)(1+I) and
// (1+E) = (1+e)(1+I), in exact decimals.
func nominalTwin(s *Study, inflation decimal.Decimal) *Study {
	twin := *s
	twin.Basis = Nominal
	twin.Inputs = slices.Clone(s.Inputs)
	nominal := func(r Ref) Ref {
		in := s.Inputs[r]
		in.Likely = in.Likely.Add(one).Mul(inflation.Add(one)).Sub(one)
		return twin.Add(in)
	}
	twin.Rate = nominal(s.Rate)
	twin.Inflation = twin.Add(Input{Path: "inflation", Unit: Rate, Likely: inflation})
	for c, series := range s.Escalation {
		twin.Escalation[c] = nil
		for _, r := range series {
			twin.Escalation[c] = append(twin.Escalation[c], nominal(r))
		}
	}
	return &twin
}

// The law holds line by line.
func TestRealAndNominalGiveTheSamePresentValues(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		s := randomStudyOn(d, Real)
		inflation := decimal.New(int64(d.upTo(900)-100), -4)
		real, nominal := evaluated(t, s), evaluated(t, nominalTwin(s, inflation))
		for i := range real.Alternatives {
			a, b := real.Alternatives[i].Ledger, nominal.Alternatives[i].Ledger
			if len(a) != len(b) {
				t.Fatalf("%d lines in constant money, %d in current money", len(a), len(b))
			}
			for j := range a {
				if a[j].Time != b[j].Time || a[j].Item != b[j].Item || !within(s, a[j].PV, b[j].PV, 1) {
					t.Fatalf("constant money %+v\ncurrent money %+v", a[j], b[j])
				}
			}
		}
	})
}

// Half of a life of 20 years is left of 100,000 paid at time 0. In constant money
// at a real 3 % that is worth 50,000/1.03¹⁰ = 37,204.70, and so it must be in
// current money at an inflation of 2 %, at the rate of 1.03 × 1.02 − 1: the
// same roof stands there.
func TestProratedResidualValueIsTheSameOnBothBases(t *testing.T) {
	b := newStudy(10, "0.03")
	y := b.system("roof", "20", func(y *System) { y.First = []Item{b.item("100000")} })
	b.alternative("roof", y, nil)
	assert.Equal(t, "37204.7", evaluated(t, b.s).Alternatives[0].Residual.PV.String())
	assert.Equal(t, "37204.7", evaluated(t, nominalTwin(b.s, dec("0.02"))).Alternatives[0].Residual.PV.String())
}

// A real study that states inflation tells the amounts of its nominal twin.
func TestCurrentMoneyIsTheAmountOfTheNominalTwin(t *testing.T) {
	checkChoices(t, 2, func(t *rapid.T, d dice) {
		s := randomStudyOn(d, Real)
		inflation := decimal.New(int64(d.upTo(900)-100), -4)
		s.Inflation = s.Add(Input{Path: "inflation", Unit: Rate, Likely: inflation})
		real, nominal := evaluated(t, s), evaluated(t, nominalTwin(s, inflation))
		for i := range real.Alternatives {
			for j, line := range real.Alternatives[i].Ledger {
				twin := nominal.Alternatives[i].Ledger[j]
				if !within(s, line.Current, twin.Amount, 1) || !twin.Current.Equal(twin.Amount) {
					t.Fatalf("money of the day %s, the nominal amount is %s: %+v", line.Current, twin.Amount, line)
				}
			}
		}
	})
}

// ratesFor are rates for the closed forms: zero, equal ones, negative ones and wild ones.
func ratesFor(d dice) (discount, escalation decimal.Decimal) {
	m := maker{dice: d}
	m.discount = m.discountRate()
	return m.discount, m.rate()
}

// near tells whether a factor is right to 28 significant digits.
func near(got decimal.Decimal, want *big.Rat) bool {
	gap := new(big.Rat).Sub(rat(got), want)
	bound := times(new(big.Rat).Abs(want), rat(dec("1e-28")))
	return gap.Abs(gap).Cmp(bound) <= 0
}

func TestClosedFormFactorsAreTheSumOfTheYears(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		rate, escalation := ratesFor(d)
		n := 1 + d.upTo(99)
		uniform, escalated := new(big.Rat), new(big.Rat)
		for year := 1; year <= n; year++ {
			worth := new(big.Rat).Inv(toThe(onePlus(rate), year))
			uniform.Add(uniform, worth)
			escalated.Add(escalated, times(worth, toThe(onePlus(escalation), year)))
		}
		single := new(big.Rat).Inv(toThe(onePlus(rate), n))
		if got := SinglePresentValue(rate, n); !near(got, single) {
			t.Fatalf("single present value %s, by years %s", got, single.FloatString(40))
		}
		if got := UniformPresentValue(rate, n); !near(got, uniform) {
			t.Fatalf("uniform present value %s, by years %s", got, uniform.FloatString(40))
		}
		if got := EscalatedUniformPresentValue(rate, escalation, n); !near(got, escalated) {
			t.Fatalf("escalated uniform present value %s, by years %s", got, escalated.FloatString(40))
		}
		if got := CapitalRecovery(rate, n); !near(got, new(big.Rat).Inv(uniform)) {
			t.Fatalf("capital recovery %s, by years %s", got, new(big.Rat).Inv(uniform).FloatString(40))
		}
	})
}

// The ledger of one annual cost is the handbook's factor times the cost.
func TestAnAnnualCostIsWorthItsFactor(t *testing.T) {
	checkChoices(t, 2, func(t *rapid.T, d dice) {
		rate, escalation := ratesFor(d)
		n := 1 + d.upTo(59)
		price := decimal.New(int64(d.upTo(99_999_999)), -2)
		b := newStudy(n, rate.String()).escalate(Energy, escalation.String())
		y := b.system("roof", "300", func(y *System) {
			y.InPlace = true
			y.Annual = []Item{b.item(price.String()).as(Energy)}
		})
		b.alternative("keep", y, nil)
		got, want := b.evaluate().Alternatives[0].LCC, price.Mul(EscalatedUniformPresentValue(rate, escalation, n))
		if got.Sub(want).Abs().GreaterThan(decimal.New(int64(n), -2).Div(decimal.New(2, 0))) {
			t.Fatalf("%s by the ledger, %s by the factor, over half a cent a year apart", got, want)
		}
	})
}

// A cost that grows with age at g and escalates at e grows at (1+g)(1+e) − 1.
func TestAgeingAndEscalationCompound(t *testing.T) {
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		rate, escalation := ratesFor(d)
		growth := decimal.New(int64(d.upTo(250)-50), -3)
		n := 1 + d.upTo(39)
		b := newStudy(n, rate.String()).escalate(Maintenance, escalation.String())
		y := b.system("roof", "300", func(y *System) {
			y.InPlace = true
			y.Annual = []Item{b.growing(b.item("1000000").as(Maintenance), growth.String())}
		})
		b.alternative("keep", y, nil)
		both := NominalRate(escalation, growth)
		// The first year has no growth yet: one year of it is taken out.
		want := dec("1000000").Mul(EscalatedUniformPresentValue(rate, both, n)).Div(one.Add(growth))
		if got := b.evaluate().Alternatives[0].LCC; got.Sub(want).Abs().GreaterThan(decimal.New(int64(n), -2)) {
			t.Fatalf("%s by the ledger, %s in closed form", got, want)
		}
	})
}

// Mid-year timing moves annual costs half a year: all are worth
// √((1+d)/(1+e)) times as much.
func TestMidYearIsHalfAYearOfInterestLessHalfOfEscalation(t *testing.T) {
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		rate, escalation := ratesFor(d)
		n := 1 + d.upTo(39)
		b := newStudy(n, rate.String()).escalate(Maintenance, escalation.String())
		b.s.Timing = MidYear
		y := b.system("roof", "300", func(y *System) {
			y.InPlace = true
			y.Annual = []Item{b.item("1000000").as(Maintenance)}
		})
		b.alternative("keep", y, nil)
		half := decimal.NewFromBigRat(rootOf(new(big.Rat).Quo(onePlus(rate), onePlus(escalation))), 40)
		want := dec("1000000").Mul(EscalatedUniformPresentValue(rate, escalation, n)).Mul(half)
		if got := b.evaluate().Alternatives[0].LCC; got.Sub(want).Abs().GreaterThan(decimal.New(int64(n), -2)) {
			t.Fatalf("%s by the ledger, %s in closed form", got, want)
		}
	})
}

func TestRateConversionsUndoEachOther(t *testing.T) {
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		real, inflation := ratesFor(d)
		back := RealRate(NominalRate(real, inflation), inflation)
		if back.Sub(real).Abs().GreaterThan(dec("1e-38")) {
			t.Fatalf("%s comes back as %s over an inflation of %s", real, back, inflation)
		}
	})
	assert.Equal(t, "0.0506", NominalRate(dec("0.03"), dec("0.02")).String())
	assert.Equal(t, "0.03", RealRate(dec("0.0506"), dec("0.02")).String())
}
