package lcc

import (
	"fmt"
	"math"
	"slices"

	"github.com/shopspring/decimal"
)

// Derivation makes an input follow from others: a sum of products of them,
// such as the area that a coat covers, the paint that it takes or the life
// that its film gives. What a derivation gives is never estimated, drawn or
// moved by itself. Less than nothing is nothing, but for money, where it is a
// credit.
//
// So that break-even values can be found with proof, an input enters all that
// is derived from it in one way, and in each term once: see Study.Check.
type Derivation struct {
	In    Ref
	Terms []Term
	// Pack rounds up to a whole multiple, as material is sold; 0 does not
	// round.
	Pack decimal.Decimal
}

// Term is a product of a constant and inputs.
type Term struct {
	Coefficient decimal.Decimal // in the unit that turns the product into that of the derived input; any sign
	Factors     []Factor
}

// Factor is how an input enters a term.
type Factor struct {
	Of  Ref
	How How
}

// How is the way in which an input x enters a product.
type How uint8

// The ways.
const (
	Times    How = iota // x
	Over                // 1/x, for x > 0
	Rest                // 1 − x
	OverRest            // 1/(1 − x), for x < 1
)

// derive fills in what follows from the other inputs of a vector. It fails
// where a divisor is not greater than 0.
func (s *Study) derive(v Vector) error {
	for i := range s.Derived {
		d := &s.Derived[i]
		sum := decimal.Zero
		for _, term := range d.Terms {
			product := term.Coefficient
			for _, f := range term.Factors {
				x := v[f.Of]
				if f.How >= Rest {
					x = one.Sub(x)
				}
				if f.How == Times || f.How == Rest {
					product = sig(product.Mul(x))
					continue
				}
				if !x.IsPositive() {
					return fmt.Errorf("%s cannot be derived: %s is %s", s.Inputs[d.In].Path, s.Inputs[f.Of].Path, v[f.Of])
				}
				product = quo(product, x)
			}
			sum = sum.Add(product)
		}
		if v[d.In] = roundUp(settled(sum), d.Pack); !s.signed(d.In) {
			v[d.In] = decimal.Max(decimal.Zero, v[d.In])
		}
	}
	return nil
}

// signed tells whether an input may be less than nothing.
func (s *Study) signed(r Ref) bool {
	return s.Inputs[r].Unit == Money || s.Inputs[r].Unit == Price
}

// roundUp goes up to the next multiple of a pack. What exceeds a multiple by
// no more than the last digits of a quotient does not exceed it.
func roundUp(x, pack decimal.Decimal) decimal.Decimal {
	if !pack.IsPositive() {
		return x
	}
	return quo(x, pack).Sub(overshoot).Ceil().Mul(pack)
}

// overshoot is a share of a pack, or a part of one, that is nothing but rounding.
var overshoot = decimal.New(1, -24)

// settled takes what lies next to a whole number for that number, as 14/1.2 −
// 2/1.2 for ten: a life a hair over it would last into another year.
func settled(x decimal.Decimal) decimal.Decimal {
	if whole := x.Round(0); x.Sub(whole).Abs().LessThanOrEqual(overshoot) {
		return whole
	}
	return x
}

// filled is a copy of a vector with what follows from it.
func (s *Study) filled(v Vector) (Vector, error) {
	if len(s.Derived) == 0 || len(v) != len(s.Inputs) {
		return v, nil // the wrong length is told by checkVector
	}
	out := append(Vector(nil), v...)
	return out, s.derive(out)
}

// IsDerived tells whether an input follows from others.
func (s *Study) IsDerived(r Ref) bool {
	for i := range s.Derived {
		if s.Derived[i].In == r {
			return true
		}
	}
	return false
}

// feeds tells whether something is derived from an input.
func (s *Study) feeds(r Ref) bool {
	for i := range s.Derived {
		if s.Derived[i].uses(r) {
			return true
		}
	}
	return false
}

func (d *Derivation) uses(r Ref) bool {
	for _, term := range d.Terms {
		for _, f := range term.Factors {
			if f.Of == r {
				return true
			}
		}
	}
	return false
}

// derivation is a Derivation in float64.
type derivation struct {
	in      Ref
	pack    float64
	life    bool
	signed  bool // may be less than nothing
	terms   []derivedTerm
	rounded bool // as it is sold; a break-even looks at it without, too
}

type derivedTerm struct {
	coefficient float64
	factors     []Factor
}

func newDerivations(s *Study) []derivation {
	var out []derivation
	for _, d := range s.Derived {
		f := derivation{in: d.In, pack: d.Pack.InexactFloat64(), life: s.Inputs[d.In].Unit == Years, signed: s.signed(d.In), rounded: d.Pack.IsPositive()}
		for _, t := range d.Terms {
			f.terms = append(f.terms, derivedTerm{t.Coefficient.InexactFloat64(), t.Factors})
		}
		out = append(out, f)
	}
	return out
}

// leastLife stands for a derived life that is none: a film that is worn out
// when it is new lasts to the end of its first year.
const leastLife = 1e-9

// at gives what is derived at a vector, before it is rounded to packs.
func (d *derivation) at(v []float64) float64 {
	sum := d.sum(v)
	switch {
	case math.IsNaN(sum):
		sum = math.Inf(1)
	case d.life:
		sum = min(max(settledLife(sum), leastLife), longestLife)
	case d.signed:
		return sum
	}
	return max(0, sum)
}

