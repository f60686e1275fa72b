package risk

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"roofyears/lcc"
)

// Result sums up a simulation. Amounts are present values in the study's
// currency, unrounded.
type Result struct {
	Study        *lcc.Study
	Trials       int
	Seed         uint64
	Alternatives []Spread    // in the order of the study
	Pairs        []Pair      // every two alternatives, A before B
	Chosen       int         // the eligible alternative of least mean cost; −1 when none is
	Rival        int         // the next one; −1 when there is none
	Influences   []Influence // by share of the margin, greatest first
	// KnowingAll is what it would be worth to know every uncertain input
	// before choosing: the expected value of perfect information [Raiffa].
	KnowingAll, KnowingAllError float64
	Curve                       Histogram
}

// Moments describe a distribution: its mean, its standard deviation (0 or more)
// and the values that a twentieth, a half and all but a twentieth of it lie below.
type Moments struct {
	Mean, SD, P5, P50, P95 float64
}

// Spread is what an alternative may cost.
type Spread struct {
	Moments
	// Cheapest is the chance that it costs least of the eligible
	// alternatives, ties shared; with its standard error. Zero when it is
	// ruled out.
	Cheapest, CheapestError float64
	Regret                  float64 // expected cost above the cheapest eligible one
}

// Pair is the distribution of cost A − cost B.
type Pair struct {
	A, B int
	Moments
	Less, LessError float64 // chance that A costs less than B, and its standard error
	Histogram
}

// Histogram counts trials in cells of one width. What lies outside is counted
// in the first and the last cell.
type Histogram struct {
	From, Width float64
	Counts      [][]int // by series, then by cell
}

// curveCells is how many cells a histogram has.
const curveCells = 40

// Run simulates a study. It fails when the study is unsound, or the number of
// trials out of range.
func Run(s *lcc.Study, o Options) (*Result, error) {
	t, err := simulate(s, o)
	if err != nil {
		return nil, err
	}
	for a := range t.costs {
		t.costs[a] = t.costs[a][:t.n]
	}
	r := &Result{Study: s, Trials: t.n, Seed: o.Seed, Chosen: -1, Rival: -1}
	t.spreads(r)
	eligible := s.Eligible()
	t.choose(r, eligible)
	t.rank(r, eligible)
	t.pairs(r)
	t.influences(r, eligible)
	return r, nil
}

// spreads sums up each alternative's cost.
func (t *trials) spreads(r *Result) {
	r.Alternatives = make([]Spread, len(t.costs))
	samples := make([][]float64, len(t.costs))
	inParallel(len(t.costs), func(a int) {
		samples[a] = arrangedCopy(t.costs[a])
		r.Alternatives[a].Moments = momentsOf(samples[a])
	})
	r.Curve = histogram(samples...)
}

// pairs sums up the difference of every two alternatives.
func (t *trials) pairs(r *Result) {
	for a := range t.costs {
		for b := a + 1; b < len(t.costs); b++ {
			r.Pairs = append(r.Pairs, Pair{A: a, B: b})
		}
	}
	inParallel(len(r.Pairs), func(i int) { t.pair(&r.Pairs[i]) })
}

// inParallel does n independent pieces of work, each of which writes to a
// place of its own.
func inParallel(n int, do func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
}

func arrangedCopy(x []float64) []float64 {
	out := slices.Clone(x)
	arrange(out)
	return out
}

// choose finds the two eligible alternatives of least mean cost: who has to
// decide without knowing more takes the first.
func (t *trials) choose(r *Result, eligible []int) {
	for _, a := range eligible {
		mean := r.Alternatives[a].Mean
		switch {
		case r.Chosen < 0 || below(mean, r.Alternatives[r.Chosen].Mean):
			r.Chosen, r.Rival = a, r.Chosen
		case r.Rival < 0 || below(mean, r.Alternatives[r.Rival].Mean):
			r.Rival = a
		}
	}
}

// rank counts how often each alternative is the cheapest, what the others
// cost above it, and what knowing all would save.
func (t *trials) rank(r *Result, eligible []int) {
	if len(eligible) == 0 {
		return
	}
	shares := t.cheapest(eligible)
	regret := make([]float64, len(t.costs))
	saved, savedSquare := 0.0, 0.0
	for i := range t.n {
		least := t.least(eligible, i)
		for _, a := range eligible {
			regret[a] += t.costs[a][i] - least
		}
		save := t.costs[r.Chosen][i] - least
		saved += save
		savedSquare += float64(save * save)
	}
	n := float64(t.n)
	for _, a := range eligible {
		o := &r.Alternatives[a]
		o.Cheapest, o.CheapestError = shares[a], shareError(shares[a], t.n)
		o.Regret = regret[a] / n
	}
	r.KnowingAll = saved / n
	r.KnowingAllError = math.Sqrt(math.Max(0, savedSquare/n-float64(r.KnowingAll*r.KnowingAll)) / n)
}

