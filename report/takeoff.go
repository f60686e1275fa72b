package report

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

// TakeOff is a study's take-off with what its inputs do not hold.
type TakeOff struct {
	takeoff.TakeOff
	// Notches are the notches of a wet film gauge at or above the wet film, by
	// step, in the unit of that film; 0 where a step leaves none.
	Notches []decimal.Decimal
}

// TakeOffDocument makes what the takeoff command shows: what was measured,
// what is bought, what is done in which order and what it costs. The study has
// a take-off.
func TakeOffDocument(in Study) *Document {
	w := tell(in).work()
	doc := w.document(w.measuredSection(), w.boughtSection(), w.stepsSection(), w.costsSection())
	doc.Letterhead = w.letterhead()
	return doc
}

// worker tells of a take-off.
type worker struct {
	*teller
	off   *TakeOff
	costs []workCost
}

// work is what tells of the study's take-off.
func (t *teller) work() *worker {
	w := &worker{teller: t, off: t.TakeOff}
	w.costs = w.charged()
	return w
}

// costKind says what a first cost of the work pays for.
type costKind string

// The kinds of first costs, in the words of tables.
const (
	labourCost   costKind = "labour"
	materialCost costKind = "material"
	lumpCost     costKind = "lump sum" // of a step: labour, hire, permits and whatever else it covers
	otherCost    costKind = "other"
)

// workCost is a first cost of the work, as the ledger has it.
type workCost struct {
	*lcc.Item
	Kind   costKind
	Step   int             // index in TakeOff.Steps; −1 is none
	Amount decimal.Decimal // at base-date prices, rounded by the ledger
}

// charged are the ledger's first costs of the system, in the order of its
// items; none when no alternative installs it within the study period.
func (w *worker) charged() []workCost {
	items, claimed := w.study.Systems[w.off.System].First, map[costKey]bool{}
	var out []workCost
	for i, line := range w.installation() {
		c := workCost{Item: &items[i], Kind: otherCost, Step: -1, Amount: line.Base}
		for at := range w.off.Steps {
			kind := paidFor(&w.off.Steps[at], &items[i])
			if key := (costKey{at, kind}); kind != otherCost && !claimed[key] {
				claimed[key], c.Kind, c.Step = true, kind, at
				break
			}
		}
		out = append(out, c)
	}
	return out
}

// costKey is the cost of a kind that a step has; it has one at most.
type costKey struct {
	step int
	kind costKind
}

// paidFor tells what of a step an item pays for; otherCost is nothing of it.
func paidFor(s *takeoff.Step, it *lcc.Item) costKind {
	pays := func(price, quantity lcc.Ref) bool {
		return price != lcc.NoRef && it.Price == price && (it.Quantity == quantity || it.Quantity == lcc.NoRef)
	}
	switch m := s.Material; {
	case pays(s.Labour, s.Over) && s.Over == lcc.NoRef:
		return lumpCost
	case pays(s.Labour, s.Over):
		return labourCost
	case m != nil && pays(m.Price, m.Bought):
		return materialCost
	}
	return otherCost
}

// installation are the ledger lines of the first time that the system is
// installed, one for each of its first costs, in their order.
func (w *worker) installation() []lcc.Line {
	for i := range w.Alternatives {
		for _, p := range w.Alternatives[i].Spells {
			if p.System == w.off.System && p.Begin == lcc.Installed {
				return firstLines(w.Alternatives[i].Ledger, p)
			}
		}
	}
	return nil
}

// firstLines are the lines of a ledger for the first costs of a spell.
func firstLines(ledger []lcc.Line, p lcc.Spell) []lcc.Line {
	var out []lcc.Line
	for _, line := range ledger {
		first := line.Kind == lcc.FirstCost || line.Kind == lcc.Replacement
		if first && line.System == p.System && line.Time == lcc.YearEnd(p.From) {
			out = append(out, line)
		}
	}
	return out
}

// cost is what a step's labour or material costs; false when the ledger has no
// line for it.
func (w *worker) cost(step int, kind costKind) (decimal.Decimal, bool) {
	for _, c := range w.costs {
		if c.Step == step && c.Kind == kind {
			return c.Amount, true
		}
	}
	return decimal.Zero, false
}

// sum adds the costs of a kind up; "" is all of them.
func (w *worker) sum(kind costKind) decimal.Decimal {
	sum := decimal.Zero
	for _, c := range w.costs {
		if kind == "" || c.Kind == kind {
			sum = sum.Add(c.Amount)
		}
	}
	return sum
}
