package budget

import (
	"cmp"
	"math"
	"slices"
)

// near says which plans are worth improving: those dearer than the best one
// by no more than this part of what it is above the bound.
const near = 1.0

// firstPatched is how many roofs a patch changes at first, if there are more:
// a large problem has enough of them on whose choice little depends.
const firstPatched = 2000

// patch makes a plan of a relaxation by changing roofs on whose choice it is
// least sure: few at first, more if those do not suffice.
func (s *search) patch(n node, r relaxed) {
	for size := max(firstPatched, len(n.open)/4); size < len(n.open) && !s.spent(); size *= 4 {
		part := s.settle(&n, s.core(n, r, size, s.sureness))
		if s.patchOpen(part, s.look(part, r.multipliers)) {
			return
		}
	}
	s.patchOpen(n, r)
}

// patchOpen changes open roofs, while a limit is exceeded, where that costs
// least of the relaxation for what it takes off the excess. It tells whether
// that made a plan, which is then improved and offered.
func (s *search) patchOpen(n node, r relaxed) bool {
	picks, over, cost := slices.Clone(r.picks), slices.Clone(r.over), r.cost
	for excess := s.excess(over); excess > 0; {
		for _, c := range s.reliefs(n, r, picks, over) {
			now, next := s.roofs[n.open[c.at].roof][picks[c.at]], s.roofs[n.open[c.at].roof][c.to]
			if s.relief(over, now, next) > 0 {
				apply(over, now, -1)
				apply(over, next, 1)
				cost += next.cost - now.cost
				picks[c.at] = c.to
			}
			// the order of reliefs holds no longer when much has changed
			if s.excess(over) <= excess/2 {
				break
			}
		}
		left := s.excess(over)
		if left >= excess || s.spent() {
			return false
		}
		excess = left
	}
	cost += s.fill(n, r, picks, over)
	if float64(cost-s.cost) < float64(near*(float64(s.cost)-r.value)) {
		plan := s.whole(&n, picks)
		s.offer(plan, cost)
		s.improve(plan, r.multipliers)
	}
	return true
}

// relieving is another choice for an open roof, and its loss for a unit of
// relief.
type relieving struct {
	at, to int
	score  float64
}

// reliefs lists for each roof the change that takes off excess at the least
// loss, least loss first.
func (s *search) reliefs(n node, r relaxed, picks []int, over []int64) []relieving {
	s.effort -= n.work
	var list []relieving
	for i, o := range n.open {
		choices := s.roofs[o.roof]
		now := choices[picks[i]]
		if !touches(now, over) {
			continue
		}
		best := relieving{score: math.Inf(1)}
		for _, j := range o.live {
			relief := s.relief(over, now, choices[j])
			if relief <= 0 {
				continue
			}
			loss := priced(choices[j], r.multipliers) - priced(now, r.multipliers)
			if score := max(loss, 0) / relief; score < best.score {
				best = relieving{i, j, score}
			}
		}
		if !math.IsInf(best.score, 1) {
			list = append(list, best)
		}
	}
	slices.SortStableFunc(list, func(a, b relieving) int { return cmp.Compare(a.score, b.score) })
	return list
}

// relief is what a change of choice takes off the excess.
func (s *search) relief(over []int64, now, next choice) float64 {
	before := s.excess(over)
	apply(over, now, -1)
	apply(over, next, 1)
	after := s.excess(over)
	apply(over, next, -1)
	apply(over, now, 1)
	return before - after
}

// touches tells whether a choice uses a limit that is exceeded.
func touches(c choice, over []int64) bool {
	for _, u := range c.uses {
		if over[u.at] > 0 {
			return true
		}
	}
	return false
}

// excess is by how much limits are exceeded, in units in which each is 1.
func (m model) excess(over []int64) float64 {
	sum := 0.0
	for k, o := range over {
		if o > 0 {
			sum += float64(float64(o) * m.scale[k])
		}
	}
	return sum
}

// apply adds the uses of a choice, times 1 or -1.
func apply(over []int64, c choice, sign int64) {
	for _, u := range c.uses {
		over[u.at] += sign * u.amount
	}
}
