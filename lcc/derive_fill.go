package lcc

// Filled is a copy of a vector with what follows from the other inputs. It
// fails where a divisor is not greater than 0.
func (s *Study) Filled(v Vector) (Vector, error) { return s.filled(v) }
