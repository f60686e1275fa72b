package portfolio

import "hash/maphash"

// Seen remembers the ids of the rows so far, each as 128 bits of a hash and its
// line, whatever the length of the id: 24 bytes a row, which the map and the
// room of the garbage collector make about 110 of the process. Any two
// different ids of a thousand million are taken for one with a chance under
// 10⁻²⁰.
type Seen struct {
	one, two maphash.Seed
	lines    map[[2]uint64]int
}

// NewSeen remembers nothing yet.
func NewSeen() *Seen {
	return &Seen{maphash.MakeSeed(), maphash.MakeSeed(), map[[2]uint64]int{}}
}

// Line gives the line in which an id stood before, 0 when it is new, and
// remembers it.
func (s *Seen) Line(id string, line int) int {
	key := [2]uint64{maphash.String(s.one, id), maphash.String(s.two, id)}
	before := s.lines[key]
	if before == 0 {
		s.lines[key] = line
	}
	return before
}
