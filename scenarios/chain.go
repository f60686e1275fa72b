package scenarios

// chains looks for systems that follow each other in a ring: such a chain
// never comes to a system that is replaced by itself. Each ring is told once,
// at the system of it that stands first in the file.
func (r *reader) chains(thens []*node) {
	seen := make([]int, len(thens)) // the walk that came here, from 1; 0 is none
	for start := range thens {
		at := start
		for seen[at] == 0 {
			seen[at] = start + 1
			at = r.study.Systems[at].Then
		}
		if seen[at] == start+1 && r.study.Systems[at].Then != at {
			r.ring(at, thens)
		}
	}
}

// ring tells the ring that a system is in.
func (r *reader) ring(in int, thens []*node) {
	first := in
	for at := r.study.Systems[in].Then; at != in; at = r.study.Systems[at].Then {
		first = min(first, at)
	}
	keys := []string{r.study.Systems[first].Key}
	for at := r.study.Systems[first].Then; at != first; at = r.study.Systems[at].Then {
		keys = append(keys, r.study.Systems[at].Key)
	}
	r.fail(thens[first].place, "systems."+inPath(keys[0])+".then", endlessChain(append(keys, keys[0])))
}
