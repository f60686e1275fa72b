package units

import "github.com/shopspring/decimal"

// Digits is how many significant digits a quotient keeps, as many as the
// factors of the ledger.
const Digits = 50

// Quotient is a/b, exact where it ends within [Digits] significant digits and
// else rounded to them, half away from zero. b is not 0.
func Quotient(a, b decimal.Decimal) decimal.Decimal {
	// The quotient lies between 10^(magnitude−1) and 10^(magnitude+1).
	magnitude := int32(a.NumDigits()) + a.Exponent() - int32(b.NumDigits()) - b.Exponent()
	q := a.DivRound(b, Digits-magnitude)
	if q.NumDigits() > Digits { // it had a digit more before the point
		q = a.DivRound(b, Digits-magnitude-1)
	}
	return q
}
