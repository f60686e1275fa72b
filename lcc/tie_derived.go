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
// difference is convex or concave in t: it has no zero, one or two. All that
// follows is linear between two kinks, where a part of it comes to nothing.

// derivedTies finds the break-even values of such an input.
func (p probe) derivedTies(lo, hi float64) []Tie {
	d := p.derivedWalk()
	e := d.reachable(lo, hi)
	lo, hi = e.from, e.to
	if lo >= hi {
		return nil
	}
	d.width, d.left = math.Abs(d.way.t(hi)-d.way.t(lo)), mostJumps
	for at := range pairs(d.kinks(lo, hi)) {
		d.linear(at[0], at[1])
	}
	return d.found
}

// linear walks a range in which all that follows from the input is linear in
// t: with lives from jump to jump where these are few enough, else from one
// year of theirs to the next.
func (d *derivedWalk) linear(lo, hi float64) {
	if !d.lives {
		d.stretch(lo, hi, halvings)
		return
	}
	if n := d.count(lo, hi); n <= d.left {
		d.left -= n
		d.pieces(d.jumps(lo, hi, false))
		return
	}
	for at := range pairs(d.jumps(lo, hi, true)) {
		d.stretch(at[0], at[1], halvings)
	}
}

// halvings is how often a range is halved in search of a proof.
const halvings = 12

// stretch walks a range in which no life comes to another year: whole where
// the difference is proved to keep its sign, else in halves, and at last from
// jump to jump.
func (d *derivedWalk) stretch(lo, hi float64, halvings int) {
	if sign := d.proved(lo, hi); sign != 0 {
		d.jump(lo, sign)
		d.reach(hi, sign)
		return
	}
	middle := d.middle(lo, hi)
	if halvings > 0 && lo < middle && middle < hi {
		d.stretch(lo, middle, halvings-1)
		d.stretch(middle, hi, halvings-1)
		return
	}
	d.pieces(d.leap(lo, hi))
}

// pieces looks between the jumps of a list.
func (d *derivedWalk) pieces(at []float64) {
	for ends := range pairs(at) {
		d.piece(ends[0], ends[1])
	}
}

// middle halves a range of the input as it enters.
func (d *derivedWalk) middle(lo, hi float64) float64 {
	return d.way.x((d.way.t(lo) + d.way.t(hi)) / 2)
}

// derivedWalk follows the sign of a difference along an input.
type derivedWalk struct {
	lifeWalk
	way      How
	affected []derivation
	lives    bool    // a life follows from the input
	width    float64 // of the range, as the input enters
	left     int     // how many jumps may still be looked at, one by one
}

func (p probe) derivedWalk() *derivedWalk {
	d := &derivedWalk{lifeWalk: lifeWalk{p: p, near: true}, way: p.r.Study.Enters(p.in)}
	d.affected = p.k.affectedBy(p.in)
	for i := range d.affected {
		d.lives = d.lives || d.affected[i].life
	}
	return d
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
