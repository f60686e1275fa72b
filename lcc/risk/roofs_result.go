package risk

import (
	"errors"
	"math"
	"slices"

	"roofyears/lcc"
)

// RoofsResult is what all roofs together may cost. Amounts are present values
// in the study's currency.
type RoofsResult struct {
	Trials int
	Seed   uint64
	Roofs  int       // that were simulated
	Common []lcc.Ref // uncertain inputs whose draws all roofs share
	Local  []lcc.Ref // uncertain inputs that each roof draws for itself

	Alternatives []RoofsTotal // each for all roofs, whether or not it is ruled out for some
	Choices      []RoofsTotal // the sets of choices
	Curve        Histogram    // of the costs of Alternatives, then of Choices
}

// RoofsTotal is what a choice for many roofs may cost together.
type RoofsTotal struct {
	Roofs    int // that are in it; without one, all figures are 0
	RuledOut int // roofs for which it is ruled out; of an alternative
	Cost     Range
	// Saving is the cost of the base case less this one, of the same roofs and
	// in the same futures. Saves is the chance that it is over 0, with its
	// standard error. All are 0 in a study without a base case.
	Saving            Range
	Saves, SavesError float64
}

// Range describes a distribution. The chance of less than P10 is a tenth, and
// so on; SD, the standard deviation, is 0 or more.
type Range struct {
	Mean, SD, P10, P50, P90 float64
}

// Result sums up what workers have done; it is the same for whichever of them
// did a roof. They may go on afterwards. It fails when a sum over the roofs is
// beyond 2⁶³ minor units of the currency.
func (r *Roofs) Result(workers ...*RoofsWorker) (*RoofsResult, error) {
	all := newRoofSums(r)
	for _, w := range workers {
		all.join(&w.sums)
	}
	if all.over {
		return nil, errors.New("the roofs cost more than can be added up")
	}
	out := &RoofsResult{Trials: r.options.Trials, Seed: r.options.Seed, Roofs: all.roofs}
	for i := range r.sampler.inputs {
		if ref := r.sampler.inputs[i].ref; r.common[i] {
			out.Common = append(out.Common, ref)
		} else {
			out.Local = append(out.Local, ref)
		}
	}
	n := len(r.study.Alternatives)
	var costs [][]float64
	for series := range n + r.options.Choices {
		t, base := RoofsTotal{Roofs: all.roofs}, r.base
		at := series
		if series < n {
			t.RuledOut = all.ruledOut[series]
		} else {
			t.Roofs = all.chosen[series-n]
			at = n + 2*(series-n)
			base = at + 1
		}
		costs = append(costs, r.total(&t, &all, at, base))
		if series < n {
			out.Alternatives = append(out.Alternatives, t)
		} else {
			out.Choices = append(out.Choices, t)
		}
	}
	out.Curve = histogram(costs...)
	return out, nil
}

// total sums up one series of sums beside that of its base case, and gives its
// costs in order.
func (r *Roofs) total(t *RoofsTotal, all *roofSums, series, base int) []float64 {
	scale := math.Pow10(int(r.study.About.Digits))
	costs, savings := make([]float64, r.options.Trials), make([]float64, r.options.Trials)
	saves := 0
	for trial := range costs {
		sums := all.of(trial)
		costs[trial] = float64(sums[series]) / scale
		if r.base < 0 {
			continue
		}
		if sums[base] > sums[series] {
			saves++
		}
		savings[trial] = float64(sums[base]-sums[series]) / scale
	}
	slices.Sort(costs)
	t.Cost = rangeOf(costs)
	if r.base >= 0 {
		slices.Sort(savings)
		t.Saving = rangeOf(savings)
		t.Saves = float64(saves) / float64(len(costs))
		t.SavesError = shareError(t.Saves, len(costs))
	}
	return costs
}

// rangeOf sums up a sorted sample.
func rangeOf(x []float64) Range {
	m := momentsOf(x)
	return Range{Mean: m.Mean, SD: m.SD, P10: quantile(x, 0.1), P50: m.P50, P90: quantile(x, 0.9)}
}
