package scenarios

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// part is a term of a derivation, with its coefficient in words.
type part struct {
	lcc.Term
	note string // "× 1.000868 (slope 1/2:12)"; "" for a coefficient of 1 or −1
}

var (
	unity   = decimal.NewFromInt(1)
	hundred = decimal.NewFromInt(100)
)

// product is a part with factors that enter linearly.
func product(coefficient decimal.Decimal, note string, factors ...lcc.Ref) part {
	p := part{lcc.Term{Coefficient: coefficient}, note}
	for _, of := range factors {
		p.Factors = append(p.Factors, lcc.Factor{Of: of})
	}
	return p
}

// by adds a factor in another way.
func (p part) by(of lcc.Ref, how lcc.How) part {
	p.Factors = append(append([]lcc.Factor(nil), p.Factors...), lcc.Factor{Of: of, How: how})
	return p
}

func (p part) times(of ...lcc.Ref) part {
	for _, ref := range of {
		p = p.by(ref, lcc.Times)
	}
	return p
}

// derive adds an input that follows from others; NoRef when one of them was
// told to be wrong. Its value is known once settle has run.
func (r *reader) derive(in lcc.Input, at place, pack decimal.Decimal, parts ...part) lcc.Ref {
	d := lcc.Derivation{Pack: pack}
	for _, p := range parts {
		for _, f := range p.Factors {
			if f.Of == lcc.NoRef {
				return lcc.NoRef
			}
		}
		d.Terms = append(d.Terms, p.Term)
	}
	in.Source = r.followsFrom(d.Terms)
	d.In = r.study.Add(in)
	r.places[in.Path] = at
	r.study.Derived = append(r.study.Derived, d)
	return d.In
}

// settle gives what is derived so far its values.
func (r *reader) settle() {
	v, err := r.study.Filled(r.study.Likely())
	if err != nil {
		return // a divisor that is not greater than 0 was told
	}
	for i := range r.study.Derived {
		in := r.study.Derived[i].In
		r.study.Inputs[in].Likely = v[in]
	}
}

// followsFrom is what stands as the source of a derived input.
func (r *reader) followsFrom(terms []lcc.Term) string {
	const most = 6
	var names []string
	seen := map[lcc.Ref]bool{}
	for _, t := range terms {
		for _, f := range t.Factors {
			if !seen[f.Of] {
				seen[f.Of] = true
				names = append(names, r.study.Inputs[f.Of].Label)
			}
		}
	}
	if more := len(names) - most; more > 0 {
		names = append(names[:most], fmt.Sprintf("%d more", more))
	}
	return "follows from " + strings.Join(names, "; ")
}

// how shows a derivation with its values: 310 ft × 100 ft × 1.000868 (slope
// 1/2:12) − 24 × 32 ft². At most eight terms are shown.
func (r *reader) how(parts []part) string {
	const most = 8
	var b strings.Builder
	for i, p := range parts {
		if i == most {
			fmt.Fprintf(&b, " … (%d parts in all)", len(parts))
			break
		}
		switch {
		case p.Coefficient.IsNegative() && i == 0:
			b.WriteString("−")
		case p.Coefficient.IsNegative():
			b.WriteString(" − ")
		case i > 0:
			b.WriteString(" + ")
		}
		for j, f := range p.Factors {
			b.WriteString(r.factorText(f, j == 0))
		}
		if p.note != "" {
			b.WriteString(" " + p.note)
		}
	}
	return b.String()
}

func (r *reader) factorText(f lcc.Factor, first bool) string {
	in := r.study.Inputs[f.Of]
	value := inWords(in.Likely, in.UnitText)
	text := [...]string{" × " + value, " ÷ " + value, " × (100% − " + value + ")", " ÷ (100% − " + value + ")"}[f.How]
	if first {
		return strings.TrimPrefix(text, " × ")
	}
	return text
}

// inWords writes a value with its unit as tables do: 31,000 ft², 18%.
func inWords(v decimal.Decimal, unit string) string {
	if unit == percentText {
		return v.Shift(2).Round(4).String() + "%"
	}
	places := int32(factorPlaces)
	if v.Abs().GreaterThanOrEqual(hundred) {
		places = 2
	}
	whole, decimals, found := strings.Cut(v.Round(places).String(), ".")
	for i := len(whole) - 3; i > len(whole)-len(strings.TrimLeft(whole, "-")); i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if found {
		whole += "." + decimals
	}
	if unit == "" {
		return whole
	}
	return whole + " " + unitWord(unit)
}

func unitWord(unit string) string {
	return strings.NewReplacer("ft2", "ft²", "m2", "m²", "um", "µm").Replace(unit)
}
