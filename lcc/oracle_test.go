package lcc

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// A second way to the ledger, slow and plain: for each alternative it goes
// through the years 0 to N and asks of each what the method lets fall in it.
// It shares no line with the program: no walk, no spells, no factor tables of
// decimals. Numbers are fractions of integers, so nothing is rounded before
// the cent; only the square roots of mid-year timing are not fractions, and
// they are taken to 300 bits.

// due is a cost that falls due, unrounded.
type due struct {
	half     int // half years from the base date
	item     string
	system   int
	kind     Kind
	category Category
	base     *big.Rat // at base-date prices
	amount   *big.Rat // escalated
	pv       *big.Rat
}

func rat(d decimal.Decimal) *big.Rat { return d.Rat() }

func whole64(n int) *big.Rat { return new(big.Rat).SetInt64(int64(n)) }

func times(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

func onePlus(r decimal.Decimal) *big.Rat { return new(big.Rat).Add(whole64(1), rat(r)) }

// toThe is x^n, n ≥ 0.
func toThe(x *big.Rat, n int) *big.Rat {
	k := big.NewInt(int64(n))
	return new(big.Rat).SetFrac(new(big.Int).Exp(x.Num(), k, nil), new(big.Int).Exp(x.Denom(), k, nil))
}

// rootOf is the square root of x > 0 to 300 bits, exact where x is the square
// of a fraction.
func rootOf(x *big.Rat) *big.Rat {
	num, den := new(big.Int).Sqrt(x.Num()), new(big.Int).Sqrt(x.Denom())
	if exact := new(big.Rat).SetFrac(num, den); times(exact, exact).Cmp(x) == 0 {
		return exact
	}
	f := new(big.Float).SetPrec(300).SetRat(x)
	out, _ := f.Sqrt(f).Rat(nil)
	return out
}

// oracle goes through the years of one alternative.
type oracle struct {
	s    *Study
	v    Vector
	dues []due

	// By half year, filled when first asked for: ∏(1+e_k) of each category, and (1+d)^t.
	escalated [NumCategories]map[int]*big.Rat
	grown     map[int]*big.Rat
	// What a cost of 1 of a category that falls at a half year is worth.
	worth [NumCategories]map[int]*big.Rat

	// What stands on the roof.
	system    int
	installed int // year of installation
	renewed   int // year of installation or last recoat
	paid      []Item
	recoats   int
	waiting   int // year in which a wait ends; −1 when nothing is awaited
}

func newOracle(s *Study, v Vector) *oracle {
	o := &oracle{s: s, v: v}
	o.grown = o.products(func(int) decimal.Decimal { return v[s.Rate] })
	for c := range NumCategories {
		o.worth[c] = map[int]*big.Rat{}
	}
	return o
}

// escalatedTo is ∏(1+e_k) of a category to a half year.
func (o *oracle) escalatedTo(c Category, half int) *big.Rat {
	if o.escalated[c] == nil {
		o.escalated[c] = o.products(func(year int) decimal.Decimal { return o.escalation(c, year) })
	}
	return o.escalated[c][half]
}

// escalation is the rate of a category in a year. [section 2 of the method]
func (o *oracle) escalation(c Category, year int) decimal.Decimal {
	stated := o.s.Escalation[c]
	if len(stated) == o.s.Period {
		return o.v[stated[year-1]]
	}
	if len(stated) == 1 {
		return o.v[stated[0]]
	}
	if o.s.Basis == Nominal {
		return o.v[o.s.Inflation]
	}
	return decimal.Zero
}

// products is ∏(1+rate(k)) by half year.
func (o *oracle) products(rate func(int) decimal.Decimal) map[int]*big.Rat {
	out := map[int]*big.Rat{0: whole64(1)}
	for year := 1; year <= o.s.Period; year++ {
		if o.s.Timing == MidYear {
			out[2*year-1] = times(out[2*year-2], rootOf(onePlus(rate(year))))
		}
		out[2*year] = times(out[2*year-2], onePlus(rate(year)))
	}
	return out
}

// factor is what 1 at base-date prices of a category is worth that falls at a half year.
func (o *oracle) factor(c Category, half int) *big.Rat {
	f := o.worth[c][half]
	if f == nil {
		f = o.ratio(c, half)
		o.worth[c][half] = f
	}
	return f
}

// ratio is ∏(1+e_k)/(1+d)^t. At a half year the two square roots are taken as
// one where their quotient is a fraction, as it is where e = d.
func (o *oracle) ratio(c Category, half int) *big.Rat {
	if half%2 == 0 {
		return new(big.Rat).Quo(o.escalatedTo(c, half), o.grown[half])
	}
	year := (half + 1) / 2
	step := new(big.Rat).Quo(onePlus(o.escalation(c, year)), onePlus(o.v[o.s.Rate]))
	before := new(big.Rat).Quo(o.escalatedTo(c, half-1), o.grown[half-1])
	return times(before, rootOf(step))
}

// pay enters an item of the standing system in a year; age is its year of age.
func (o *oracle) pay(year int, it Item, kind Kind, age int) {
	base := rat(o.v[it.Price])
	if it.Quantity != NoRef {
		base = times(base, rat(o.v[it.Quantity]))
	}
	if it.Growth != NoRef {
		base = times(base, toThe(onePlus(o.v[it.Growth]), age-1))
	}
	half := 2 * year
	if o.s.Timing == MidYear && (kind == Annual || kind == Periodic) {
		half--
	}
	o.enter(due{half: half, item: it.Name, kind: kind, category: it.Category, base: base,
		amount: times(base, o.escalatedTo(it.Category, half)), pv: times(base, o.factor(it.Category, half))})
}

func (o *oracle) enter(d due) {
	d.system = o.system
	o.dues = append(o.dues, d)
}

func (o *oracle) payAll(year int, items []Item, kind Kind) {
	for _, it := range items {
		o.pay(year, it, kind, 1)
	}
}

// alternative gives everything that falls due in an alternative.
func (o *oracle) alternative(index int) []due {
	a := o.s.Alternatives[index]
	o.dues, o.waiting = nil, -1
	o.system, o.installed, o.renewed, o.recoats, o.paid = a.Start, 0, 0, 0, nil
	switch {
	case a.Wait != nil: // another system is kept first
		o.system, o.waiting = a.Wait.On, a.Wait.Years
	case !o.s.Systems[a.Start].InPlace:
		o.install(0, a.Start)
	}
	for year := 0; year <= o.s.Period; year++ {
		o.year(year, a.Start)
	}
	o.residual()
	return o.dues
}

// year lets the costs of one year fall due, then looks for an intervention.
func (o *oracle) year(year, awaited int) {
	y := o.s.Systems[o.system]
	recoat, leave := o.intervention(year)
	if year > 0 {
		for _, it := range y.Annual {
			o.pay(year, it, Annual, o.age(year, it))
		}
		for _, it := range y.Periodic {
			if (year-o.installed)%it.Every == 0 && !leave && year < o.s.Period {
				o.pay(year, it, Periodic, o.age(year, it))
			}
		}
	}
	switch {
	case recoat:
		o.recoats++
		o.renewed, o.paid = year, y.Recoat.Costs
		o.payAll(year, y.Recoat.Costs, Recoat)
	case leave:
		o.payAll(year, y.Removal, Removal)
		next := y.Then
		if o.waiting == year {
			next, o.waiting = awaited, -1
		}
		o.install(year, next)
	}
}

// age is the year of age of an item in a year of the study: the first year
// after the installation is 1, and a recoat starts again unless the item
// keeps its age.
func (o *oracle) age(year int, it Item) int {
	if it.KeepsAge {
		return year - o.installed
	}
	return year - o.renewed
}

func (o *oracle) install(year, system int) {
	o.system, o.installed, o.renewed, o.recoats = system, year, year, 0
	o.paid = o.s.Systems[system].First
	kind := Replacement
	if year == 0 {
		kind = FirstCost
	}
	o.payAll(year, o.paid, kind)
}

// life is the life that the present renewal has.
func (o *oracle) life() *big.Rat {
	y := o.s.Systems[o.system]
	if o.recoats > 0 {
		return rat(o.v[y.Recoat.Life])
	}
	return rat(o.v[y.Life])
}

// intervention tells whether the present life runs out in a year, before N.
// It is the first year at or after the life's end, so: not less than the life
// has passed by now, and less than it a year ago.
func (o *oracle) intervention(year int) (recoat, leave bool) {
	if o.waiting >= 0 {
		return false, year == o.waiting
	}
	if year == o.renewed || year >= o.s.Period || whole64(year-o.renewed).Cmp(o.life()) < 0 {
		return false, false
	}
	y := o.s.Systems[o.system]
	if y.Recoat != nil && o.recoats < y.Recoat.AtMost {
		return true, false
	}
	return false, true
}

// residual credits what is left at N.
func (o *oracle) residual() {
	n := o.s.Period
	y := o.s.Systems[o.system]
	credit := func(name string, base *big.Rat, pricedAt int) {
		base = new(big.Rat).Neg(base)
		amount := times(base, o.escalatedTo(Construction, 2*pricedAt))
		// Current money of the year of pricing, said in that of year N: by the
		// law that both bases give the same present value.
		if o.s.Basis == Nominal {
			for year := pricedAt; year < n; year++ {
				amount = times(amount, new(big.Rat).Add(whole64(1), rat(o.v[o.s.Inflation])))
			}
		}
		o.enter(due{half: 2 * n, item: name, kind: ResidualValue, category: NoCategory, base: base,
			amount: amount, pv: new(big.Rat).Quo(amount, o.grown[2*n])})
	}
	switch y.Residual.Mode {
	case FixedAmount:
		credit("Residual value", rat(o.v[y.Residual.Amount]), n)
	case Prorated:
		left := new(big.Rat).Sub(o.life(), whole64(n-o.renewed))
		if left.Sign() <= 0 {
			return
		}
		for _, it := range o.paid {
			if it.Category == Construction {
				cost := rat(o.v[it.Price])
				if it.Quantity != NoRef {
					cost = times(cost, rat(o.v[it.Quantity]))
				}
				credit("Residual value: "+it.Name, times(cost, new(big.Rat).Quo(left, o.life())), o.renewed)
			}
		}
	}
}

// minorUnits rounds half away from zero to the currency's minor unit. half
// tells that the number lies on a half (nearer than 300 bits can tell).
func minorUnits(x *big.Rat, places int32) (units *big.Int, half bool) {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	scaled := times(new(big.Rat).Abs(x), new(big.Rat).SetInt(scale))
	num, den := new(big.Int).Lsh(scaled.Num(), 1), new(big.Int).Lsh(scaled.Denom(), 1)
	num.Add(num, scaled.Denom()) // x + ½ as num/den
	rest := new(big.Int)
	units, rest = new(big.Int).QuoRem(num, den, rest)
	// Just under or just over a whole x + ½.
	near := new(big.Int).Rsh(den, 200)
	if short := new(big.Int).Sub(den, rest); short.Cmp(near) <= 0 {
		units.Add(units, big.NewInt(1))
		half = true
	}
	half = half || rest.Cmp(near) <= 0
	if x.Sign() < 0 {
		units.Neg(units)
	}
	return units, half
}

func TestLedgerAgreesWithTheOracleLineByLine(t *testing.T) {
	checkStudies(t, 100, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		o := newOracle(s, r.Inputs)
		for i, a := range r.Alternatives {
			sameLedger(t, s, a.Ledger, o.alternative(i))
		}
	})
}

