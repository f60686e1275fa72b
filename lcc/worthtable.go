package lcc

import "math"

// worthTable holds, for one escalation at one vector, the present value of
// a unit of base-date money by whole year, 0 to N.
type worthTable struct {
	series  Series    // the escalation; empty for the basis's own
	once    []float64 // paid at the end of year t: ∏(1+e_k)/(1+d)^t
	running []float64 // paid when the running costs of year t are; once itself at year ends
	sum     []float64 // Σ running, years 1..t
	step    float64   // (1+e)/(1+d) where one rate serves all years
}

// constant tells whether one rate serves all years.
func (t *worthTable) constant() bool { return len(t.series) <= 1 }

func newWorthTable(s *Study, series Series) *worthTable {
	t := &worthTable{series: series, once: make([]float64, s.Period+1), sum: make([]float64, s.Period+1)}
	t.running = t.once
	if s.Timing == MidYear {
		t.running = make([]float64, s.Period+1)
	}
	return t
}

// fillWorth makes the tables of the loaded vector.
func (k *Kernel) fillWorth() {
	discount := 1 / (1 + k.v[k.study.Rate])
	p := k.plan
	carried := discount
	if k.study.Basis == Nominal {
		carried *= 1 + k.v[k.study.Inflation]
	}
	powersOf(carried, p.carried, p.sums)
	for _, t := range p.tables {
		if t.constant() {
			t.fill(k.constantStep(t.series)*discount, k.study.Timing)
		} else {
			k.fillYearly(t, discount)
		}
	}
	for _, t := range p.growths {
		t.fill(k.v[t.ref])
	}
	p.stale = false
}

// constantStep is 1+e where one rate serves all years.
func (k *Kernel) constantStep(series Series) float64 {
	switch {
	case len(series) == 1:
		return 1 + k.v[series[0]]
	case k.study.Basis == Nominal:
		return 1 + k.v[k.study.Inflation]
	}
	return 1
}

// fill compounds one step for all years.
func (t *worthTable) fill(x float64, timing Timing) {
	t.step = x
	once, sum := t.once, t.sum
	powersOf(x, once, sum)
	if timing == MidYear { // half a step back from the end of each year
		half := 1 / math.Sqrt(x)
		for year := range once {
			t.running[year] = once[year] * half
			sum[year] *= half
		}
	}
}

// fillYearly compounds a rate of its own for each year.
func (k *Kernel) fillYearly(t *worthTable, discount float64) {
	now, total := 1.0, 0.0
	t.once[0], t.sum[0] = 1, 0
	for year := 1; year < len(t.once); year++ {
		x := (1 + k.v[t.series[year-1]]) * discount
		now *= x
		t.once[year] = now
		if k.study.Timing == MidYear {
			t.running[year] = now / math.Sqrt(x)
		}
		total += t.running[year]
		t.sum[year] = total
	}
}
