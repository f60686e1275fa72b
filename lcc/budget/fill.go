package budget

import (
	"cmp"
	"slices"
)

// filling is another choice for an open roof that saves cost, and what it
// loses, priced, for a unit saved.
type filling struct {
	at, to int
	score  float64
}

// fill uses what is left of the limits: it changes open roofs where that saves
// cost and keeps the limits, those first that lose least of the relaxation for
// what they save. It returns what that adds to the cost, 0 or less.
func (s *search) fill(n node, r relaxed, picks []int, over []int64) int64 {
	added := int64(0)
	for before := int64(1); added < before && !s.spent(); {
		before = added
		for _, f := range s.fillings(n, r, picks) {
			choices := s.roofs[n.open[f.at].roof]
			now, next := choices[picks[f.at]], choices[f.to]
			if next.cost < now.cost && s.swap(over, now, next) {
				added += next.cost - now.cost
				picks[f.at] = f.to
			}
		}
	}
	return added
}

// fillings lists the changes that save cost, those first that lose least.
func (s *search) fillings(n node, r relaxed, picks []int) []filling {
	s.effort -= n.work
	var list []filling
	for i, o := range n.open {
		choices := s.roofs[o.roof]
		now := choices[picks[i]]
		for _, j := range o.live {
			if saved := float64(now.cost - choices[j].cost); saved > 0 {
				loss := priced(choices[j], r.multipliers) - priced(now, r.multipliers)
				list = append(list, filling{i, j, loss / saved})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b filling) int { return cmp.Compare(a.score, b.score) })
	return list
}

// swap takes one choice for another if that exceeds no limit more.
func (s *search) swap(over []int64, now, next choice) bool {
	apply(over, now, -1)
	apply(over, next, 1)
	for _, u := range next.uses {
		if over[u.at] > 0 {
			apply(over, next, -1)
			apply(over, now, 1)
			return false
		}
	}
	return true
}
