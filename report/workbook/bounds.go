package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// bound is what an input may be: over or from the least value, to the most.
type bound struct {
	least, most decimal.Decimal
	open        bool // the least value itself is outside
	text        string
}

// condition is the formula of a cell that is within bounds.
func (l bound) condition(cell string) string {
	over := ">="
	if l.open {
		over = ">"
	}
	return fmt.Sprintf("AND(ISNUMBER(%s),%s%s%s,%s<=%s)", cell, cell, over, l.least, cell, l.most)
}

// unlimited is far beyond every amount.
var unlimited = decimal.New(1, 14)

// bounds is what the engine takes for an input; see lcc.Study.EvaluateAt.
func (b *book) bounds(ref lcc.Ref) bound {
	in := &b.s.Inputs[ref]
	divides, rest := b.divides(ref)
	switch {
	case in.Unit == lcc.Rate:
		return bound{lcc.MinRate, lcc.MaxRate, true, "a rate is over -50% and up to 1000%"}
	case in.Unit == lcc.Years:
		return bound{decimal.Zero, lcc.MaxLife, true, fmt.Sprintf("a life is over 0 and up to %s years", lcc.MaxLife)}
	case in.Unit == lcc.Area || divides:
		return bound{decimal.Zero, unlimited, true, "it is greater than 0"}
	case rest:
		return bound{decimal.Zero, decimal.New(999999, -6), false, "it is from 0 to under 1"}
	case in.Unit == lcc.Money || in.Unit == lcc.Price:
		return bound{unlimited.Neg(), unlimited, false, "it is a number"}
	}
	return bound{decimal.Zero, unlimited, false, "it is 0 or more"}
}

// divides tells whether something is divided by an input, or by what an input
// leaves of 1.
func (b *book) divides(ref lcc.Ref) (divides, rest bool) {
	for _, d := range b.s.Derived {
		for _, term := range d.Terms {
			for _, f := range term.Factors {
				divides = divides || f.Of == ref && f.How == lcc.Over
				rest = rest || f.Of == ref && f.How == lcc.OverRest
			}
		}
	}
	return divides, rest
}

// kept is what a check says that finds nothing.
const kept = "kept"

// inputCheck tells a value that the engine would refuse.
func (b *book) inputCheck(row int, ref lcc.Ref) cell {
	lim := b.bounds(ref)
	return calc(fmt.Sprintf("IFERROR(IF(%s,%s,%s),%s)", lim.condition(here(row, inValue)), literal(kept), literal(lim.text), literal(lim.text)),
		kept, style{words, note})
}
