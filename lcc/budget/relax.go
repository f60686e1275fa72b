package budget

import "math"

// relaxed is the Lagrangean relaxation of a node at some multipliers: each
// open roof takes the choice for which cost plus priced uses is least, and
// limits are not kept but paid for.
type relaxed struct {
	multipliers []float64
	value       float64 // the bound as computed
	margin      float64 // by how much rounding may have moved it
	picks       []int   // the choice of each open roof
	over        []int64 // use less room of each limit
	cost        int64   // of picks and the decided roofs
}

// priced is the cost of a choice with its uses paid for. The conversions keep
// the compiler from fusing multiplication and addition, which some processors
// would round otherwise.
func priced(c choice, multipliers []float64) float64 {
	sum := float64(c.cost)
	for _, u := range c.uses {
		sum += float64(multipliers[u.at] * float64(u.amount))
	}
	return sum
}

// relax computes the relaxation. With multipliers of 0 or more,
//
//	L = Σ min (cost + Σ multiplier × use) − Σ multiplier × limit
//
// is at most the cost of any plan that keeps the limits: for such a plan the
// added terms sum to 0 or less, and the minima are no greater than its own
// choices ([Fisher], equation for Z_D).
//
// The margin is the usual bound of rounding errors ([Higham], lemma 3.1): a
// sum of q rounded operations on terms of total size s is off by less than
// q × 2^-53 × s × 1.01. Twice that is taken.
func (m model) relax(n node, multipliers []float64) relaxed {
	r := relaxed{
		multipliers: multipliers,
		picks:       make([]int, len(n.open)),
		over:        make([]int64, len(n.room)),
		cost:        n.cost,
		value:       float64(n.cost),
	}
	size := math.Abs(r.value)
	for i, o := range n.open {
		choices := m.roofs[o.roof]
		best, most := math.Inf(1), 0.0
		for _, j := range o.live {
			v := priced(choices[j], multipliers)
			most = max(most, v, v-float64(2*float64(choices[j].cost)))
			if v < best {
				best, r.picks[i] = v, j
			}
		}
		r.value += best
		size += most
		r.cost += choices[r.picks[i]].cost
		for _, u := range choices[r.picks[i]].uses {
			r.over[u.at] += u.amount
		}
	}
	for k, room := range n.room {
		paid := float64(multipliers[k] * float64(room))
		r.value -= paid
		size += math.Abs(paid)
		r.over[k] -= room
	}
	operations := len(n.open) + 4*len(n.room) + 8
	r.margin = float64(float64(operations)*size) * 0x1p-52
	return r
}

// bound is the least whole cost that the relaxation leaves possible. Whoever
// compares costs with it errs on the safe side.
func (r relaxed) bound() int64 {
	low := math.Ceil(r.value - r.margin)
	return int64(min(max(low, -largest), 4*largest))
}

// fits tells whether the picks keep every limit.
func (r relaxed) fits() bool {
	for _, over := range r.over {
		if over > 0 {
			return false
		}
	}
	return true
}

// turn bends a direction towards the subgradient, which is how far the picks
// exceed each limit ([HWC]), in units in which every limit is 1. It is false
// if no direction is left.
func (m model) turn(direction []float64, r relaxed) bool {
	left := false
	for k, over := range r.over {
		direction[k] = float64(float64(over)*m.scale[k]) + float64(direction[k]/2)
		if direction[k] < 0 && r.multipliers[k] == 0 || math.Abs(direction[k]) < 1e-30 {
			direction[k] = 0 // no way down, or a remainder whose square would vanish
		}
		left = left || direction[k] != 0
	}
	return left
}

// step moves the multipliers by the length of [Polyak]: a fraction of what
// the relaxation is below the best plan.
func (s *search) step(r relaxed, direction []float64, fraction float64) []float64 {
	norm := 0.0
	for _, d := range direction {
		norm += float64(d * d)
	}
	length := float64(fraction*max(float64(s.cost)-r.value, 1)) / norm
	next := make([]float64, len(direction))
	for k, d := range direction {
		move := float64(float64(length*d) * s.scale[k])
		next[k] = min(max(0, r.multipliers[k]+move), steepest)
	}
	return next
}

// steepest keeps multipliers finite. Any multipliers give a bound.
const steepest = 1 << 40
