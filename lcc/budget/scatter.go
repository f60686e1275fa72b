package budget

import (
	"math/rand/v2"
	"slices"
)

const (
	scatterShare  = 2    // what part of the effort that is left it may take: one half
	scatterWidth  = 0.15 // by what part a multiplier is moved, up or down
	scatterInVain = 80   // after how many plans that are no better it ends
)

// scatter makes plans of relaxations near the best one, whose multipliers are
// moved at random: a repair that goes another way may end at a cheaper plan.
// The random numbers are the same on every machine.
func (s *search) scatter(n node, r relaxed) {
	draw := rand.New(rand.NewPCG(1, 2))
	end := s.effort - s.effort/scatterShare
	for vain := 0; vain < scatterInVain && s.effort > end; vain++ {
		moved := slices.Clone(r.multipliers)
		for k := range moved {
			moved[k] *= 1 + float64(scatterWidth*(2*float64(draw.Float64())-1))
		}
		before := s.cost
		s.patch(n, s.look(n, moved))
		if s.cost < before {
			vain = 0
		}
	}
}
