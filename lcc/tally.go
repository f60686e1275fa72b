package lcc

import "math"

// tally adds up the lines of one alternative, rounded one by one.
type tally struct {
	k      *Kernel
	minor  int64 // minor units
	first  int64 // of what falls at time 0
	run    int64 // of annual and periodic costs
	unsure bool  // a line may round the other way
	settle settle
	works  *Outlay // nil: not asked
}

// settle finds, exactly, what a line of a cost is in minor units where float64
// cannot tell: its present value, or the amount that is paid. It is not ok
// when it cannot either. See bookkeeper.post.
type settle func(at Time, it *Item, year int, present bool) (minor int64, ok bool)

// Cents is the life-cycle cost as the ledger totals it, in minor units of the
// currency. It reports false when float64 is not good enough to vouch for it;
// the number is then within one unit a line.
func (k *Kernel) Cents(alternative int) (minor int64, certified bool) {
	cost, certified := k.costs(alternative, nil)
	return cost.LCC, certified
}

// costs is Cents with the first cost, what falls at time 0, and the running
// costs beside it: an amount at time 0 is its own present value. Lines on the
// edge are settled where there is a way to, and are certified then.
func (k *Kernel) costs(alternative int, settle settle) (cost RoofCost, certified bool) {
	k.refreshCents()
	t := tally{k: k, settle: settle}
	t.chain(alternative)
	return RoofCost{LCC: t.minor, First: t.first, Running: t.run}, !t.unsure
}

func (t *tally) chain(alternative int) {
	w := t.k.study.Walk(alternative)
	for {
		slot, more := w.Slot()
		if !more {
			return
		}
		p := w.Next(t.k.whole[slot])
		t.spell(p, &t.k.study.Systems[p.System])
	}
}

// spell adds everything that a spell pays; see bookkeeper.spell.
func (t *tally) spell(p *Spell, system *System) {
	switch p.Begin {
	case Installed:
		t.all(YearEnd(p.From), system.First)
		t.works.work(p.From)
	case Recoated:
		t.all(YearEnd(p.From), system.Recoat.Costs)
		t.works.work(p.From)
	}
	invested := t.minor
	t.annual(p, system)
	t.periodic(p, system)
	t.run += t.minor - invested
	switch p.End {
	case ToNext:
		t.all(YearEnd(p.Until), system.Removal)
	case AtHorizon:
		t.residual(p, system)
	}
}

// add adds a line of a cost that is base at base-date prices and falls at a
// time, in the given year of its age.
func (t *tally) add(at Time, it *Item, year int, base float64) {
	minor, sure := rounded(float64(base*t.k.present[it.Category][at]), t.k.errors[at])
	if !sure && t.settle != nil {
		minor, sure = t.settle(at, it, year, true)
	}
	t.post(at, minor, sure)
}

func (t *tally) post(at Time, minor int64, sure bool) {
	t.minor += minor
	if at == 0 {
		t.first += minor
	}
	t.unsure = t.unsure || !sure
}

// line is what a line is worth that costs base at base-date prices, escalated
// to `priced` and paid at `at`. baseError is the relative error of base, over
// that of a price times a quantity. It is not sure when it may round the other
// way.
func (t *tally) line(at, priced Time, c Category, base, baseError float64) (minor int64, sure bool) {
	return rounded(float64(base*t.k.escalate[c][priced]*t.k.discount[at]*t.k.minor), lineError(at)+baseError)
}

// rounded rounds to a whole number; it is not sure when x, whose relative
// error is given, may round the other way. A product for x is to be converted
// to float64, so that no processor fuses it with the sum in here. It is just
// small enough to be put into the loops that ask it.
func rounded(x, relative float64) (minor int64, sure bool) {
	whole := float64(x+toWhole) - toWhole
	sure = 0.5-math.Abs(x-whole) > math.Abs(x)*relative && math.Abs(x) <= maxMinor // on the half itself it is not
	return int64(whole), sure
}

// toWhole is so large that a number added to it keeps no fraction, and is
// rounded to the nearest even one: 1.5 × 2⁵².
const toWhole = 3 << 51