// sameLedger compares a ledger with what the oracle lets fall due, whatever
// the order within one time.
func sameLedger(t *rapid.T, s *Study, ledger []Line, dues []due) {
	type place struct {
		half, system int
		item         string
		kind         Kind
	}
	want := map[place]due{}
	for _, d := range dues {
		want[place{d.half, d.system, d.item, d.kind}] = d
	}
	if len(want) != len(dues) {
		t.Fatalf("the oracle lets an item fall due twice at one time")
	}
	for _, line := range ledger {
		p := place{int(line.Time), line.System, line.Item, line.Kind}
		d, there := want[p]
		if !there {
			t.Fatalf("the ledger has a line that the oracle has not, or twice: %+v", line)
		}
		delete(want, p)
		if line.Category != d.category {
			t.Fatalf("%+v: category %s, the oracle says %s", p, line.Category, d.category)
		}
		sameMoney(t, s, p, "base", line.Base, d.base)
		sameMoney(t, s, p, "amount", line.Amount, d.amount)
		sameMoney(t, s, p, "present value", line.PV, d.pv)
	}
	for p := range want {
		t.Fatalf("the oracle has a line that the ledger has not: %+v", p)
	}
}

func sameMoney(t *rapid.T, s *Study, place any, name string, got decimal.Decimal, exact *big.Rat) {
	units, half := minorUnits(exact, s.About.Digits)
	want := decimal.NewFromBigInt(units, -s.About.Digits)
	if got.Equal(want) {
		return
	}
	// An exact half whose factors are no finite decimals: see halfcent_test.go.
	inwards := decimal.New(int64(exact.Sign()), -s.About.Digits)
	if !halvesSurviveFactors && half && got.Equal(want.Sub(inwards)) {
		return
	}
	t.Fatalf("%+v: %s is %s, the oracle says %s (exactly %s)", place, name, got, want, exact.FloatString(45))
}
