package budget

import "math"

// A large problem is sketched by a part of its roofs: one in so many, as long
// as so many are left.
const (
	oneIn       = 8
	leastSketch = 500
)

// sketch finds multipliers to start from: those of a part of the roofs, under
// the same part of each limit, and their gap there as a fraction of the bound.
// They cost little, and are near the best ones since roofs are many; whatever
// they are, the bound that they give is proven. Nil if roofs are few.
func (s *search) sketch(n node) (multipliers []float64, gap float64) {
	part := s.part()
	if len(part.roofs) < leastSketch {
		return nil, 0
	}
	half := s.effort / 2
	sub := newSearch(part, half)
	r := sub.raise(sub.root())
	s.effort -= half - sub.effort
	return r.multipliers, (float64(sub.cost) - r.value) / max(math.Abs(r.value), 1)
}

// part is the model of a part of the roofs.
func (m model) part() model {
	part := m
	part.roofs, part.most = nil, 0
	most, share := make([]float64, len(m.limits)), make([]float64, len(m.limits))
	for i, choices := range m.roofs {
		taken := scattered(i)
		if taken {
			part.roofs = append(part.roofs, choices)
			part.most += dearest(choices)
		}
		for k, amount := range m.mostUsed(choices) {
			if most[k] += float64(amount); taken {
				share[k] += float64(amount)
			}
		}
	}
	part.limits = make([]int64, len(m.limits))
	part.scale = make([]float64, len(m.limits))
	for k, limit := range m.limits {
		part.limits[k] = int64(float64(limit) * (share[k] / max(most[k], 1))) // most is 0 where all that used it was beaten
		part.scale[k] = 1 / float64(max(part.limits[k], 1))
	}
	return part
}

// scattered takes one place in oneIn, evenly spread over any list whatever its
// order repeats: multiples of the golden section, modulo 1, below 1/oneIn.
func scattered(i int) bool {
	return uint64(i)*0x9E3779B97F4A7C15 < (1<<64-1)/oneIn
}

// mostUsed is the most that a choice uses of each limit.
func (m model) mostUsed(choices []choice) []int64 {
	most := make([]int64, len(m.limits))
	for _, c := range choices {
		for _, u := range c.uses {
			most[u.at] = max(most[u.at], u.amount)
		}
	}
	return most
}

func dearest(choices []choice) int64 {
	most := choices[0].cost
	for _, c := range choices {
		most = max(most, c.cost)
	}
	return most
}
