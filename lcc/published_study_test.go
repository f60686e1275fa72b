package lcc

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc/checks"
)

// publishedStudy is the study of a published case. Rates are written as in
// readRate.
type publishedStudy struct {
	Period       int                        `json:"period"`
	Periods      []int                      `json:"periods"` // instead of one period: the study at each of them
	Rate         string                     `json:"rate"`
	Range        []string                   `json:"range"`     // least and greatest discount rate to look for ties at
	Timing       string                     `json:"timing"`    // end-of-year when not given
	Basis        string                     `json:"basis"`     // real when not given
	Inflation    string                     `json:"inflation"` // none when not given
	Escalation   map[string]publishedRates  `json:"escalation"`
	Quantities   map[string]decimal.Decimal `json:"quantities"`
	Base         string                     `json:"base"` // name of the base case
	Digits       int32                      `json:"-"`    // of the minor unit; publishedDigits when 0
	Alternatives []publishedAlternative     `json:"alternatives"`
}

// publishedDigits are the digits that published studies carry, finer than a
// cent: the publications do not round line by line.
const publishedDigits = 8

// publishedAlternative is one system replaced by itself, or, when it has
// amounts of single years, a chain of systems that last a year.
type publishedAlternative struct {
	Name     string                  `json:"name"`
	Category string                  `json:"category"` // of annual and yearly costs; maintenance when not given
	First    publishedCosts          `json:"first"`
	Life     int                     `json:"life"`   // the study period when not given
	Annual   publishedCosts          `json:"annual"` // every year
	Growth   string                  `json:"growth"` // of annual costs with age
	Yearly   []decimal.Decimal       `json:"yearly"` // years 1, 2, ... one by one
	At       map[int]decimal.Decimal `json:"at"`     // single years
	Salvage  *decimal.Decimal        `json:"salvage"`
	Residual publishedAmounts        `json:"residual"` // at the end only; one for each of the periods
}

// publishedRates is a rate or a list of one a year.
type publishedRates []string

func (r *publishedRates) UnmarshalJSON(data []byte) error { return oneOrMoreJSON(data, (*[]string)(r)) }

// publishedAmounts is an amount or a list.
type publishedAmounts []decimal.Decimal

func (a *publishedAmounts) UnmarshalJSON(data []byte) error {
	return oneOrMoreJSON(data, (*[]decimal.Decimal)(a))
}

// publishedCost is an amount, or a price per unit of a quantity.
type publishedCost struct {
	Price decimal.Decimal `json:"price"`
	Per   string          `json:"per"`
}

func (c *publishedCost) UnmarshalJSON(data []byte) error {
	if data[0] == '{' {
		type plain publishedCost
		return checks.Strict(data, (*plain)(c))
	}
	return json.Unmarshal(data, &c.Price)
}

// publishedCosts is a cost or a list of them.
type publishedCosts []publishedCost

func (c *publishedCosts) UnmarshalJSON(data []byte) error {
	return oneOrMoreJSON(data, (*[]publishedCost)(c))
}

func oneOrMoreJSON[T any](data []byte, into *[]T) error {
	if bytes.HasPrefix(data, []byte("[")) {
		return checks.Strict(data, into)
	}
	*into = make([]T, 1)
	return checks.Strict(data, &(*into)[0])
}

// atPeriod is the study with the n-th of its periods.
func (p publishedStudy) atPeriod(n int) publishedStudy {
	p.Period, p.Periods = p.Periods[n], nil
	p.Alternatives = slices.Clone(p.Alternatives)
	for i := range p.Alternatives {
		a := &p.Alternatives[i]
		if len(a.Yearly) > p.Period {
			a.Yearly = a.Yearly[:p.Period]
		}
		if n < len(a.Residual) {
			a.Residual = a.Residual[n : n+1]
		}
	}
	return p
}

// build makes the study.
func (p publishedStudy) build() (*Study, error) {
	rate, err := readRate(p.Rate)
	if err != nil {
		return nil, err
	}
	b := publishedBuilder{builder: newStudy(p.Period, rate.String())}
	b.s.About.Digits = publishedDigits
	if p.Digits > 0 {
		b.s.About.Digits = p.Digits
	}
	if err := b.setTimes(p); err != nil {
		return nil, err
	}
	for _, name := range slices.Sorted(maps.Keys(p.Quantities)) {
		b.in(name, Length, p.Quantities[name].String())
	}
	for _, name := range slices.Sorted(maps.Keys(p.Escalation)) {
		category, ok := categoryNamed(name)
		if !ok {
			return nil, fmt.Errorf("there is no category %q", name)
		}
		for _, text := range p.Escalation[name] {
			b.escalate(category, b.rate(text))
		}
	}
	if p.Base != "" && !slices.ContainsFunc(p.Alternatives, func(a publishedAlternative) bool { return a.Name == p.Base }) {
		return nil, fmt.Errorf("the base case %q is not there", p.Base)
	}
	for _, a := range p.Alternatives {
		b.add(p, a)
	}
	return b.s, b.err
}

// setTimes sets the timing, the basis and what goes with the discount rate.
func (b *publishedBuilder) setTimes(p publishedStudy) error {
	switch p.Timing {
	case "", EndOfYear.String():
	case MidYear.String():
		b.s.Timing = MidYear
	default:
		return fmt.Errorf("there is no timing %q", p.Timing)
	}
	switch p.Basis {
	case "", Real.String():
	case Nominal.String():
		b.s.Basis = Nominal
	default:
		return fmt.Errorf("there is no basis %q", p.Basis)
	}
	if p.Inflation != "" {
		b.s.Inflation = b.in("study.inflation", Rate, b.rate(p.Inflation))
	}
	if len(p.Range) > 0 {
		if len(p.Range) != 2 {
			return fmt.Errorf("a range has two ends")
		}
		in := &b.s.Inputs[b.s.Rate]
		in.Shape, in.Low, in.High = Triangular, dec(b.rate(p.Range[0])), dec(b.rate(p.Range[1]))
	}
	return b.err
}
