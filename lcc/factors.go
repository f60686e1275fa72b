package lcc

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// The closed-form present-value factors of building economics [E917; HB135].
// The ledger does not use them: it goes year by year. They serve the reader
// who checks with a handbook, and the tests as a second way to the totals.

// Bounds of every rate, discount or escalation: greater than MinRate, at most
// MaxRate. They keep 1+rate well away from zero, where present values lose
// all meaning.
var (
	MinRate = decimal.New(-5, -1) // −50 %, excluded
	MaxRate = decimal.New(10, 0)  // 1000 %
)

// CheckRate tells what is wrong with a rate; nil when it is in range.
func CheckRate(r decimal.Decimal) error {
	if r.LessThanOrEqual(MinRate) || r.GreaterThan(MaxRate) {
		return fmt.Errorf("rate %s is outside the range from over -50%% to 1000%%", r)
	}
	return nil
}

// SinglePresentValue is 1/(1+d)^t, t whole years ≥ 0: the value at the base
// date of 1 paid at the end of year t.
func SinglePresentValue(d decimal.Decimal, t int) decimal.Decimal {
	return quo(one, power(one.Add(d), t))
}

// UniformPresentValue is ((1+d)^n − 1)/(d(1+d)^n): the value at the base date
// of 1 paid at the end of each of n years; n where d = 0.
func UniformPresentValue(d decimal.Decimal, n int) decimal.Decimal {
	return EscalatedUniformPresentValue(d, decimal.Zero, n)
}

// EscalatedUniformPresentValue is Σ ((1+e)/(1+d))^t, t = 1..n: as
// UniformPresentValue for a payment that is 1 at base-date prices and
// escalates at e from the base date. In closed form
// (1+e)/(d−e) · (1 − ((1+e)/(1+d))^n), and n where d = e [HB135, modified
// uniform present value].
func EscalatedUniformPresentValue(d, e decimal.Decimal, n int) decimal.Decimal {
	ratio := quo(one.Add(e), one.Add(d))
	if d.Sub(e).Abs().LessThan(nearlyEqual) {
		return geometric(ratio, n) // the closed form would lose its digits
	}
	return sig(quo(one.Add(e), d.Sub(e)).Mul(one.Sub(power(ratio, n))))
}

// nearlyEqual is how close two rates may come before their difference has too
// few digits to divide by.
var nearlyEqual = decimal.New(1, -12)

// geometric is Σ x^t, t = 1..n, term by term.
func geometric(x decimal.Decimal, n int) decimal.Decimal {
	term, sum := one, decimal.Zero
	for range n {
		term = sig(term.Mul(x))
		sum = sum.Add(term)
	}
	return sig(sum)
}

// CapitalRecovery is d(1+d)^n/((1+d)^n − 1), n ≥ 1: the payment at the end of
// each of n years that is worth 1 at the base date; 1/n where d = 0.
func CapitalRecovery(d decimal.Decimal, n int) decimal.Decimal {
	return quo(one, UniformPresentValue(d, n))
}

// NominalRate adds general inflation to a real rate: (1+D) = (1+d)(1+I).
// It serves escalation rates in the same way.
func NominalRate(real, inflation decimal.Decimal) decimal.Decimal {
	return one.Add(real).Mul(one.Add(inflation)).Sub(one)
}

// RealRate takes general inflation out of a nominal rate: d = (1+D)/(1+I) − 1.
func RealRate(nominal, inflation decimal.Decimal) decimal.Decimal {
	return quo(one.Add(nominal), one.Add(inflation)).Sub(one)
}
