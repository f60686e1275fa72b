package budget

import (
	"cmp"
	"math"
	"slices"
)

// stepsInTree is how often multipliers are moved at each part of the tree;
// they start where the part above left them.
const stepsInTree = 15

// branch searches a node: bound it, leave it if it cannot hold a cheaper
// plan, else decide the roof that matters most in each way that is left. The
// bound of what stays unsearched when the effort ends is kept in s.open.
func (s *search) branch(n node, floor int64) {
	if s.spent() {
		s.open = min(s.open, floor)
		return
	}
	s.effort -= n.work
	if s.short(n) {
		return
	}
	r := s.ascent(n, stepsInTree, 1)
	if r.bound() >= s.cost {
		return
	}
	floor = max(floor, r.bound())
	if s.patch(n, r); r.bound() >= s.cost {
		return
	}
	n = s.narrow(n, r)
	if len(n.open) == 0 {
		s.look(n, n.multipliers)
		return
	}
	i := s.undecided(n)
	o := n.open[i]
	rest := slices.Delete(slices.Clone(n.open), i, i+1)
	for _, j := range s.cheapestFirst(o, n.multipliers) {
		s.branch(s.settle(n, append(slices.Clip(rest), open{o.roof, []int{j}})), floor)
	}
}

// undecided is the open roof to decide next: where a small loss of the
// relaxation moves much of the limits.
func (s *search) undecided(n node) int {
	at, least := 0, math.Inf(1)
	moves := make([]float64, len(n.room))
	for i, o := range n.open {
		order := s.cheapestFirst(o, n.multipliers)
		first, second := s.roofs[o.roof][order[0]], s.roofs[o.roof][order[1]]
		loss := priced(second, n.multipliers) - priced(first, n.multipliers)
		clear(moves)
		for _, u := range first.uses {
			moves[u.at] += float64(u.amount)
		}
		for _, u := range second.uses {
			moves[u.at] -= float64(u.amount)
		}
		moved := 0.0
		for k, move := range moves {
			moved += float64(math.Abs(move) * s.scale[k])
		}
		if score := (loss + 1) / (moved + 1e-9); score < least {
			at, least = i, score
		}
	}
	return at
}

// cheapestFirst orders the live choices of a roof by priced cost.
func (s *search) cheapestFirst(o open, multipliers []float64) []int {
	order := slices.Clone(o.live)
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(priced(s.roofs[o.roof][a], multipliers), priced(s.roofs[o.roof][b], multipliers))
	})
	return order
}
