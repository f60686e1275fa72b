package lcc

import (
	"slices"

	"github.com/shopspring/decimal"
)

// Line is one dated cost of an alternative. Its three amounts are each
// rounded once, to the currency's minor unit.
type Line struct {
	Time     Time
	Item     string
	System   int      // index in Study.Systems
	Category Category // NoCategory for residual value
	Kind     Kind
	Base     decimal.Decimal // at base-date prices
	Amount   decimal.Decimal // escalated to its time
	PV       decimal.Decimal // discounted to the base date
	// Current is the amount in money of the day: Amount on nominal basis,
	// Amount with general inflation put back on real basis. Zero and without
	// meaning where the study is real and states no inflation.
	Current decimal.Decimal
	Tax     int // that of its item; 0 for residual value

	origin lineOrigin
}

// lineOrigin is what a line came from, for those who ask what it would be at
// another rate.
type lineOrigin struct {
	amount   float64  // unrounded
	price    Ref      // what it costs, or a unit of it
	quantity Ref      // how many units; NoRef when price is the whole amount
	life     Ref      // of a prorated residual value: whose unused share is left; else NoRef
	growth   Ref      // the ageing rate; NoRef when it does not age
	age      int      // how many years of ageing it has
	category Category // whose escalation it has; of residual value: construction
	priced   Time     // up to when it is escalated
}

// bookkeeper writes the ledger of one alternative.
type bookkeeper struct {
	study   *Study
	v       Vector
	factors factors
	lines   []Line
}

// post writes a line for an item of a system that falls at a time, in the
// given year of its age (1 where it does not age).
func (b *bookkeeper) post(t Time, system int, it *Item, kind Kind, year int) {
	line := Line{Time: t, Item: it.Name, System: system, Category: it.Category, Kind: kind, Tax: it.Tax}
	line.origin = lineOrigin{price: it.Price, quantity: it.Quantity, life: NoRef, growth: it.Growth, age: year - 1, category: it.Category, priced: t}
	base := b.aged(it, year)
	b.write(line, base, base.Mul(b.factors.escalate[it.Category][t]))
}

// write rounds a line's amounts, given unrounded, and puts it into the ledger.
func (b *bookkeeper) write(line Line, base, amount decimal.Decimal) {
	places, t := b.study.About.Digits, line.Time
	line.Base = toMinor(base, places)
	line.Amount = toMinor(amount, places)
	line.PV = toMinor(amount.Mul(b.factors.discount[t]), places)
	line.origin.amount = amount.InexactFloat64()
	switch {
	case b.study.Basis == Nominal:
		line.Current = line.Amount
	case b.factors.inflation != nil:
		line.Current = toMinor(amount.Mul(b.factors.inflation[t]), places)
	}
	b.lines = append(b.lines, line)
}

// base is what an item costs at base-date prices in the first year of its age.
func (b *bookkeeper) base(it *Item) decimal.Decimal {
	price := b.v[it.Price]
	if it.Quantity != NoRef {
		return price.Mul(b.v[it.Quantity])
	}
	return price
}

// aged is what an item costs at base-date prices in year k of its age, k ≥ 1.
func (b *bookkeeper) aged(it *Item, k int) decimal.Decimal {
	base := b.base(it)
	if it.Growth == NoRef {
		return base
	}
	return base.Mul(power(one.Add(b.v[it.Growth]), k-1))
}

// spell writes everything that a spell pays.
func (b *bookkeeper) spell(p *Spell) {
	system := &b.study.Systems[p.System]
	at := YearEnd(p.From)
	switch p.Begin {
	case Installed:
		b.postAll(at, p.System, system.First, installKind(p.From))
	case Recoated:
		b.postAll(at, p.System, system.Recoat.Costs, Recoat)
	}
	b.running(p, system)
	switch p.End {
	case ToNext:
		b.postAll(YearEnd(p.Until), p.System, system.Removal, Removal)
	case AtHorizon:
		b.residual(p, system)
	}
}

// installKind names first costs by when they fall.
func installKind(year int) Kind {
	if year == 0 {
		return FirstCost
	}
	return Replacement
}

func (b *bookkeeper) postAll(t Time, system int, items []Item, kind Kind) {
	for i := range items {
		b.post(t, system, &items[i], kind, 1)
	}
}

