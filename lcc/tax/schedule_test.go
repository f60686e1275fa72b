package tax

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// published are the printed tables, with their source in the file.
type published struct {
	Months []struct {
		Month int
		Year1 string `json:"year_1"`
		Years string `json:"years_2_to_39"`
		Last  string `json:"year_40"`
	} `json:"table_A7a_39_year_mid_month"`
	HalfYear map[string][]string `json:"table_A1_half_year"`
	Months27 struct {
		Year1  []string `json:"year_1"`
		Year28 []string `json:"year_28"`
		Year29 []string `json:"year_29"`
	} `json:"table_A6_27_5_year_mid_month"`
	Immediate struct {
		Purchases, Limit, Threshold string
		Most                        string `json:"most_deducted"`
	} `json:"immediate_expensing_limit"`
}

func readPublished(t *testing.T) published {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/tax/depreciation.json")
	require.NoError(t, err)
	var p published
	require.NoError(t, json.Unmarshal(text, &p))
	require.Len(t, p.Months, 12)
	require.Len(t, p.HalfYear, 3)
	return p
}

// percent reads a printed percentage as a fraction.
func percent(text string) decimal.Decimal { return dec(text).Shift(-2) }

func assertShare(t *testing.T, want string, got decimal.Decimal, context string) {
	t.Helper()
	assert.True(t, percent(want).Equal(got), "%s: printed %s %%, found %s", context, want, got.Shift(2))
}

func TestThirtyNineYearsAreAsPrinted(t *testing.T) {
	for _, row := range readPublished(t).Months {
		shares := Schedule{Table: MACRS39}.Shares(row.Month)
		require.Len(t, shares, 40)
		month := fmt.Sprintf("month %d", row.Month)
		assertShare(t, row.Year1, shares[0], month+", year 1")
		for i, share := range shares[1:39] {
			assertShare(t, row.Years, share, fmt.Sprintf("%s, year %d", month, i+2))
		}
		assertShare(t, row.Last, shares[39], month+", year 40")
	}
}

// The print steps by 0.214 points a month from 0.107, and each column adds up to 100.
func TestThirtyNineYearsFollowThePrintsRule(t *testing.T) {
	for month := 1; month <= 12; month++ {
		shares := Schedule{Table: MACRS39}.Shares(month)
		at := func(steps int) decimal.Decimal {
			return dec("0.00107").Add(dec("0.00214").Mul(decimal.NewFromInt(int64(steps))))
		}
		assert.True(t, at(12-month).Equal(shares[0]), month)
		assert.True(t, at(month-1).Equal(shares[39]), month)
		assert.Equal(t, "1", decimal.Sum(shares[0], shares[1:]...).String(), month)
	}
}

func TestHalfYearTablesAreAsPrinted(t *testing.T) {
	print := readPublished(t).HalfYear
	for class, table := range map[string]Table{"5": MACRS5, "7": MACRS7, "15": MACRS15} {
		shares := Schedule{Table: table}.Shares(10)
		require.Len(t, shares, len(print[class]))
		for i, want := range print[class] {
			assertShare(t, want, shares[i], fmt.Sprintf("%s years, year %d", class, i+1))
		}
		assert.Equal(t, "1", decimal.Sum(shares[0], shares[1:]...).String(), class)
	}
}

// The half-year tables come from 200 % (15 years: 150 %) declining balance, straight line once that
// is more, half a year in the first and last; the print differs by 0.006 points at most.
func TestHalfYearTablesFollowTheirRule(t *testing.T) {
	for table, years := range map[Table]int64{MACRS5: 5, MACRS7: 7, MACRS15: 15} {
		factor := dec("2")
		if table == MACRS15 {
			factor = dec("1.5")
		}
		life, left := decimal.NewFromInt(years), one
		for i, printed := range (Schedule{Table: table}).Shares(1) {
			declining := left.Mul(factor).Div(life)
			yearsLeft := life.Sub(decimal.NewFromInt(int64(i))).Add(dec("0.5"))
			if i == 0 {
				declining, yearsLeft = declining.Div(dec("2")), life.Mul(dec("2"))
			}
			share := decimal.Min(left, decimal.Max(declining, left.Div(decimal.Max(one, yearsLeft))))
			assert.True(t, share.Sub(printed).Abs().LessThanOrEqual(dec("0.00006")), "%s, year %d: %s and %s", table, i+1, share, printed)
			left = left.Sub(share)
		}
		assert.True(t, left.Abs().LessThan(dec("1e-12")), "%s: %s is left", table, left)
	}
}

// The computed table for 27.5 years rounds to the first and the last rows of the print.
func TestTwentySevenYearsRoundToThePrint(t *testing.T) {
	print := readPublished(t).Months27
	for month := 1; month <= 12; month++ {
		shares := Schedule{Table: MACRS27}.Shares(month)
		at := func(year int) decimal.Decimal {
			if year > len(shares) {
				return decimal.Zero
			}
			return shares[year-1].Round(5)
		}
		assertShare(t, print.Year1[month-1], at(1), fmt.Sprintf("month %d, year 1", month))
		assertShare(t, print.Year28[month-1], at(28), fmt.Sprintf("month %d, year 28", month))
		assertShare(t, print.Year29[month-1], at(29), fmt.Sprintf("month %d, year 29", month))
		for _, share := range shares[1:27] {
			assert.Equal(t, "0.03636", share.Round(5).String())
		}
		assert.Equal(t, "1", decimal.Sum(shares[0], shares[1:]...).Round(45).String(), month)
	}
}

func TestStraightLineIsEqualAmounts(t *testing.T) {
	shares := Schedule{Years: 3}.Shares(7)
	require.Len(t, shares, 3)
	for _, share := range shares {
		assert.Equal(t, "0.3333333333", share.Round(10).String())
	}
}
