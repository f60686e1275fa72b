package tax

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Result is a study after tax.
type Result struct {
	Terms  *Terms
	Before *lcc.Result // the study, at its own discount rate
	Rates
	Month        int       // in which property is placed in service, 1 to 12
	Alternatives []Outcome // in the order of the study

	Lowest   int             // eligible alternative of the lowest life-cycle cost after tax; −1 when none is eligible
	RunnerUp int             // the next eligible one; −1 when there is none
	Margin   decimal.Decimal // between the two; 0 without a runner-up
	Tie      bool            // the margin is nothing, or under lcc.TieShare
}

// Outcome is what one alternative costs after tax.
type Outcome struct {
	Ledger      []lcc.Line       // before tax, at the after-tax discount rate
	Costs       decimal.Decimal  // sum of its present values, residual value deducted
	Vintages    []Vintage        // what is depreciated; none when all is expensed or not deducted
	Lines       []Line           // by year
	Tax         decimal.Decimal  // sum of the present values of the lines; negative: tax is saved
	LCC         decimal.Decimal  // Costs + Tax
	AnnualWorth decimal.Decimal  // LCC × capital recovery at the after-tax rate, in the basis of the study
	NetSavings  *decimal.Decimal // LCC(base) − LCC; nil for the base case, and where there is none
}

// Kind says why a line of the tax ledger is there.
type Kind uint8

// The kinds of lines.
const (
	Expense        Kind = iota // cost deducted in its year
	AtOnce                     // part of a depreciated cost that is deducted at once, within the limit
	Depreciation               // a year's deduction of a vintage
	TornOff                    // basis written off because the roof was torn off
	EndOfStudy                 // basis written off because the study ends
	ResidualTaxed              // tax on residual value
	CreditReceived             // credit or rebate: no deduction, the money itself
	CreditTaxed                // tax on it
)

var kindNames = [...]string{"expense", "at_once", "depreciation", "torn_off", "end_of_study", "residual", "credit", "credit_taxed"}

// String gives the name used in answers.
func (k Kind) String() string { return kindNames[k] }

// Line is one dated effect of tax, in money of the day.
type Line struct {
	Year      int // of the study, at the end of which it falls; after the study: greater than its period
	Kind      Kind
	System    int             // whose cost, value or credit it is; BeforeStudy for the roof that was there
	Cost      lcc.Kind        // of deductions: the kind of cost
	Vintage   int             // index among the vintages; −1 when it is of none
	Name      string          // of a credit; else ""
	Deduction decimal.Decimal // what it takes off taxable income; negative is income, 0 of a credit received
	Amount    decimal.Decimal // tax; negative is tax saved or a credit
	PV        decimal.Decimal // of the amount, at the base date
}

// BeforeStudy stands for a system where the basis is of the time before.
const BeforeStudy = -1

// Evaluate gives the study after tax. It fails when a real study states no
// inflation, when a cost has no treatment, when the base date is no date, and when
// the after-tax discount rate is out of the range of rates.
func Evaluate(before *lcc.Result, terms *Terms) (*Result, error) {
	rates, err := terms.Rates(before.Study, before.Inputs)
	if err != nil {
		return nil, err
	}
	if err := terms.treatAll(before); err != nil {
		return nil, err
	}
	r := &Result{Terms: terms, Before: before, Rates: rates}
	date, err := time.Parse(time.DateOnly, before.Study.About.BaseDate)
	if err != nil {
		return nil, err
	}
	r.Month = int(date.Month())
	v := slices.Clone(before.Inputs)
	v[before.Study.Rate] = r.AfterTax
	after, err := before.Study.EvaluateAt(v)
	if err != nil {
		return nil, err
	}
	for i := range after.Alternatives {
		r.Alternatives = append(r.Alternatives, r.outcome(&after.Alternatives[i]))
	}
	r.answer()
	if base := before.Study.BaseCase(); base >= 0 {
		for i := range r.Alternatives {
			if i != base {
				savings := r.Alternatives[base].LCC.Sub(r.Alternatives[i].LCC)
				r.Alternatives[i].NetSavings = &savings
			}
		}
	}
	return r, nil
}

