package lcc

import "slices"

// growthTable holds, for costs that grow with age and escalate alike, what
// age makes of them at one vector, by whole years, 0 to N.
type growthTable struct {
	ref   Ref
	worth *worthTable
	step  float64   // 1+growth
	aged  []float64 // (1+growth)^n: a cost after n years more; nil where nobody asks
	// Where one rate serves all years, n years' costs are worth
	// 1 + more[n−1] times the first year's; powers are on the way there.
	powers, more []float64
}

// growth finds the table of an item's growth, or makes one; nil where the item
// does not grow.
func (p *plan) growth(s *Study, it *Item) *growthTable {
	if it.Growth == NoRef {
		return nil
	}
	column := func() []float64 { return make([]float64, s.Period+1) }
	worth := p.table(s, s.Escalation[it.Category])
	at := slices.IndexFunc(p.growths, func(t *growthTable) bool { return t.ref == it.Growth && t.worth == worth })
	if at < 0 {
		at = len(p.growths)
		p.growths = append(p.growths, &growthTable{ref: it.Growth, worth: worth, powers: column(), more: column()})
	}
	t := p.growths[at]
	if t.aged == nil && (it.KeepsAge || it.Every > 0) {
		t.aged = column()
	}
	return t
}

// fill makes the table from a rate of growth.
func (t *growthTable) fill(rate float64) {
	t.step = 1 + rate
	if t.aged != nil {
		powersOf(t.step, t.aged, t.powers)
	}
	if t.worth.constant() {
		powersOf(t.step*t.worth.step, t.powers, t.more)
	}
}

// years is a unit paid in some years, growing from the first of them on, given
// what it is worth in each.
func (t *growthTable) years(running []float64) float64 {
	aged, total := 1.0, 0.0
	for _, worth := range running {
		total += float64(aged * worth)
		aged *= t.step
	}
	return total
}

// powersOf fills powers with xⁿ and sums with x + x² + … + xⁿ. It goes four
// terms at a time, so that a processor need not wait for each product before
// the next.
func powersOf(x float64, powers, sums []float64) {
	sums = sums[:len(powers)]
	x2 := x * x
	x3, x4 := x2*x, x2*x2
	now, total := 1.0, 0.0
	powers[0], sums[0] = 1, 0
	n := 1
	for ; n+3 < len(powers); n += 4 {
		p, s := powers[n:n+4:n+4], sums[n:n+4:n+4]
		a, b, c, d := float64(now*x), float64(now*x2), float64(now*x3), float64(now*x4)
		p[0], p[1], p[2], p[3] = a, b, c, d
		ab := a + b
		s[0], s[1], s[2], s[3] = total+a, total+ab, total+(ab+c), total+(ab+(c+d))
		now, total = d, s[3]
	}
	for ; n < len(powers); n++ {
		now = float64(now * x)
		total += now
		powers[n], sums[n] = now, total
	}
}
