package geometry

// Profile is the cross-section of a panel.
type Profile interface {
	// Factor is the length of the section along the sheet over the width it
	// covers, 1 or more. It fails for dimensions that no sheet has, and names
	// the first of them.
	Factor() (float64, error)
}
