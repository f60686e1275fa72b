package tax

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Vintage is what was paid at one time and is depreciated: Paid − Reduced −
// AtOnce = Basis, and its deductions add up to Basis.
type Vintage struct {
	System  int             // whose cost it is; BeforeStudy for the roof that was there
	Cost    lcc.Kind        // kind of cost; without meaning for BeforeStudy
	Paid    decimal.Decimal // in money of the day; what is left, for BeforeStudy
	Reduced decimal.Decimal // by credits
	AtOnce  decimal.Decimal // deducted at once, within the limit
	Basis   decimal.Decimal // what is depreciated
	First   int             // year of the study with the first deduction
	By      Schedule
	TornOff int // year at whose end the roof was torn off, its basis being written off; −1 when it was not
}

// depreciate writes the deductions of a vintage: each year's share of the basis,
// rounded, never more than is left, and in the last year what is left. Basis is
// written off in the year after a tear-off, or in the last year of the study.
func (k *bookkeeper) depreciate(v Vintage) {
	v.TornOff = k.tornOff(&v)
	at := Line{Kind: Depreciation, System: v.System, Cost: v.Cost, Vintage: len(k.vintages)}
	k.vintages = append(k.vintages, v)
	shares, left, end := v.By.Shares(k.Month), v.Basis, k.Before.Study.Period
	for i, share := range shares {
		at.Year = v.First + i
		if v.TornOff >= 0 && at.Year > v.TornOff {
			at.Kind = TornOff
			k.write(at, left)
			return
		}
		amount := nearer(k.Before.Study.ToMinor(v.Basis.Mul(share)), left)
		if i == len(shares)-1 {
			amount = left
		}
		k.write(at, amount)
		left = left.Sub(amount)
		if at.Year == end && k.Terms.AtEnd == WrittenOff {
			at.Kind = EndOfStudy
			k.write(at, left)
			return
		}
	}
}

// nearer is the one of two amounts of one sign that is nearer to zero: a basis of
// a few cents may not be written off more than once.
func nearer(a, b decimal.Decimal) decimal.Decimal {
	if a.Abs().GreaterThan(b.Abs()) {
		return b
	}
	return a
}

// tornOff is the first year at whose end a system is installed that takes off
// what a vintage is part of; −1 when its basis is not written off so.
func (k *bookkeeper) tornOff(v *Vintage) int {
	if k.Terms.TornOff != WrittenOff {
		return -1
	}
	for _, p := range k.after.Spells {
		if p.Begin == lcc.Installed && slices.Contains(k.Terms.TearOffs, p.System) && k.stood(v, p.From) {
			return p.From
		}
	}
	return -1
}

// stood tells whether a vintage was on the roof before work at the end of a year.
func (k *bookkeeper) stood(v *Vintage, year int) bool {
	return v.System == BeforeStudy || v.First <= year
}
