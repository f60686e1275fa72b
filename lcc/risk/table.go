package risk

import (
	"math"
	"math/bits"
)

// table is an inverse distribution function, tabulated: cubic within cells
// that are the narrower the nearer they lie to an end of the distribution,
// 32 to every halving of the distance. What lies further out than one draw in
// 8,192 on either side is computed. The error is at most tableError of the
// distribution's spread from its 5 % to its 95 % quantile; a test holds every
// shape to it.
type table struct {
	exact quantiler
	cells [2 * sideCells]cell // the upper half of the distribution, then the lower
}

// tableError bounds the error of a tabulated quantile, relative to the
// distance of the 5 % and 95 % quantiles.
const tableError = 1e-5

const (
	octaves   = 12 // halvings from ½ to 1/8192
	cellBits  = 5
	sideCells = octaves << cellBits
	// firstCell is the leading bits of 1/8192, the outermost cell's edge.
	firstCell = (1023 - 13) << cellBits
	inCell    = 1<<(52-cellBits) - 1
)

// cell is a cubic over one cell: a + x(b + x(c + x·d)), x from 0 to 1.
type cell struct{ a, b, c, d float64 }

// cubic is the value at x. As everywhere, a product that is added is rounded
// first, so that no processor fuses the two and gives other digits.
func (c *cell) cubic(x float64) float64 {
	return c.a + float64(x*(c.b+float64(x*(c.c+float64(x*c.d)))))
}

func newTable(exact quantiler) *table {
	t := &table{exact: exact}
	for i := range sideCells {
		near := math.Float64frombits(uint64(firstCell+i) << (52 - cellBits))
		far := math.Float64frombits(uint64(firstCell+i+1) << (52 - cellBits))
		t.cells[i] = fit(func(p float64) float64 { return exact.Quantile(1 - p) }, near, far)
		t.cells[sideCells+i] = fit(exact.Quantile, near, far)
	}
	return t
}

// fit gives the cubic through a function at both ends of a cell and at one
// and two thirds of it.
func fit(f func(float64) float64, from, to float64) cell {
	third := (to - from) / 3
	y0, y1, y2, y3 := f(from), f(from+third), f(to-third), f(to)
	// Newton's forward differences at thirds, in powers of x.
	d1, d2, d3 := y1-y0, y2-float64(2*y1)+y0, y3-float64(3*y2)+float64(3*y1)-y0
	return cell{a: y0, b: float64(3*d1) - float64(1.5*d2) + d3, c: float64(4.5*d2) - float64(4.5*d3), d: 4.5 * d3}
}

// at is the quantile at u, 0 < u < 1. The leading bits of the distance from
// the nearer end name the cell, the others the place in it.
func (t *table) at(u float64) float64 {
	centred := u - 0.5
	p := math.Float64bits(0.5 - math.Abs(centred))
	i := int(p>>(52-cellBits)) - firstCell
	if i < 0 || i >= sideCells { // far out, or ½ itself
		return t.exact.Quantile(u)
	}
	lower := int(math.Float64bits(centred)>>63) * sideCells
	c := &t.cells[lower+i]
	x := float64(int64(p&inCell)) * (1.0 / (inCell + 1))
	return c.cubic(x)
}

// draw is the quantile at r/2⁶⁴, for 64 random bits r: at, without the way over
// a fraction. The first bit says which half of the distribution it is; the
// others, from the nearer end, how far: leading zeros name the halving, the
// next bits the cell.
func (t *table) draw(r uint64) float64 {
	upper := uint64(int64(r) >> 63) // all ones in the upper half
	m := (r^upper)<<1 | 1
	halving := bits.LeadingZeros64(m)
	if halving >= octaves {
		return t.exact.Quantile(fraction(r))
	}
	rest := m << (halving + 1)
	i := (octaves-1-halving)<<cellBits | int(rest>>(64-cellBits))
	c := &t.cells[int(^upper&sideCells)+i]
	x := float64(int64(rest<<cellBits>>1)) * (1.0 / (1 << 63))
	return c.cubic(x)
}
