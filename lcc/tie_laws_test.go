package lcc

import (
	"fmt"
	"math"
	"sync"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Laws of break-even values, for random studies and inputs of every kind. What
// the search finds with the kernel or with streams is looked at with ledgers
// that round nothing, and the other way round.

// counter counts from several goroutines.
type counter struct {
	sync.Mutex
	of map[string]int
}

func (y *counter) add(kind string) {
	y.Lock()
	defer y.Unlock()
	if y.of == nil {
		y.of = map[string]int{}
	}
	y.of[kind]++
}

// A break-even value put back into the study makes the two alternatives cost
// the same; just below and just above it the one that is told is cheaper. At a
// step the differences told are those of the ledger, on either side.
func TestABreakEvenPutBackIsATie(t *testing.T) {
	var met, steps, sides counter
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		r := evaluated(t, randomStudy(d))
		for range 6 {
			c, kind, ok := drawContest(d, r)
			if !ok {
				continue
			}
			found := c.ties(t)
			for i, tie := range found {
				if tie.At.LessThan(c.low.Sub(dec("1e-12"))) || tie.At.GreaterThan(c.high.Add(dec("1e-12"))) || i > 0 && tie.At.LessThan(found[i-1].At) {
					t.Fatalf("%s: tie %d of %v is out of the range %s to %s or of order", kind, i, found, c.low, c.high)
				}
				if tie.A != c.a || tie.B != c.b {
					t.Fatalf("%s: a tie of %d and %d, asked for %d and %d", kind, tie.A, tie.B, c.a, c.b)
				}
				if tie.Step {
					steps.add(kind)
					c.checkStep(t, tie)
				} else {
					met.add(kind)
					for range c.checkTie(t, found, i) {
						sides.add(kind)
					}
				}
			}
		}
	})
	t.Cleanup(func() {
		for _, kind := range everyKind {
			if kind == "life" || kind == "recoat life" {
				continue // whose ties are steps, nearly always
			}
			assert.Greater(t, met.of[kind], 1, "hardly a tie of %s was met", kind)
			assert.GreaterOrEqual(t, 2*sides.of[kind], met.of[kind], "too few clear sides of ties of %s", kind)
		}
		assert.Greater(t, steps.of["life"], 10)
		assert.Greater(t, steps.of["recoat life"], 3)
	})
}

// A residual value that is prorated lets the costs meet within a year: one
// alternative is a roof and what is left of it, the other pays what that costs
// at a life somewhere between two whole years.
func TestABreakEvenLifeWithinAYear(t *testing.T) {
	var met, sides counter
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		b := newStudy(2+d.upTo(48), decimal.New(int64(d.upTo(800)), -4).String())
		b.s.Timing = Timing(d.upTo(1))
		b.escalate(Construction, decimal.New(int64(d.upTo(500)), -4).String())
		roof := b.system("roof", "10", func(y *System) {
			y.First = []Item{b.item(fmt.Sprint(1000 + d.upTo(900_000)))}
			y.Annual = []Item{b.item(fmt.Sprint(d.upTo(5000))).as(Maintenance)}
			if d.upTo(1) == 1 {
				y.Recoat = &Recoating{AtMost: 1 + d.upTo(2), Life: b.in("recoat life", Years, "8"), Costs: []Item{b.item(fmt.Sprint(d.upTo(300_000)))}}
			}
		})
		b.alternative("roof", roof, nil)
		b.alternative("rent", b.system("rent", "1000", func(y *System) { y.InPlace, y.Residual.Mode = true, NoResidual }), nil)
		in := b.s.Systems[roof].Life
		if y := b.s.Systems[roof]; y.Recoat != nil && d.upTo(1) == 1 {
			in = y.Recoat.Life
		}
		c := contest{r: evaluated(t, b.s), in: in, a: 0, b: 1, low: dec("0.3"), high: decimal.NewFromInt(int64(2 * b.s.Period))}
		for range 3 {
			c.balance(d)
			found := c.ties(t)
			for i, tie := range found {
				if tie.Step {
					c.checkStep(t, tie)
					continue
				}
				met.add("life")
				for range c.checkTie(t, found, i) {
					sides.add("life")
				}
			}
			c.scan(t, found)
		}
	})
	t.Cleanup(func() {
		assert.Greater(t, met.of["life"], 20)
		assert.Greater(t, sides.of["life"], 20)
	})
}

