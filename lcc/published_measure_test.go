package lcc

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// publishedMeasures are the figures of an alternative that cases can name.
var publishedMeasures = map[string]func(r *Result, i int) (any, error){
	"lcc":          func(r *Result, i int) (any, error) { return r.Alternatives[i].LCC, nil },
	"annual_worth": func(r *Result, i int) (any, error) { return r.Alternatives[i].AnnualWorth, nil },
	// present value of annual and periodic costs
	"operation": func(r *Result, i int) (any, error) {
		_, run := split(r.Alternatives[i].Ledger)
		return run, nil
	},
	// the life-cycle cost carried to the end of the study
	"future_worth": func(r *Result, i int) (any, error) {
		return quo(r.Alternatives[i].LCC, SinglePresentValue(r.Rate, r.Study.Period)), nil
	},
	// capitalised cost: the annual worth of one cycle, paid for ever
	"capitalised": func(r *Result, i int) (any, error) { return quo(r.Alternatives[i].AnnualWorth, r.Rate), nil },
	"net_savings": againstBase(func(_ *Result, c *Comparison) (any, error) { return c.NetSavings, nil }),
	"airr":        againstBase(func(_ *Result, c *Comparison) (any, error) { return definedValue(c.AIRR) }),
	// net savings over investment
	"sir_less_1": againstBase(func(_ *Result, c *Comparison) (any, error) {
		sir, err := definedValue(c.SIR)
		return sir.Sub(one), err
	}),
	"simple_payback":     againstBase(func(_ *Result, c *Comparison) (any, error) { return paybackYear(c.Simple) }),
	"discounted_payback": againstBase(func(_ *Result, c *Comparison) (any, error) { return paybackYear(c.Discounted) }),
	"simple_payback_within": func(r *Result, i int) (any, error) {
		return paybackWithin(r, i, func(c *Comparison) Payback { return c.Simple }, func(l Line) decimal.Decimal { return l.Amount })
	},
	"discounted_payback_within": func(r *Result, i int) (any, error) {
		return paybackWithin(r, i, func(c *Comparison) Payback { return c.Discounted }, func(l Line) decimal.Decimal { return l.PV })
	},
	"irr": publishedIRR,
}

// publishedYearMeasures are the figures of an alternative in a year.
var publishedYearMeasures = map[string]func(r *Result, i int) ([]decimal.Decimal, error){
	"amount": func(r *Result, i int) ([]decimal.Decimal, error) {
		return r.Alternatives[i].byYear(r.Study.Period, func(l Line) decimal.Decimal { return l.Amount }), nil
	},
	"pv": func(r *Result, i int) ([]decimal.Decimal, error) {
		return r.Alternatives[i].byYear(r.Study.Period, func(l Line) decimal.Decimal { return l.PV }), nil
	},
	"cumulative": func(r *Result, i int) ([]decimal.Decimal, error) {
		return r.Alternatives[i].Cumulative(r.Study.Period), nil
	},
	"cumulative_amount": func(r *Result, i int) ([]decimal.Decimal, error) {
		return r.Alternatives[i].cumulate(r.Study.Period, func(l Line) decimal.Decimal { return l.Amount }), nil
	},
	// cumulated net savings against the base case, discounted
	"balance": func(r *Result, i int) ([]decimal.Decimal, error) {
		return publishedBalance(r, i, func(l Line) decimal.Decimal { return l.PV })
	},
}

// againstBase reads a figure of an alternative's comparison with the base case.
func againstBase(read func(*Result, *Comparison) (any, error)) func(*Result, int) (any, error) {
	return func(r *Result, i int) (any, error) {
		c := r.Alternatives[i].AgainstBase
		if c == nil {
			return nil, fmt.Errorf("there is no base case to compare with")
		}
		return read(r, c)
	}
}

func definedValue(m Measure) (decimal.Decimal, error) {
	if !m.Defined() {
		return decimal.Zero, fmt.Errorf("undefined: %s", m.Reason)
	}
	return m.Value, nil
}

func paybackYear(p Payback) (decimal.Decimal, error) {
	if !p.Defined() {
		return decimal.Zero, fmt.Errorf("undefined: %s", p.Reason)
	}
	return decimal.NewFromInt(int64(p.Year)), nil
}

// publishedBalance is the cumulated net savings against the base case by year.
func publishedBalance(r *Result, i int, of func(Line) decimal.Decimal) ([]decimal.Decimal, error) {
	base := r.Study.BaseCase()
	if base < 0 {
		return nil, fmt.Errorf("there is no base case to compare with")
	}
	out := r.Alternatives[base].cumulate(r.Study.Period, of)
	for year, cost := range r.Alternatives[i].cumulate(r.Study.Period, of) {
		out[year] = out[year].Sub(cost)
	}
	return out, nil
}

// paybackWithin is where a straight line between the balances of the
// engine's payback year and the year before crosses zero.
func paybackWithin(r *Result, i int, which func(*Comparison) Payback, of func(Line) decimal.Decimal) (any, error) {
	c := r.Alternatives[i].AgainstBase
	if c == nil {
		return nil, fmt.Errorf("there is no base case to compare with")
	}
	p := which(c)
	if _, err := paybackYear(p); err != nil {
		return nil, err
	}
	b, err := publishedBalance(r, i, of)
	if err != nil {
		return nil, err
	}
	before, after := b[p.Year-1], b[p.Year]
	if !before.IsNegative() || after.IsNegative() {
		return nil, fmt.Errorf("the balance goes from %s to %s in the payback year", before, after)
	}
	return decimal.NewFromInt(int64(p.Year - 1)).Add(quo(before, before.Sub(after))), nil
}

// publishedIRR is the one discount rate at which an alternative ties with the
// base case.
func publishedIRR(r *Result, i int) (any, error) {
	var found []Crossover
	for _, c := range r.Crossovers {
		if c.Between(i, r.Study.BaseCase()) {
			found = append(found, c)
		}
	}
	if len(found) != 1 || !found[0].Crosses() {
		return nil, fmt.Errorf("%d rates tie with the base case: %v", len(found), found)
	}
	return found[0].Rate, nil
}
