package lcc

import (
	"iter"
	"math"
	"slices"
)

// mostJumps bounds the work: where an input jumps more often, and no proof
// spares it, it is looked at in so many pieces of equal width.
const mostJumps = 200_000

// pairs are the neighbours in a list.
func pairs(at []float64) iter.Seq[[2]float64] {
	return func(yield func([2]float64) bool) {
		for i := 1; i < len(at); i++ {
			if !yield([2]float64{at[i-1], at[i]}) {
				return
			}
		}
	}
}

// kinks are the ends of a range and the values between them at which
// something that follows from the input comes to nothing, as an area all taken
// up by openings does. What follows from that has its own between them.
func (d *derivedWalk) kinks(lo, hi float64) []float64 {
	out := []float64{lo, hi}
	for i := range d.affected {
		f := &d.affected[i]
		if f.signed {
			continue
		}
		for ends := range pairs(slices.Clone(out)) {
			r0, r1 := d.raw(f, ends[0]), d.raw(f, ends[1])
			if r0*r1 >= 0 {
				continue
			}
			if x := d.between(ends[0], ends[1], r0/(r0-r1)); x > ends[0] && x < ends[1] {
				out = append(out, x)
			}
		}
		slices.Sort(out)
	}
	return out
}

// between is the value a share of the way from lo to hi, as the input enters.
func (d *derivedWalk) between(lo, hi, share float64) float64 {
	t0, t1 := d.way.t(lo), d.way.t(hi)
	return d.way.x(t0 + float64(share*(t1-t0)))
}

// leap are the jumps in a range for which there was no proof: all of them
// while so many may be looked at, else its share of pieces of equal width.
func (d *derivedWalk) leap(lo, hi float64) []float64 {
	if n := d.count(lo, hi); n <= d.left {
		d.left -= n
		return d.jumps(lo, hi, false)
	}
	n := 16 + int(mostJumps*math.Abs(d.way.t(hi)-d.way.t(lo))/d.width)
	var out []float64
	for i := range n {
		out = append(out, d.between(lo, hi, float64(i)/float64(n)))
	}
	out[0] = lo
	return append(out, hi)
}

// count is how many jumps there are in a range, or more than may be.
func (d *derivedWalk) count(lo, hi float64) int {
	n := 0.0
	for i := range d.affected {
		_, _, least, most := d.wholes(&d.affected[i], lo, hi)
		n += max(0, most-least+1)
	}
	return int(min(n, mostJumps+1))
}

// jumps are the ends of a range in which all is linear and the values between
// them at which a number of packs or a year of work changes, or the latter
// alone.
func (d *derivedWalk) jumps(lo, hi float64, livesAlone bool) []float64 {
	out := []float64{lo, hi}
	for i := range d.affected {
		f := &d.affected[i]
		if livesAlone && !f.life {
			continue
		}
		u0, u1, least, most := d.wholes(f, lo, hi)
		for n := least; n <= most && len(out) <= mostJumps; n++ {
			if x := d.between(lo, hi, (n-u0)/(u1-u0)); u0 != u1 && x > lo && x < hi {
				out = append(out, x)
			}
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(x, y float64) bool { return math.Abs(x-y) <= 1e-11*max(1, math.Abs(x)) })
}

// wholes are the packs or years at the ends of a range, and the least and the
// most whole number of them in it; none where nothing jumps.
func (d *derivedWalk) wholes(f *derivation, lo, hi float64) (u0, u1, least, most float64) {
	unit := f.pack
	if f.life {
		unit = 1
	}
	if unit <= 0 {
		return 0, 0, 1, 0
	}
	u0, u1 = d.raw(f, lo)/unit, d.raw(f, hi)/unit
	least, most = math.Ceil(max(0, min(u0, u1))), math.Floor(max(u0, u1))
	if f.life {
		most = min(most, MaxPeriod+1)
	}
	return u0, u1, least, most
}

// raw is what is derived at a value of the input, without packs or bounds.
func (d *derivedWalk) raw(f *derivation, x float64) float64 {
	d.p.k.Set(d.p.in, x)
	return f.sum(d.p.k.v)
}
