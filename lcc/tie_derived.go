package lcc

import (
	"math"
	"slices"
)

// An input from which others follow acts through them: through packs, whose
// number jumps, and through lives, whose years jump. Between two jumps the
// difference of two costs is α + βt + γ/L, where t is the input, its inverse
// or the inverse of its rest to one, whichever way it enters (see
// Study.Check), and L, a life that follows from it, is linear in t. Such a
// difference is convex or concave in t: it has no zero, one or two.

// derivedTies finds the break-even values of such an input.
func (p probe) derivedTies(lo, hi float64) []Tie {
	d := derivedWalk{lifeWalk: lifeWalk{p: p, near: true}, way: p.r.Study.Enters(p.in)}
	lo, hi = d.way.within(lo, hi)
	if lo >= hi {
		return nil
	}
	d.affected = p.k.affectedBy(p.in)
	for i := range d.affected {
		d.lives = d.lives || d.affected[i].life
	}
	d.stretch(lo, hi, 12)
	return d.found
}

// stretch walks a range: whole where the difference is proved to keep its
// sign, else in halves, and at last from jump to jump.
func (d *derivedWalk) stretch(lo, hi float64, halvings int) {
	if !d.lives {
		if sign := d.proved(lo, hi); sign != 0 {
			d.jump(lo, sign)
			d.reach(hi, sign)
			return
		}
		middle := d.way.x((d.way.t(lo) + d.way.t(hi)) / 2)
		if halvings > 0 && lo < middle && middle < hi {
			d.stretch(lo, middle, halvings-1)
			d.stretch(middle, hi, halvings-1)
			return
		}
	}
	at := d.jumps(lo, hi)
	for i := 1; i < len(at); i++ {
		d.piece(at[i-1], at[i])
	}
}

// derivedWalk follows the sign of a difference along an input.
type derivedWalk struct {
	lifeWalk
	way      How
	affected []derivation
	lives    bool // a life follows from the input
	slack    *[2]float64
}

// Enters is how an input enters what is derived from it; Times where nothing
// is.
func (s *Study) Enters(in Ref) How {
	for i := range s.Derived {
		for _, term := range s.Derived[i].Terms {
			for _, f := range term.Factors {
				if f.Of == in {
					return f.How
				}
			}
		}
	}
	return Times
}

// within cuts a range to where a way has a meaning.
func (h How) within(lo, hi float64) (float64, float64) {
	const least = 1e-6
	switch h {
	case Over:
		lo = max(lo, least)
	case OverRest:
		hi = min(hi, 1-least)
	}
	return lo, hi
}

// t is the input as it enters, x what it is at a t.
func (h How) t(x float64) float64 {
	switch h {
	case Over:
		return 1 / x
	case OverRest:
		return 1 / (1 - x)
	}
	return x
}

func (h How) x(t float64) float64 {
	switch h {
	case Over:
		return 1 / t
	case OverRest:
		return 1 - 1/t
	}
	return t
}

// affectedBy lists what follows from an input, also over other derived ones.
func (k *Kernel) affectedBy(in Ref) []derivation {
	moved := map[Ref]bool{in: true}
	var out []derivation
	for _, d := range k.derived {
		uses := slices.ContainsFunc(d.terms, func(t derivedTerm) bool {
			return slices.ContainsFunc(t.factors, func(f Factor) bool { return moved[f.Of] })
		})
		if uses {
			moved[d.in] = true
			out = append(out, d)
		}
	}
	return out
}

// mostJumps bounds the work: an input that jumps more often is looked at in
// so many pieces of equal width.
const mostJumps = 200_000

