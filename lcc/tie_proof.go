package lcc

import "math"

// proved gives the sign that the difference has in a whole range in which no
// life comes to another year; 0 where that is not proved. Without packs the
// difference is convex or concave in t, so that it lies between its ends and
// the extensions of its chords; packs add to it no more than one each.
func (d *derivedWalk) proved(lo, hi float64) float64 {
	if d.lives { // a life of just whole years belongs to the year before
		inside := float64((hi - lo) * 1e-6)
		lo, hi = lo+inside, hi-inside
	}
	f0, noise0, slack0 := d.unpacked(lo)
	f1, noise1, slack1 := d.unpacked(hi)
	least, most := min(f0, f1), max(f0, f1)
	if d.lives {
		f, _, _ := d.unpacked(d.middle(lo, hi))
		least, most = min(least, float64(2*f)-most), max(most, float64(2*f)-least)
	}
	noise := 1e-9 * max(noise0, noise1)
	switch {
	case least+min(slack0[0], slack1[0]) > noise:
		return 1
	case most+max(slack0[1], slack1[1]) < -noise:
		return -1
	}
	return 0
}

// unpacked is the difference as if material were sold to the drop, what both
// cost together, and what packs may add there.
func (d *derivedWalk) unpacked(x float64) (difference, size float64, slack [2]float64) {
	k := d.p.k
	k.Set(d.p.in, x)
	for i := range d.affected {
		k.put(d.affected[i].in, d.affected[i].at(k.v))
	}
	a, b := k.LCC(d.p.a), k.LCC(d.p.b)
	slack = d.slacks(a - b)
	k.rederive()
	return a - b, math.Abs(a) + math.Abs(b), slack
}

// slacks are the least and the most that rounding up to packs adds to the
// difference. A cost is linear in a quantity, and what one more pack of it
// costs is linear in the inverse of a life: at its extremes at the ends of a
// range.
func (d *derivedWalk) slacks(at float64) (out [2]float64) {
	k := d.p.k
	for i := range d.affected {
		f := &d.affected[i]
		if !f.rounded {
			continue
		}
		before := k.v[f.in]
		k.put(f.in, before+f.pack)
		more := k.LCC(d.p.a) - k.LCC(d.p.b) - at
		k.put(f.in, before)
		out[0], out[1] = out[0]+min(0, more), out[1]+max(0, more)
	}
	return out
}
