package geometry

import "cmp"

// Profile is the cross-section of a panel.
type Profile interface {
	// Factor is the length of the section along the sheet over the width it
	// covers, 1 or more. It fails for dimensions that no sheet has, and names
	// the first of them.
	Factor() (float64, error)
}

// Flat is a sheet without profile, or a membrane.
type Flat struct{}

// Factor is 1.
func (Flat) Factor() (float64, error) { return 1, nil }

// Measured is a section measured with a tape that follows every bend: the way
// for a panel with major and minor ribs, and for any that no other profile
// here describes. Common practice.
type Measured struct {
	Cover  float64 // width covered, greater than 0
	Length float64 // along the sheet over that width; Cover to 10 covers
}

// Factor is Length/Cover.
func (m Measured) Factor() (float64, error) {
	err := cmp.Or(positive("cover", m.Cover), between("length along the sheet", m.Length, m.Cover, mostDepth*m.Cover))
	if err != nil {
		return 0, err
	}
	return m.Length / m.Cover, nil
}
