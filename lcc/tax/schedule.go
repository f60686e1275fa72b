package tax

import (
	"slices"

	"github.com/shopspring/decimal"
)

// Table names how a basis is spread over years.
type Table uint8

// The tables.
const (
	StraightLine Table = iota // equal amounts over Schedule.Years years, a full year's from the first
	MACRS5                    // [P946, table A-1], half-year convention
	MACRS7                    // the same
	MACRS15                   // the same
	MACRS27                   // 27.5 years, mid-month convention, computed
	MACRS39                   // [P946, table A-7a], mid-month convention
)

// Schedule spreads a basis over years.
type Schedule struct {
	Table Table
	Years int // of StraightLine, 1 or more; else 0
}

// Named are the tables that study files name, in the order of messages.
func Named() []Table { return []Table{MACRS5, MACRS7, MACRS15, MACRS27, MACRS39} }

var tableNames = [...]string{"straight_line", "macrs_5_year", "macrs_7_year", "macrs_15_year", "macrs_27_5_year", "macrs_39_year"}

// String gives the name used in study files.
func (t Table) String() string { return tableNames[t] }

// ByMonth tells whether the table depends on the month in which the property
// is placed in service.
func (t Table) ByMonth() bool { return t == MACRS27 || t == MACRS39 }

// Shares is the share of the basis that is deducted in each year, from the one
// in which the property is placed in service; they add up to 1, those that are
// computed to within 10^−40. The month is 1 to 12.
func (s Schedule) Shares(month int) []decimal.Decimal {
	switch s.Table {
	case MACRS5:
		return printed(halfYear5)
	case MACRS7:
		return printed(halfYear7)
	case MACRS15:
		return printed(halfYear15)
	case MACRS39:
		return midMonth39(month)
	case MACRS27:
		return midMonth27(month)
	}
	return slices.Repeat([]decimal.Decimal{part(1, s.Years)}, s.Years)
}

// digits is how many decimals a computed share has.
const digits = 50

func part(of, whole int) decimal.Decimal {
	return decimal.NewFromInt(int64(of)).DivRound(decimal.NewFromInt(int64(whole)), digits)
}

// printed takes thousandths of a per cent as fractions.
func printed(thousandths []int64) []decimal.Decimal {
	out := make([]decimal.Decimal, len(thousandths))
	for i, p := range thousandths {
		out[i] = decimal.New(p, -5)
	}
	return out
}

// midMonth39 is the column of table A-7a for a month.
func midMonth39(month int) []decimal.Decimal {
	column := append([]int64{firstOf39[month-1]}, slices.Repeat([]int64{middleOf39}, 38)...)
	return printed(append(column, lastOf39[month-1]))
}

// midMonth27 is straight line over 27.5 years from the middle of a month, in
// parts of half a month: a year has 24 of 660. It is computed: the print of
// table A-6, row by row, was not seen, only its first and last rows, which these
// shares round to.
func midMonth27(month int) []decimal.Decimal {
	const year, whole = 24, 660
	out := []decimal.Decimal{part(year+1-2*month, whole)}
	for left := whole - (year + 1 - 2*month); left > 0; left -= year {
		out = append(out, part(min(left, year), whole))
	}
	return out
}

// The half-year tables [P946, table A-1], in thousandths of a per cent, years 1
// to the last. Where straight line takes over the print alternates the last
// digit, so that each column adds up to 100 %.
var (
	halfYear5  = []int64{20_000, 32_000, 19_200, 11_520, 11_520, 5_760}
	halfYear7  = []int64{14_290, 24_490, 17_490, 12_490, 8_930, 8_920, 8_930, 4_460}
	halfYear15 = []int64{5_000, 9_500, 8_550, 7_700, 6_930, 6_230, 5_900, 5_900, 5_910, 5_900, 5_910, 5_900, 5_910, 5_900, 5_910, 2_950}
)

// Table A-7a [P946], in thousandths of a per cent, for months 1 to 12: years 1
// and 40, and years 2 to 39 alike. The print steps by 0.214 from 0.107; it is not
// (12.5 − month)/12/39 rounded, which gives 2.457 for month 1.
var (
	firstOf39 = [12]int64{2_461, 2_247, 2_033, 1_819, 1_605, 1_391, 1_177, 963, 749, 535, 321, 107}
	lastOf39  = [12]int64{107, 321, 535, 749, 963, 1_177, 1_391, 1_605, 1_819, 2_033, 2_247, 2_461}
)

const middleOf39 = 2_564
