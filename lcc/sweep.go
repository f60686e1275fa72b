package lcc

import "github.com/shopspring/decimal"

// Sweeper evaluates a study again and again with some inputs changed. The
// kernel does the work; where it cannot vouch for a cent the ledger is asked.
// It is for one goroutine.
type Sweeper struct {
	study *Study
	k     *Kernel
	v     Vector
}

// Sweeper starts at the inputs of the result. It fails where EvaluateAt does,
// and so never for a result that an evaluation gave.
func (r *Result) Sweeper() (*Sweeper, error) {
	w := &Sweeper{study: r.Study, k: r.Study.NewKernel(), v: append(Vector(nil), r.Inputs...)}
	return w, w.k.LoadExact(w.v)
}

// Set changes an input, for good. It fails when the value is out of its range
// or makes a wait longer than a life, and then leaves things as they were.
func (w *Sweeper) Set(in Ref, value decimal.Decimal) error {
	v := append(Vector(nil), w.v...)
	v[in] = value
	if err := w.study.derive(v); err != nil {
		return err
	}
	if err := w.k.LoadExact(v); err != nil {
		return err
	}
	w.v = v
	return nil
}

// Costs gives the life-cycle cost of every alternative, in units of the
// currency, as the ledger totals it. It fails where EvaluateAt does.
func (w *Sweeper) Costs() ([]decimal.Decimal, error) {
	out := make([]decimal.Decimal, len(w.study.Alternatives))
	var exact *bookkeeper
	for i := range out {
		if minor, certified := w.k.Cents(i); certified {
			out[i] = decimal.New(minor, -w.study.About.Digits)
			continue
		}
		if exact == nil {
			exact = w.study.keeperAt(w.v)
		}
		lines, _, err := exact.book(i)
		if err != nil {
			return nil, err
		}
		out[i] = total(lines)
	}
	return out, nil
}

// RatePoint is the life-cycle cost of every alternative at one discount rate,
// the other inputs as in the result.
type RatePoint struct {
	Rate decimal.Decimal
	LCC  []decimal.Decimal
}

// RateCurve gives the life-cycle costs at rates from the least to the
// greatest of RateRange, a step apart; step is a fraction greater than 0. It
// fails where EvaluateAt does.
func (r *Result) RateCurve(step decimal.Decimal) ([]RatePoint, error) {
	w, err := r.Sweeper()
	if err != nil {
		return nil, err
	}
	var curve []RatePoint
	for rate := r.RateRange[0]; rate.LessThanOrEqual(r.RateRange[1]); rate = rate.Add(step) {
		if CheckRate(rate) != nil { // the open lower end of the rates
			continue
		}
		if err := w.Set(r.Study.Rate, rate); err != nil {
			return nil, err
		}
		costs, err := w.Costs()
		if err != nil {
			return nil, err
		}
		curve = append(curve, RatePoint{rate, costs})
	}
	return curve, nil
}

func (s *Study) keeperAt(v Vector) *bookkeeper {
	return &bookkeeper{study: s, v: v, factors: s.factorsAt(v)}
}

// total sums the present values of a ledger: the life-cycle cost.
func total(lines []Line) decimal.Decimal {
	sum := decimal.Zero
	for _, line := range lines {
		sum = sum.Add(line.PV)
	}
	return sum
}
