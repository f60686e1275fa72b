package geometry

import (
	"cmp"
	"math"
)

// Trapezoid is a ribbed panel or a deck with one rib a pitch:
//
//	     top
//	    ┌───┐          ┌───┐    ┬
//	   /     \        /     \   │ height
//	__/       \______/       \_ ┴
//	  ├───────┤ base
//	  ├──────────────┤ pitch
//
// Minor ribs between the major ones are left out: they add a little. Where
// they matter, measure the section.
type Trapezoid struct {
	Pitch  float64 // rib to rib, greater than 0
	Base   float64 // width of the rib at its foot, 0 to Pitch
	Top    float64 // width of the rib at its top, 0 to Base; equal to Base with upright webs
	Height float64 // 0 to 10 pitches; 0 is a flat sheet
}

// Factor is (pitch − base + top + 2·√(((base−top)/2)² + height²)) ÷ pitch
// [Plane]. A rib that is wider at its top than at its foot, as some decks have
// it, is refused: measure it.
func (z Trapezoid) Factor() (float64, error) {
	err := cmp.Or(positive("pitch", z.Pitch), between("base", z.Base, 0, z.Pitch),
		between("top", z.Top, 0, z.Base), depth("height", z.Height, z.Pitch))
	if err != nil {
		return 0, err
	}
	run := float64((z.Base - z.Top) / 2)
	return 1 + 2*(math.Hypot(run, z.Height)-run)/z.Pitch, nil
}

// StandingSeam is a panel with one upright seam between neighbours, whose two
// sides are both open to the weather:
//
//	│                 │  ┬
//	│                 │  │ height
//	└─────────────────┘  ┴
//	├─────────────────┤ cover
//
// The fold at the head of the seam is left out, as is the thickness.
type StandingSeam struct {
	Cover  float64 // seam to seam, greater than 0
	Height float64 // 0 to 10 covers
}

// Factor is (cover + 2·height) ÷ cover [Plane].
func (s StandingSeam) Factor() (float64, error) {
	if err := cmp.Or(positive("cover", s.Cover), depth("height", s.Height, s.Cover)); err != nil {
		return 0, err
	}
	return 1 + 2*s.Height/s.Cover, nil
}
