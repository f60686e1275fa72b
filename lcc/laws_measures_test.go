package lcc

import (
	"math/big"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Laws that tie the measures to one another.

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
