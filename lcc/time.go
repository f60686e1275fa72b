package lcc

import "github.com/shopspring/decimal"

// Time is a moment of the study in half years from the base date: 0 is the
// base date, 2·N the end of the study period.
type Time int

// YearEnd is the end of year t.
func YearEnd(t int) Time { return Time(2 * t) }

// Year is the whole year that a time belongs to: t − ½ belongs to year t.
func (t Time) Year() int { return (int(t) + 1) / 2 }

// Decimal is the time in years, exactly.
func (t Time) Decimal() decimal.Decimal {
	return decimal.NewFromInt(int64(t)).Mul(decimal.New(5, -1))
}

// running is when the annual and periodic costs of year t fall.
func (t Timing) running(year int) Time {
	if t == MidYear {
		return YearEnd(year) - 1
	}
	return YearEnd(year)
}
