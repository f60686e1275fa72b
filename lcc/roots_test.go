package lcc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// randomStream is a difference of cash flows in whole minor units: the sparse
// one of a few interventions, or one that ties at several rates by design.
func randomStream(d dice) stream {
	if d.upTo(1) == 0 {
		c := make(stream, 3+2*d.upTo(60))
		for range 2 + d.upTo(8) {
			c[d.upTo(len(c)-1)] += float64(d.upTo(2_000_000) - 1_000_000)
		}
		return c
	}
	// A product of (1 − root·x^2gap), the roots one to three per cent apart.
	c := stream{1e9}
	gap := 1 + d.upTo(5)
	rate := -0.03
	for range 1 + d.upTo(3) {
		rate += 0.01 + float64(d.upTo(200))/1e4
		root := math.Pow(1+rate, float64(gap))
		next := make(stream, len(c)+2*gap)
		for i, v := range c {
			next[i] += v
			next[i+2*gap] -= v * root
		}
		c = next
	}
	for i := range c {
		c[i] = math.Round(c[i])
	}
	return c
}

// clearly gives the sign of a stream at a rate, or 0 where rounding may hide it.
func (c stream) clearly(rate float64) int {
	switch v := c.at(rate); {
	case v > 1e-12*c.magnitude(0):
		return 1
	case v < -1e-12*c.magnitude(0):
		return -1
	}
	return 0
}

// A dense scan of signs sees no tie that the search has not found, every tie
// found is one, and between two of them the sign stays what they say.
func TestRootsAgainstADenseScanOfSigns(t *testing.T) {
	const lo, hi, steps = -0.02, 0.14, 2000
	met := 0
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		for range 3 {
			c := randomStream(d)
			if c.magnitude(0) == 0 {
				continue
			}
			found := c.roots(lo, hi)
			met += len(found)
			checkRoots(t, c, found, lo, hi, steps)
		}
	})
	t.Cleanup(func() { assert.Greater(t, met, 100, "hardly any stream has a root") })
}

func checkRoots(t fatal, c stream, found []root, lo, hi float64, steps int) {
	for i, r := range found {
		// A last bit of the rate moves the value by the slope.
		if v := math.Abs(c.at(r.rate)); v > 1e-11*c.magnitude(0) {
			t.Fatalf("%v at root %v of %d roots", v, r.rate, len(found))
		}
		if r.rate < lo || r.rate > hi || i > 0 && r.rate <= found[i-1].rate {
			t.Fatalf("root %d of %d is out of range or of order: %v", i, len(found), r)
		}
		if i > 0 && (r.before > 0) != (found[i-1].after > 0) {
			t.Fatalf("the signs between roots %d and %d of %d differ: %v, %v", i-1, i, len(found), found[i-1], r)
		}
	}
	next, changes, last := 0, 0, 0
	for step := range steps + 1 {
		rate := lo + (hi-lo)*float64(step)/float64(steps)
		for next < len(found) && found[next].rate < rate {
			next++
		}
		sign := c.clearly(rate)
		if sign == 0 {
			continue
		}
		if last != 0 && sign != last {
			changes++
		}
		last = sign
		told := 0.0
		switch {
		case next < len(found):
			told = found[next].before
		case len(found) > 0:
			told = found[len(found)-1].after
		default:
			continue
		}
		if (told > 0) != (sign > 0) {
			t.Fatalf("at %v the sign is %d, %d roots say %v", rate, sign, len(found), told)
		}
	}
	if changes > len(found) {
		t.Fatalf("the sign changes %d times, %d roots are found", changes, len(found))
	}
}

func TestAStreamOfNothingHasNoRoots(t *testing.T) {
	assert.Empty(t, make(stream, 9).roots(0, 0.12))
	assert.Empty(t, stream{5}.roots(0, 0.12))
	assert.Empty(t, stream{0, 0, 7, 0}.roots(-0.02, 0.12))
}

// A root at either end of the range belongs to it, and one at the middle,
// where the search halves first, is found once.
func TestRootsAtTheEndsAndInTheMiddle(t *testing.T) {
	// At 0 and at 300 % the half-yearly factors 1 and ½ are exact, so the value at the end is 0.
	for _, c := range []struct{ rate, lo, hi float64 }{{0, 0, 0.25}, {3, 0, 3}, {3, 3, 8}, {3, 0, 6}, {0.125, 0, 0.25}} {
		for _, sign := range []float64{1, -1} {
			found := stream{sign * 1e6, 0, -sign * 1e6 * (1 + c.rate)}.roots(c.lo, c.hi)
			if assert.Len(t, found, 1, "%v", c) {
				assert.InDelta(t, c.rate, found[0].rate, 1e-14)
				assert.Negative(t, sign*found[0].before)
				assert.Positive(t, sign*found[0].after)
			}
		}
	}
}

// The enclosure of the values over a range of rates holds the value at each.
func TestBoundsEncloseTheStream(t *testing.T) {
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		c := randomStream(d)
		lo := float64(d.upTo(1000)-200) / 1e4
		hi := lo + float64(1+d.upTo(1000))/1e4
		least, most := c.bounds(lo, hi)
		slopeLeast, slopeMost := c.slope().bounds(lo, hi)
		slack := 1e-12 * c.magnitude(0)
		for i := range 11 {
			rate := lo + (hi-lo)*float64(i)/10
			if v := c.at(rate); v < least-slack || v > most+slack {
				t.Fatalf("%v at %v is out of %v to %v", v, rate, least, most)
			}
			// The derivative times 2(1+d), by a difference.
			const h = 1e-6
			slope := 2 * (1 + rate) * (c.at(rate+h) - c.at(rate-h)) / (2 * h)
			wide := (math.Abs(slopeLeast)+math.Abs(slopeMost))*1e-3 + 1e-6*c.magnitude(0)*float64(len(c))
			if slope < slopeLeast-wide || slope > slopeMost+wide {
				t.Fatalf("slope %v at %v is out of %v to %v", slope, rate, slopeLeast, slopeMost)
			}
		}
	})
}