// treatAll tells a cost without a treatment: none is assumed.
func (t *Terms) treatAll(before *lcc.Result) error {
	for i := range before.Alternatives {
		for _, line := range before.Alternatives[i].Ledger {
			if line.Kind != lcc.ResidualValue && (line.Tax < 1 || line.Tax > len(t.Treatment)) {
				return fmt.Errorf("the cost %q has no tax treatment", line.Item)
			}
		}
	}
	return nil
}

// Rates are discount rates of a study with tax terms.
type Rates struct {
	AfterTax      decimal.Decimal // in the basis of the study
	Nominal       decimal.Decimal // the same with general inflation, for tax, which is in money of the day
	PretaxNominal decimal.Decimal // the study's own with general inflation
}

// Rates finds the discount rates of a study at a vector. It fails when the study
// states no inflation, and when the after-tax rate is out of the range of rates.
func (t *Terms) Rates(s *lcc.Study, v lcc.Vector) (Rates, error) {
	if s.Inflation == lcc.NoRef {
		return Rates{}, errors.New("tax is paid in money of the day, so the study has to state general inflation")
	}
	inflation := v[s.Inflation]
	nominal := func(rate decimal.Decimal) decimal.Decimal {
		if s.Basis == lcc.Nominal {
			return rate
		}
		return lcc.NominalRate(rate, inflation)
	}
	r := Rates{PretaxNominal: nominal(v[s.Rate])}
	switch {
	case t.AfterTax != nil:
		r.AfterTax, r.Nominal = *t.AfterTax, nominal(*t.AfterTax)
	case s.Basis == lcc.Real:
		r.Nominal = r.PretaxNominal.Mul(one.Sub(t.Rate.All))
		r.AfterTax = lcc.RealRate(r.Nominal, inflation)
	default:
		r.Nominal = r.PretaxNominal.Mul(one.Sub(t.Rate.All))
		r.AfterTax = r.Nominal
	}
	if err := lcc.CheckRate(r.AfterTax); err != nil {
		return Rates{}, fmt.Errorf("the after-tax discount %w", err)
	}
	return r, nil
}

// outcome is one alternative after tax.
func (r *Result) outcome(after *lcc.Outcome) Outcome {
	k := r.keeper(after)
	out := Outcome{Ledger: after.Ledger, Costs: after.LCC, Vintages: k.vintages, Lines: k.lines}
	for _, line := range k.lines {
		out.Tax = out.Tax.Add(line.PV)
	}
	out.LCC = out.Costs.Add(out.Tax)
	s := r.Before.Study
	out.AnnualWorth = s.ToMinor(out.LCC.Mul(lcc.CapitalRecovery(r.AfterTax, s.Period)))
	return out
}

// answer finds the alternative that costs least after tax, and the next one.
func (r *Result) answer() {
	less := func(i, j int) bool { return r.Alternatives[i].LCC.LessThan(r.Alternatives[j].LCC) }
	if r.Lowest, r.RunnerUp = r.Before.Study.Rank(less); r.RunnerUp >= 0 {
		r.Margin = r.Alternatives[r.RunnerUp].LCC.Sub(r.Alternatives[r.Lowest].LCC)
		r.Tie = lcc.IsTie(r.Margin, r.Alternatives[r.Lowest].LCC)
	}
}

// Sum is the present value of the lines of some kinds, after the study or not.
func (o *Outcome) Sum(holds func(Line) bool) decimal.Decimal {
	sum := decimal.Zero
	for _, line := range o.Lines {
		if holds(line) {
			sum = sum.Add(line.PV)
		}
	}
	return sum
}

var one = decimal.NewFromInt(1)