// roundingShare is a share of a number that may be the rounding of float64.
const roundingShare = 1e-12

// settledLife takes a life that lies next to whole years for these, with room
// for the rounding of float64.
func settledLife(life float64) float64 {
	if whole := math.Round(life); math.Abs(life-whole) <= whole*roundingShare {
		return whole
	}
	return life
}

// sum adds up the terms.
func (d *derivation) sum(v []float64) float64 {
	sum := 0.0
	for i := range d.terms {
		product := d.terms[i].coefficient
		for _, f := range d.terms[i].factors {
			switch x := v[f.Of]; f.How {
			case Times:
				product *= x
			case Over:
				product /= x
			case Rest:
				product *= 1 - x
			case OverRest:
				product /= 1 - x
			}
		}
		sum += product
	}
	return sum
}

// packed rounds up to whole packs, with room for the rounding of float64.
func (d *derivation) packed(x float64) float64 {
	if !d.rounded {
		return x
	}
	return math.Ceil(x/d.pack*(1-roundingShare)) * d.pack
}

// rederive fills in what follows from the loaded vector.
func (k *Kernel) rederive() {
	for i := range k.derived {
		d := &k.derived[i]
		k.put(d.in, d.packed(d.at(k.v)))
	}
}

// put changes an input without looking at what follows from it.
func (k *Kernel) put(r Ref, value float64) {
	if k.v[r] == value {
		return
	}
	k.v[r] = value
	switch k.study.Inputs[r].Unit {
	case Rate:
		k.outdateRates()
	case Years:
		k.setLives()
	default:
		k.stale.amounts = true
	}
}

// checkDerived looks at the derivations: what they use stands before them,
// and an input enters in one way.
func (s *Study) checkDerived(bad func(string, ...any)) {
	c := derivations{s, bad, map[Ref]bool{}, map[Ref]How{}}
	for i := range s.Derived {
		d := &s.Derived[i]
		if !s.has(d.In) || s.Inputs[d.In].Unit == Rate || s.Inputs[d.In].Shape != Fixed || c.made[d.In] {
			bad("a derived input is not there, is a rate, has a range of its own or is derived twice")
			return
		}
		for _, term := range d.Terms {
			if !c.term(s.Inputs[d.In].Path, term) {
				return
			}
		}
		c.made[d.In] = true
	}
	s.checkDirect(c.ways, bad)
}

// derivations is where checkDerived has got to.
type derivations struct {
	*Study
	bad  func(string, ...any)
	made map[Ref]bool // derived by now
	ways map[Ref]How  // in which inputs enter that are not derived
}

// term looks at a product of which an input is made; false when the rest of the
// study cannot be looked at.
func (c *derivations) term(path string, t Term) bool {
	seen := map[Ref]bool{}
	for _, f := range t.Factors {
		if !c.has(f.Of) || c.IsDerived(f.Of) && !c.made[f.Of] {
			c.bad("%s is derived from an input that is not there, or not yet", path)
			return false
		}
		for source := range c.sources(f.Of) {
			if seen[source] {
				c.bad("%s is derived from %s twice in one product", path, c.Inputs[source].Path)
			}
			seen[source] = true
		}
		c.factor(path, f)
	}
	return true
}

// factor looks at the way in which an input enters.
func (c *derivations) factor(path string, f Factor) {
	if c.made[f.Of] {
		if f.How != Times || c.packed(f.Of) {
			c.bad("%s divides by what is itself derived, %s, or follows from packs of it", path, c.Inputs[f.Of].Path)
		}
		return
	}
	how := f.How
	if how == Rest {
		how = Times // either is linear
	}
	if before, known := c.ways[f.Of]; known && before != how {
		c.bad("%s enters what is derived from it in two ways", c.Inputs[f.Of].Path)
	}
	c.ways[f.Of] = how
}

// checkDirect refuses an input that divides what follows from it and is at
// the same time a price or a quantity.
func (s *Study) checkDirect(ways map[Ref]How, bad func(string, ...any)) {
	for i := range s.Systems {
		y := &s.Systems[i]
		for _, it := range slices.Concat(y.First, y.Annual, y.Periodic, y.Removal, y.recoatCosts()) {
			for _, r := range []Ref{it.Price, it.Quantity} {
				if how, known := ways[r]; known && how != Times {
					bad("system %q, item %q: is priced by %s, which divides what follows from it", y.Key, it.Name, s.Inputs[r].Path)
				}
			}
		}
	}
}

// packed tells whether an input is derived in whole packs.
func (s *Study) packed(r Ref) bool {
	return slices.ContainsFunc(s.Derived, func(d Derivation) bool { return d.In == r && d.Pack.IsPositive() })
}

// sources are the inputs that an input follows from, and itself.
func (s *Study) sources(r Ref) map[Ref]bool {
	out := map[Ref]bool{r: true}
	for i := range s.Derived {
		d := &s.Derived[i]
		if d.In != r {
			continue
		}
		for _, term := range d.Terms {
			for _, f := range term.Factors {
				for source := range s.sources(f.Of) {
					out[source] = true
				}
			}
		}
	}
	return out
}
