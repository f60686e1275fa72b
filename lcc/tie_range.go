package lcc

import "math"

// Edge says what an end of the range of an input is.
type Edge uint8

// The edges.
const (
	Asked  Edge = iota // the range was asked for to here
	Last               // beyond it the study is refused, at it not
	Beyond             // it is refused at it already
)

// evaluable is where an input of a study may go, as probe.limits
// finds it; empty where from is not below to.
type evaluable struct {
	from, to  float64
	low, high Edge
}

// longestWait is for how many years a life is waited on.
func (s *Study) longestWait(life Ref) int {
	years := 0
	for i := range s.Alternatives {
		if w := s.Alternatives[i].Wait; w != nil && s.Systems[w.On].Life == life {
			years = max(years, w.Years)
		}
	}
	return years
}

// limits cuts a range to where the study is not refused.
func (p probe) limits(lo, hi float64) evaluable {
	s := p.r.Study
	switch {
	case s.feeds(p.in):
		return p.derivedWalk().reachable(lo, hi)
	case s.Inputs[p.in].Unit == Years: // one shorter than a wait on it is none
		if wait := float64(s.longestWait(p.in)); wait > lo {
			return evaluable{from: wait, to: hi, low: Last}
		}
	}
	return evaluable{from: lo, to: hi}
}

// reachable goes to both ends of a range from where the study stands, while
// every life that follows from the input is one, and as long as the wait on it.
func (d *derivedWalk) reachable(lo, hi float64) evaluable {
	lo, hi = d.way.within(lo, hi)
	e, now := evaluable{from: lo, to: hi}, d.p.home[d.p.in]
	if !d.lives {
		return e
	}
	x, edge := d.toward(now, lo)
	switch {
	case edge != Asked && lo > now:
		e.to = lo
		return e
	case edge != Asked:
		e.from, e.low = x, edge
	}
	x, edge = d.toward(now, hi)
	switch {
	case edge != Asked && hi < now:
		e.to = e.from
	case edge != Asked:
		e.to, e.high = x, edge
	}
	return e
}

// toward goes from a value to another, or to where a life ends on the way.
func (d *derivedWalk) toward(now, end float64) (x float64, edge Edge) {
	x = end
	for i := range d.affected {
		f := &d.affected[i]
		if !f.life {
			continue
		}
		wait := float64(d.p.r.Study.longestWait(f.in))
		if at, found := d.falls(f, wait, now, x); found {
			if x, edge = at, Last; wait == 0 {
				edge = Beyond
			}
		}
	}
	return x, edge
}

// falls finds where a life falls below a wait, or to nothing, on the way from
// a value to another.
func (d *derivedWalk) falls(f *derivation, wait, now, end float64) (float64, bool) {
	at := d.kinks(min(now, end), max(now, end))
	for i := 1; i < len(at); i++ {
		from, to := at[i-1], at[i]
		if end < now {
			from, to = at[len(at)-i], at[len(at)-i-1]
		}
		r0, r1 := d.raw(f, from), d.raw(f, to)
		if r1 >= wait*(1-roundingShare) && r1 > 0 {
			continue
		}
		if r0 <= r1 {
			return from, true
		}
		return d.between(from, to, math.Max(0, r0-wait)/(r0-r1)), true
	}
	return end, false
}
