package lcc

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// publishedBuilder adds to the builder of the tests what published cases are
// made of. It keeps the first error.
type publishedBuilder struct {
	*builder
	err error
}

func (b *publishedBuilder) fail(format string, args ...any) {
	if b.err == nil {
		b.err = fmt.Errorf(format, args...)
	}
}

// rate reads a rate into a plain fraction.
func (b *publishedBuilder) rate(text string) string {
	r, err := readRate(text)
	if err != nil {
		b.fail("%w", err)
	}
	return r.String()
}

// costs makes items.
func (b *publishedBuilder) costs(cc publishedCosts, c Category) []Item {
	var out []Item
	for _, k := range cc {
		it := b.item(k.Price.String()).as(c)
		if k.Per != "" {
			if it.Quantity = b.s.Find(k.Per); it.Quantity == NoRef {
				b.fail("there is no quantity %q", k.Per)
			}
		}
		out = append(out, it)
	}
	return out
}

// add adds an alternative.
func (b *publishedBuilder) add(p publishedStudy, a publishedAlternative) {
	category := Maintenance
	if a.Category != "" {
		var ok bool
		if category, ok = categoryNamed(a.Category); !ok {
			b.fail("there is no category %q", a.Category)
		}
	}
	if len(a.Residual) > 1 || len(a.Residual) == 1 && a.Salvage != nil {
		b.fail("%q has several residual values", a.Name)
		return
	}
	first := len(b.s.Systems)
	if a.Yearly == nil && a.At == nil {
		b.addLasting(p, a, category)
	} else {
		b.addYearByYear(p, a, category)
	}
	b.alternative(a.Name, first, func(alt *Alternative) { alt.BaseCase = a.Name == p.Base })
}

// addLasting adds a system that is replaced by itself.
func (b *publishedBuilder) addLasting(p publishedStudy, a publishedAlternative, c Category) {
	life := a.Life
	if life == 0 {
		life = p.Period
	}
	b.system(a.Name, fmt.Sprint(life), func(y *System) {
		y.First = b.costs(a.First, Construction)
		y.Annual = b.costs(a.Annual, c)
		if a.Growth != "" {
			for i := range y.Annual {
				y.Annual[i] = b.growing(y.Annual[i], b.rate(a.Growth))
			}
		}
		y.Residual = b.residual(a)
		if a.Salvage != nil {
			y.Removal = []Item{b.item(a.Salvage.Neg().String())}
		}
	})
}

// residual is the amount credited at the end: none, stated, or the salvage.
func (b *publishedBuilder) residual(a publishedAlternative) Residual {
	amount := a.Salvage
	if len(a.Residual) > 0 {
		amount = &a.Residual[0]
	}
	if amount == nil {
		return Residual{Mode: NoResidual}
	}
	return Residual{Mode: FixedAmount, Amount: b.in("residual", Money, amount.String())}
}

// addYearByYear adds a chain of systems that last a year each: the annual
// cost of the y-th one is what the alternative pays in year y.
func (b *publishedBuilder) addYearByYear(p publishedStudy, a publishedAlternative, c Category) {
	if a.Life != 0 || a.Growth != "" || a.Salvage != nil {
		b.fail("%q: amounts of single years go with no life, growth or salvage", a.Name)
	}
	paid := a.paid(p.Period, b.fail)
	for year := 1; year <= p.Period && b.err == nil; year++ {
		b.system(fmt.Sprintf("%s, year %d", a.Name, year), "1", func(y *System) {
			y.Annual = b.costs(a.Annual, c)
			if !paid[year].IsZero() {
				y.Annual = append(y.Annual, b.item(paid[year].String()).as(c))
			}
			if year == 1 {
				y.First = b.costs(a.First, Construction)
			}
			if year < p.Period {
				y.Then++
				y.Residual.Mode = NoResidual
			} else {
				y.Residual = b.residual(a)
			}
		})
	}
}

// paid is what falls in single years.
func (a publishedAlternative) paid(period int, fail func(string, ...any)) []decimal.Decimal {
	out := make([]decimal.Decimal, period+1)
	if a.Yearly != nil && len(a.Yearly) != period {
		fail("%q has %d yearly amounts for %d years", a.Name, len(a.Yearly), period)
		return out
	}
	copy(out[1:], a.Yearly)
	for year, amount := range a.At {
		if year < 1 || year > period {
			fail("%q pays in year %d of %d", a.Name, year, period)
			continue
		}
		out[year] = out[year].Add(amount)
	}
	return out
}

// categoryNamed finds a category by its name in study files, as the published cases write it.
func categoryNamed(name string) (Category, bool) {
	for c, n := range categoryNames {
		if n == name {
			return Category(c), true
		}
	}
	return NoCategory, false
}
