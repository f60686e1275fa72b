package lcc

import (
	"math"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A scan of the kernel's costs over the range sees no change of the cheaper
// alternative that is not told, and between two ties the one told is cheaper.
func TestNoBreakEvenIsMissed(t *testing.T) {
	var changes counter
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		r := evaluated(t, randomStudy(d))
		for range 6 {
			if c, kind, ok := drawContest(d, r); ok {
				for range c.scan(t, c.ties(t)) {
					changes.add(kind)
				}
			}
		}
	})
	t.Cleanup(func() {
		for _, kind := range everyKind {
			assert.Greater(t, changes.of[kind], 0, "no change was seen as a %s moves", kind)
		}
	})
}

// places is where a scan looks: evenly, and at either side of whole years.
func (c *contest) places() []float64 {
	lo, hi := c.low.InexactFloat64(), c.high.InexactFloat64()
	const steps = 200
	var out []float64
	for i := range steps + 1 {
		out = append(out, math.Min(hi, lo+(hi-lo)*float64(i)/steps))
	}
	if c.r.Study.Inputs[c.in].Unit == Years {
		for year := math.Ceil(lo); year < hi; year++ {
			out = append(out, year, math.Min(hi, year+1e-9))
		}
	}
	slices.Sort(out)
	return out
}

// scan goes through the range and tells how many changes it saw.
func (c *contest) scan(t fatal, found []Tie) (changes int) {
	p, err := c.r.probe(c.in, c.a, c.b)
	if err != nil {
		t.Fatalf("%v", err)
	}
	noise := 0.0
	for _, x := range []decimal.Decimal{c.low, c.high, c.r.Inputs[c.in]} {
		_, scale := c.exactGap(t, x)
		noise = math.Max(noise, 1e-11*(100+scale)+c.rounding(t, c.low))
	}
	last, lastX, next := 0, 0.0, 0
	for _, x := range c.places() {
		gap := p.at(x)
		if math.Abs(gap) <= noise {
			continue
		}
		sign := cheaper(c.a, c.b, gap)
		passed := next
		for next < len(found) && found[next].before(x) {
			next++
		}
		if last != 0 && sign != last-1 {
			changes++
			if next == passed {
				t.Fatalf("%s: from %v to %v the cheaper alternative changes from %d to %d, no tie is told there: %+v",
					c.r.Study.Inputs[c.in].Path, lastX, x, last-1, sign, found)
			}
		}
		if next < len(found) && found[next].Below != sign || next > 0 && found[next-1].Above != sign {
			t.Fatalf("%s: at %v the cheaper is %d, against what is told: %+v", c.r.Study.Inputs[c.in].Path, x, sign, found)
		}
		last, lastX = sign+1, x
	}
	return changes
}

// before tells whether a place lies past a tie. A life of just the value at a
// step belongs to the side below it.
func (t Tie) before(x float64) bool {
	at := t.At.InexactFloat64()
	if t.Step {
		return at < x
	}
	return at <= x
}

// probe is one of a search of its own.
func (r *Result) probe(in Ref, a, b int) (probe, error) {
	t, err := r.TieSearch()
	if err != nil {
		return probe{}, err
	}
	return t.probe(in, a, b), nil
}
