package lcc

import "github.com/shopspring/decimal"

// Origin says what a ledger line is computed from, for those who write its
// formula down. Its amount before rounding is
//
//	price × quantity × multiple × escalation of Escalates up to Priced
//
// and, for a prorated residual value of a nominal study, × general inflation
// from Priced to the line's time. The multiple is the ageing
// (1+Growth)^Age, or of residual value minus the share that is left: the
// unused share of Life, or 1 for a stated amount.
type Origin struct {
	Price     Ref
	Quantity  Ref      // NoRef: Price is the whole amount
	Growth    Ref      // NoRef: it does not age
	Age       int      // years of ageing, 0 or more
	Life      Ref      // NoRef: no prorated residual value
	Escalates Category // of residual value: construction
	Priced    Time
	Amount    float64 // escalated, before rounding
}

// Origin says what a line of a ledger is computed from.
func (l *Line) Origin() Origin {
	o := &l.origin
	return Origin{o.price, o.quantity, o.growth, o.age, o.life, o.category, o.priced, o.amount}
}

// Multiple is what price × quantity is multiplied by in a line; see Origin. A
// life that is used up leaves a share of 0.
func (r *Result) Multiple(l *Line) decimal.Decimal {
	o := &l.origin
	switch {
	case l.Kind != ResidualValue && o.growth == NoRef:
		return one
	case l.Kind != ResidualValue:
		return power(one.Add(r.Inputs[o.growth]), o.age)
	case o.life == NoRef:
		return one.Neg()
	}
	life := r.Inputs[o.life]
	unused := life.Sub(l.Time.Decimal().Sub(o.priced.Decimal()))
	return quo(decimal.Max(decimal.Zero, unused), life).Neg()
}

// UsedUp gives the lines of residual value that an alternative's ledger does
// not have, because the life of the last renewal is used up at the end of the
// study period; each is zero. A longer life, that keeps the years of the chain,
// would fill them.
func (r *Result) UsedUp(alternative int) []Line {
	spells := r.Alternatives[alternative].Spells
	last := &spells[len(spells)-1]
	system := &r.Study.Systems[last.System]
	life := r.Inputs[r.Study.LifeAt(last.Slot)]
	left := life.GreaterThan(decimal.NewFromInt(int64(r.Study.Period - last.From)))
	if system.Residual.Mode != Prorated || left {
		return nil
	}
	keeper := r.Study.keeperAt(r.Inputs)
	keeper.prorate(last, system, decimal.Zero)
	return keeper.lines
}

// Factors tells how amounts grow and shrink with time at a result's inputs.
// Half years are there with mid-year timing only.
type Factors struct{ f factors }

// Factors are those that the result's ledgers were written with.
func (r *Result) Factors() Factors { return Factors{r.Study.factorsAt(r.Inputs)} }

// Discount is 1/(1+d)^t.
func (f Factors) Discount(t Time) decimal.Decimal { return f.f.discount[t] }

// Escalation is ∏(1+e_k), k = 1..t, of a category.
func (f Factors) Escalation(c Category, t Time) decimal.Decimal { return f.f.escalate[c][t] }

// Inflation is (1+I)^t. The study states its inflation.
func (f Factors) Inflation(t Time) decimal.Decimal { return f.f.inflation[t] }
