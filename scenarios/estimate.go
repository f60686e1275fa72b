package scenarios

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// subject is what an estimate is about.
type subject struct {
	path     string
	of       string // name of the system it belongs to; "" for the study and the roof
	label    string
	unitText string // of a price: what it is per
	source   string // used when the estimate names none
}

var (
	pointKeys    = []string{"low", "likely", "high"}
	byMean       = map[string]lcc.Shape{"weibull": lcc.Weibull, "normal": lcc.Normal, "lognormal": lcc.Lognormal}
	byRange      = map[string]lcc.Shape{"triangular": lcc.Triangular, "pert": lcc.PERT, "uniform": lcc.Uniform}
	rangeShapes  = []string{"triangular", "pert", "uniform"}
	estimateKeys = []string{"value", "low", "likely", "high", "distribution", "weibull", "normal", "lognormal", "moves_with", "rank_correlation", "source"}
	meanKeys     = []string{"mean", "shape", "sd"}

	weibullShape = measure{expected: expectShape, low: lcc.MinWeibullShape, high: lcc.MaxWeibullShape, units: noUnit, unit: lcc.Count}
)

// estimate reads a number in any of its forms into the study's inputs. When
// it cannot, it says why and gives NoRef.
func (r *reader) estimate(n *node, k measure, about subject) lcc.Ref {
	in := lcc.Input{
		Path: about.path, Of: about.of, Label: about.label, Unit: k.unit, UnitText: about.unitText, Source: about.source,
	}
	e := estimating{reader: r, measure: k, in: &in}
	if !e.read(n) {
		return lcc.NoRef
	}
	if len(k.units) > 1 {
		in.UnitText = e.unit
		if e.unit == "ft" || e.unit == "m" {
			in.Unit = lcc.Length
		}
	}
	r.places[in.Path] = n.place
	ref := r.study.Add(in)
	r.kinds[ref] = kind{k, e.unit}
	if e.follows != nil {
		e.follows.ref = ref
		r.follows = append(r.follows, *e.follows)
	}
	return ref
}

// estimating is the reading of one estimate.
type estimating struct {
	*reader
	measure
	in    *lcc.Input
	unit  string
	first string // text of the first number, which sets the unit

	follows *following // nil: drawn alone
}

func (e *estimating) read(n *node) bool {
	switch n.shape {
	case scalar:
		v, ok := e.number(n, e.in.Path, false)
		e.in.Likely = v
		return ok
	case mapping:
		s, ok := e.section(n, e.in.Path, inEstimate, estimateKeys)
		return ok && e.forms(s)
	case null:
		e.fail(n.place, e.in.Path, missingValueOf(e.expected))
	case list:
		e.fail(n.place, e.in.Path, listForNumber(e.expected))
	}
	return false
}

// forms reads {…}: exactly one of value, low+likely+high, or a distribution.
func (e *estimating) forms(s *section) bool {
	if source := s.line("source"); source != "" {
		e.in.Source = source
	}
	var forms []string
	if s.has("value") {
		forms = append(forms, "value")
	}
	if slices.ContainsFunc(pointKeys, s.has) {
		forms = append(forms, "low")
	}
	for _, name := range []string{"weibull", "normal", "lognormal"} {
		if s.has(name) {
			forms = append(forms, name)
		}
	}
	switch {
	case len(forms) == 0:
		s.lacks(noForm(), estimateKeys...)
		return false
	case len(forms) > 1:
		e.fail(s.at, s.path, severalForms(forms[0], forms[1]))
		return false
	}
	if forms[0] != "low" && s.has("distribution") {
		e.fail(s.place("distribution"), s.path, distributionWithout(forms[0]))
		return false
	}
	read := e.moves(s, forms[0])
	switch forms[0] {
	case "value":
		v, ok := e.member(s, "value")
		e.in.Likely = v
		return ok && read
	case "low":
		return e.points(s) && read
	}
	return e.mean(s, forms[0]) && read
}

// points reads a three-point estimate.
func (e *estimating) points(s *section) bool {
	shape, ok := e.rangeShape(s)
	var v [3]decimal.Decimal
	for i, key := range pointKeys {
		value, read := e.member(s, key)
		v[i], ok = value, ok && read
	}
	switch {
	case !ok:
		return false
	case v[0].GreaterThan(v[1]) || v[1].GreaterThan(v[2]):
		e.fail(s.at, s.path, notInOrder())
		return false
	case v[0].Equal(v[2]):
		e.fail(s.at, s.path, noWidth())
		return false
	}
	e.in.Shape, e.in.Low, e.in.Likely, e.in.High = shape, v[0], v[1], v[2]
	return true
}

// rangeShape reads the distribution of a three-point estimate.
func (e *estimating) rangeShape(s *section) (lcc.Shape, bool) {
	if !s.has("distribution") {
		return lcc.Triangular, true
	}
	text := s.line("distribution")
	shape, known := byRange[text]
	if !known && text != "" {
		e.fail(s.place("distribution"), s.path, unknownDistribution(text))
	}
	return shape, known
}

// mean reads a distribution given by its mean.
func (e *estimating) mean(s *section, name string) bool {
	shape := byMean[name]
	if !slices.Contains(e.shapes, shape) {
		e.fail(s.place(name), s.path, shapeNotHere(name, e.measure))
		return false
	}
	second := spreadKey(shape)
	d, ok := e.section(s.get(name), s.path+"."+name, inDistribution, meanKeys)
	if !ok {
		return false
	}
	for _, key := range meanKeys[1:] {
		if key != second && d.has(key) {
			e.fail(d.place(key), d.path, wrongSpread(name, key, second))
			ok = false
		}
	}
	mean, read := e.member(d, "mean")
	if read && shape != lcc.Normal && !mean.IsPositive() {
		e.fail(d.place("mean"), d.path, meanNotPositive(name))
		read = false
	}
	spread, spreadRead := e.spread(d, second)
	e.in.Shape, e.in.Likely, e.in.Spread = shape, mean, spread
	return ok && read && spreadRead
}

// spreadKey is the key that goes with the mean of a distribution.
func spreadKey(shape lcc.Shape) string {
	if shape == lcc.Weibull {
		return "shape"
	}
	return "sd"
}

// spread reads a standard deviation, in the unit of the estimate, or a
// Weibull shape, which has no unit.
func (e *estimating) spread(d *section, key string) (decimal.Decimal, bool) {
	n := d.need(key)
	if n == nil {
		return decimal.Zero, false
	}
	if key == "sd" {
		return e.number(n, d.path+".sd", true)
	}
	return (&estimating{reader: e.reader, measure: weibullShape}).number(n, d.path+".shape", false)
}

func (e *estimating) member(s *section, key string) (decimal.Decimal, bool) {
	n := s.need(key)
	if n == nil {
		return decimal.Zero, false
	}
	return e.number(n, s.path+"."+key, false)
}

// number reads one of the estimate's numbers. All of them have one unit.
func (e *estimating) number(n *node, path string, spread bool) (decimal.Decimal, bool) {
	if n.shape != scalar {
		e.wrongShape(n, path, e.expected)
		return decimal.Zero, false
	}
	v, m, ok := e.measure.read(n.text, spread)
	text := strings.TrimSpace(n.text)
	switch {
	case !ok:
		e.fail(n.place, path, m)
		return decimal.Zero, false
	case e.first == "":
		e.first, e.unit = text, v.unit
	case v.unit != e.unit:
		e.fail(n.place, path, unitsDiffer(text, e.first))
		return decimal.Zero, false
	}
	return v.value, true
}
