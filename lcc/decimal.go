package lcc

import "github.com/shopspring/decimal"

// digits is how many significant digits escalation and discount factors keep.
// The method asks for at least 28; 50 leaves room for 200 years of products.
const digits = 50

// sig rounds to the significant digits that factors keep.
func sig(x decimal.Decimal) decimal.Decimal {
	if surplus := x.NumDigits() - digits; surplus > 0 {
		return x.Round(-x.Exponent() - int32(surplus))
	}
	return x
}

// guard is how many digits past the minor unit decide about rounding.
const guard = 24

// toMinor rounds an amount to the currency's minor unit, half away from zero.
// Factors are good to nearly 50 digits, so an amount that is exactly half a
// unit may come out a hair below: what lies within 10^−24 of a unit of a half
// is taken for it.
func toMinor(amount decimal.Decimal, places int32) decimal.Decimal {
	return amount.Round(places + guard).Round(places)
}

// ToMinor rounds an amount as ledger lines are rounded: to the minor unit of
// the study's currency, half away from zero.
func (s *Study) ToMinor(amount decimal.Decimal) decimal.Decimal {
	return toMinor(amount, s.About.Digits)
}

// quo is a/b to the digits that factors keep. b is not zero.
func quo(a, b decimal.Decimal) decimal.Decimal {
	// Enough places that the quotient's first digit is followed by `digits` more.
	magnitude := int32(a.NumDigits()) + a.Exponent() - int32(b.NumDigits()) - b.Exponent()
	return sig(a.DivRound(b, digits+2-magnitude))
}

// power is x^n for n ≥ 0, by squaring, to the digits that factors keep.
func power(x decimal.Decimal, n int) decimal.Decimal {
	result := one
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			result = sig(result.Mul(x))
		}
		x = sig(x.Mul(x))
	}
	return result
}

// squareRoot is the root of x > 0 to the digits that factors keep: the whole
// root of x scaled by an even power of ten.
func squareRoot(x decimal.Decimal) decimal.Decimal {
	places := digits - (int32(x.NumDigits())+x.Exponent())/2 + 1
	scaled := x.Shift(2 * places).Truncate(0).BigInt()
	return sig(decimal.NewFromBigInt(scaled.Sqrt(scaled), -places))
}
