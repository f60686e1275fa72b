package scenarios

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/eligibility"
	"roofyears/scenarios/units"
)

// A finding, and what is planned with a system, is a plain value or
// {value: …, source: …}. What is not stated is not known.

// Measures of what rules look at.
var (
	share     = measure{unit: lcc.Rate, expected: expectWholeShare, high: decimal.NewFromInt(1), units: noUnit}
	wetLimit  = measure{unit: lcc.Rate, expected: expectWetLimit, high: decimal.NewFromInt(1), lowOpen: true, units: noUnit}
	addedLoad = measure{unit: lcc.Count, expected: expectLoad, low: mostLoad.Neg(), high: mostLoad, units: loadUnits}
	reserve   = measure{unit: lcc.Count, expected: expectReserve, high: mostLoad, units: loadUnits}
	peel      = measure{unit: lcc.Count, expected: expectPeel, high: mostLoad, units: []string{"lb/in", "N/mm"}}

	loadUnits = []string{"psf", "kN/m2"}
	mostLoad  = decimal.NewFromInt(1000) // in any unit: no roof comes near it
)

// stated reads a key as a finding; not known when it is not there or wrong.
func stated[T any](s *section, key string, read func(n *node, path string) (T, bool)) eligibility.Known[T] {
	n, path, source := s.get(key), s.sub(key), ""
	if n != nil && n.shape == mapping {
		v, ok := s.r.section(n, path, besideFinding, statedKeys)
		if !ok {
			return eligibility.Known[T]{}
		}
		source = v.line("source")
		n, path = v.need("value"), v.sub("value")
	}
	if n == nil {
		return eligibility.Known[T]{}
	}
	value, ok := read(n, path)
	if !ok {
		return eligibility.Known[T]{}
	}
	return eligibility.Found(value, source)
}

// wordOf reads one of the words of a kind of finding, but for some.
func wordOf[T ~string](r *reader, but ...T) func(n *node, path string) (T, bool) {
	words := eligibility.Words[T]()
	for _, w := range but {
		words = slices.DeleteFunc(words, func(word string) bool { return word == string(w) })
	}
	return func(n *node, path string) (T, bool) {
		i := r.oneOf(n, path, words)
		if i < 0 {
			return "", false
		}
		return T(words[i]), true
	}
}

// wholeOf reads a whole number.
func wholeOf(r *reader, low, high int) func(n *node, path string) (int, bool) {
	return func(n *node, path string) (int, bool) { return r.wholeNumber(n, path, low, high) }
}

// numberOf reads a number in the units of the study: the load and the peel
// that the file gives in the other system are converted.
func numberOf(r *reader, k measure) func(n *node, path string) (decimal.Decimal, bool) {
	return func(n *node, path string) (decimal.Decimal, bool) {
		e := &estimating{reader: r, measure: k}
		v, ok := e.number(n, path, false)
		if !ok || e.unit == "" {
			return v, ok
		}
		to := k.units[r.unitSystem()]
		converted, err := units.Of(v, units.Unit(e.unit)).To(units.Unit(to))
		if err != nil { // the units of a measure are of one dimension
			r.fail(n.place, path, message{what: err.Error()})
		}
		return converted.Number, err == nil
	}
}

// unitSystem is that of the plan area.
func (r *reader) unitSystem() eligibility.Units {
	if metric(r.study.About.AreaUnit) {
		return eligibility.Metric
	}
	return eligibility.US
}
