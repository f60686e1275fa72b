package lcc

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// builder makes studies in tests without a file.
type builder struct{ s *Study }

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// newStudy starts a real, end-of-year study with a discount rate.
func newStudy(period int, rate string) *builder {
	s := &Study{Period: period, Inflation: NoRef}
	s.About = About{Currency: "USD", Digits: 2, AreaUnit: "ft2"}
	b := &builder{s}
	s.Rate = b.in("study.discount_rate", Rate, rate)
	s.Area = b.in("roof.area", Area, "1")
	return b
}

func (b *builder) in(path string, unit Unit, value string) Ref {
	return b.s.Add(Input{Path: path, Unit: unit, Likely: dec(value)})
}

func (b *builder) area(value string) *builder {
	b.s.Inputs[b.s.Area].Likely = dec(value)
	return b
}

func (b *builder) escalate(c Category, rates ...string) *builder {
	for i, r := range rates {
		b.s.Escalation[c] = append(b.s.Escalation[c], b.in(fmt.Sprintf("study.escalation.%s[%d]", c, i+1), Rate, r))
	}
	return b
}

// item is a lump sum; the category is construction.
func (b *builder) item(amount string) Item {
	return Item{Name: "item", Price: b.in("amount", Money, amount), Quantity: NoRef, Growth: NoRef}
}

func (b *builder) perArea(price string) Item {
	it := b.item(price)
	it.Quantity = b.s.Area
	return it
}

func (it Item) as(c Category) Item { it.Category = c; return it }

func (b *builder) growing(it Item, rate string) Item {
	it.Growth = b.in("growth", Rate, rate)
	return it
}

// system adds a system that is replaced by itself, and gives its index.
func (b *builder) system(key, life string, edit func(*System)) int {
	y := System{Key: key, Name: key, Life: b.in("systems."+key+".life", Years, life), Then: len(b.s.Systems)}
	if edit != nil {
		edit(&y)
	}
	b.s.Systems = append(b.s.Systems, y)
	return len(b.s.Systems) - 1
}

func (b *builder) alternative(name string, start int, edit func(*Alternative)) int {
	a := Alternative{Name: name, Start: start}
	if edit != nil {
		edit(&a)
	}
	b.s.Alternatives = append(b.s.Alternatives, a)
	return len(b.s.Alternatives) - 1
}

func (b *builder) evaluate() *Result {
	r, err := b.s.Evaluate()
	if err != nil {
		panic(err)
	}
	return r
}

// withRate is the result's vector with another discount rate.
func (r *Result) withRate(rate decimal.Decimal) Vector {
	v := append(Vector(nil), r.Inputs...)
	v[r.Study.Rate] = rate
	return v
}
