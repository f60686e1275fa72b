package lcc

// Filled is a copy of a vector with what follows from the other inputs. It
// fails where a divisor is not greater than 0.
func (s *Study) Filled(v Vector) (Vector, error) { return s.filled(v) }

// FollowsFrom lists the inputs that an input follows from, none of them itself
// derived, in the order of the study; none for an input that is not derived.
func (s *Study) FollowsFrom(r Ref) []Ref {
	var out []Ref
	from := s.sources(r)
	for i := range s.Inputs {
		if in := Ref(i); from[in] && in != r && !s.IsDerived(in) {
			out = append(out, in)
		}
	}
	return out
}
