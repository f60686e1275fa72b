package lcc

import (
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Laws of break-even values, for random studies and inputs of every kind. What
// the search finds with the kernel or with streams is looked at with ledgers
// that round nothing, and the other way round.

// contest is two alternatives between which an input is moved.
type contest struct {
	r         *Result
	in        Ref
	a, b      int
	low, high decimal.Decimal
}

// kinds names what an input is, as far as the search for ties is concerned.
func kinds(s *Study) map[string][]Ref {
	out := map[string][]Ref{}
	add := func(kind string, in Ref) {
		if in != NoRef && !slices.Contains(out[kind], in) {
			out[kind] = append(out[kind], in)
		}
	}
	add("discount rate", s.Rate)
	add("area", s.Area)
	if s.Basis == Nominal {
		add("inflation", s.Inflation)
	}
	for _, series := range s.Escalation {
		for _, in := range series {
			if len(series) == 1 {
				add("constant escalation", in)
			} else {
				add("escalation of a year", in)
			}
		}
	}
	for i := range s.Systems {
		y := &s.Systems[i]
		add("life", y.Life)
		if y.Recoat != nil {
			add("recoat life", y.Recoat.Life)
		}
		if y.Residual.Mode == FixedAmount {
			add("residual amount", y.Residual.Amount)
		}
		for _, items := range [][]Item{y.First, y.Annual, y.Periodic, y.Removal, y.recoatCosts()} {
			for _, it := range items {
				add("growth", it.Growth)
				switch it.Quantity {
				case NoRef:
					add("money", it.Price)
				case s.Area:
					add("price per area", it.Price)
				default:
					add("price", it.Price)
					add("quantity", it.Quantity)
				}
			}
		}
	}
	return out
}

// everyKind are the kinds of inputs in a fixed order.
var everyKind = []string{
	"discount rate", "area", "inflation", "constant escalation", "escalation of a year", "life", "recoat life",
	"residual amount", "growth", "money", "price per area", "price", "quantity",
}

// drawContest draws two alternatives of a random study, an input and a range.
// It fails when the study has one alternative only.
func drawContest(d dice, r *Result) (c contest, kind string, ok bool) {
	s := r.Study
	n := len(s.Alternatives)
	if n < 2 {
		return c, "", false
	}
	c.r, c.a = r, d.upTo(n-1)
	c.b = (c.a + 1 + d.upTo(n-2)) % n
	there := kinds(s)
	var names []string
	for _, k := range everyKind {
		if len(there[k]) > 0 {
			names = append(names, k)
		}
	}
	kind = names[d.upTo(len(names)-1)]
	c.in = there[kind][d.upTo(len(there[kind])-1)]
	now := r.Inputs[c.in]
	switch s.Inputs[c.in].Unit {
	case Rate:
		c.low, c.high = dec("-0.05"), dec("0.15")
		switch wide := d.upTo(2); {
		case wide == 2 && kind == "escalation of a year":
			c.low, c.high = dec("-0.499"), dec("10")
		case wide == 2 && s.Period <= 60:
			c.low, c.high = dec("-0.3"), dec("0.7")
		}
	case Years:
		c.low, c.high = dec("0.3"), decimal.NewFromInt(int64(s.Period+10))
		for _, a := range s.Alternatives {
			if w := a.Wait; w != nil && s.Systems[w.On].Life == c.in {
				c.low = decimal.Max(c.low, decimal.NewFromInt(int64(w.Years)).Add(dec("0.000001")))
			}
		}
	case Area:
		c.low, c.high = now.Shift(-3), now.Shift(1)
	default:
		c.low, c.high = decimal.Min(decimal.Zero, now.Shift(1)), decimal.Max(decimal.Zero, now.Shift(1))
		if now.IsZero() {
			c.high = dec("1000000")
		}
	}
	return c, kind, c.low.LessThan(c.high)
}

func (c *contest) ties(t fatal) []Tie {
	found, err := c.r.Ties(c.in, c.a, c.b, c.low, c.high)
	if err != nil {
		t.Fatalf("ties from %s to %s: %v", c.low, c.high, err)
	}
	return found
}

// with is the result's vector with the input at another value.
func (c *contest) with(x decimal.Decimal) Vector {
	v := slices.Clone(c.r.Inputs)
	v[c.in] = x
	return v
}

// exactGap is LCC(a) − LCC(b) at a value of the input, by ledgers that round
// nothing before the 18th decimal, and the sum of the absolute present values.
func (c *contest) exactGap(t fatal, x decimal.Decimal) (gap, scale float64) {
	twin := *c.r.Study
	twin.About.Digits = 18
	keeper := twin.keeperAt(c.with(x))
	sum := decimal.Zero
	for i, alternative := range []int{c.a, c.b} {
		lines, _, err := keeper.book(alternative)
		if err != nil {
			t.Fatalf("at %s: %v", x, err)
		}
		for _, line := range lines {
			scale += math.Abs(line.PV.InexactFloat64())
		}
		if cost := total(lines); i == 0 {
			sum = cost
		} else {
			sum = sum.Sub(cost)
		}
	}
	return sum.InexactFloat64(), scale
}

// rounding is what the rounding of amounts to the minor unit can do to a tie
// of the discount rate, which is found from the rounded ledger.
func (c *contest) rounding(t fatal, x decimal.Decimal) float64 {
	if c.in != c.r.Study.Rate {
		return 0
	}
	lines := len(c.r.Alternatives[c.a].Ledger) + len(c.r.Alternatives[c.b].Ledger)
	weight := math.Max(1, math.Pow(1+x.InexactFloat64(), float64(-c.r.Study.Period)))
	return 0.5 * weight * float64(lines) * minorUnit(c.r.Study).InexactFloat64()
}

// nearby is a step to either side of a tie that stays clear of other ties, of
// whole years and of the ends of what is allowed.
func (c *contest) nearby(found []Tie, i int) decimal.Decimal {
	at := found[i].At
	step := dec("0.000001")
	room := func(other decimal.Decimal) {
		if gap := at.Sub(other).Abs(); gap.IsPositive() {
			step = decimal.Min(step, gap.Div(decimal.NewFromInt(3)))
		}
	}
	for _, other := range found {
		room(other.At)
	}
	switch c.r.Study.Inputs[c.in].Unit {
	case Years:
		room(at.Floor())
		room(at.Ceil())
	case Area:
		room(decimal.Zero)
	case Rate:
		room(dec("-0.5"))
	default:
		step = decimal.Max(step, at.Abs().Shift(-7))
	}
	return step
}

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
	checkChoices(t, 4, func(t *rapid.T, d dice) {
		r := evaluated(t, randomStudy(d))
		for range 4 {
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
			assert.Greater(t, met.of[kind], 0, "no tie of %s was met", kind)
			assert.GreaterOrEqual(t, sides.of[kind], met.of[kind], "too few clear sides of ties of %s", kind)
		}
		assert.Greater(t, steps.of["life"], 20)
		assert.Greater(t, steps.of["recoat life"], 3)
	})
}

