package lcc

import "math"

// stream is a difference of cash flows: what falls at each half year.
type stream []float64

// at is the value of the stream at a discount rate: Σ c_t (1+d)^−t.
func (c stream) at(d float64) float64 {
	x := 1 / math.Sqrt(1+d)
	sum := 0.0
	for h := len(c) - 1; h >= 0; h-- {
		sum = float64(sum*x) + c[h]
	}
	return sum
}

// bounds encloses the value of the stream over all rates from lo to hi. Every
// discount factor falls as the rate rises, so the positive entries are worth
// most at lo and the negative ones at hi; and the reverse.
func (c stream) bounds(lo, hi float64) (least, most float64) {
	xlo, xhi := 1/math.Sqrt(1+lo), 1/math.Sqrt(1+hi)
	plo, phi := 1.0, 1.0
	for _, v := range c {
		if v > 0 {
			most += float64(v * plo)
			least += float64(v * phi)
		} else {
			most += float64(v * phi)
			least += float64(v * plo)
		}
		plo *= xlo
		phi *= xhi
	}
	return least, most
}

// magnitude is the sum of the absolute values of the entries at a rate.
func (c stream) magnitude(d float64) float64 {
	x := 1 / math.Sqrt(1+d)
	sum := 0.0
	for h := len(c) - 1; h >= 0; h-- {
		sum = float64(sum*x) + math.Abs(c[h])
	}
	return sum
}

// slope is the stream whose value at d is 2(1+d) times the derivative by d, and
// so has the derivative's sign: the derivative of c_t(1+d)^−t is −t·c_t(1+d)^(−t−1).
func (c stream) slope() stream {
	out := make(stream, len(c))
	for h, v := range c {
		out[h] = -v * float64(h)
	}
	return out
}

// root is a rate at which a stream is worth nothing.
type root struct {
	rate          float64
	before, after float64 // the sign of the value on either side; equal where it only touches
}

// finest is the width of interval at which the search for roots stops
// telling two of them apart.
const finest = 1e-10

// blurred is the width of interval at which the search stops when the value
// is nothing but rounding throughout: near a root of higher order.
const blurred = 1e-7

// patience is how many intervals a search looks at before it takes what is
// still undecided for one root each: only a stream whose value is lost in
// rounding over a whole stretch of rates comes near it.
const patience = 100_000

// roots finds every root from lo to hi. It is a search with proof: an interval
// is left when its bounds, or the value at its middle and the steepest slope,
// exclude zero (no root), settled when the bounds of the slope exclude zero (at most one root, by the signs at its ends), and
// otherwise halved. What is still undecided at the finest width holds a root
// of higher order, or several within that width; it is told as one.
// A stream of nothing but zeros has no roots: it ties everywhere.
func (c stream) roots(lo, hi float64) []root {
	for len(c) > 0 && c[len(c)-1] == 0 { // so that no power of it overflows
		c = c[:len(c)-1]
	}
	if len(c) == 0 {
		return nil
	}
	s := search{c: c, slope: c.slope()}
	s.look(lo, hi)
	return s.found
}

type search struct {
	c, slope stream
	looked   int // intervals
	found    []root
	began    float64 // where the last root began, as far as rounding lets see
	reached  float64 // and how far it reaches
}

func (s *search) look(lo, hi float64) {
	s.looked++
	noise := s.noise(lo) // greatest at the lower end
	if least, most := s.c.bounds(lo, hi); least > noise || most < -noise {
		return
	}
	least, most := s.slope.bounds(lo, hi)
	if least > 0 || most < 0 {
		s.settle(lo, hi)
		return
	}
	// No further from the middle's value than the steepest slope leads.
	mid := halfway(lo, hi)
	steepest := math.Max(-least, most) / (2 * (1 + lo))
	if math.Abs(s.c.at(mid)) > float64(steepest*(hi-lo)/2)+noise {
		return
	}
	if hi-lo <= finest || s.looked > patience || hi-lo <= blurred && s.lost(lo, hi) {
		s.touch(lo, hi)
		return
	}
	s.look(lo, mid)
	s.look(mid, hi)
}

// noise bounds the rounding of the value at a rate: two for each entry, and as
// much again for the power of 1+d that it stands for.
func (s *search) noise(d float64) float64 {
	return float64(s.c.magnitude(d) * 4 * float64(len(s.c)) * roundoff)
}

// settle finds the one root of a monotone interval, if it has one. An end
// that is itself a root belongs to the interval on its left, or is the first.
func (s *search) settle(lo, hi float64) {
	flo, fhi := s.c.at(lo), s.c.at(hi)
	switch {
	case flo == 0:
		s.add(lo, lo, -fhi, fhi)
	case fhi == 0:
		s.add(hi, hi, flo, -flo)
	case (flo > 0) != (fhi > 0):
		x := bisect(s.c, lo, hi, flo)
		s.add(x, x, flo, fhi)
	}
}

// lost tells whether the value is nothing but rounding in an interval.
func (s *search) lost(lo, hi float64) bool {
	for _, d := range []float64{lo, halfway(lo, hi), hi} {
		if math.Abs(s.c.at(d)) > 2*s.noise(d) { // of the value, and in it
			return false
		}
	}
	return true
}

// touch takes an undecided interval for a root when the value there is
// nothing but rounding, or changes sign.
func (s *search) touch(lo, hi float64) {
	flo, fhi := s.c.at(lo), s.c.at(hi)
	if (flo > 0) == (fhi > 0) && !s.lost(lo, hi) {
		return
	}
	// The signs a little further out tell a touch from a crossing.
	const out = 1e-5
	s.add(lo, hi, s.c.at(lo-out), s.c.at(hi+out))
}

// add keeps a root that lies somewhere from lo to hi. Where the value between
// it and the one before is nothing but rounding, the two are one.
func (s *search) add(lo, hi, before, after float64) {
	if n := len(s.found); n > 0 && s.lost(s.reached, lo) {
		s.found[n-1].after = after
		s.found[n-1].rate = halfway(s.began, hi)
		s.reached = hi
		return
	}
	s.found = append(s.found, root{halfway(lo, hi), before, after})
	s.began, s.reached = lo, hi
}

// halfway is the middle of an interval. As everywhere, a product that is added
// is rounded first, so that no processor fuses the two and gives other digits.
func halfway(lo, hi float64) float64 { return lo + float64((hi-lo)/2) }

// bisect narrows a root of a monotone interval to the last bit.
func bisect(c stream, lo, hi, flo float64) float64 {
	for {
		mid := halfway(lo, hi)
		if mid <= lo || mid >= hi {
			return mid
		}
		if f := c.at(mid); f == 0 {
			return mid
		} else if (f > 0) == (flo > 0) {
			lo = mid
		} else {
			hi = mid
		}
	}
}