// running writes the annual and periodic costs of a spell.
func (b *bookkeeper) running(p *Spell, system *System) {
	for i := range system.Annual {
		it := &system.Annual[i]
		for year := p.From + 1; year <= p.Until; year++ {
			b.post(b.study.Timing.running(year), p.System, it, Annual, year-p.ageOrigin(it))
		}
	}
	for i := range system.Periodic {
		it := &system.Periodic[i]
		for year := p.firstPeriodic(it.Every); year <= p.periodicEnd(); year += it.Every {
			b.post(b.study.Timing.running(year), p.System, it, Periodic, year-p.ageOrigin(it))
		}
	}
}

// residual credits what is left at the end of the study period. Prorated: the
// construction items of the renewal in place, at the prices paid for them,
// times the unused share of their life; linear in time as in [HB135]. What was
// paid in year s is restated in money of year N by general inflation, which a
// nominal study includes, so that both bases give the same present value.
func (b *bookkeeper) residual(p *Spell, system *System) {
	switch system.Residual.Mode {
	case FixedAmount:
		base := b.v[system.Residual.Amount].Neg()
		n := YearEnd(b.study.Period)
		from := lineOrigin{price: system.Residual.Amount, quantity: NoRef, life: NoRef, priced: n}
		b.credit(p, "Residual value", from, base, base.Mul(b.factors.escalate[Construction][n]))
	case Prorated:
		life := b.v[b.study.LifeAt(p.Slot)]
		unused := life.Sub(decimal.NewFromInt(int64(b.study.Period - p.From)))
		if unused.IsPositive() {
			b.prorate(p, system, quo(unused, life))
		}
	}
}

// prorate credits the unused share of the renewal in place.
func (b *bookkeeper) prorate(p *Spell, system *System, share decimal.Decimal) {
	items := p.renewalItems(system)
	for i := range items {
		if it := &items[i]; it.Category == Construction {
			base := b.base(it).Mul(share).Neg()
			paid := base.Mul(b.factors.escalate[Construction][YearEnd(p.From)])
			from := lineOrigin{price: it.Price, quantity: it.Quantity, life: b.study.LifeAt(p.Slot), priced: YearEnd(p.From)}
			b.credit(p, "Residual value: "+it.Name, from, base, paid.Mul(b.restated(p.From)))
		}
	}
}

// credit writes a line of residual value, escalated as construction.
func (b *bookkeeper) credit(p *Spell, name string, from lineOrigin, base, amount decimal.Decimal) {
	line := Line{Time: YearEnd(b.study.Period), Item: name, System: p.System, Category: NoCategory, Kind: ResidualValue}
	line.origin = from
	line.origin.growth, line.origin.category = NoRef, Construction
	b.write(line, base, amount)
}

// restated is what money of a year is in money of the last year: general
// inflation in between, where amounts include it.
func (b *bookkeeper) restated(year int) decimal.Decimal {
	if b.study.Basis == Real {
		return one
	}
	return quo(b.factors.inflation[YearEnd(b.study.Period)], b.factors.inflation[YearEnd(year)])
}

// renewalItems is what was paid for the renewal that a spell starts with.
func (p *Spell) renewalItems(system *System) []Item {
	switch p.Begin {
	case Installed:
		return system.First
	case Recoated:
		return system.Recoat.Costs
	}
	return nil
}

// book writes the whole ledger of an alternative, in order of time; what
// falls at one time stands in the order of the chain.
func (b *bookkeeper) book(alternative int) ([]Line, []Spell, error) {
	if err := b.study.checkWait(alternative, b.v); err != nil {
		return nil, nil, err
	}
	b.lines = nil
	var spells []Spell
	w := b.study.Walk(alternative)
	for {
		slot, more := w.Slot()
		if !more {
			break
		}
		p := w.Next(wholeYears(b.v[b.study.LifeAt(slot)]))
		b.spell(p)
		spells = append(spells, *p)
	}
	slices.SortStableFunc(b.lines, func(a, c Line) int { return int(a.Time - c.Time) })
	return b.lines, spells, nil
}

// wholeYears is a life rounded up to whole years; any life past the longest
// study period is as good as any other.
func wholeYears(life decimal.Decimal) int {
	if limit := decimal.NewFromInt(MaxPeriod + 1); life.GreaterThan(limit) {
		return MaxPeriod + 1
	}
	return int(life.Ceil().IntPart())
}
