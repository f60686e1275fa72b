package risk

import (
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"roofyears/lcc"
)

// Options say how a simulation is run.
type Options struct {
	Trials int    // how many, 1 to MaxTrials; with Until, at most
	Seed   uint64 // the same seed gives the same result
	// Until, when greater than 0, ends the run as soon as every
	// alternative's chance of being cheapest is known to this standard error.
	Until   float64
	Workers int // 0: one for each processor; the result does not depend on it
}

// MaxTrials bounds a simulation; its costs are kept in memory.
const MaxTrials = 5_000_000

// block is how many trials a worker takes at a time.
const block = 4096

// firstLook is after how many trials a run with Until looks whether to stop;
// it looks again after twice as many.
const firstLook = 16 * block

// trials holds what was drawn: the life-cycle cost of every alternative.
type trials struct {
	sampler *sampler
	costs   [][]float64 // by alternative, then by trial
	n       int
}

// simulate draws the trials.
func simulate(s *lcc.Study, o Options) (*trials, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if o.Trials < 1 || o.Trials > MaxTrials {
		return nil, fmt.Errorf("%d trials are outside 1 to %d", o.Trials, MaxTrials)
	}
	t := &trials{sampler: newSampler(s, o.Seed), costs: make([][]float64, len(s.Alternatives))}
	for i := range t.costs {
		t.costs[i] = make([]float64, o.Trials)
	}
	kernels, err := kernels(s, o.Workers)
	if err != nil {
		return nil, err
	}
	goal := o.Trials
	if o.Until > 0 {
		goal = min(firstLook, o.Trials)
	}
	for {
		if err := t.extend(kernels, goal); err != nil {
			return nil, err
		}
		if t.n == o.Trials || o.Until > 0 && t.known(s, o.Until) {
			return t, nil
		}
		goal = min(2*goal, o.Trials)
	}
}

// kernels makes one for each worker, at the plain study.
func kernels(s *lcc.Study, workers int) ([]*lcc.Kernel, error) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	out := make([]*lcc.Kernel, workers)
	for i := range out {
		out[i] = s.NewKernel()
		if err := out[i].LoadExact(s.Likely()); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// extend draws trials up to a number. It fails where a cost is over
// lcc.MostFloat.
func (t *trials) extend(kernels []*lcc.Kernel, to int) error {
	var next atomic.Int64
	next.Store(int64(t.n))
	var all sync.WaitGroup
	for _, k := range kernels {
		all.Go(func() {
			w := newWorker(t.sampler, k)
			for {
				from := int(next.Add(block)) - block
				if from >= to {
					return
				}
				for trial := from; trial < min(from+block, to); trial++ {
					w.trial(trial)
					for a := range t.costs {
						t.costs[a][trial] = k.LCCWith(a, w)
					}
				}
			}
		})
	}
	all.Wait()
	from := t.n
	t.n = to
	for trial := from; trial < to; trial++ {
		for a := range t.costs {
			if !lcc.IsFloat(t.costs[a][trial]) {
				return fmt.Errorf("in trial %d, %w", trial+1, t.sampler.study.OverFloat(a))
			}
		}
	}
	return nil
}

// worker evaluates trials with a kernel of its own.
type worker struct {
	lives
	plain  []int      // uncertain inputs that are no lives
	group  *lcc.Group // where they stand in the vector
	values []float64  // their draws in the trial at hand
}

func newWorker(m *sampler, k *lcc.Kernel) *worker {
	w := &worker{lives: newLives(m, k)}
	var refs []lcc.Ref
	for i := range m.inputs {
		if !m.inputs[i].life {
			w.plain = append(w.plain, i)
			refs = append(refs, m.inputs[i].ref)
		}
	}
	w.group, w.values = k.Group(refs), make([]float64, len(refs))
	return w
}

// trial sets the kernel to a trial's draws.
func (w *worker) trial(trial int) {
	w.turn(w.sampler, w.kernel, trial)
	for i, input := range w.plain {
		w.values[i] = w.sampler.draw(trial, input, 0)
	}
	w.kernel.SetGroup(w.group, w.values)
}

// lives are the kernel's lives in one trial of one roof: each is drawn when it
// is asked for, once.
type lives struct {
	sampler *sampler
	kernel  *lcc.Kernel
	now     int       // the trial at hand
	turns   int       // trials so far, of whatever roof
	drawn   []float64 // by slot and installation
	drawnIn []int     // the turn in which it was drawn
	most    int       // installations kept of each slot
	// Of many roofs, some are drawn ahead.
	early []int     // by slot and installation: its place among ahead, or −1
	ahead []float64 // for the roof at hand
}

func newLives(m *sampler, k *lcc.Kernel) lives {
	l := lives{sampler: m, kernel: k, most: m.study.Period + 1}
	l.drawn = make([]float64, len(m.slots)*l.most)
	l.drawnIn, l.early = make([]int, len(l.drawn)), make([]int, len(l.drawn))
	for at := range l.early {
		l.early[at] = -1
	}
	return l
}

// turn turns to a trial of a roof.
func (l *lives) turn(m *sampler, k *lcc.Kernel, trial int) {
	l.sampler, l.kernel, l.now = m, k, trial
	l.turns++
}

// Life draws the life of an installation.
func (l *lives) Life(slot, nth int) float64 {
	input := l.sampler.slots[slot]
	if input < 0 {
		return l.kernel.Life(slot, nth)
	}
	at := slot*l.most + nth
	if early := l.early[at]; early >= 0 {
		return l.ahead[early]
	}
	if l.drawnIn[at] != l.turns {
		l.drawn[at] = l.sampler.draw(l.now, input, nth)
		l.drawnIn[at] = l.turns
	}
	return l.drawn[at]
}
