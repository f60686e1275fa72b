package budget

import (
	"cmp"
	"slices"
)

// How many changes are tried singly and in twos, and how many in threes: those with the
// least loss of the relaxation. Cheaper plans are hardly made of others.
const (
	inTwos   = 400
	inThrees = 100
)

// change is another choice for one roof of a plan.
type change struct {
	roof, to int
	cost     int64   // of the new choice less that of the old one
	uses     []int64 // likewise, for each limit
	loss     float64 // likewise, priced
}

// improve changes one, two or three roofs of a plan at once as long as that
// makes it cheaper and keeps the limits, and offers what comes out.
func (s *search) improve(plan []int, multipliers []float64) {
	plan = slices.Clone(plan)
	cost, room := s.costOf(plan), s.roomOf(plan)
	list, fresh := s.changes(plan, multipliers), true
	for !s.spent() {
		taken := s.better(list, room)
		if taken == nil && fresh {
			break
		}
		for _, c := range taken {
			plan[c.roof] = c.to
			cost += c.cost
			minus(room, room, c.uses)
			list = slices.DeleteFunc(list, func(other change) bool { return other.roof == c.roof })
		}
		if fresh = taken == nil; fresh {
			list = s.changes(plan, multipliers)
		}
	}
	s.offer(plan, cost)
}

// better finds the changes to take next, nil without any.
func (s *search) better(list []change, room []int64) []change {
	if taken := s.single(list, room); taken != nil {
		return taken
	}
	if taken := s.pair(list, room, 0, -1); taken != nil {
		return taken
	}
	return s.triple(list[:min(len(list), inThrees)], room)
}

// costOf is the exact cost of a plan.
func (m model) costOf(plan []int) int64 {
	var cost int64
	for i, j := range plan {
		cost += m.roofs[i][j].cost
	}
	return cost
}

// roomOf is what a plan leaves of the limits.
func (m model) roomOf(plan []int) []int64 {
	room := slices.Clone(m.limits)
	for i, j := range plan {
		apply(room, m.roofs[i][j], -1)
	}
	return room
}

// changes lists the other choices of each roof that lose least, least first.
func (s *search) changes(plan []int, multipliers []float64) []change {
	var list []change
	for i, choices := range s.roofs {
		now := priced(choices[plan[i]], multipliers)
		for j, c := range choices {
			s.effort -= 4 * int64(1+len(c.uses))
			if j != plan[i] {
				list = append(list, change{roof: i, to: j, cost: c.cost - choices[plan[i]].cost, loss: priced(c, multipliers) - now})
			}
		}
		if len(list) >= 8*inTwos {
			list = leastLoss(list)
		}
	}
	list = leastLoss(list)
	all, width := make([]int64, len(list)*len(s.limits)), len(s.limits)
	for i := range list {
		c := &list[i]
		c.uses = all[i*width : (i+1)*width : (i+1)*width]
		apply(c.uses, s.roofs[c.roof][plan[c.roof]], -1)
		apply(c.uses, s.roofs[c.roof][c.to], 1)
	}
	return list
}

// leastLoss keeps the changes that lose least, in order, of equals the first.
func leastLoss(list []change) []change {
	slices.SortStableFunc(list, func(a, b change) int { return cmp.Compare(a.loss, b.loss) })
	return list[:min(len(list), inTwos)]
}

// single is the change that saves most, nil without one.
func (s *search) single(changes []change, room []int64) []change {
	var best []change
	saved := int64(0)
	for _, c := range changes {
		if c.cost < saved && within(room, c.uses) {
			best, saved = []change{c}, c.cost
		}
	}
	return best
}

// triple is the three changes that together save most.
func (s *search) triple(changes []change, room []int64) []change {
	var best []change
	saved, left := int64(0), make([]int64, len(room))
	for i, a := range changes {
		minus(left, room, a.uses)
		rest := s.pair(changes[i+1:], left, saved-a.cost, a.roof)
		if rest != nil {
			best = append([]change{a}, rest...)
			saved = a.cost + rest[0].cost + rest[1].cost
		}
	}
	return best
}

// pair is the two changes that leave out a roof and together cost least, if
// less than below.
func (s *search) pair(changes []change, room []int64, below int64, roof int) []change {
	var best []change
	left := make([]int64, len(room))
	for i, a := range changes {
		if a.roof == roof {
			continue
		}
		minus(left, room, a.uses)
		s.effort -= int64(len(changes) - i)
		for _, b := range changes[i+1:] {
			if a.cost+b.cost < below && b.roof != a.roof && b.roof != roof && within(left, b.uses) {
				best, below = []change{a, b}, a.cost+b.cost
			}
		}
	}
	return best
}

// within tells whether uses keep the room.
func within(room, uses []int64) bool {
	for k, u := range uses {
		if u > room[k] {
			return false
		}
	}
	return true
}

// minus sets left to room less uses.
func minus(left, room, uses []int64) {
	for k := range left {
		left[k] = room[k] - uses[k]
	}
}