// checkTie looks at a tie where the costs meet, and tells how many of its
// sides stand clear of rounding.
func (c *contest) checkTie(t fatal, found []Tie, i int) (clear int) {
	tie, h := found[i], c.nearby(found, i)
	gap, scale := c.exactGap(t, tie.At)
	if unit := c.r.Study.Inputs[c.in].Unit; unit != Rate && unit != Years { // a line through two points of the range
		_, highest := c.exactGap(t, decimal.Max(c.high, c.low.Abs()))
		scale = math.Max(scale, 2*highest)
	}
	below, _ := c.exactGap(t, tie.At.Sub(h))
	above, _ := c.exactGap(t, tie.At.Add(h))
	slope := math.Max(math.Abs(gap-below), math.Abs(above-gap)) / h.InexactFloat64()
	// At is rounded to 12 decimals; the search is made in float64.
	allowed := slope*1e-12 + 1e-11*(100+scale) + c.rounding(t, tie.At)
	if math.Abs(gap) > allowed {
		t.Fatalf("%s of %+v: the two differ by %v at the tie, allowed %v", c.r.Study.Inputs[c.in].Path, tie, gap, allowed)
	}
	back, err := c.r.Study.EvaluateAt(c.with(tie.At))
	if err != nil {
		t.Fatalf("%+v put back: %v", tie, err)
	}
	lines := len(back.Alternatives[c.a].Ledger) + len(back.Alternatives[c.b].Ledger)
	cents := minorUnit(c.r.Study).InexactFloat64() * float64(lines)
	if told := back.Difference(c.a, c.b).Abs().InexactFloat64(); told > allowed+cents {
		t.Fatalf("%+v put back: the ledgers differ by %v in %d lines", tie, told, lines)
	}
	for side, gap := range map[int]float64{tie.Below: below, tie.Above: above} {
		if tie.Below == tie.Above {
			break // the two sides are one key
		}
		if math.Abs(gap) <= allowed {
			continue
		}
		clear++
		if cheaper(c.a, c.b, gap) != side {
			t.Fatalf("%s of %+v: %v below by %s, %v above", c.r.Study.Inputs[c.in].Path, tie, below, h, above)
		}
	}
	if tie.Below == tie.Above && (math.Abs(below) > allowed && cheaper(c.a, c.b, below) != tie.Below || math.Abs(above) > allowed && cheaper(c.a, c.b, above) != tie.Above) {
		t.Fatalf("%+v is told as a touch, with %v below and %v above", tie, below, above)
	}
	return clear
}

// checkStep looks at a tie where the costs pass each other in a jump.
func (c *contest) checkStep(t fatal, tie Tie) {
	if !tie.At.Equal(tie.At.Floor()) || !tie.Crosses() {
		t.Fatalf("%+v: a step stands at whole years and crosses", tie)
	}
	lines := float64(len(c.r.Alternatives[c.a].Ledger) + len(c.r.Alternatives[c.b].Ledger) + 8*c.r.Study.Period)
	cents := lines * minorUnit(c.r.Study).InexactFloat64() // more than there are lines at any life
	for life, told := range map[*decimal.Decimal]decimal.Decimal{&tie.At: tie.GapAt, ptr(tie.At.Add(one)): tie.GapNext} {
		gap, scale := c.exactGap(t, *life)
		if math.Abs(gap-told.InexactFloat64()) > cents+1e-11*scale {
			t.Fatalf("%+v: at %s the two differ by %v, not by %s", tie, life, gap, told)
		}
	}
	below, scale := c.exactGap(t, tie.At)
	above, _ := c.exactGap(t, tie.At.Add(dec("1e-12")))
	for _, side := range []struct {
		cheaper int
		gap     float64
	}{{tie.Below, below}, {tie.Above, above}} {
		if math.Abs(side.gap) > 1e-11*scale && cheaper(c.a, c.b, side.gap) != side.cheaper {
			t.Fatalf("%+v: %v at the step, %v past it", tie, below, above)
		}
	}
}

// What is told on either side of a step is what the ledger says there, to the
// minor unit: the same measure has the same cent.
func TestTheGapsOfAStepAreTheLedgersToTheCent(t *testing.T) {
	var steps counter
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		r := evaluated(t, randomStudy(d))
		for range 12 {
			c, kind, ok := drawContest(d, r)
			if !ok || c.r.Study.Inputs[c.in].Unit != Years {
				continue
			}
			for _, tie := range c.ties(t) {
				if !tie.Step {
					continue
				}
				steps.add(kind)
				for _, told := range []struct{ life, gap decimal.Decimal }{{tie.At, tie.GapAt}, {tie.At.Add(one), tie.GapNext}} {
					back, err := c.r.Study.EvaluateAt(c.with(told.life))
					if err != nil {
						t.Fatalf("%+v put back: %v", tie, err)
					}
					if gap := back.Difference(c.a, c.b); !gap.Equal(told.gap) {
						t.Fatalf("%+v: at %s the ledgers differ by %s, told %s", tie, told.life, gap, told.gap)
					}
				}
			}
		}
	})
	t.Cleanup(func() { assert.Greater(t, steps.of["life"], 5) })
}
