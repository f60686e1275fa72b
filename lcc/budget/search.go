package budget

import "math"

// search is the state of one run: the best plan so far and the effort left.
type search struct {
	model
	found  bool
	plan   []int   // choices of the best plan
	cost   int64   // of the best plan; without one, more than any plan costs
	effort int64   // entries that may still be looked at
	open   int64   // the least bound of a part that was left unsearched
	moved  []int64 // for moves
}

func newSearch(m model, effort int64) *search {
	return &search{model: m, cost: m.most + 1, effort: effort, open: math.MaxInt64}
}

// spent tells whether the effort is used up.
func (s *search) spent() bool { return s.effort <= 0 }

// offer takes a plan that keeps the limits if it is cheaper than the best one.
func (s *search) offer(plan []int, cost int64) bool {
	if cost >= s.cost {
		return false
	}
	s.found, s.cost, s.plan = true, cost, append(s.plan[:0], plan...)
	return true
}

// climb is how an ascent goes: so many steps, each in the direction of the
// subgradient and half of the last direction ([Camerini]); without a better
// bound for patience steps, the step is halved. The first step is a fraction,
// up to 1, of the one that would reach the cost of the best plan ([Polyak]).
type climb struct {
	steps, patience int
	fraction        float64
}

// ascent raises the bound of a node and returns the best relaxation.
// Relaxations that keep the limits are plans, and are offered.
func (s *search) ascent(n node, c climb) relaxed {
	r := s.look(n, n.multipliers)
	best, since, fraction := r, 0, c.fraction
	direction := make([]float64, len(n.room))
	for range c.steps {
		if s.spent() || best.bound() >= s.cost || !s.turn(direction, r) {
			break
		}
		r = s.look(n, s.step(r, direction, fraction))
		if r.value > best.value {
			best, since = r, 0
		} else if since++; since%c.patience == 0 {
			fraction /= 2
		}
	}
	return best
}

// look is relax with its effort counted and its plan offered.
func (s *search) look(n node, multipliers []float64) relaxed {
	s.effort -= n.work
	r := s.relax(n, multipliers)
	if r.fits() && r.cost < s.cost {
		s.offer(s.whole(&n, r.picks), r.cost)
	}
	return r
}

// narrow leaves out the choices of open roofs that no plan cheaper than the
// best one can have: the bound, with the roof's pick replaced by the choice,
// reaches its cost.
func (s *search) narrow(n node, r relaxed) node {
	s.effort -= n.work
	left := make([]open, 0, len(n.open))
	for i, o := range n.open {
		choices := s.roofs[o.roof]
		least := priced(choices[r.picks[i]], r.multipliers)
		var live []int
		for _, j := range o.live {
			loss := priced(choices[j], r.multipliers) - least
			if j == r.picks[i] || float64(s.cost-1) >= r.value+loss-2*r.margin {
				live = append(live, j)
			}
		}
		if len(live) == len(o.live) {
			live = o.live
		}
		left = append(left, open{o.roof, live})
	}
	next := s.settle(&n, left)
	next.multipliers = r.multipliers
	return next
}
