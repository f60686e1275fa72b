package lcc

import "slices"

// plan is what a kernel makes of a study's items once, so that an evaluation
// looks nothing up: items that are paid at the same times and escalate alike
// become one bundle with one amount, and categories that escalate alike share
// one table of factors.
//
// Kernels for many roofs share one plan: its tables are those of the vector of
// the kernel that was compiled.
type plan struct {
	systems []systemPlan
	tables  []*worthTable
	growths []*growthTable
	bundles int // in all systems
	// carried is what money of one year is worth so many years later, at its
	// value then: discounted, and restated by general inflation where amounts
	// include it. Their sums are on the way there.
	carried, sums []float64
	stale         bool // the tables are of another vector
}

// systemPlan gives the bundles of a system by when they are paid.
type systemPlan struct {
	first, recoat, removal, annual, periodic []bundle
	// What bears residual value of the first costs and of a recoat:
	// construction; nil where there is none. Where they have other items as
	// well, it is a bundle of its own, among parts.
	firstBears, recoatBears *bundle
	parts                   []bundle
	residual                Residual
}

// bundle is a sum of items.
type bundle struct {
	at    int // its amount's place among Kernel.amounts
	table *worthTable
	// The table's columns, at hand without a detour.
	once, running, sum []float64
	more               []float64    // of growth, where one rate serves all years and a recoat restarts it; else nil
	growth             *growthTable // nil: does not grow with age
	every              int
	keepsAge           bool
	terms              []term
}

// term is one item's cost: price × quantity, or price alone.
type term struct{ price, quantity Ref }

func newPlan(s *Study) *plan {
	p := &plan{stale: true, carried: make([]float64, s.Period+1), sums: make([]float64, s.Period+1)}
	p.table(s, s.Escalation[Construction]) // residual amounts escalate as construction: the first table
	for i := range s.Systems {
		y := &s.Systems[i]
		made := systemPlan{
			first: p.bundle(s, y.First), recoat: p.bundle(s, y.recoatCosts()), removal: p.bundle(s, y.Removal),
			annual: p.bundle(s, y.Annual), periodic: p.bundle(s, y.Periodic),
			parts:    make([]bundle, 0, 2), // so that they stay in their place
			residual: y.Residual,
		}
		made.firstBears = p.bearing(s, y.First, made.first, &made.parts)
		made.recoatBears = p.bearing(s, y.recoatCosts(), made.recoat, &made.parts)
		p.systems = append(p.systems, made)
	}
	return p
}

// bearing finds the bundle of the construction items, or makes one.
func (p *plan) bearing(s *Study, items []Item, bundles []bundle, parts *[]bundle) *bundle {
	var bears []Item
	var terms []term
	for _, it := range items {
		if it.Category == Construction {
			bears = append(bears, Item{Category: Construction, Price: it.Price, Quantity: it.Quantity, Growth: NoRef})
			terms = append(terms, term{it.Price, it.Quantity})
		}
	}
	if len(bears) == 0 {
		return nil
	}
	for i := range bundles {
		if slices.Equal(bundles[i].terms, terms) {
			return &bundles[i]
		}
	}
	*parts = append(*parts, p.bundle(s, bears)...) // one: they are alike
	return &(*parts)[len(*parts)-1]
}

// bundle groups items that differ in price and quantity only.
func (p *plan) bundle(s *Study, items []Item) []bundle {
	var made []bundle
	for i := range items {
		it := &items[i]
		b := bundle{
			table: p.table(s, s.Escalation[it.Category]), growth: p.growth(s, it), keepsAge: it.KeepsAge, every: it.Every,
		}
		b.once, b.running, b.sum = b.table.once, b.table.running, b.table.sum
		if b.growth != nil && b.table.constant() && !b.keepsAge {
			b.more = b.growth.more
		}
		at := -1
		for j := range made {
			if made[j].like(&b) {
				at = j
			}
		}
		if at < 0 {
			b.at = p.bundles
			p.bundles++
			made = append(made, b)
			at = len(made) - 1
		}
		made[at].terms = append(made[at].terms, term{it.Price, it.Quantity})
	}
	return made
}

// like tells whether two bundles differ in their terms only.
func (b *bundle) like(c *bundle) bool {
	return b.table == c.table && b.growth == c.growth && b.every == c.every && b.keepsAge == c.keepsAge
}

// table finds the table of an escalation, or makes one.
func (p *plan) table(s *Study, series Series) *worthTable {
	for _, t := range p.tables {
		if len(t.series) == len(series) && (len(series) == 0 || &t.series[0] == &series[0]) {
			return t
		}
	}
	p.tables = append(p.tables, newWorthTable(s, series))
	return p.tables[len(p.tables)-1]
}

// fillAmounts sums the items of every bundle at the loaded vector.
func (k *Kernel) fillAmounts() {
	for b := range k.plan.all {
		k.sum(b)
	}
}

// all goes through the bundles of all systems.
func (p *plan) all(yield func(*bundle) bool) {
	for i := range p.systems {
		y := &p.systems[i]
		for _, bundles := range [][]bundle{y.first, y.recoat, y.removal, y.annual, y.periodic, y.parts} {
			for j := range bundles {
				if !yield(&bundles[j]) {
					return
				}
			}
		}
	}
}

// sum adds up the items of a bundle, at base-date prices.
func (k *Kernel) sum(b *bundle) {
	sum := 0.0
	for _, t := range b.terms {
		amount := k.v[t.price]
		if t.quantity != NoRef {
			amount *= k.v[t.quantity]
		}
		sum += amount
	}
	k.amounts[b.at] = sum
}

// uses tells whether a bundle's amount depends on an input by itself.
func (b *bundle) uses(r Ref) bool {
	return slices.ContainsFunc(b.terms, func(t term) bool { return t.price == r || t.quantity == r })
}
