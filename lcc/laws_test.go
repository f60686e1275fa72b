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

func TestNetSavingsAreTheDifferenceOfLifeCycleCosts(t *testing.T) {
	compared := 0
	checkStudies(t, 1, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		base := s.BaseCase()
		for i, a := range r.Alternatives {
			if (a.AgainstBase == nil) != (base < 0 || i == base) {
				t.Fatalf("alternative %d of a study with base case %d: comparison %v", i, base, a.AgainstBase)
			}
			if a.AgainstBase == nil {
				continue
			}
			compared++
			if want := r.Difference(base, i); !a.AgainstBase.NetSavings.Equal(want) {
				t.Fatalf("net savings %s, the life-cycle costs differ by %s", a.AgainstBase.NetSavings, want)
			}
		}
	})
}

// With more investment than the base case, savings cover it exactly when net
// savings are positive: SIR − 1 is net savings over the extra investment.
func TestSavingsToInvestmentRatioIsOverOneExactlyWhenNetSavingsArePositive(t *testing.T) {
	checkStudies(t, 4, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		base := s.BaseCase()
		for i, a := range r.Alternatives {
			if a.AgainstBase == nil {
				continue
			}
			extra := investment(&a).Sub(investment(&r.Alternatives[base]))
			c := a.AgainstBase
			if c.SIR.Defined() != extra.IsPositive() {
				t.Fatalf("alternative %d: extra investment %s, ratio %+v", i, extra, c.SIR)
			}
			if c.SIR.Defined() && c.SIR.Value.Cmp(one) != c.NetSavings.Sign() {
				t.Fatalf("alternative %d: ratio %s, net savings %s", i, c.SIR.Value, c.NetSavings)
			}
		}
	})
}

// investment is the present value of what section 7 of the method calls
// investment-related, by a list of kinds of its own.
func investment(o *Outcome) decimal.Decimal {
	sum := decimal.Zero
	for _, line := range o.Ledger {
		if slices.Contains([]Kind{FirstCost, Replacement, Recoat, Removal, ResidualValue}, line.Kind) {
			sum = sum.Add(line.PV)
		}
	}
	return sum
}

// Investing the extra at AIRR for N years gives what SIR times it gives at
// the discount rate: (1+AIRR)^N = SIR·(1+d)^N.
func TestAdjustedRateOfReturnCompoundsToTheRatio(t *testing.T) {
	checkStudies(t, 3, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for i, a := range r.Alternatives {
			if a.AgainstBase == nil || !a.AgainstBase.AIRR.Defined() {
				continue
			}
			if !a.AgainstBase.SIR.Defined() || !a.AgainstBase.SIR.Value.IsPositive() {
				t.Fatalf("alternative %d: a rate of return without a positive ratio: %+v", i, a.AgainstBase)
			}
			yearly := one.Add(a.AgainstBase.AIRR.Value)
			got, _ := new(big.Rat).Quo(toThe(rat(yearly), s.Period), toThe(onePlus(r.Rate), s.Period)).Float64()
			want := a.AgainstBase.SIR.Value.InexactFloat64()
			// The rate has twelve decimals, and weighs more where most of the money is lost.
			if tolerance := want * float64(s.Period) * 1e-12 / yearly.InexactFloat64(); got < want-tolerance || got > want+tolerance {
				t.Fatalf("alternative %d: compounds to %v, the ratio is %v", i, got, want)
			}
		}
	})
}

func TestAnnualWorthIsWorthTheLifeCycleCost(t *testing.T) {
	checkStudies(t, 3, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		factor := UniformPresentValue(r.Rate, s.Period)
		// Half a unit each year, and a last digit of the factor.
		slack := minorUnit(s).Div(decimal.New(2, 0)).Mul(factor).Add(dec("1e-20"))
		for i, a := range r.Alternatives {
			if gap := a.AnnualWorth.Mul(factor).Sub(a.LCC).Abs(); gap.GreaterThan(slack) {
				t.Fatalf("alternative %d: annual worth %s over %d years is not worth %s", i, a.AnnualWorth, s.Period, a.LCC)
			}
			perArea := a.WorthPerArea.Mul(r.Area).Mul(factor).Sub(a.LCC).Abs()
			if perArea.GreaterThan(slack.Mul(r.Area)) {
				t.Fatalf("alternative %d: annual worth %s per unit of %s is not worth %s", i, a.WorthPerArea, r.Area, a.LCC)
			}
		}
	})
}

// splitItems is a study with each item of a lump sum told as two items.
func splitItems(s *Study, share decimal.Decimal) *Study {
	twin := *s
	twin.Inputs = slices.Clone(s.Inputs)
	twin.Systems = slices.Clone(s.Systems)
	split := func(items []Item) []Item {
		var out []Item
		for _, it := range items {
			in, part, rest := s.Inputs[it.Price], it, it
			whole := in.Likely
			in.Likely = whole.Mul(share)
			part.Price, part.Name = twin.Add(in), it.Name+" (part)"
			in.Likely = whole.Sub(whole.Mul(share))
			rest.Price, rest.Name = twin.Add(in), it.Name+" (rest)"
			out = append(out, part, rest)
		}
		return out
	}
	for i := range twin.Systems {
		y := &twin.Systems[i]
		y.First, y.Annual, y.Periodic, y.Removal = split(y.First), split(y.Annual), split(y.Periodic), split(y.Removal)
		if y.Recoat != nil {
			r := *y.Recoat
			r.Costs = split(r.Costs)
			y.Recoat = &r
		}
	}
	return &twin
}

