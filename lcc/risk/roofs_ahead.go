package risk

import (
	"slices"

	"roofyears/lcc"
)

// ahead are draws that nearly every roof needs in nearly every trial. They
// are drawn for all roofs of a tile at once, input by input, which is quicker than
// one by one.
type ahead struct {
	draws  []aheadDraw
	needed []int     // those that a roof of the tile needs
	keys   []uint64  // of the sources of roofs
	x      []float64 // by roof, then by draw
}

// aheadDraw is a local input that is drawn alone; of a life, one installation.
type aheadDraw struct{ input, nth int }

// alone tells a local input that moves with no other.
func (r *Roofs) alone(input int) bool { return !r.common[input] && r.sampler.inputs[input].parent < 0 }

// of are the draws of one roof.
func (d *ahead) of(roof int) []float64 { return d.x[roof*len(d.draws) : (roof+1)*len(d.draws)] }

// newAhead finds what is drawn ahead: every local input, and of lives the
// installations that the plain study has. It tells lives where to find them.
func newAhead(r *Roofs, l *lives) ahead {
	var d ahead
	for i := range r.sampler.inputs {
		if r.alone(i) && !r.sampler.inputs[i].life {
			d.draws = append(d.draws, aheadDraw{i, 0})
		}
	}
	for slot, n := range installations(r.study, l) {
		input := r.sampler.slots[slot]
		if input < 0 || !r.alone(input) {
			continue
		}
		for nth := range n {
			l.early[slot*l.most+nth] = len(d.draws)
			d.draws = append(d.draws, aheadDraw{input, nth})
		}
	}
	return d
}

// installations counts, by slot, how many lives the chain of an alternative
// of the plain study asks for, at most.
func installations(s *lcc.Study, l *lives) []int {
	most := make([]int, len(l.sampler.slots))
	for a := range s.Alternatives {
		count := make([]int, len(most))
		for w := s.Walk(a); ; {
			slot, more := w.Slot()
			if !more {
				break
			}
			count[slot]++
			most[slot] = max(most[slot], count[slot])
			w.Next(l.kernel.WholeLife(slot))
		}
	}
	return most
}

// trial draws for all roofs.
func (d *ahead) trial(m *sampler, trial int) {
	for _, at := range d.needed {
		draw := d.draws[at]
		u := &m.inputs[draw.input]
		place, to := u.source.place(trial, u.dim+draw.nth), at
		for _, key := range d.keys {
			d.x[to] = u.limited(u.values.draw(mix(key + place)))
			to += len(d.draws)
		}
	}
}

// set prepares for other roofs.
func (d *ahead) set(r *Roofs, lots []*lot) {
	d.keys, d.needed = d.keys[:0], d.needed[:0]
	for _, l := range lots {
		d.keys = append(d.keys, r.sampler.source.local(l.Key).key)
	}
	for at, draw := range d.draws {
		if slices.ContainsFunc(lots, func(l *lot) bool { return !r.given(l.Roof, draw.input) }) {
			d.needed = append(d.needed, at)
		}
	}
	d.x = zeros(d.x, len(lots)*len(d.draws))
}
