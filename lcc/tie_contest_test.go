package lcc

import (
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"
)

// What the laws of break-even values are tried on.

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
