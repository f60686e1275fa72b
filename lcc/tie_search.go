package lcc

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"
)

// TieSearch looks for break-even values of a result's inputs. It keeps the
// kernel that it asks, so that many searches compile the study once. It is for
// one goroutine.
type TieSearch struct {
	r       *Result
	k       *Kernel
	home    []float64 // what the kernel is loaded with between searches
	group   Group     // of the input in
	in      Ref       // that was looked at last
	sweeper *Sweeper  // at the result's inputs between searches; nil until a cent is asked
}

// TieSearch starts at the inputs of the result. It fails when an alternative
// costs over MostFloat.
func (r *Result) TieSearch() (*TieSearch, error) {
	k := r.Study.NewKernel()
	if err := k.LoadExact(r.Inputs); err != nil {
		return nil, err
	}
	for a := range r.Study.Alternatives {
		if !IsFloat(k.LCC(a)) {
			return nil, r.Study.OverFloat(a)
		}
	}
	return &TieSearch{r: r, k: k, home: slices.Clone(k.v), in: NoRef}, nil
}

// MostFloat is the greatest cost that is looked at in float64, in the
// currency: its square and what an input's move makes of it are numbers still.
const MostFloat = 1e100

// IsFloat tells whether a cost is a number of at most MostFloat.
func IsFloat(cost float64) bool { return math.Abs(cost) <= MostFloat }

// OverFloat is the error of an alternative that costs over MostFloat.
func (s *Study) OverFloat(alternative int) error {
	return fmt.Errorf("alternative %q costs over 1 followed by 100 zeros %s", s.Alternatives[alternative].Name, s.About.Currency)
}

// Ties does one search; see TieSearch.Ties.
func (r *Result) Ties(in Ref, a, b int, low, high decimal.Decimal) ([]Tie, error) {
	t, err := r.TieSearch()
	if err != nil {
		return nil, err
	}
	return t.Ties(in, a, b, low, high)
}

// Ties finds every break-even value of an input between two alternatives,
// from low to high, in order. It proves that there are no others: a cost is
// linear in an amount, a polynomial in 1 + a rate, and between two whole years
// linear in the inverse of a life; see derivedTies for an input from which
// others follow. The result's other inputs are held. It fails for an input
// that the study does not have, for a range that is empty or outside what its
// unit may be, and where EvaluateAt does.
func (t *TieSearch) Ties(in Ref, a, b int, low, high decimal.Decimal) ([]Tie, error) {
	r := t.r
	if !r.Study.has(in) || low.GreaterThan(high) {
		return nil, fmt.Errorf("there is no such input, or its range is empty")
	}
	lo, hi := low.InexactFloat64(), high.InexactFloat64()
	p := t.probe(in, a, b)
	defer p.leave()
	if r.Study.feeds(in) {
		return p.derivedTies(lo, hi), nil
	}
	switch r.Study.Inputs[in].Unit {
	case Rate:
		if CheckRate(low) != nil || CheckRate(high) != nil {
			return nil, fmt.Errorf("a rate from %s to %s is outside the range from over -50%% to 1000%%", low, high)
		}
		return r.rateTies(in, a, b, lo, hi), nil
	case Years:
		if lo <= 0 || high.GreaterThan(MaxLife) {
			return nil, fmt.Errorf("lives from %s to %s are outside the range from over 0 to %s years", low, high, MaxLife)
		}
		return p.lifeTies(lo, hi), nil
	case Area, Length, Count:
		if lo < 0 || lo == 0 && r.Study.Inputs[in].Unit == Area {
			return nil, fmt.Errorf("a quantity from %s is outside its range", low)
		}
	}
	return p.amountTies(lo, hi), nil
}

// probe gives the difference of two alternatives' unrounded costs as one
// input varies.
type probe struct {
	*TieSearch
	a, b int
}

// probe takes up an input. Whoever does so leaves it, before another.
func (t *TieSearch) probe(in Ref, a, b int) probe {
	if in != t.in {
		t.k.Regroup(&t.group, []Ref{in})
		t.in = in
	}
	return probe{t, a, b}
}

func (p probe) at(x float64) float64 {
	p.set(x)
	return p.k.LCC(p.a) - p.k.LCC(p.b)
}

func (p probe) set(x float64) {
	if p.k.v[p.in] != x {
		p.k.SetGroup(&p.group, []float64{x})
	}
}

// leave puts the input back to what it was, and what follows from it with it,
// to the last bit.
func (p probe) leave() {
	if !p.group.feeds {
		p.set(p.home[p.in])
		return
	}
	copy(p.k.v, p.home)
	p.k.setLives()
	p.k.outdate()
}

// gap is what A costs more than B at a value of the input, in the ledger's
// cents.
func (p probe) gap(x float64) decimal.Decimal {
	costs, err := p.cents(decimal.NewFromFloat(x))
	if err != nil {
		return decimal.NewFromFloat(p.at(x)).Round(p.r.Study.About.Digits)
	}
	return costs[p.a].Sub(costs[p.b])
}

// cents are the costs of all alternatives at a value of the input.
func (p probe) cents(x decimal.Decimal) (costs []decimal.Decimal, err error) {
	if p.sweeper == nil {
		if p.sweeper, err = p.r.Sweeper(); err != nil {
			return nil, err
		}
	}
	if err := p.sweeper.Set(p.in, x); err != nil {
		return nil, err
	}
	costs, err = p.sweeper.Costs()
	return costs, errors.Join(err, p.sweeper.Set(p.in, p.r.Inputs[p.in]))
}

// beside is what A costs more than B just below and just above a jump.
func (p probe) beside(x float64) (below, above decimal.Decimal) {
	step := float64(1e-9 * max(1, math.Abs(x)))
	return p.gap(x - step), p.gap(x + step)
}

// lives tells whether an alternative comes to live a life, at the loaded
// vector: if it does not, that life changes nothing of it, since what comes
// before it does not depend on it.
func (k *Kernel) lives(alternative int, life Ref) bool {
	for w := k.study.Walk(alternative); ; {
		slot, more := w.Slot()
		if !more {
			return false
		}
		if k.study.LifeAt(slot) == life {
			return true
		}
		w.Next(k.whole[slot])
	}
}
