package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"

	"roofyears/lcc"
	"roofyears/lcc/budget"
	"roofyears/lcc/plan"
	"roofyears/lcc/risk"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
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

// wanted is what the command line asks for beside the rows.
type wanted struct {
	plan         bool   // with the limits that the template states
	money, crews yearly // of a plan; where empty, those that the template states
	trials       int    // of a simulation; 0 for none
	seed         uint64
}

func wantedFlags(ctx *cli.Context) (w wanted, err error) {
	if w.trials, w.seed = ctx.Int("trials"), ctx.Uint64("seed"); w.trials < 0 || w.trials > risk.MaxRoofsTrials {
		return w, usageError{"portfolio", fmt.Sprintf("--trials is %d, expected 1 to %d", w.trials, risk.MaxRoofsTrials)}
	}
	if w.money, err = yearlyFlag(ctx, "budget"); err != nil {
		return w, err
	}
	w.crews, err = yearlyFlag(ctx, "crew")
	w.plan = ctx.Bool("plan")
	return w, err
}

// stated takes what the command line does not say from the template.
func (w wanted) stated(by scenarios.Portfolio) (wanted, error) {
	if len(w.money.years) == 0 && by.Budget != nil {
		w.money.years = by.Budget
	}
	if len(w.crews.years) == 0 && by.Crew != nil {
		w.crews.years = by.Crew
	}
	if len(w.money.years)+len(w.crews.years) == 0 {
		return w, usageError{"portfolio", "--plan needs a budget: the template states none, so say --budget YEAR=AMOUNT"}
	}
	return w, nil
}

// plans tells whether a plan is asked for.
func (w wanted) plans() bool { return w.plan || len(w.money.years)+len(w.crews.years) > 0 }

// The columns of a table that bind a plan.
const (
	mustDo    = "must_do"
	notBefore = "not_before"
	only      = "only"
)

var planColumns = []string{mustDo, notBefore, only}

// planning is a plan that is made for the roofs of a table.
type planning struct {
	first  int // calendar year of the base date
	years  int
	limits plan.Limits
	lays   []*plan.Template // by template
}

// newPlanning prepares a plan over studies that add up.
func newPlanning(w wanted, templates []portfolio.Template) (*planning, error) {
	study := templates[0].File.Study
	about := study.About
	first, err := strconv.Atoi(about.BaseDate[:4])
	if err != nil {
		return nil, fmt.Errorf("the base date %s has no year: %w", about.BaseDate, err)
	}
	p := &planning{first: first, years: max(w.money.last(), w.crews.last()) - first + 1}
	if end := first + study.Period; first+p.years > end {
		return nil, usageError{"portfolio", fmt.Sprintf("the plan reaches %d, but the study period ends in %d", first+p.years-1, end)}
	}
	if p.limits.Money, err = w.money.limits(first, p.years, about.Digits, true); err != nil {
		return nil, err
	}
	if p.limits.Crews, err = w.crews.limits(first, p.years, areaDigits, false); err != nil {
		return nil, err
	}
	for _, template := range templates {
		lay, err := plan.NewTemplate(template.File.Study, p.years)
		if err == nil && len(p.lays) > 0 {
			err = p.lays[0].Agree(lay)
		}
		if err != nil {
			return nil, &portfolio.Unreadable{File: template.File.Source.Name, Reason: err.Error()}
		}
		p.lays = append(p.lays, lay)
	}
	return p, nil
}

// areaDigits are the decimals to which a plan counts areas.
const areaDigits = 2

// rules reads what binds a roof; wrong is the column with the mistake.
func (p *planning) rules(asked []string, study *lcc.Study) (r plan.Rules, wrong int, err error) {
	if r.MustDo, err = p.mustDo(asked[0]); err != nil {
		return r, 0, err
	}
	if text := asked[1]; text != "" {
		year, err := p.year(text)
		if err != nil {
			return r, 1, err
		}
		r.NotBefore = max(0, year-p.first)
	}
	if text := asked[2]; text != "" {
		at := slices.IndexFunc(study.Alternatives, func(a lcc.Alternative) bool { return a.Name == text })
		if at < 0 {
			return r, 2, fmt.Errorf("%q is no alternative of the roof's template", text)
		}
		r.Only = plan.Just(at)
	}
	return r, 0, nil
}

// mustDo reads yes, no or the last year in which a roof's work may start. A
// workbook's own yes and no are true and false.
func (p *planning) mustDo(text string) (plan.Optional, error) {
	switch strings.ToLower(text) {
	case "", "no", "false":
		return plan.Optional{}, nil
	case "yes", "true":
		return plan.Just(p.years - 1), nil
	}
	year, err := p.year(text)
	switch {
	case err != nil:
		return plan.Optional{}, fmt.Errorf("%q is neither yes, no nor a year such as %d", text, p.first)
	case year < p.first || year >= p.first+p.years:
		return plan.Optional{}, fmt.Errorf("%q is outside the years of the plan, %d to %d", text, p.first, p.first+p.years-1)
	}
	return plan.Just(year - p.first), nil
}

func (p *planning) year(text string) (int, error) {
	year, err := strconv.Atoi(text)
	if err != nil || len(text) != 4 {
		return 0, fmt.Errorf("%q is no year, expected one such as %d", text, p.first)
	}
	return year, nil
}
