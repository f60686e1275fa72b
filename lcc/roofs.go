package lcc

import (
	"fmt"
	"math"
	"math/bits"

	"github.com/shopspring/decimal"
)

// MaxMinor is the greatest amount of a roof among many, in minor units of the
// currency: 2⁵³, ninety million million dollars. A thousand of them can be
// added up in an int64.
const MaxMinor = 1 << 53

// Roofs evaluates one study for many roofs that differ in some inputs. The
// kernel does the work; where it cannot vouch for a cent the ledger is asked,
// so that every figure is the ledger's. It is for one goroutine.
type Roofs struct {
	study  *Study
	k      *Kernel
	refs   []Ref
	likely Vector
	v      Vector      // of the roof at hand
	floats []float64   // of likely, at refs
	feeds  bool        // something is derived from an input that differs
	rates  bool        // a rate differs
	exact  *bookkeeper // at v; nil until it is asked
}

// RoofCost is what one alternative costs for one roof, in minor units of the
// currency, −MaxMinor to MaxMinor.
type RoofCost struct {
	LCC     int64
	First   int64 // what falls at time 0
	Running int64 // of LCC, the annual and periodic costs; the rest is investment
}

// Roofs prepares a study, which passes Check, for roofs that differ in these
// inputs. It fails where the study itself cannot be evaluated, but for waits,
// which are looked at for each roof, or when an input is derived from others.
func (s *Study) Roofs(refs []Ref) (*Roofs, error) {
	w := &Roofs{study: s, k: s.NewKernel(), refs: refs}
	var err error
	if w.likely, err = s.filled(s.Likely()); err != nil {
		return nil, err
	}
	if err := s.checkVector(w.likely); err != nil {
		return nil, err
	}
	if err := w.k.take(w.likely); err != nil {
		return nil, err
	}
	w.v = append(Vector(nil), w.likely...)
	for _, r := range refs {
		if s.IsDerived(r) {
			return nil, fmt.Errorf("%s is derived from others", s.Inputs[r].Path)
		}
		w.floats = append(w.floats, w.k.v[r])
		w.feeds = w.feeds || w.k.feeds[r]
		w.rates = w.rates || s.Inputs[r].Unit == Rate
	}
	return w, nil
}

// Costs gives what every alternative costs for one roof, into out, which has a
// place for each. Where given is false the input keeps its likely value. It
// fails where EvaluateAt does, and when an amount is over MaxMinor.
func (w *Roofs) Costs(values []decimal.Decimal, given []bool, out []RoofCost) error {
	if err := w.load(values, given); err != nil {
		return err
	}
	if err := w.study.checkWaits(w.v); err != nil {
		return err
	}
	for i := range out {
		cost, certified := w.k.costs(i, w.settle)
		if !certified {
			var err error
			if cost, err = w.keeper().costs(i); err != nil {
				return err
			}
		}
		for _, minor := range [...]int64{cost.LCC, cost.First, cost.Running} {
			if max(minor, -minor) > MaxMinor {
				return w.study.TooLarge(i)
			}
		}
		out[i] = cost
	}
	return nil
}

// At is the kernel at the inputs of one roof, as Costs takes them. It is good
// until the next roof, and fails where EvaluateAt does.
func (w *Roofs) At(values []decimal.Decimal, given []bool) (*Kernel, error) {
	if err := w.load(values, given); err != nil {
		return nil, err
	}
	return w.k, w.study.checkWaits(w.v)
}

// keeper is the ledger's bookkeeper for the roof at hand. Its factors follow
// from rates alone, so that it serves many roofs.
func (w *Roofs) keeper() *bookkeeper {
	if w.exact == nil {
		w.exact = w.study.keeperAt(w.v)
	}
	return w.exact
}

// settle asks the ledger what one line is worth, or what it pays.
func (w *Roofs) settle(at Time, it *Item, year int, present bool) (minor int64, ok bool) {
	b := w.keeper()
	amount := b.aged(it, year).Mul(b.factors.escalate[it.Category][at])
	if present {
		amount = amount.Mul(b.factors.discount[at])
	}
	exact := toMinor(amount, b.study.About.Digits).Shift(b.study.About.Digits)
	if exact.Abs().GreaterThan(decimal.NewFromInt(maxMinor)) {
		return 0, false
	}
	return exact.IntPart(), true
}

// TooLarge is the error of an alternative that costs over MaxMinor.
func (s *Study) TooLarge(alternative int) error {
	return fmt.Errorf("alternative %q costs over %s %s", s.Alternatives[alternative].Name, decimal.New(MaxMinor, -s.About.Digits), s.About.Currency)
}

