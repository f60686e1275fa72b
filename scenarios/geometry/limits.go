package geometry

import "fmt"

// Limits of dimensions, this program's own. They are far outside what a roof
// has in any unit, and keep every quotient finite.
const (
	leastLength = 1e-9
	mostLength  = 1e9
	mostDepth   = 10 // depth or height of a profile, in pitches
)

// positive refuses what is no length greater than 0.
func positive(name string, x float64) error {
	if x >= leastLength && x <= mostLength {
		return nil
	}
	if x <= 0 {
		return fmt.Errorf("%s is %g: it must be greater than 0", name, x)
	}
	return fmt.Errorf("%s is %g: it must be from %g to %g", name, x, leastLength, mostLength)
}

// between refuses what is outside low to high; NaN is.
func between(name string, x, low, high float64) error {
	if x >= low && x <= high {
		return nil
	}
	return fmt.Errorf("%s is %g: it must be from %g to %g", name, x, low, high)
}

// depth refuses a depth or height that no profile of that pitch has.
func depth(name string, x, pitch float64) error { return between(name, x, 0, mostDepth*pitch) }