func (t *trials) least(eligible []int, trial int) float64 {
	least := math.Inf(1)
	for _, a := range eligible {
		least = math.Min(least, t.costs[a][trial])
	}
	return least
}

// cheapest gives, by alternative, the share of trials in which it costs
// least; a tie is shared.
func (t *trials) cheapest(eligible []int) []float64 {
	shares, costs := make([]float64, len(t.costs)), make([]float64, len(t.costs))
	for i := range t.n {
		for a := range costs {
			costs[a] = t.costs[a][i]
		}
		award(shares, costs, eligible)
	}
	for a := range shares {
		shares[a] /= float64(t.n)
	}
	return shares
}

// award gives a trial to the eligible alternative that costs least in it, or
// a part of it to each that does.
func award(shares, costs []float64, eligible []int) {
	least, ties, first := math.Inf(1), 0, -1
	for _, a := range eligible {
		least = math.Min(least, costs[a])
	}
	most := least + noise(least)
	for _, a := range eligible {
		if costs[a] <= most {
			if ties++; ties == 1 {
				first = a
			}
		}
	}
	if ties == 1 {
		shares[first]++
		return
	}
	for _, a := range eligible {
		if costs[a] <= most {
			shares[a] += 1 / float64(ties)
		}
	}
}

// noise is how far two sums that are equal to the cent may lie apart by
// rounding alone, at about a cost.
func noise(cost float64) float64 { return float64(2e-12 * math.Abs(cost)) }

// below tells whether a cost is less than another by more than noise.
func below(a, b float64) bool { return b-a > noise(a) }

// shareError is the standard error of a share counted in n trials.
func shareError(p float64, n int) float64 { return math.Sqrt(p * (1 - p) / float64(n)) }

// known tells whether every chance of being cheapest is known well enough.
func (t *trials) known(s *lcc.Study, enough float64) bool {
	for _, p := range t.cheapest(s.Eligible()) {
		if shareError(p, t.n) > enough {
			return false
		}
	}
	return true
}

func (t *trials) pair(p *Pair) {
	x := t.difference(p.A, p.B)
	less := 0
	for i := range x {
		if below(t.costs[p.A][i], t.costs[p.B][i]) {
			less++
		}
	}
	p.Less = float64(less) / float64(t.n)
	p.LessError = shareError(p.Less, t.n)
	arrange(x)
	p.Moments = momentsOf(x)
	p.Histogram = histogram(x)
}

// momentsOf sums up an arranged sample. The sum of squares is taken about the
// mean.
func momentsOf(x []float64) Moments {
	n := float64(len(x))
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	m := Moments{Mean: sum / n}
	squares := 0.0
	for _, v := range x {
		squares += float64((v - m.Mean) * (v - m.Mean))
	}
	if len(x) > 1 {
		m.SD = math.Sqrt(squares / (n - 1))
	}
	m.P5, m.P50, m.P95 = quantile(x, 0.05), quantile(x, 0.5), quantile(x, 0.95)
	return m
}

// quantile interpolates between the order statistics of an arranged sample; p
// is one of those asked.
func quantile(x []float64, p float64) float64 {
	i, part := rank(p, len(x))
	if i+1 >= len(x) {
		return x[len(x)-1]
	}
	return x[i] + float64(part*(x[i+1]-x[i]))
}

// histogram counts arranged samples in cells that cover all but the outermost
// thousandths.
func histogram(samples ...[]float64) Histogram {
	low, high := math.Inf(1), math.Inf(-1)
	for _, x := range samples {
		low, high = math.Min(low, quantile(x, 0.001)), math.Max(high, quantile(x, 0.999))
	}
	h := Histogram{From: low, Width: (high - low) / curveCells}
	for _, x := range samples {
		counts := make([]int, curveCells)
		for _, v := range x {
			cell := 0
			if h.Width > 0 {
				cell = int(math.Max(0, math.Min(curveCells-1, math.Floor((v-low)/h.Width))))
			}
			counts[cell]++
		}
		h.Counts = append(h.Counts, counts)
	}
	return h
}
