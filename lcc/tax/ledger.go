package tax

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// bookkeeper writes the tax ledger of one alternative.
type bookkeeper struct {
	*Result
	after    *lcc.Outcome
	spent    []group
	atOnce   map[int]decimal.Decimal // what of the limit is used up, by year
	vintages []Vintage
	lines    []Line
}

// group is what is paid at one time for one system, of one kind and with one
// treatment.
type group struct {
	time    lcc.Time
	system  int
	kind    lcc.Kind
	tax     int             // place of the treatment, from 1
	cost    decimal.Decimal // in money of the day
	reduced decimal.Decimal // by credits
}

// first is the year that a group belongs to: running costs of year t to t, work
// at whole year r to r+1.
func (g *group) first() int {
	if g.kind == lcc.Annual || g.kind == lcc.Periodic {
		return g.time.Year()
	}
	return g.time.Year() + 1
}

// keeper writes the whole tax ledger of an alternative, by year; what falls in
// one year stands in the order of the ledger before tax.
func (r *Result) keeper(after *lcc.Outcome) *bookkeeper {
	k := &bookkeeper{Result: r, after: after, atOnce: map[int]decimal.Decimal{}}
	k.gather()
	k.credits()
	k.existing()
	for i := range k.spent {
		k.deduct(&k.spent[i])
	}
	k.residual()
	slices.SortStableFunc(k.lines, func(a, b Line) int { return a.Year - b.Year })
	return k
}

// gather groups the ledger before tax, residual value left out.
func (k *bookkeeper) gather() {
	type key struct {
		time        lcc.Time
		system, tax int
		kind        lcc.Kind
	}
	places := map[key]int{}
	for _, line := range k.after.Ledger {
		if line.Kind == lcc.ResidualValue {
			continue
		}
		same := key{line.Time, line.System, line.Tax, line.Kind}
		i, found := places[same]
		if !found {
			i = len(k.spent)
			places[same] = i
			k.spent = append(k.spent, group{time: line.Time, system: line.System, kind: line.Kind, tax: line.Tax})
		}
		k.spent[i].cost = k.spent[i].cost.Add(line.Current)
	}
}

// credits writes what installations earn, and takes from their costs what the
// credits reduce them by: from what is depreciated first, then from what is
// expensed, and never more than there is.
func (k *bookkeeper) credits() {
	for i := range k.Terms.Credits {
		c := &k.Terms.Credits[i]
		for _, p := range k.after.Spells {
			if p.Begin != lcc.Installed || p.System != c.System || p.From > c.Until {
				continue
			}
			at := Line{Year: p.From + 1, System: c.System, Vintage: -1, Name: c.Name}
			k.receive(at, c.Amount)
			if c.Taxed {
				at.Kind = CreditTaxed
				k.write(at, c.Amount.Neg())
			}
			k.reduce(&p, k.Before.Study.ToMinor(c.Amount.Mul(c.Reduces)))
		}
	}
}

// reduce lessens what was paid for an installation.
func (k *bookkeeper) reduce(p *lcc.Spell, by decimal.Decimal) {
	for _, way := range []Way{Depreciated, Expensed} {
		for i := range k.spent {
			g := &k.spent[i]
			installs := g.kind == lcc.FirstCost || g.kind == lcc.Replacement
			if !installs || g.system != p.System || g.time != lcc.YearEnd(p.From) || k.treatment(g).Way != way {
				continue
			}
			cut := decimal.Max(decimal.Zero, decimal.Min(by, g.cost.Sub(g.reduced)))
			g.reduced, by = g.reduced.Add(cut), by.Sub(cut)
		}
	}
}

func (k *bookkeeper) treatment(g *group) Treatment { return k.Terms.Treatment[g.tax-1] }

// deduct writes the deductions of a group.
func (k *bookkeeper) deduct(g *group) {
	at := Line{Year: g.first(), System: g.system, Cost: g.kind, Vintage: -1}
	net := g.cost.Sub(g.reduced)
	switch t := k.treatment(g); t.Way {
	case Expensed:
		at.Kind = Expense
		k.write(at, net)
	case Depreciated:
		v := Vintage{System: g.system, Cost: g.kind, Paid: g.cost, Reduced: g.reduced, First: g.first(), By: t.By}
		if t.AtOnce {
			v.AtOnce = k.within(v.First, net)
			at.Kind, at.Vintage = AtOnce, len(k.vintages)
			k.write(at, v.AtOnce)
		}
		v.Basis = net.Sub(v.AtOnce)
		k.depreciate(v)
	}
}

// within takes from the limit of a year what a cost may have of it.
func (k *bookkeeper) within(year int, cost decimal.Decimal) decimal.Decimal {
	left := k.Terms.Limit.Sub(k.atOnce[year])
	taken := decimal.Max(decimal.Zero, decimal.Min(left, cost))
	k.atOnce[year] = k.atOnce[year].Add(taken)
	return taken
}

// existing depreciates what is left of the roof that was there.
func (k *bookkeeper) existing() {
	if e := k.Terms.Existing; e != nil {
		k.depreciate(Vintage{
			System: BeforeStudy, Paid: e.Basis, Basis: e.Basis, First: 1, By: Schedule{Table: StraightLine, Years: e.Years},
		})
	}
}

// residual taxes the residual value: with the basis that is written off at the
// end, the gain over it.
func (k *bookkeeper) residual() {
	if !k.Terms.Residual {
		return
	}
	for _, line := range k.after.Ledger {
		if line.Kind == lcc.ResidualValue {
			k.write(Line{Year: k.Before.Study.Period, Kind: ResidualTaxed, System: line.System, Cost: line.Kind, Vintage: -1}, line.Current)
		}
	}
}

// write posts the tax on a deduction; one of nothing leaves no line.
func (k *bookkeeper) write(line Line, deduction decimal.Decimal) {
	if deduction.IsZero() {
		return
	}
	line.Deduction = deduction
	k.post(line, deduction.Mul(k.Terms.Rate.All).Neg())
}

// receive posts a credit.
func (k *bookkeeper) receive(line Line, amount decimal.Decimal) {
	line.Kind = CreditReceived
	k.post(line, amount.Neg())
}

// post rounds an amount, given unrounded, and its present value.
func (k *bookkeeper) post(line Line, amount decimal.Decimal) {
	s := k.Before.Study
	line.Amount = s.ToMinor(amount)
	line.PV = s.ToMinor(amount.Mul(lcc.SinglePresentValue(k.Nominal, line.Year)))
	k.lines = append(k.lines, line)
}
