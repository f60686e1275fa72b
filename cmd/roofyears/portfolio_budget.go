package main

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"

	"roofyears/lcc"
	"roofyears/lcc/budget"
	"roofyears/scenarios"
)

// yearly is a number for each of some calendar years.
type yearly struct {
	flag  string
	years map[int]decimal.Decimal
}

// yearlyFlag reads YEAR=NUMBER, several with commas between, or FIRST-LAST=NUMBER
// for every year alike.
func yearlyFlag(ctx *cli.Context, flag string) (yearly, error) {
	y := yearly{flag, map[int]decimal.Decimal{}}
	for _, given := range ctx.StringSlice(flag) {
		for _, pair := range strings.Split(given, ",") {
			if err := y.add(strings.TrimSpace(pair)); err != nil {
				return y, err
			}
		}
	}
	return y, nil
}

func (y yearly) add(pair string) error {
	span, text, _ := strings.Cut(pair, "=")
	first, last, ok := scenarios.ParseYears(span)
	amount, err := decimal.NewFromString(strings.ReplaceAll(text, "_", ""))
	if !ok || err != nil || amount.IsNegative() {
		return usageError{"portfolio", fmt.Sprintf("--%s: found %q, expected YEAR=NUMBER or FIRST-LAST=NUMBER, such as 2027=1500000 or 2027-2031=1500000", y.flag, pair)}
	}
	for year := first; year <= last; year++ {
		if _, twice := y.years[year]; twice {
			return usageError{"portfolio", fmt.Sprintf("--%s says twice what %d has", y.flag, year)}
		}
		y.years[year] = amount
	}
	return nil
}

// last is the last year that is named; 0 when none is.
func (y yearly) last() int {
	last := 0
	for year := range y.years {
		last = max(last, year)
	}
	return last
}

// limits are the numbers as limits of the years from the first one on, in
// units of so many decimals. A year before it is refused. Of money every year
// needs a number, and none finer than the currency; an area is cut to its unit.
func (y yearly) limits(first, years int, digits int32, money bool) ([]budget.Limit, error) {
	for year := range y.years {
		if year < first {
			return nil, usageError{"portfolio", fmt.Sprintf("--%s names %d, but the base date of the study lies in %d: the plan's years begin there", y.flag, year, first)}
		}
	}
	out := make([]budget.Limit, years)
	for t := range out {
		amount, named := y.years[first+t]
		switch {
		case !named && money && len(y.years) > 0:
			return nil, usageError{"portfolio", fmt.Sprintf("--%s says nothing of %d; write %d=0 if it has none", y.flag, first+t, first+t)}
		case !named:
			continue
		}
		if !money {
			amount = amount.RoundFloor(digits)
		}
		minor := amount.Shift(digits)
		if !minor.IsInteger() || minor.GreaterThan(decimal.NewFromInt(lcc.MaxMinor)) {
			return nil, usageError{"portfolio", fmt.Sprintf("--%s: %s is finer than %s, or over %s", y.flag, amount, decimal.New(1, -digits), decimal.New(lcc.MaxMinor, -digits))}
		}
		out[t] = budget.AtMost(minor.IntPart())
	}
	return out, nil
}
