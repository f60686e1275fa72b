package scenarios

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/units"
)

// A life that follows from a film: the film that is on the roof, less the film
// at which it is worn, over the wear a year.

// isFromFilm tells a life that is written as {from_film: …}.
func isFromFilm(n *node) bool {
	return n.shape == mapping && slices.ContainsFunc(n.keys, func(key *node) bool { return key.text == "from_film" })
}

// fromFilm reads such a life. coats are the films that the word takeoff stands
// for; nil when it stands for none.
func (r *reader) fromFilm(n *node, about subject, coats []lcc.Ref) lcc.Ref {
	outer, ok := r.section(n, about.path, inLife, []string{"from_film"})
	if !ok {
		return lcc.NoRef
	}
	s, ok := r.section(outer.get("from_film"), outer.sub("from_film"), inFromFilm, fromFilmKeys)
	if !ok {
		return lcc.NoRef
	}
	unit := r.own(units.Films)
	read := func(key, label string, k measure) lcc.Ref {
		v := s.need(key)
		if v == nil {
			return lcc.NoRef
		}
		return r.estimateIn(v, k, unit, subject{path: s.sub(key), of: about.of, label: about.label + ": " + label})
	}
	films := coats
	if v := s.values["film"]; v == nil || v.shape != scalar || v.text != "takeoff" {
		films = []lcc.Ref{read("film", "dry film when new", film)}
	} else if len(coats) == 0 {
		r.fail(v.place, s.sub("film"), noCoats(coats == nil))
		return lcc.NoRef
	}
	worn, yearly := read("worn_at", "film at which it is worn", wornFilm), read("wear", "wear a year", wear)
	if worn == lcc.NoRef || yearly == lcc.NoRef || slices.Contains(films, lcc.NoRef) {
		return lcc.NoRef
	}
	if r.study.Inputs[yearly].Source == "" {
		r.suspect(r.places[s.sub("wear")], s.sub("wear"), wearWithoutSource())
	}
	if worn, wear := unitOf(s.values["worn_at"]), unitOf(s.values["wear"]); wear == "" && worn != "" && worn != unit {
		r.suspect(r.places[s.sub("wear")], s.sub("wear"), wearInOther(unit, worn))
	}
	var parts []part
	for _, f := range films {
		parts = append(parts, product(unity, "", f).by(yearly, lcc.Over))
	}
	parts = append(parts, product(unity.Neg(), "", worn).by(yearly, lcc.Over))
	r.checkFilmLife(s, films, worn, yearly)
	life := r.derive(lcc.Input{Path: about.path, Of: about.of, Label: about.label, Unit: lcc.Years}, n.place, decimal.Zero, parts...)
	r.settle()
	return life
}

// unitOf is the unit that a number, or one of an estimate, is written with; "" is none.
func unitOf(n *node) string {
	v, _, _ := parseNumber(firstNumber(n))
	return unitNames[v.unit]
}

// checkFilmLife tells a life that is none, or no life of a roof, at the likely
// values or where the ranges end.
func (r *reader) checkFilmLife(s *section, films []lcc.Ref, worn, yearly lcc.Ref) {
	for _, c := range []struct {
		at   string
		film func(lcc.Ref) decimal.Decimal // of films
		rest func(lcc.Ref) decimal.Decimal // of what wears them
	}{
		{"at the likely values", r.likely, r.likely},
		{"with the thinnest film and the fastest wear", r.least, r.most},
		{"with the thickest film and the slowest wear", r.most, r.least},
	} {
		sum := decimal.Zero
		for _, f := range films {
			sum = sum.Add(c.film(f))
		}
		spare := sum.Sub(c.rest(worn))
		life := units.Quotient(spare, c.rest(yearly))
		if !spare.IsPositive() || life.GreaterThan(mostYears) {
			r.fail(s.at, s.path, noFilmLife(c.at, sum, c.rest(worn), c.rest(yearly), life, r.own(units.Films)))
			return
		}
	}
}

func (r *reader) likely(in lcc.Ref) decimal.Decimal { return r.study.Inputs[in].Likely }

func (r *reader) least(in lcc.Ref) decimal.Decimal {
	if i := &r.study.Inputs[in]; i.Shape.HasRange() {
		return i.Low
	}
	return r.likely(in)
}

func (r *reader) most(in lcc.Ref) decimal.Decimal {
	if i := &r.study.Inputs[in]; i.Shape.HasRange() {
		return i.High
	}
	return r.likely(in)
}
