package scenarios

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/units"
)

// Measures of a survey and a take-off may be written in feet or in metres; a
// study holds them in the units of its plan area. Conversions are exact, see
// scenarios/units.

// own names the study's unit for a kind of figure: ft or m, mil or um.
func (r *reader) own(k units.Kind) string { return string(r.units.Unit(k)) }

// systemOf tells which system of units a unit belongs to.
func systemOf(unit string) units.System {
	switch unit {
	case "m", "m2", "mm", "um", "L":
		return units.Metric
	}
	return units.US
}

// convert takes a number from one unit to another of the same dimension. A
// unit may be a quotient such as ft/gal; pieces are pieces everywhere. The
// units are known to fit.
func convert(x decimal.Decimal, from, to string) decimal.Decimal {
	above, below, _ := strings.Cut(from, "/")
	toAbove, toBelow, quotient := strings.Cut(to, "/")
	x = converted(x, above, toAbove)
	if quotient {
		x = converted(x, toBelow, below) // so many of the old in the new, times what stands above one of it
	}
	return x
}

func converted(x decimal.Decimal, from, to string) decimal.Decimal {
	v, err := units.Of(x, units.Unit(from)).To(units.Unit(to))
	if err != nil {
		return x // pieces, or no unit
	}
	return v.Number
}

// estimateIn reads an estimate and keeps it in another unit than it may be
// written in.
func (r *reader) estimateIn(n *node, k measure, unit string, about subject) lcc.Ref {
	ref := r.estimate(n, k, about)
	if ref == lcc.NoRef {
		return ref
	}
	in := &r.study.Inputs[ref]
	if from := in.UnitText; from != "" && from != unit {
		for _, x := range []*decimal.Decimal{&in.Likely, &in.Low, &in.High} {
			*x = convert(*x, from, unit)
		}
		if in.Shape == lcc.Normal || in.Shape == lcc.Lognormal {
			in.Spread = convert(in.Spread, from, unit)
		}
	}
	in.Unit, in.UnitText = kindOf(unit), unit
	return ref
}

// kindOf is what an input in a unit measures.
func kindOf(unit string) lcc.Unit {
	if unit == "ft" || unit == "m" {
		return lcc.Length
	}
	return lcc.Count
}

// ruleFraction is a length as a rule shows it: 1/16 in, 1 1/4 in.
var ruleFraction = regexp.MustCompile(`^(?:([0-9]{1,6}) +)?([0-9]{1,6})/([1-9][0-9]{0,5}) *(.*)$`)

// dimension reads a length that is a setting, no estimate, in the study's unit
// of lengths.
func (s *section) dimension(key string) (decimal.Decimal, bool) {
	return s.dimensionIn(key, s.r.own(units.Lengths))
}

func (s *section) dimensionIn(key, unit string) (decimal.Decimal, bool) {
	n := s.need(key)
	if n == nil {
		return decimal.Zero, false
	}
	return s.r.dimension(n, s.sub(key), unit)
}

func (r *reader) dimension(n *node, path, unit string) (decimal.Decimal, bool) {
	if n.shape != scalar {
		r.wrongShape(n, path, expectDimension)
		return decimal.Zero, false
	}
	text, top, under := strings.TrimSpace(n.text), decimal.Zero, decimal.NewFromInt(1)
	if m := ruleFraction.FindStringSubmatch(text); m != nil {
		whole, _ := decimal.NewFromString("0" + m[1])
		top, _ = decimal.NewFromString(m[2])
		under, _ = decimal.NewFromString(m[3])
		text, top = "1 "+m[4], top.Add(whole.Mul(under))
		if !top.IsPositive() {
			text = "0 " + m[4]
		}
	}
	v, m, ok := dimension.read(text, false)
	if !ok {
		m.what = strings.Replace(m.what, quote(text), quote(n.text), 1)
		r.fail(n.place, path, m)
		return decimal.Zero, false
	}
	if top.IsPositive() {
		v.value = units.Quotient(top, under)
	}
	return convert(v.value, v.unit, unit), true
}