// credit deducts a line of residual value.
func (t *tally) credit(priced Time, amount, amountError float64) {
	n := YearEnd(t.k.study.Period)
	minor, sure := t.line(n, priced, Construction, -amount, amountError)
	t.post(n, minor, sure)
}

// maxMinor is the greatest line that is vouched for: below 2⁵⁰ float64 keeps
// halves of a minor unit, and 2¹⁶ lines up to 2⁴⁶, more than a study may have,
// add up within an int64.
const maxMinor = 1 << 46

// roundoff is the unit roundoff of float64, 2⁻⁵³.
const roundoff = 1.0 / (1 << 53)

// lineError bounds the relative error of a line's present value. A step 1+r
// of a table has at most 3 roundoffs (r itself, at most |r|/(1+r) ≤ 1 of one in
// the range of rates; the sum; a quotient or a root), and its product with
// the table one more. Three tables (discount, escalation, ageing) make 12 a
// year; price, quantity, products and the scaling to minor units less than
// 16 in all. `at` counts half years, which doubles the bound: room to spare.
func lineError(at Time) float64 { return float64((float64(12*float64(at)) + 16) * roundoff) }

// base is what an item costs at base-date prices in the first year of its age.
func (t *tally) base(it *Item) float64 {
	if it.Quantity == NoRef {
		return t.k.v[it.Price]
	}
	return t.k.v[it.Price] * t.k.v[it.Quantity]
}

// all adds what work costs: of an installation, a recoat or a removal.
func (t *tally) all(at Time, items []Item) {
	asked := t.works.within(at.Year())
	for i := range items {
		base := t.base(&items[i])
		t.add(at, &items[i], 1, base)
		if asked {
			t.pay(at, &items[i], base)
		}
	}
}

func (t *tally) annual(p *Spell, system *System) {
	for i := range system.Annual {
		it := &system.Annual[i]
		base, growth := t.base(it), 1.0
		if it.Growth != NoRef {
			growth = 1 + t.k.v[it.Growth]
			base *= whole(growth, p.From-p.ageOrigin(it))
		}
		present := t.k.present[it.Category]
		for year := p.From + 1; year <= p.Until; year++ {
			at := t.k.study.Timing.running(year)
			if minor, sure := rounded(float64(base*present[at]), t.k.errors[at]); sure {
				t.minor += minor
			} else {
				t.add(at, it, year-p.ageOrigin(it), base)
			}
			base *= growth
		}
	}
}

func (t *tally) periodic(p *Spell, system *System) {
	for i := range system.Periodic {
		it := &system.Periodic[i]
		for year := p.firstPeriodic(it.Every); year <= p.periodicEnd(); year += it.Every {
			base := t.base(it)
			if it.Growth != NoRef {
				base *= whole(1+t.k.v[it.Growth], year-p.ageOrigin(it)-1)
			}
			at := t.k.study.Timing.running(year)
			t.add(at, it, year-p.ageOrigin(it), base)
		}
	}
}

// residual deducts what is left at the end; see bookkeeper.residual.
func (t *tally) residual(p *Spell, system *System) {
	n := YearEnd(t.k.study.Period)
	switch system.Residual.Mode {
	case FixedAmount:
		t.credit(n, t.k.v[system.Residual.Amount], 0)
	case Prorated:
		life := t.k.life[p.Slot]
		unused := life - float64(t.k.study.Period-p.From)
		if unused <= 0 {
			return
		}
		// What the life was rounded by weighs more in the little that is left;
		// restating is as long a product as a table.
		unusedError := float64((2*life/unused+4)*roundoff) + lineError(n)
		share := unused / life * t.k.restated(p.From)
		items := p.renewalItems(system)
		for i := range items {
			if items[i].Category == Construction {
				t.credit(YearEnd(p.From), t.base(&items[i])*share, unusedError)
			}
		}
	}
}

// restated is what money of a year is in money of the last year; see
// bookkeeper.restated.
func (k *Kernel) restated(year int) float64 {
	if k.study.Basis == Real {
		return 1
	}
	return whole(1+k.v[k.study.Inflation], k.study.Period-year)
}
