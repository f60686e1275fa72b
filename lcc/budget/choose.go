package budget

import (
	"cmp"
	"math"
	"slices"
)

// atRoot are the ascents before the search. After each a plan is made of the
// relaxation, which the next one takes for the target of its steps.
var atRoot = []climb{{100, 20, 1}, {600, 20, 1}, {300, 30, 1}}

// afterSketch are those from multipliers of a sketch, which are near the best.
var afterSketch = []climb{{30, 4, 1}, {30, 4, 1}, {30, 4, 1}}

// Choose finds the plan. The error names an amount that is none, or a sum of
// amounts beyond 2^53 units; whether a plan exists is told by the answer.
func Choose(p Problem) (Answer, error) {
	if err := p.check(); err != nil {
		return Answer{}, err
	}
	a := Answer{Years: yearsOf(p)}
	if a.Reason = barred(p.Roofs); a.Reason.Cause == NoOption {
		a.State = Infeasible
		return a, nil
	}
	a.Unlimited = cheapest(p.Roofs)
	if a.Reason = yearShort(p.Roofs, a.Years); a.Reason.Cause != NoCause {
		a.State = Infeasible
		return a, nil
	}
	m, reason := newModel(p, a.Years)
	if a.Reason = reason; reason.Cause != NoCause {
		a.State = Infeasible
		return a, nil
	}
	newSearch(m, cmp.Or(p.Effort, DefaultEffort)).answer(&a)
	a.use(p.Roofs)
	return a, nil
}

// use adds up what the plan uses of each limit.
func (a *Answer) use(roofs []Roof) {
	for k := range a.Years {
		for i, j := range a.Plan {
			a.Years[k].Used += roofs[i].Options[j].in(a.Years[k])
		}
	}
}

// answer runs the search and writes down what came out.
func (s *search) answer(a *Answer) {
	bound, top := s.run()
	a.Bound = min(s.cost, max(bound, a.Unlimited))
	switch {
	case s.found && a.Bound == s.cost:
		a.State = Optimal
	case s.found:
		a.State = Feasible
	case a.Bound > s.most:
		a.State, a.Bound = Infeasible, 0
		a.Reason = s.together(top)
		return
	default:
		a.State = Undecided
		return
	}
	a.Cost = s.cost
	for i, j := range s.plan {
		c := s.roofs[i][j]
		a.Plan = append(a.Plan, c.option)
	}
	for k, at := range s.years {
		a.Years[at].Worth = top.multipliers[k]
	}
}

// run searches. It returns a bound that holds for every plan, and the best
// relaxation of the whole problem.
func (s *search) run() (bound int64, top relaxed) {
	n := s.root()
	top = s.raise(n)
	if top.bound() >= s.cost {
		return s.cost, top
	}
	n = s.narrow(n, top)
	s.scatter(n, top)
	s.inCores(n, s.look(n, n.multipliers))
	n = s.narrow(n, s.look(n, n.multipliers)) // the best plan is a better one by now
	s.branch(n, top.bound())
	return min(s.cost, s.open), top
}

// raise finds good multipliers for the whole problem and a first plan.
func (s *search) raise(n node) relaxed {
	best, climbs := s.start(n)
	for _, c := range climbs {
		n.multipliers = best.multipliers
		c.steps = min(c.steps, int(s.effort/(4*n.work))) // leave effort to make a plan
		if r := s.ascent(n, c); r.value > best.value {
			best = r
		}
		if best.bound() >= s.cost {
			break
		}
		s.patch(n, best)
	}
	return s.slack(n, best)
}

// start finds multipliers to raise, and how: from none, or from those of a
// sketch. The first steps from a sketch are as long as the sketch's own gap
// asks for; the first plan, which steps are aimed at, may be much dearer.
func (s *search) start(n node) (relaxed, []climb) {
	none := s.look(n, n.multipliers)
	multipliers, gap := s.sketch(n)
	if multipliers == nil {
		return none, atRoot
	}
	r := s.look(n, multipliers)
	if r.value <= none.value {
		return none, atRoot
	}
	s.patch(n, r)
	climbs := slices.Clone(afterSketch)
	climbs[0].fraction = min(1, gap*math.Abs(r.value)/max(float64(s.cost)-r.value, 1))
	return r, climbs
}

// slack sets multipliers to 0 where that does not lower the bound: they are
// remains of the ascent, and the limit is worth nothing.
func (s *search) slack(n node, r relaxed) relaxed {
	for k := range r.multipliers {
		without := append([]float64(nil), r.multipliers...)
		without[k] = 0
		if next := s.look(n, without); r.multipliers[k] > 0 && next.value >= r.value-r.margin {
			r = next
		}
	}
	return r
}
