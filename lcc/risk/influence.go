package risk

import (
	"math"
	"slices"

	"roofyears/lcc"
)

// Influence is what one uncertain input does to the result. Of a life, the
// input is the life of the first installation.
type Influence struct {
	Ref lcc.Ref
	// Shares of the variance that the input explains alone (first-order
	// index [Saltelli]), 0 to 1: of each alternative's cost, and of the
	// difference between Result.Chosen and Result.Rival.
	Costs  []float64
	Margin float64
	// Knowing is what it would be worth to know this input alone before
	// choosing (partial expected value of perfect information), 0 or more.
	Knowing float64
}

// An input's range is cut into slices of equal probability: fine ones, some
// fifty trials in each, for the share that it explains; coarse ones, some
// thousand, where each slice suggests a choice.
func fine(trials int) int   { return max(2, min(250, trials/50)) }
func coarse(trials int) int { return max(2, min(250, trials/1000)) }

// influences looks at each uncertain input alone, most influential first.
func (t *trials) influences(r *Result, eligible []int) {
	r.Influences = make([]Influence, len(t.sampler.inputs))
	inParallel(len(r.Influences), func(i int) {
		s := t.slice(i, fine(t.n))
		f := Influence{Ref: t.sampler.inputs[i].ref}
		for a := range t.costs {
			f.Costs = append(f.Costs, s.explained(t.costs[a]))
		}
		if r.Rival >= 0 {
			f.Margin = s.explained(t.difference(r.Chosen, r.Rival))
			f.Knowing = t.knowing(t.slice(i, coarse(t.n)), eligible)
		}
		r.Influences[i] = f
	})
	slices.SortStableFunc(r.Influences, func(a, b Influence) int {
		switch {
		case a.Margin > b.Margin:
			return -1
		case a.Margin < b.Margin:
			return 1
		}
		return 0
	})
}

func (t *trials) difference(a, b int) []float64 {
	out := make([]float64, t.n)
	for i := range out {
		out[i] = t.costs[a][i] - t.costs[b][i]
	}
	return out
}

// slicing sorts trials by one input: of says in which slice a trial lies.
type slicing struct {
	of    []uint8
	count int
}

// slice cuts the trials into so many, up to 256, by where an input's draw lies in its distribution.
func (t *trials) slice(input, count int) slicing {
	s := slicing{of: make([]uint8, t.n), count: count}
	for trial := range s.of {
		u := t.sampler.uniform(trial, input, 0)
		s.of[trial] = uint8(min(s.count-1, int(u*float64(s.count))))
	}
	return s
}

// explained is the share of a sample's variance that lies between slices,
// corrected for what chance alone puts there; 0 to 1.
func (s slicing) explained(x []float64) float64 {
	sums, counts := make([]float64, s.count), make([]float64, s.count)
	total := 0.0
	for i, v := range x {
		sums[s.of[i]] += v
		counts[s.of[i]]++
		total += v
	}
	n := float64(len(x))
	mean := total / n
	between, all := 0.0, 0.0
	for b := range sums {
		if counts[b] > 0 {
			d := sums[b]/counts[b] - mean
			between += float64(counts[b] * d * d)
		}
	}
	for _, v := range x {
		all += float64((v - mean) * (v - mean))
	}
	free := float64(s.count - 1)
	if all == 0 || n-1 <= free {
		return 0
	}
	within := (all - between) / (n - 1 - free)
	return math.Max(0, math.Min(1, (between-float64(free*within))/all))
}

// knowing is what choosing within each slice saves over one choice for all:
// the single-parameter estimate of [Strong]. A choice that a slice suggests is
// judged on other trials than those that suggested it (odd on even, even on
// odd), so that chance is not taken for knowledge.
func (t *trials) knowing(s slicing, eligible []int) float64 {
	const halves = 2
	sums := make([]float64, halves*s.count*len(t.costs))
	at := func(half, slice, a int) int { return (half*s.count+slice)*len(t.costs) + a }
	totals := make([]float64, len(t.costs))
	for _, a := range eligible {
		for i, v := range t.costs[a] {
			sums[at(i%halves, int(s.of[i]), a)] += v
			totals[a] += v
		}
	}
	informed := 0.0
	for slice := range s.count {
		for half := range halves {
			best := eligible[0]
			for _, a := range eligible {
				if sums[at(half, slice, a)] < sums[at(half, slice, best)] {
					best = a
				}
			}
			informed += sums[at(1-half, slice, best)]
		}
	}
	uninformed := math.Inf(1)
	for _, a := range eligible {
		uninformed = math.Min(uninformed, totals[a])
	}
	return math.Max(0, (uninformed-informed)/float64(t.n))
}
