package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// Sine is a corrugated sheet whose section is a sine wave:
//
//	  _       _     ┬
//	 / \     / \    │ depth: crest to trough, outside to outside is near enough
//	/   \   /   \   │
//	     \_/     \_ ┴
//	├───────┤ pitch: crest to crest
type Sine struct {
	Pitch float64 // greater than 0
	Depth float64 // 0 to 10 pitches; 0 is a flat sheet
}

// Factor is the mean of √(1 + (π·depth/pitch)²·cos²θ) over a half turn, the
// arc length of the wave [Plane; DLMF]. It is good to 1e-12.
func (s Sine) Factor() (float64, error) {
	if err := cmp.Or(positive("pitch", s.Pitch), depth("depth", s.Depth, s.Pitch)); err != nil {
		return 0, err
	}
	steepest := math.Pi * s.Depth / s.Pitch
	return meanOverHalfTurn(func(theta float64) float64 { return math.Hypot(1, steepest*math.Cos(theta)) })
}

// meanOverHalfTurn is the mean of a smooth function of period π. Equal steps
// are the best rule for such a function: each doubling of their number doubles
// the digits, until two results agree.
func meanOverHalfTurn(f func(float64) float64) (float64, error) {
	const agreed, mostSteps = 1e-14, 1 << 16
	last := 0.0
	for n := 16; n <= mostSteps; n *= 2 {
		sum := 0.0
		for i := range n {
			sum += f(math.Pi * float64(i) / float64(n))
		}
		mean := sum / float64(n)
		if math.Abs(mean-last) <= agreed*mean {
			return mean, nil
		}
		last = mean
	}
	return 0, fmt.Errorf("the length of the wave is not found with %d steps", mostSteps)
}
