package report

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

// What a script writes by the form of a currency is what the currency library
// writes.
func TestMoneyFormWritesAsTheLibraryDoes(t *testing.T) {
	for _, c := range []Currency{{"USD", 2}, {"EUR", 2}, {"JPY", 0}, {"KWD", 3}, {"CHF", 2}, {"SEK", 2}, {"INR", 2}, {"XTS", 2}} {
		form := c.Form()
		for _, text := range []string{"0", "1", "-1", "999.5", "-1234.56", "1234567.89", "-9876543210"} {
			d := decimal.RequireFromString(text).Round(c.Digits)
			size := c.Plain(d.Abs())
			around, minus := form.Positive, ""
			if d.IsNegative() {
				around, minus = form.Negative, form.Minus
			}
			assert.Equal(t, c.Amount(d), around[0]+size+around[1], c.Code)
			assert.Equal(t, c.Plain(d), minus+size, c.Code)
			whole, _, _ := strings.Cut(size, ".")
			assert.Equal(t, grouped(strings.ReplaceAll(whole, ",", "")), whole, "groups of three")
		}
	}
}

func TestStopsAreInRangeAndFew(t *testing.T) {
	d := decimal.RequireFromString
	for _, c := range []struct{ low, own, high, step, first, second, last string }{
		{"0.0213", "0.03", "0.06", "0.0025", "0.0213", "0.0225", "0.06"},
		{"-0.01", "-0.01", "0.02", "0.0025", "-0.01", "-0.0075", "0.02"},
		{"0.5", "2.5", "4", "1", "0.5", "1", "4"},
		{"1", "40", "1000", "1", "1", "32", "1000"},
	} {
		stops := span{low: d(c.low), own: d(c.own), high: d(c.high)}.stops(d(c.step))
		assert.Equal(t, []string{c.first, c.second, c.last}, []string{stops[0].String(), stops[1].String(), stops[len(stops)-1].String()})
		assert.LessOrEqual(t, len(stops), mostPositions+3)
		own := 0
		for i, x := range stops {
			if x.Equal(d(c.own)) {
				own++
			}
			assert.True(t, i == 0 || x.GreaterThan(stops[i-1]))
		}
		assert.Equal(t, 1, own)
	}
}
