package lcc

import "math"

// worthTable holds, for one escalation at one vector, the present value of
// a unit of base-date money by whole year, 0 to N.
type worthTable struct {
	series  Series    // the escalation; empty for the basis's own
	once    []float64 // paid at the end of year t: ∏(1+e_k)/(1+d)^t
	running []float64 // paid when the running costs of year t are; once itself at year ends
	sum     []float64 // Σ running, years 1..t
}

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
	k.carried = discount
	if k.study.Basis == Nominal {
		k.carried *= 1 + k.v[k.study.Inflation]
	}
	for _, t := range k.plan.tables {
		if len(t.series) > 1 {
			k.fillYearly(t, discount)
		} else {
			t.fill(k.constantStep(t.series)*discount, k.study.Timing)
		}
	}
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

// fill compounds one step for all years. It goes four years at a time, so that
// a processor need not wait for each product before the next.
func (t *worthTable) fill(x float64, timing Timing) {
	once, sum := t.once, t.sum[:len(t.once)]
	x2 := x * x
	x3, x4 := x2*x, x2*x2
	now, total := 1.0, 0.0
	once[0], sum[0] = 1, 0
	year := 1
	for ; year+3 < len(once); year += 4 {
		o, s := once[year:year+4:year+4], sum[year:year+4:year+4]
		a, b, c, d := now*x, now*x2, now*x3, now*x4
		o[0], o[1], o[2], o[3] = a, b, c, d
		ab := a + b
		s[0], s[1], s[2], s[3] = total+a, total+ab, total+(ab+c), total+(ab+(c+d))
		now, total = d, s[3]
	}
	for ; year < len(once); year++ {
		now *= x
		total += now
		once[year], sum[year] = now, total
	}
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
