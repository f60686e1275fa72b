package risk

import (
	"fmt"
	"math"
	"slices"

	"roofyears/lcc"
)

// RoofsWorker simulates roofs and keeps sums of them. It is for one goroutine;
// make one for each. Roofs may go to whichever worker in whatever order.
type RoofsWorker struct {
	*Roofs
	roofs *lcc.Roofs
	lead  *lcc.Kernel // has the factor tables of the trial at hand
	group *lcc.Group  // of what is common
	draws []float64   // of what is common, in the trial at hand
	lots  []*lot
	lives lives
	ahead ahead
	costs []float64 // by alternative, of the roof at hand
	minor []int64   // the same in minor units
	scale float64   // minor units in a unit of currency
	tile  roofSums  // of the roofs at hand
	sums  roofSums
}

// tileRoofs is how many roofs are done together, so that the factor tables of
// a trial serve them all and what they need stays in a processor's cache.
const tileRoofs = 64

// Worker makes a worker.
func (r *Roofs) Worker() (*RoofsWorker, error) {
	s, n := r.study, len(r.study.Alternatives)
	w := &RoofsWorker{Roofs: r, costs: make([]float64, n), minor: make([]int64, n), scale: math.Pow10(int(s.About.Digits))}
	var err error
	if w.roofs, err = s.Roofs(r.refs); err != nil {
		return nil, err
	}
	leads, err := kernels(s, 1)
	if err != nil {
		return nil, err
	}
	w.lead = leads[0]
	w.lead.Refresh()
	w.group, w.draws = w.lead.Group(r.sharing), make([]float64, len(r.sharing))
	w.lives = newLives(r.sampler, w.lead)
	w.ahead = newAhead(r, &w.lives)
	w.tile, w.sums = newRoofSums(r), newRoofSums(r)
	return w, nil
}

// Do simulates roofs, adds them to the sums of the worker and puts what it
// finds of each into out, which has a place for each and whose slices are used again.
func (w *RoofsWorker) Do(roofs []Roof, out []RoofRisk) {
	for len(roofs) > 0 {
		n := min(len(roofs), tileRoofs)
		w.together(roofs[:n], out[:n])
		roofs, out = roofs[n:], out[n:]
	}
}

// together does the roofs of one tile. One that fails is left out, and the
// others are done again.
func (w *RoofsWorker) together(roofs []Roof, out []RoofRisk) {
	lots := w.load(roofs, out)
	for len(lots) > 0 {
		bad := w.simulate(lots)
		if bad < 0 {
			break
		}
		lots = slices.Delete(lots, bad, bad+1)
	}
	if len(lots) == 0 {
		return
	}
	for _, l := range lots {
		l.average(w.options.Trials)
		w.tile.count(l)
	}
	w.sums.join(&w.tile)
}

// load sets lots to the roofs that can be evaluated.
func (w *RoofsWorker) load(roofs []Roof, out []RoofRisk) []*lot {
	n := 0
	for i := range roofs {
		f, risk := &roofs[i], &out[i]
		if risk.Err = w.check(f); risk.Err != nil {
			continue
		}
		at, err := w.roofs.At(f.Values, f.Given)
		if risk.Err = err; err != nil {
			continue
		}
		if n == len(w.lots) {
			w.lots = append(w.lots, newLot(w.Roofs, w.lead))
		}
		w.lots[n].load(w.Roofs, f, at, &w.ahead)
		w.lots[n].risk = risk
		n++
	}
	return slices.Clone(w.lots[:n])
}

// simulate draws all trials of some roofs. It gives the place of a roof that
// fails; −1 when none does.
func (w *RoofsWorker) simulate(lots []*lot) int {
	w.tile.clear()
	w.ahead.set(w.Roofs, lots)
	for _, l := range lots {
		l.restart(len(w.costs))
	}
	for trial := range w.options.Trials {
		for i, input := range w.shared {
			w.draws[i] = w.sampler.draw(trial, input, 0)
		}
		w.lead.SetGroup(w.group, w.draws)
		w.lead.Refresh()
		w.ahead.trial(w.sampler, trial)
		sums := w.tile.of(trial)
		for i, l := range lots {
			w.lives.ahead = w.ahead.of(i)
			l.trial(trial, w.draws, w.lives.ahead)
			if l.risk.Err = w.evaluate(l, trial); l.risk.Err != nil {
				return i
			}
			award(l.risk.Cheapest, w.costs, l.eligible)
			w.add(sums, l)
		}
	}
	return -1
}

// evaluate finds what every alternative costs a roof in a trial.
func (w *RoofsWorker) evaluate(l *lot, trial int) error {
	w.lives.turn(&l.sampler, l.kernel, trial)
	for a := range w.costs {
		cost := l.kernel.LCCWith(a, &w.lives)
		minor := math.RoundToEven(cost * w.scale)
		if !(math.Abs(minor) <= lcc.MaxMinor) {
			return fmt.Errorf("in trial %d, %w", trial+1, w.study.TooLarge(a))
		}
		w.costs[a], w.minor[a] = cost, int64(minor)
		l.risk.Mean[a] += cost
	}
	return nil
}

// add adds a roof to the sums of a trial.
func (w *RoofsWorker) add(sums []int64, l *lot) {
	n := len(w.minor)
	for a, minor := range w.minor {
		sums[a] += minor
	}
	for c, choice := range l.Choices {
		if choice < 0 {
			continue
		}
		sums[n+2*c] += w.minor[choice]
		if w.base >= 0 {
			sums[n+2*c+1] += w.minor[w.base]
		}
	}
}

// restart clears what is found of a roof.
func (l *lot) restart(alternatives int) {
	l.risk.Mean, l.risk.Cheapest = zeros(l.risk.Mean, alternatives), zeros(l.risk.Cheapest, alternatives)
}

func zeros(x []float64, n int) []float64 {
	x = slices.Grow(x[:0], n)[:n]
	clear(x)
	return x
}

// average makes means and chances of what trials added up to.
func (l *lot) average(trials int) {
	for a := range l.risk.Mean {
		l.risk.Mean[a] /= float64(trials)
		l.risk.Cheapest[a] /= float64(trials)
	}
}
