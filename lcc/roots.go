package lcc

import "math"

// stream is a difference of cash flows: what falls at each half year, in
// minor units of the currency, so that its entries are whole numbers.
type stream []float64

// at is the value of the stream at a discount rate: Σ c_t (1+d)^−t.
func (c stream) at(d float64) float64 {
	x := 1 / math.Sqrt(1+d)
	sum := 0.0
	for h := len(c) - 1; h >= 0; h-- {
		sum = sum*x + c[h]
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
			most += v * plo
			least += v * phi
		} else {
			most += v * phi
			least += v * plo
		}
		plo *= xlo
		phi *= xhi
	}
	return least, most
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

// roots finds every root from lo to hi. It is a search with proof: an interval
// is left when its bounds exclude zero (no root), settled when the bounds of
// the slope exclude zero (at most one root, by the signs at its ends), and
// otherwise halved. What is still undecided at the finest width holds a root
// of higher order, or several within that width; it is told as one.
// A stream of nothing but zeros has no roots: it ties everywhere.
func (c stream) roots(lo, hi float64) []root {
	s := search{c: c, slope: c.slope(), scale: c.scale()}
	if s.scale == 0 {
		return nil
	}
	s.look(lo, hi)
	return s.found
}

// scale is the sum of the absolute entries.
func (c stream) scale() float64 {
	sum := 0.0
	for _, v := range c {
		sum += math.Abs(v)
	}
	return sum
}

type search struct {
	c, slope stream
	scale    float64
	found    []root
}

func (s *search) look(lo, hi float64) {
	if least, most := s.c.bounds(lo, hi); least > s.noise() || most < -s.noise() {
		return
	}
	if least, most := s.slope.bounds(lo, hi); least > 0 || most < 0 {
		s.settle(lo, hi)
		return
	}
	if hi-lo <= finest {
		s.touch(lo, hi)
		return
	}
	mid := lo + (hi-lo)/2
	s.look(lo, mid)
	s.look(mid, hi)
}

// noise bounds the rounding of a value in float64, generously.
func (s *search) noise() float64 { return s.scale * 1e-13 }

// settle finds the one root of a monotone interval, if it has one. An end
// that is itself a root belongs to the interval on its left, or is the first.
func (s *search) settle(lo, hi float64) {
	flo, fhi := s.c.at(lo), s.c.at(hi)
	switch {
	case flo == 0:
		s.add(root{lo, -fhi, fhi})
	case fhi == 0:
		s.add(root{hi, flo, -flo})
	case (flo > 0) != (fhi > 0):
		s.add(root{bisect(s.c, lo, hi, flo), flo, fhi})
	}
}

// touch takes an undecided interval of the finest width for a root when the
// value there is nothing but rounding, or changes sign.
func (s *search) touch(lo, hi float64) {
	flo, fhi := s.c.at(lo), s.c.at(hi)
	mid := lo + (hi-lo)/2
	if (flo > 0) != (fhi > 0) || math.Abs(s.c.at(mid)) <= s.noise() {
		// The signs a little further out tell a touch from a crossing.
		const out = 1e-5
		s.add(root{mid, s.c.at(lo - out), s.c.at(hi + out)})
	}
}

// add keeps a root, unless it is the one before it seen from the next interval.
func (s *search) add(r root) {
	if n := len(s.found); n > 0 && r.rate-s.found[n-1].rate <= 1e3*finest {
		s.found[n-1].after = r.after
		return
	}
	s.found = append(s.found, r)
}

// bisect narrows a root of a monotone interval to the last bit.
func bisect(c stream, lo, hi, flo float64) float64 {
	for {
		mid := lo + (hi-lo)/2
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
