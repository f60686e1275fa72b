package vary

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/risk"
)

// End is one end of an input's range.
type End struct {
	Value decimal.Decimal
	// Margin is what the answer of the plain study is cheaper by than its
	// runner-up there; negative where it is dearer. Zero and without meaning
	// when Problem is set.
	Margin  decimal.Decimal
	Lowest  int // the cheapest eligible alternative there; −1 when Problem is set
	Problem string
}

// Swing is what one input does to the margin between the answer and the
// runner-up, the others held.
type Swing struct {
	In        lcc.Ref
	Low, High End
	// Quantiles: the ends are the 5 % and 95 % quantiles of a distribution
	// without ends of its own, else the stated low and high.
	Quantiles bool
	Width     decimal.Decimal // how far the margin moves
	Flips     bool            // another alternative is cheapest at an end
}

// Swings moves every uncertain input to its low and its high value, one at a
// time. They stand by width, widest first. A study without a runner-up has
// none. It fails where lcc.Sweeper.Costs does.
func Swings(r *lcc.Result) ([]Swing, error) {
	if r.Answer.RunnerUp < 0 {
		return nil, nil
	}
	w, err := r.Sweeper()
	if err != nil {
		return nil, err
	}
	var out []Swing
	for i := range r.Study.Inputs {
		s, found, err := swing(r, w, lcc.Ref(i))
		if err != nil {
			return nil, err
		}
		if found {
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b Swing) int { return b.Width.Cmp(a.Width) })
	return out, nil
}

// A quantile is rounded before the study is evaluated there: to swingPlaces
// decimals, or, where it is small, to swingDigits digits, and to finestSwing
// decimals at most.
const (
	swingPlaces = 4
	swingDigits = 5
	finestSwing = 16
)

// swingEnd rounds a quantile to so many decimals, or to the digits of a small
// one.
func swingEnd(quantile float64, places int32) decimal.Decimal {
	x := decimal.NewFromFloat(quantile)
	first := int32(x.NumDigits()) + x.Exponent() // where its digits begin: 1 for units
	return x.Round(max(places, min(swingDigits-first, finestSwing)))
}

// StatedEnds gives the range that the study states for an input: its low and
// high value, or the 5 % and 95 % quantiles of a distribution without ends
// (quantiles is then set). A plain value has none.
func StatedEnds(in *lcc.Input) (low, high decimal.Decimal, quantiles, found bool) {
	switch {
	case in.Shape.HasRange():
		return in.Low, in.High, false, true
	case in.Shape != lcc.Fixed:
		places := int32(swingPlaces)
		if in.Unit == lcc.Rate {
			places += 2
		}
		at := func(p float64) decimal.Decimal { return swingEnd(risk.Quantile(in, p), places) }
		return at(0.05), at(0.95), true, true
	}
	return low, high, false, false
}

// Ends is the range that a sweep of an input covers unless told otherwise: the
// rate curve's for the discount rate, else from its low to its high value; one
// point for a plain value.
func Ends(r *lcc.Result, in lcc.Ref) (from, to decimal.Decimal) {
	if in == r.Study.Rate {
		return r.RateRange[0], r.RateRange[1]
	}
	if low, high, _, found := StatedEnds(&r.Study.Inputs[in]); found {
		return low, high
	}
	return r.Inputs[in], r.Inputs[in]
}

// swing moves one input of a sweeper, and puts it back.
func swing(r *lcc.Result, w *lcc.Sweeper, in lcc.Ref) (Swing, bool, error) {
	low, high, quantiles, found := StatedEnds(&r.Study.Inputs[in])
	if !found {
		return Swing{}, false, nil
	}
	s := Swing{In: in, Quantiles: quantiles}
	var err error
	if s.Low, err = end(r, w, in, low); err != nil {
		return s, false, err
	}
	if s.High, err = end(r, w, in, high); err != nil {
		return s, false, err
	}
	if err := w.Set(in, r.Inputs[in]); err != nil {
		return s, false, err
	}
	reach := []decimal.Decimal{r.Answer.Margin}
	for _, e := range []End{s.Low, s.High} {
		if e.Problem == "" {
			reach = append(reach, e.Margin)
			s.Flips = s.Flips || e.Lowest != r.Answer.Lowest
		}
	}
	s.Width = decimal.Max(reach[0], reach...).Sub(decimal.Min(reach[0], reach...))
	return s, true, nil
}

func end(r *lcc.Result, w *lcc.Sweeper, in lcc.Ref, x decimal.Decimal) (End, error) {
	p, err := at(w, in, x, r.Study.Eligible())
	e := End{Value: x, Lowest: p.Lowest, Problem: p.Problem}
	if p.Problem == "" && err == nil {
		e.Margin = p.LCC[r.Answer.RunnerUp].Sub(p.LCC[r.Answer.Lowest])
	}
	return e, err
}