// load sets the inputs of a roof, without a look at waits. Nothing of the roof
// before stays.
func (w *Roofs) load(values []decimal.Decimal, given []bool) error {
	if w.rates {
		w.exact = nil
	}
	for i, r := range w.refs {
		w.v[r] = w.likely[r]
		if given[i] {
			w.v[r] = values[i]
			if err := w.study.Inputs[r].checkValue(values[i]); err != nil {
				return err
			}
		}
	}
	if w.feeds {
		if err := w.study.derive(w.v); err != nil {
			return err
		}
		if err := w.study.checkVector(w.v); err != nil {
			return err
		}
		return w.k.take(w.v)
	}
	for i, r := range w.refs {
		x := w.floats[i]
		if given[i] {
			if x = nearestFloat(values[i]); w.study.Inputs[r].Unit == Years {
				x = nearWhole(values[i], x)
			}
		}
		w.k.put(r, x)
	}
	return nil
}

// costs gives what the ledger of an alternative totals, in minor units.
func (b *bookkeeper) costs(alternative int) (RoofCost, error) {
	lines, _, err := b.book(alternative)
	if err != nil {
		return RoofCost{}, err
	}
	_, run := split(lines)
	var c RoofCost
	for _, sum := range []struct {
		to *int64
		of decimal.Decimal
	}{{&c.LCC, total(lines)}, {&c.First, firstOf(lines)}, {&c.Running, run}} {
		if *sum.to, err = b.minor(alternative, sum.of); err != nil {
			return RoofCost{}, err
		}
	}
	return c, nil
}

// minor is a sum of an alternative's lines in minor units.
func (b *bookkeeper) minor(alternative int, sum decimal.Decimal) (int64, error) {
	minor := sum.Shift(b.study.About.Digits)
	if minor.Abs().GreaterThan(decimal.NewFromInt(MaxMinor)) {
		return 0, b.study.TooLarge(alternative)
	}
	return minor.IntPart(), nil
}

// nearestFloat is the float64 nearest to a decimal. A short one is a quotient
// of two numbers that float64 holds, which rounds once.
func nearestFloat(d decimal.Decimal) float64 {
	if e := d.Exponent(); e <= 0 && e >= -22 && d.NumDigits() <= 15 {
		return float64(d.CoefficientInt64()) / math.Pow10(int(-e))
	}
	return d.InexactFloat64()
}

// RoofAnswer is the Answer for one roof among many.
type RoofAnswer struct {
	Lowest   int   // index; −1 when no alternative is eligible
	RunnerUp int   // index of the next eligible one; −1 when there is none
	Margin   int64 // in minor units, 0 or more; 0 without a runner-up
	Tie      bool  // as Answer.Tie
}

// RoofAnswer finds the answer for one roof from what its alternatives cost.
func (s *Study) RoofAnswer(costs []RoofCost) RoofAnswer {
	var a RoofAnswer
	a.Lowest, a.RunnerUp = s.Rank(func(i, j int) bool { return costs[i].LCC < costs[j].LCC })
	if a.RunnerUp >= 0 {
		a.Margin = costs[a.RunnerUp].LCC - costs[a.Lowest].LCC
		a.Tie = isTieMinor(a.Margin, costs[a.Lowest].LCC)
	}
	return a
}

// RoofSIR is Comparison.SIR of an alternative for one roof among many; it has
// the reason when the study has no base case or this is it.
func (s *Study) RoofSIR(costs []RoofCost, alternative int) Measure {
	base := s.BaseCase()
	if base < 0 || base == alternative {
		return Measure{Reason: "it is not compared with a base case"}
	}
	b, a := costs[base], costs[alternative]
	return sirMinor(b.Running-a.Running, (a.LCC-a.Running)-(b.LCC-b.Running))
}

// sirMinor is sir of the saving in running costs and the extra investment in
// minor units, rounded alike. Its dividend takes 128 bits.
func sirMinor(saving, extra int64) Measure {
	if extra <= 0 {
		return Measure{Reason: NoExtraInvestment}
	}
	high, low := bits.Mul64(uint64(max(saving, -saving)), ratioScale)
	by := uint64(extra)
	if high >= by {
		return Measure{Value: decimal.NewFromInt(saving).DivRound(decimal.NewFromInt(extra), ratioPlaces)}
	}
	quotient, rest := bits.Div64(high, low, by)
	if rest >= by-rest { // away from zero
		quotient++
	}
	if quotient > math.MaxInt64 {
		return Measure{Value: decimal.NewFromInt(saving).DivRound(decimal.NewFromInt(extra), ratioPlaces)}
	}
	if saving < 0 {
		return Measure{Value: decimal.New(-int64(quotient), -ratioPlaces)}
	}
	return Measure{Value: decimal.New(int64(quotient), -ratioPlaces)}
}

// ratioScale is ten to the ratioPlaces.
const ratioScale = 1_000_000_000_000
