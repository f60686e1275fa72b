package budget

import (
	"cmp"
	"math"
	"slices"
)

// inTree is the ascent at each part of the tree, from the multipliers that the
// part above ended with.
var inTree = climb{steps: 15, patience: 4, fraction: 1}

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
	r := s.ascent(n, inTree)
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
		s.branch(s.settle(&n, append(slices.Clip(rest), open{o.roof, []int{j}})), floor)
	}
}

// cores are how many roofs stay open in the searches for a first good plan,
// and coreShare is the part of the effort that each may take.
var cores = []int{40, 80, 160, 320}

const coreShare = 12

// inCores searches the roofs on whose choice the relaxation is least sure,
// with the others as in the relaxation ([Kellerer], section 5.4). What such a
// search leaves unsearched says nothing of the whole problem.
func (s *search) inCores(n node, r relaxed) {
	for _, size := range cores {
		if size >= len(n.open) || s.spent() {
			return
		}
		part := s.settle(&n, s.core(n, r, size, s.loss))
		part.multipliers = r.multipliers
		s.apart(part, r.bound(), s.effort/coreShare)
	}
}

// core leaves so many roofs open: those that a measure finds least.
func (s *search) core(n node, r relaxed, size int, measure func(open, []float64) float64) []open {
	type margin struct {
		at   int
		loss float64
	}
	s.effort -= n.work
	margins := make([]margin, len(n.open))
	for i, o := range n.open {
		margins[i] = margin{i, measure(o, r.multipliers)}
	}
	slices.SortStableFunc(margins, func(a, b margin) int { return cmp.Compare(a.loss, b.loss) })
	left := slices.Clone(n.open)
	for _, m := range margins[size:] {
		left[m.at].live = []int{r.picks[m.at]}
	}
	return left
}

// loss is what the second of the live choices of a roof loses to the first.
func (s *search) loss(o open, multipliers []float64) float64 {
	_, _, loss := s.firstTwo(o, multipliers)
	return loss
}

// sureness is that loss for what the second choice moves of the limits.
func (s *search) sureness(o open, multipliers []float64) float64 {
	first, second, loss := s.firstTwo(o, multipliers)
	moved := 0.0
	for k, move := range s.moves(first, second) {
		moved += float64(math.Abs(float64(move)) * s.scale[k])
	}
	return (loss + 1) / (moved + 1e-9)
}

// firstTwo are the live choices of a roof, which has two or more, that are
// least by priced cost, and what the second loses to the first.
func (s *search) firstTwo(o open, multipliers []float64) (first, second choice, loss float64) {
	least, next := math.Inf(1), math.Inf(1)
	for _, j := range o.live {
		c := s.roofs[o.roof][j]
		switch v := priced(c, multipliers); {
		case v < least:
			first, second = c, first
			least, next = v, least
		case v < next:
			second, next = c, v
		}
	}
	return first, second, next - least
}

// moves is what one choice uses of each limit less what another one does.
func (s *search) moves(from, to choice) []int64 {
	s.moved = append(s.moved[:0], make([]int64, len(s.limits))...)
	apply(s.moved, from, 1)
	apply(s.moved, to, -1)
	return s.moved
}

// undecided is the open roof to decide next: where a small loss of the
// relaxation moves much of the limits.
func (s *search) undecided(n node) int {
	at, least := 0, math.Inf(1)
	for i, o := range n.open {
		if score := s.sureness(o, n.multipliers); score < least {
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

// apart searches a part of the problem whose outcome bounds nothing, with so
// much effort.
func (s *search) apart(part node, floor, effort int64) {
	rest, left := s.effort-effort, s.open
	s.effort = effort
	s.branch(part, floor)
	s.effort, s.open = s.effort+rest, left
}