// jumps are the values at which a number of packs or a year of work changes,
// between the ends of the range. What follows from the input is linear in t.
func (d *derivedWalk) jumps(lo, hi float64) []float64 {
	out := []float64{lo, hi}
	t0, t1 := d.way.t(lo), d.way.t(hi)
	for i := range d.affected {
		f := &d.affected[i]
		unit := f.pack
		if f.life {
			unit = 1
		}
		if unit <= 0 {
			continue
		}
		u0, u1 := d.raw(f, lo)/unit, d.raw(f, hi)/unit
		least, most := math.Ceil(max(0, min(u0, u1))), math.Floor(max(u0, u1))
		if f.life {
			most = min(most, MaxPeriod+1)
		}
		for n := least; n <= most && len(out) < mostJumps; n++ {
			if x := d.way.x(t0 + float64((n-u0)/(u1-u0)*(t1-t0))); u0 != u1 && x > lo && x < hi {
				out = append(out, x)
			}
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(x, y float64) bool { return math.Abs(x-y) <= 1e-11*max(1, math.Abs(x)) })
}

// raw is what is derived at a value of the input, without packs or bounds.
func (d *derivedWalk) raw(f *derivation, x float64) float64 {
	d.p.k.Set(d.p.in, x)
	return f.sum(d.p.k.v)
}

// proved gives the sign that the difference has in a whole range without
// lives; 0 where that is not proved. Without packs the difference is linear in
// t, and packs add to it no more than one each.
func (d *derivedWalk) proved(lo, hi float64) float64 {
	if d.slack == nil {
		d.slack = d.slacks()
	}
	f0, f1 := d.unpacked(lo), d.unpacked(hi)
	noise := 1e-9 * (math.Abs(d.p.k.LCC(d.p.a)) + math.Abs(d.p.k.LCC(d.p.b)))
	switch {
	case min(f0, f1)+d.slack[0] > noise:
		return 1
	case max(f0, f1)+d.slack[1] < -noise:
		return -1
	}
	return 0
}

// unpacked is the difference as if material were sold to the drop.
func (d *derivedWalk) unpacked(x float64) float64 {
	k := d.p.k
	k.Set(d.p.in, x)
	for i := range d.affected {
		k.put(d.affected[i].in, d.affected[i].at(k.v))
	}
	out := k.LCC(d.p.a) - k.LCC(d.p.b)
	k.rederive()
	return out
}

// slacks are the least and the most that rounding up to packs adds to the
// difference. A cost is linear in a quantity.
func (d *derivedWalk) slacks() *[2]float64 {
	k := d.p.k
	var out [2]float64
	for i := range d.affected {
		f := &d.affected[i]
		if !f.rounded {
			continue
		}
		before := k.v[f.in]
		at := k.LCC(d.p.a) - k.LCC(d.p.b)
		k.put(f.in, before+f.pack)
		more := k.LCC(d.p.a) - k.LCC(d.p.b) - at
		k.put(f.in, before)
		out[0], out[1] = out[0]+min(0, more), out[1]+max(0, more)
	}
	return &out
}

// piece looks between two jumps.
func (d *derivedWalk) piece(lo, hi float64) {
	inside := float64((hi - lo) * 1e-6)
	from, to := lo+inside, hi-inside
	f := func(x float64) float64 { return d.p.clear(d.p.at(x)) }
	start, end := f(from), f(to)
	d.jump(lo, start)
	if start*end < 0 {
		d.cross(f, from, to, start, end)
	} else if d.lives && start*end > 0 {
		if x := d.dip(f, from, to, start, end); f(x)*start < 0 {
			d.cross(f, from, x, start, f(x))
			d.cross(f, x, to, f(x), end)
		}
	}
	d.reach(hi, end)
}

// cross notes the one zero between two values of different sign.
func (d *derivedWalk) cross(f func(float64) float64, lo, hi, start, end float64) {
	for range 200 {
		middle := halfway(lo, hi)
		if middle <= lo || middle >= hi {
			break
		}
		if f(middle)*start > 0 {
			lo = middle
		} else {
			hi = middle
		}
	}
	d.found = append(d.found, tieAt(hi, d.p.a, d.p.b, start, end))
	d.last, d.at, d.zero = end, hi, false
}

// dip is where a convex difference of one sign at both ends comes nearest to
// the other; an end where it cannot come there.
func (d *derivedWalk) dip(f func(float64) float64, lo, hi, start, end float64) float64 {
	sign := math.Copysign(1, start)
	start, end = float64(sign*start), float64(sign*end)
	middle := float64(sign * f(halfway(lo, hi)))
	// A convex function lies over its chords' extensions.
	if bound := float64(2*middle) - max(start, end); middle >= min(start, end) && bound > 0 {
		return lo
	}
	for range 100 {
		x, y := lo+(hi-lo)/3, hi-(hi-lo)/3
		if sign*f(x) < sign*f(y) {
			hi = y
		} else {
			lo = x
		}
	}
	return halfway(lo, hi)
}
