package lcc

import "github.com/shopspring/decimal"

// Outlay is what one alternative costs for one roof, and what its works take
// of the first years: who plans many roofs under yearly budgets asks for it.
// Its slices, alike in length, say how many years are asked for; year t is
// time t of the ledger.
type Outlay struct {
	// TooLate tells that the alternative waits longer than the roof that it
	// waits on lasts: for this roof it does not exist. The rest is then zero.
	TooLate bool
	// LCC is the life-cycle cost in minor units, −MaxMinor to MaxMinor.
	LCC int64
	// Paid is what installations, recoats and removals of the year cost: the
	// ledger's amounts, escalated and not discounted, in minor units, −MaxMinor
	// to MaxMinor. A credit is negative. Annual and periodic costs and the
	// residual value are not in it.
	Paid []int64
	// Worked tells whether a system is installed or recoated in the year.
	Worked []bool
}

// Outlays gives what every alternative costs for one roof, into out, which has
// an Outlay for each with slices of its own. Where given is false the input
// keeps its likely value. It fails where EvaluateAt does, but for waits, and
// when an amount is over MaxMinor.
func (w *Roofs) Outlays(values []decimal.Decimal, given []bool, out []Outlay) error {
	if err := w.load(values, given); err != nil {
		return err
	}
	for i := range out {
		o := &out[i]
		o.clear()
		if o.TooLate = !w.study.lastsOut(i, w.v); o.TooLate {
			continue
		}
		if !w.k.outlay(i, o, w.settle) {
			o.clear()
			if err := w.keeper().outlay(i, o); err != nil {
				return err
			}
		}
		if o.largest() > MaxMinor {
			return w.study.TooLarge(i)
		}
	}
	return nil
}

// Area is the plan area of the roof at hand, in the study's area unit: of the
// one that Costs or Outlays was asked for last.
func (w *Roofs) Area() decimal.Decimal { return w.v[w.study.Area] }

func (o *Outlay) clear() {
	o.TooLate, o.LCC = false, 0
	clear(o.Paid)
	clear(o.Worked)
}

// largest is the greatest of the amounts, without signs.
func (o *Outlay) largest() int64 {
	most := max(o.LCC, -o.LCC)
	for _, paid := range o.Paid {
		most = max(most, paid, -paid)
	}
	return most
}

// within tells whether a year is asked for; nobody asks a nil one.
func (o *Outlay) within(year int) bool { return o != nil && year < len(o.Paid) }

func (o *Outlay) work(year int) {
	if o.within(year) {
		o.Worked[year] = true
	}
}

// outlay is Cents with the works of the first years beside it; false when
// float64 cannot vouch for all of it.
func (k *Kernel) outlay(alternative int, o *Outlay, settle settle) bool {
	k.refreshCents()
	t := tally{k: k, settle: settle, works: o}
	t.chain(alternative)
	o.LCC = t.minor
	return !t.unsure
}

// pay takes the amount of a line of work from its year. Its error is no
// greater than that of its present value, which is discounted besides.
func (t *tally) pay(at Time, it *Item, base float64) {
	minor, sure := rounded(float64(base*t.k.escalate[it.Category][at]*t.k.minor), lineError(at))
	if !sure && t.settle != nil {
		minor, sure = t.settle(at, it, 1, false)
	}
	t.works.Paid[at.Year()] += minor
	t.unsure = t.unsure || !sure
}

// outlay is what the ledger of an alternative says of the first years.
func (b *bookkeeper) outlay(alternative int, o *Outlay) error {
	lines, spells, err := b.book(alternative)
	if err != nil {
		return err
	}
	if o.LCC, err = b.minor(alternative, total(lines)); err != nil {
		return err
	}
	for year := range o.Paid {
		if o.Paid[year], err = b.minor(alternative, worksOf(lines, year)); err != nil {
			return err
		}
	}
	for _, p := range spells {
		if p.Begin != Kept {
			o.work(p.From)
		}
	}
	return nil
}

// worksOf sums what installations, recoats and removals of a year cost.
func worksOf(lines []Line, year int) decimal.Decimal {
	sum := decimal.Zero
	for _, line := range lines {
		if line.Time == YearEnd(year) && line.Kind.Investment() && line.Kind != ResidualValue {
			sum = sum.Add(line.Amount)
		}
	}
	return sum
}
