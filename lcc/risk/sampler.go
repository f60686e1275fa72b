package risk

import (
	"math"

	"roofyears/lcc"
)

// uncertain is an input that is drawn.
type uncertain struct {
	ref      lcc.Ref
	values   *table
	low, top float64 // limits of the input's kind
	dim      int     // its first dimension; a life has one for each installation
	life     bool
	parent   int     // index of the uncertain input it moves with; −1 when drawn alone
	follow   float64 // correlation of the normal scores
	own      float64 // √(1 − follow²)
	source   source
}

// sampler draws vectors. It is shared by all workers and does not change.
type sampler struct {
	study  *lcc.Study
	source source
	inputs []uncertain
	slots  []int // by slot of a life: index into inputs; −1 when the life is certain
	scores *table
}

// newSampler finds what is uncertain in a study.
func newSampler(s *lcc.Study, seed uint64) *sampler {
	m := &sampler{study: s, slots: make([]int, 2*len(s.Systems)), scores: newTable(normal{0, 1})}
	byRef := map[lcc.Ref]int{}
	dim := 0
	for i := range s.Inputs {
		in := &s.Inputs[i]
		exact := distributionOf(in)
		if exact == nil {
			continue
		}
		u := uncertain{ref: lcc.Ref(i), values: newTable(exact), dim: dim, life: in.Unit == lcc.Years, parent: -1}
		u.low, u.top = limits(in.Unit)
		dim++
		if u.life {
			dim += s.Period // an installation lasts a year or more
		}
		byRef[u.ref] = len(m.inputs)
		m.inputs = append(m.inputs, u)
	}
	for i := range m.inputs {
		u := &m.inputs[i]
		if moves := s.Inputs[u.ref].Moves; moves != nil {
			if parent, ok := byRef[moves.With]; ok {
				// Of normal scores whose ranks correlate so [Kruskal].
				u.parent, u.follow = parent, 2*sin(math.Pi/6*moves.Rank.InexactFloat64())
				u.own = math.Sqrt(1 - float64(u.follow*u.follow))
			}
		}
	}
	for slot := range m.slots {
		m.slots[slot] = -1
		if slot%2 == 1 && s.Systems[slot/2].Recoat == nil {
			continue
		}
		if at, ok := byRef[s.LifeAt(slot)]; ok {
			m.slots[slot] = at
		}
	}
	m.source = newSource(seed, dim)
	for i := range m.inputs {
		m.inputs[i].source = m.source
	}
	return m
}

// limits keep draws where the input's kind has a meaning.
func limits(unit lcc.Unit) (low, top float64) {
	switch unit {
	case lcc.Rate:
		return math.Nextafter(-0.5, 0), 10
	case lcc.Years, lcc.Area:
		return math.SmallestNonzeroFloat64, math.MaxFloat64
	case lcc.Money, lcc.Price:
		return -math.MaxFloat64, math.MaxFloat64
	}
	return 0, math.MaxFloat64
}

// draw is the value of an uncertain input in a trial; of a life, that of the
// nth installation.
func (m *sampler) draw(trial, input, nth int) float64 {
	u := &m.inputs[input]
	var x float64
	if u.parent < 0 {
		x = u.values.draw(u.source.bits(trial, u.dim+nth))
	} else {
		x = u.values.at(m.uniform(trial, input, nth))
	}
	return u.limited(x)
}

// limited keeps a draw within the limits of its kind.
func (u *uncertain) limited(x float64) float64 {
	if x < u.low {
		return u.low
	}
	if x > u.top {
		return u.top
	}
	return x
}

// uniform is where a draw lies in its distribution, from 0 to 1.
func (m *sampler) uniform(trial, input, nth int) float64 {
	u := &m.inputs[input]
	x := u.source.at(trial, u.dim+nth)
	if u.parent < 0 {
		return x
	}
	return inside(normalShare(m.score(trial, input, nth)))
}

// score is the normal score of a draw. What moves with a life moves with that
// of its first installation.
func (m *sampler) score(trial, input, nth int) float64 {
	u := &m.inputs[input]
	z := m.scores.at(u.source.at(trial, u.dim+nth))
	if u.parent < 0 {
		return z
	}
	return float64(u.follow*m.score(trial, u.parent, 0)) + float64(u.own*z)
}

// inside keeps a share off 0 and 1, which have no quantile.
func inside(u float64) float64 {
	const least = 1e-16
	return math.Max(least, math.Min(1-least, u))
}
