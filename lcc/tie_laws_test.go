package lcc

import (
	"fmt"
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
	if spells := r.Alternatives[c.a].Spells; (kind == "life" || kind == "recoat life") && d.upTo(1) == 1 {
		slot := spells[len(spells)-1].Slot // what its residual value rests on
		c.in, kind = s.LifeAt(slot), []string{"life", "recoat life"}[slot%2]
	}
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
	if !c.low.LessThan(c.high) {
		return c, kind, false
	}
	if d.upTo(5) > 0 {
		c.balance(d)
	}
	return c, kind, true
}

// balance lets the two alternatives tie, to the cent, somewhere in the range:
// the one pays an amount at time 0 that makes up for the difference there, as
// the removal of a roof that it waits on for no years.
func (c *contest) balance(d dice) {
	where := c.low.Add(c.high.Sub(c.low).Mul(decimal.New(int64(d.upTo(1000)), -3)))
	gap, _ := c.exactGap(mustPass{}, where)
	payer := c.a
	if c.r.Study.Alternatives[payer].Wait != nil {
		payer, gap = c.b, -gap
	}
	if c.r.Study.Alternatives[payer].Wait != nil {
		return
	}
	twin := *c.r.Study
	twin.Inputs, twin.Systems, twin.Alternatives = slices.Clone(twin.Inputs), slices.Clone(twin.Systems), slices.Clone(twin.Alternatives)
	b := &builder{&twin}
	makeUp := decimal.NewFromFloat(-gap).Round(twin.About.Digits)
	on := b.system("balance", "1", func(y *System) {
		y.InPlace, y.Removal = true, []Item{b.item(makeUp.String()).as(Fees)}
	})
	twin.Alternatives[payer].Wait = &Wait{On: on}
	c.r = evaluated(mustPass{}, &twin)
}

// mustPass is for steps of making a study that cannot fail.
type mustPass struct{}

func (mustPass) Fatalf(format string, args ...any) { panic(fmt.Sprintf(format, args...)) }

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
		if c.in == c.r.Study.Rate { // clear of the rounding of lines
			step = step.Shift(2)
			for _, other := range found {
				room(other.At)
			}
		}
		room(dec("-0.5"))
	default:
		step = decimal.Max(step, at.Abs().Shift(-7))
	}
	return step
}

func ptr[T any](v T) *T { return &v }

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
