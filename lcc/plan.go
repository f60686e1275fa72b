package lcc

// plan is what a kernel makes of a study's items once, so that an evaluation
// looks nothing up: items that are paid at the same times and escalate alike
// become one bundle with one amount, and categories that escalate alike share
// one table of factors.
type plan struct {
	systems []systemPlan
	tables  []*worthTable
}

// systemPlan gives the bundles of a system by when they are paid.
type systemPlan struct {
	first, recoat, removal, annual, periodic []bundle
}

// bundle is a sum of items.
type bundle struct {
	amount float64 // at the loaded vector, at base-date prices
	table  *worthTable
	// The table's columns, at hand without a detour.
	once, running, sum []float64
	growth             Ref
	every              int
	keepsAge           bool
	bears              bool // residual value: construction
	terms              []term
}

// term is one item's cost: price × quantity, or price alone.
type term struct{ price, quantity Ref }

func newPlan(s *Study) plan {
	var p plan
	p.table(s, s.Escalation[Construction]) // residual amounts escalate as construction: the first table
	for i := range s.Systems {
		y := &s.Systems[i]
		p.systems = append(p.systems, systemPlan{
			first: p.bundle(s, y.First), recoat: p.bundle(s, y.recoatCosts()), removal: p.bundle(s, y.Removal),
			annual: p.bundle(s, y.Annual), periodic: p.bundle(s, y.Periodic),
		})
	}
	return p
}

// bundle groups items that differ in price and quantity only.
func (p *plan) bundle(s *Study, items []Item) []bundle {
	var made []bundle
	for i := range items {
		it := &items[i]
		b := bundle{
			table: p.table(s, s.Escalation[it.Category]), bears: it.Category == Construction,
			growth: it.Growth, keepsAge: it.KeepsAge, every: it.Every,
		}
		b.once, b.running, b.sum = b.table.once, b.table.running, b.table.sum
		at := -1
		for j := range made {
			if made[j].like(&b) {
				at = j
			}
		}
		if at < 0 {
			made = append(made, b)
			at = len(made) - 1
		}
		made[at].terms = append(made[at].terms, term{it.Price, it.Quantity})
	}
	return made
}

// like tells whether two bundles differ in their terms only.
func (b *bundle) like(c *bundle) bool {
	return b.table == c.table && b.growth == c.growth && b.every == c.every && b.keepsAge == c.keepsAge && b.bears == c.bears
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
	for i := range k.plan.systems {
		y := &k.plan.systems[i]
		k.sum(y.first)
		k.sum(y.recoat)
		k.sum(y.removal)
		k.sum(y.annual)
		k.sum(y.periodic)
	}
}

func (k *Kernel) sum(bundles []bundle) {
	for i := range bundles {
		sum := 0.0
		for _, t := range bundles[i].terms {
			amount := k.v[t.price]
			if t.quantity != NoRef {
				amount *= k.v[t.quantity]
			}
			sum += amount
		}
		bundles[i].amount = sum
	}
}

// aged is (1+growth)^(k−1) for the year in which a bundle is k years old; see
// Spell.ageOrigin.
func (k *Kernel) aged(b *bundle, p *Spell, year int) float64 {
	origin := p.From
	if b.keepsAge {
		origin = p.Install
	}
	return whole(1+k.v[b.growth], year-origin-1)
}
