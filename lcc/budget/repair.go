package budget

import "math"

// near says which plans are worth improving: those dearer than the best one
// by no more than this part of what it is above the bound.
const near = 1.0

// patch makes a plan of a relaxation: while a limit is exceeded, the change of
// one roof is taken that costs least of the relaxation for what it takes off
// the excess. It may fail. What it finds is improved and offered.
func (s *search) patch(n node, r relaxed) {
	cost := r.cost
	picks, over := append([]int(nil), r.picks...), append([]int64(nil), r.over...)
	for excess := s.excess(over); excess > 0; excess = s.excess(over) {
		at, to := s.relief(n, r, picks, over, excess)
		if at < 0 || s.spent() {
			return
		}
		choices := s.roofs[n.open[at].roof]
		apply(over, choices[picks[at]], -1)
		apply(over, choices[to], 1)
		cost += choices[to].cost - choices[picks[at]].cost
		picks[at] = to
	}
	if float64(cost-s.cost) < float64(near*(float64(s.cost)-r.value)) {
		plan := s.whole(&n, picks)
		s.offer(plan, cost)
		s.improve(plan, r.multipliers)
	}
}

// relief finds the change with the least loss for its relief; -1 without one.
func (s *search) relief(n node, r relaxed, picks []int, over []int64, excess float64) (at, to int) {
	s.effort -= n.work
	at, least := -1, math.Inf(1)
	trial := make([]int64, len(over))
	for i, o := range n.open {
		choices := s.roofs[o.roof]
		now := choices[picks[i]]
		if !touches(now, over) {
			continue
		}
		for _, j := range o.live {
			copy(trial, over)
			apply(trial, now, -1)
			apply(trial, choices[j], 1)
			relief := excess - s.excess(trial)
			if j == picks[i] || relief <= 0 {
				continue
			}
			loss := priced(choices[j], r.multipliers) - priced(now, r.multipliers)
			if score := max(loss, 0) / relief; score < least {
				at, to, least = i, j, score
			}
		}
	}
	return at, to
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