func TestSplittingAnItemInTwoChangesNothing(t *testing.T) {
	checkChoices(t, 2, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		share := decimal.New(int64(d.upTo(1500)), -3)
		r, split := evaluated(t, s), evaluated(t, splitItems(s, share))
		for i, a := range r.Alternatives {
			b := split.Alternatives[i]
			lines := len(a.Ledger)
			if !within(s, a.LCC, b.LCC, 2*lines) || !within(s, a.First, b.First, 2*lines) ||
				!within(s, a.Residual.PV, b.Residual.PV, 2*lines) {
				t.Fatalf("%d lines: %s, with each item in two %s", lines, a.LCC, b.LCC)
			}
			for c := range NumCategories {
				if !within(s, a.ByCategory[c], b.ByCategory[c], 2*lines) {
					t.Fatalf("%s: %s, with each item in two %s", c, a.ByCategory[c], b.ByCategory[c])
				}
			}
		}
	})
}

// turned is a study with its items, systems and alternatives in the reverse order.
func turned(s *Study) *Study {
	twin := *s
	last := len(s.Systems) - 1
	reverse := func(items []Item) []Item {
		items = slices.Clone(items)
		slices.Reverse(items)
		return items
	}
	twin.Systems = nil
	for i := last; i >= 0; i-- {
		y := s.Systems[i]
		y.Then = last - y.Then
		y.First, y.Annual, y.Periodic, y.Removal = reverse(y.First), reverse(y.Annual), reverse(y.Periodic), reverse(y.Removal)
		if y.Recoat != nil {
			r := *y.Recoat
			r.Costs = reverse(r.Costs)
			y.Recoat = &r
		}
		twin.Systems = append(twin.Systems, y)
	}
	twin.Alternatives = nil
	for i := len(s.Alternatives) - 1; i >= 0; i-- {
		a := s.Alternatives[i]
		a.Start = last - a.Start
		if a.Wait != nil {
			a.Wait = &Wait{On: last - a.Wait.On, Years: a.Wait.Years}
		}
		twin.Alternatives = append(twin.Alternatives, a)
	}
	return &twin
}

// The order in which items, systems and alternatives are written does not
// matter to any figure.
func TestOrderDoesNotMatter(t *testing.T) {
	checkStudies(t, 2, func(t *rapid.T, s *Study) {
		r, back := evaluated(t, s), evaluated(t, turned(s))
		last := len(s.Systems) - 1
		for i, a := range r.Alternatives {
			b := back.Alternatives[len(r.Alternatives)-1-i]
			if len(a.Ledger) != len(b.Ledger) || !slices.EqualFunc(figures(a), figures(b), decimal.Decimal.Equal) {
				t.Fatalf("%s: %s, in the other order %s", a.Alternative.Name, figures(a), figures(b))
			}
			for j, e := range a.Interventions {
				f := b.Interventions[j]
				if f.System = last - f.System; e.Year != f.Year || e.System != f.System || e.Recoat != f.Recoat || !e.PV.Equal(f.PV) || !e.Amount.Equal(f.Amount) {
					t.Fatalf("%s: intervention %+v, in the other order %+v", a.Alternative.Name, e, f)
				}
			}
			if c, d := a.AgainstBase, b.AgainstBase; c != nil && (c.Simple != d.Simple || c.Discounted != d.Discounted ||
				!c.SIR.Value.Equal(d.SIR.Value) || !c.AIRR.Value.Equal(d.AIRR.Value)) {
				t.Fatalf("%s: %+v, in the other order %+v", a.Alternative.Name, c, d)
			}
		}
		if len(r.Crossovers) != len(back.Crossovers) {
			t.Fatalf("crossovers %v, in the other order %v", r.Crossovers, back.Crossovers)
		}
		for i, c := range r.Crossovers {
			if !slices.ContainsFunc(back.Crossovers, func(x Crossover) bool { return sameTurned(c, x, len(r.Alternatives)-1) }) {
				t.Fatalf("crossover %d: %+v is not among %+v", i, c, back.Crossovers)
			}
		}
	})
}

// sameTurned compares a crossover with one of the study in reverse order.
func sameTurned(c, x Crossover, last int) bool {
	return c.A == last-x.B && c.B == last-x.A && c.Below == last-x.Below && c.Above == last-x.Above &&
		c.Rate.Sub(x.Rate).Abs().LessThanOrEqual(dec("2e-12"))
}

func figures(o Outcome) []decimal.Decimal {
	out := []decimal.Decimal{o.LCC, o.AnnualWorth, o.WorthPerArea, o.First, o.Residual.Amount, o.Residual.PV}
	return append(out, o.ByCategory[:]...)
}