// checkTie looks at a tie where the costs meet, and tells how many of its
// sides stand clear of rounding.
func (c *contest) checkTie(t fatal, found []Tie, i int) (clear int) {
	tie, h := found[i], c.nearby(found, i)
	gap, scale := c.exactGap(t, tie.At)
	below, _ := c.exactGap(t, tie.At.Sub(h))
	above, _ := c.exactGap(t, tie.At.Add(h))
	slope := math.Max(math.Abs(gap-below), math.Abs(above-gap)) / h.InexactFloat64()
	// At is rounded to 12 decimals; the search is made in float64.
	allowed := slope*1e-12 + 1e-11*scale + c.rounding(t, tie.At)
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
	half := 0.5 * minorUnit(c.r.Study).InexactFloat64()
	for _, told := range []struct {
		life decimal.Decimal
		gap  decimal.Decimal
	}{{tie.At, tie.GapAt}, {tie.At.Add(one), tie.GapNext}} {
		gap, scale := c.exactGap(t, told.life)
		if math.Abs(gap-told.gap.InexactFloat64()) > half*1.000001+1e-11*scale {
			t.Fatalf("%+v: at %s the two differ by %v, not by %s", tie, told.life, gap, told.gap)
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

// A scan of the kernel's costs over the range sees no change of the cheaper
// alternative that is not told, and between two ties the one told is cheaper.
func TestNoBreakEvenIsMissed(t *testing.T) {
	var changes counter
	checkChoices(t, 4, func(t *rapid.T, d dice) {
		r := evaluated(t, randomStudy(d))
		for range 4 {
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
	const steps = 1000
	var out []float64
	for i := range steps + 1 {
		out = append(out, lo+(hi-lo)*float64(i)/steps)
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
		noise = math.Max(noise, 1e-11*scale+c.rounding(t, c.low))
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
