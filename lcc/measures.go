package lcc

import (
	"github.com/shopspring/decimal"
)

// Measure is a figure that may have no meaning. Reason is "" when it has one.
type Measure struct {
	Value  decimal.Decimal
	Reason string
}

// Defined tells whether the measure has a value.
func (m Measure) Defined() bool { return m.Reason == "" }

// Payback is the whole year, 1 to N, in which the savings have paid for the
// extra first cost. Reason is "" when there is one.
type Payback struct {
	Year     int
	Reversal int // the first later year in which the balance is negative again; 0 when it never is
	Recovery int // the first year after Reversal in which it is not; 0 when it stays negative
	Reason   string
}

// Defined tells whether the extra first cost is paid back.
func (p Payback) Defined() bool { return p.Reason == "" }

// Comparison measures an alternative against the base case.
type Comparison struct {
	NetSavings decimal.Decimal // LCC(base) − LCC(alternative); negative when it loses
	SIR        Measure         // savings-to-investment ratio
	AIRR       Measure         // adjusted internal rate of return, a fraction a year
	Simple     Payback         // undiscounted, escalation kept
	Discounted Payback
}

// The reasons of what is not defined; NotReached is that of a payback that does
// not come.
const (
	NotReached        = "not reached within the study period"
	PaysAtOnce        = "it costs no more at the start than the base case, so any saving is immediate"
	NoExtraInvestment = "counting later work and what is left at the end, it asks for no more investment than the base case"
	RatioNotPositive  = "the savings-to-investment ratio is not positive"
)

// ratioPlaces is how many decimals SIR and AIRR carry.
const ratioPlaces = 12

// compare measures an alternative against the base case.
func (r *Result) compare(base, alt *Outcome) Comparison {
	c := Comparison{NetSavings: base.LCC.Sub(alt.LCC)}
	investBase, runBase := split(base.Ledger)
	investAlt, runAlt := split(alt.Ledger)
	c.SIR = sir(investBase, runBase, investAlt, runAlt)
	c.AIRR = airr(c.SIR, r.Rate, r.Study.Period)
	c.Simple = payback(base, alt, r.Study.Period, func(l Line) decimal.Decimal { return l.Amount })
	c.Discounted = payback(base, alt, r.Study.Period, func(l Line) decimal.Decimal { return l.PV })
	return c
}

// sir is the savings in operation-related costs over the extra
// investment-related costs, present values [10CFR436, 436.21; E917]. First
// costs, replacements, recoats and removal, less residual value, are
// investment; annual and periodic costs are operation.
func sir(investBase, runBase, investAlt, runAlt decimal.Decimal) Measure {
	extra := investAlt.Sub(investBase)
	if !extra.IsPositive() {
		return Measure{Reason: NoExtraInvestment}
	}
	return Measure{Value: runBase.Sub(runAlt).DivRound(extra, ratioPlaces)}
}

// split gives the investment-related and the operation-related present value.
func split(ledger []Line) (invest, run decimal.Decimal) {
	for _, line := range ledger {
		if line.Kind.Investment() {
			invest = invest.Add(line.PV)
		} else {
			run = run.Add(line.PV)
		}
	}
	return invest, run
}

// airr is (1+r)·SIR^(1/N) − 1 with the reinvestment rate r equal to the
// discount rate [10CFR436, 436.22; E917].
func airr(ratio Measure, rate decimal.Decimal, n int) Measure {
	switch {
	case !ratio.Defined():
		return Measure{Reason: ratio.Reason}
	case !ratio.Value.IsPositive():
		return Measure{Reason: RatioNotPositive}
	}
	exponent := quo(one, decimal.NewFromInt(int64(n)))
	growth, err := ratio.Value.PowWithPrecision(exponent, 2*ratioPlaces)
	if err != nil {
		return Measure{Reason: "the savings-to-investment ratio has no such root"}
	}
	return Measure{Value: one.Add(rate).Mul(growth).Sub(one).Round(ratioPlaces)}
}

// payback finds the first whole year whose cumulated net savings reach the
// extra cost at time 0, `of` giving what a line counts [10CFR436, 436.23;
// E917]. All costs of years 1 to N count, the residual values in year N too.
func payback(base, alt *Outcome, n int, of func(Line) decimal.Decimal) Payback {
	savings := make([]decimal.Decimal, n+1)
	for _, line := range base.Ledger {
		savings[line.Time.Year()] = savings[line.Time.Year()].Add(of(line))
	}
	for _, line := range alt.Ledger {
		savings[line.Time.Year()] = savings[line.Time.Year()].Sub(of(line))
	}
	balance := savings[0] // minus the extra first cost
	if !balance.IsNegative() {
		return Payback{Reason: PaysAtOnce}
	}
	p := Payback{Reason: NotReached}
	for year := 1; year <= n; year++ {
		balance = balance.Add(savings[year])
		switch {
		case p.Year == 0 && !balance.IsNegative():
			p = Payback{Year: year}
		case p.Year > 0 && p.Reversal == 0 && balance.IsNegative():
			p.Reversal = year
		case p.Reversal > 0 && p.Recovery == 0 && !balance.IsNegative():
			p.Recovery = year
		}
	}
	return p
}

// Cumulative is the cost up to and including each year 0..N in present
// values; the entry of year N has the residual value deducted and is the LCC.
func (o *Outcome) Cumulative(n int) []decimal.Decimal {
	return o.cumulate(n, func(l Line) decimal.Decimal { return l.PV })
}

func (o *Outcome) cumulate(n int, of func(Line) decimal.Decimal) []decimal.Decimal {
	out := o.byYear(n, of)
	for year := 1; year <= n; year++ {
		out[year] = out[year].Add(out[year-1])
	}
	return out
}

// PaidIn is what is paid in each year 0..N, residual value left out: it is a
// worth, no payment. In money of the day when the study can tell it (see
// Result.HasCurrentMoney), else in money of the base date.
func (r *Result) PaidIn(alternative int) []decimal.Decimal {
	current := r.HasCurrentMoney()
	return r.Alternatives[alternative].byYear(r.Study.Period, func(l Line) decimal.Decimal {
		switch {
		case l.Kind == ResidualValue:
			return decimal.Zero
		case current:
			return l.Current
		}
		return l.Amount
	})
}

// HasCurrentMoney tells whether ledger lines know their amount in money of
// the day: a nominal study does, a real one when it states inflation.
func (r *Result) HasCurrentMoney() bool {
	return r.Study.Basis == Nominal || r.Study.Inflation != NoRef
}

func (o *Outcome) byYear(n int, of func(Line) decimal.Decimal) []decimal.Decimal {
	out := make([]decimal.Decimal, n+1)
	for _, line := range o.Ledger {
		y := line.Time.Year()
		out[y] = out[y].Add(of(line))
	}
	return out
}
