package tax

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// builder makes studies in tests without a file.
type builder struct{ s *lcc.Study }

// newStudy starts an end-of-year study.
func newStudy(basis lcc.Basis, period int, rate, inflation string) *builder {
	b := &builder{&lcc.Study{Period: period, Basis: basis}}
	b.s.About = lcc.About{Currency: "USD", Digits: 2, AreaUnit: "ft2", BaseDate: "2026-10-01"}
	b.s.Rate, b.s.Inflation, b.s.Area = b.in(lcc.Rate, rate), b.in(lcc.Rate, inflation), b.in(lcc.Area, "1")
	return b
}

func (b *builder) in(unit lcc.Unit, value string) lcc.Ref {
	return b.s.Add(lcc.Input{Path: fmt.Sprintf("input[%d]", len(b.s.Inputs)+1), Unit: unit, Likely: dec(value)})
}

// cost is a construction cost with a treatment, counted from 1.
func (b *builder) cost(amount string, treatment int) []lcc.Item {
	return []lcc.Item{{Name: "cost", Price: b.in(lcc.Money, amount), Quantity: lcc.NoRef, Growth: lcc.NoRef, Tax: treatment}}
}

// yearly is a cost of upkeep with a treatment.
func (b *builder) yearly(amount string, treatment int) []lcc.Item {
	items := b.cost(amount, treatment)
	items[0].Category = lcc.Maintenance
	return items
}

// system adds a system without residual value that is replaced by itself.
func (b *builder) system(life string, edit func(*lcc.System)) int {
	i := len(b.s.Systems)
	y := lcc.System{Key: fmt.Sprintf("system_%d", i+1), Name: fmt.Sprintf("System %d", i+1), Life: b.in(lcc.Years, life), Then: i}
	y.Residual.Mode = lcc.NoResidual
	edit(&y)
	b.s.Systems = append(b.s.Systems, y)
	return i
}

// alternative adds a choice; the first one is the base case.
func (b *builder) alternative(start int) {
	n := len(b.s.Alternatives)
	b.s.Alternatives = append(b.s.Alternatives, lcc.Alternative{Name: fmt.Sprintf("Choice %d", n+1), Start: start, BaseCase: n == 0})
}

func (b *builder) after(terms *Terms) *Result {
	before, err := b.s.Evaluate()
	if err != nil {
		panic(err)
	}
	r, err := Evaluate(before, terms)
	if err != nil {
		panic(err)
	}
	return r
}

// of lists what lines of a kind deduct, "year: deduction".
func (o *Outcome) of(kind Kind) []string {
	var out []string
	for _, line := range o.Lines {
		if line.Kind == kind {
			out = append(out, fmt.Sprintf("%d: %s", line.Year, line.Deduction))
		}
	}
	return out
}
