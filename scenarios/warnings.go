package scenarios

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Where a legal value begins to look like a mistake.
var (
	highDiscount     = decimal.New(15, -2)
	highRealDiscount = decimal.New(10, -2) // ceiling of [10CFR436, 436.14]
	highRealGrowth   = decimal.New(4, -2)  // when the study states no inflation
	longLife         = decimal.New(60, 0)  // years
)

// remark notes what is legal but suspicious in a study without errors.
func (r *reader) remark() {
	for _, j := range r.joined {
		r.warn(j.at, j.path, textWithComma(j.text))
	}
	for _, s := range r.suspected {
		r.warn(s.at, s.path, s.message)
	}
	r.remarkRates()
	r.remarkUnits()
	for i := range r.study.Systems {
		r.remarkSystem(i)
	}
	r.remarkAlternatives()
	r.remarkUnused()
	if !r.judging && r.plannedAt != (place{}) {
		r.warn(r.plannedAt, "systems", plannedUnjudged())
	}
	if r.tax == nil && r.treatedAt != (place{}) {
		r.warn(r.treatedAt, "systems", treatedUntaxed())
	}
}

func (r *reader) remarkRates() {
	s := r.study
	d := s.Inputs[s.Rate]
	at := r.places[d.Path]
	switch {
	case d.Likely.GreaterThan(highDiscount):
		r.warn(at, d.Path, discountHigh(d.Likely, highDiscount))
	case d.Likely.IsNegative():
		r.warn(at, d.Path, discountNegative(d.Likely))
	case s.Basis == lcc.Real && d.Likely.GreaterThan(highRealDiscount):
		r.warn(at, d.Path, discountAboveReal(d.Likely))
	}
	if s.Basis == lcc.Real {
		for c := range lcc.NumCategories {
			r.remarkEscalation(s.Escalation[c])
		}
	}
}

// remarkEscalation looks for general inflation in a real rate. Of a list, the
// first such year is told.
func (r *reader) remarkEscalation(series lcc.Series) {
	inflation := decimal.Zero
	if r.study.Inflation != lcc.NoRef {
		inflation = r.study.Inputs[r.study.Inflation].Likely
	}
	for _, ref := range series {
		in := r.study.Inputs[ref]
		switch {
		case inflation.IsPositive() && in.Likely.GreaterThanOrEqual(inflation):
			r.warn(r.places[in.Path], in.Path, escalationWithInflation(in.Likely, inflation))
		case !inflation.IsPositive() && in.Likely.GreaterThan(highRealGrowth):
			r.warn(r.places[in.Path], in.Path, escalationHigh(in.Likely, highRealGrowth))
		default:
			continue
		}
		return
	}
}

// remarkUnits tells when a file measures in feet and in metres. It is told of
// the first quantity that differs from the plan area.
func (r *reader) remarkUnits() {
	area := r.study.About.AreaUnit
	for _, in := range r.study.Inputs {
		measured := in.Unit == lcc.Length || in.Unit == lcc.Count
		if measured && measuresRoof(in.UnitText) && metric(in.UnitText) != metric(area) {
			r.warn(r.places[in.Path], in.Path, mixedUnits(in.UnitText, area))
			return
		}
	}
}

func (r *reader) remarkSystem(i int) {
	y := &r.study.Systems[i]
	path := "systems." + y.Key
	at := r.places[path]
	lives := []lcc.Ref{y.Life}
	if y.Recoat != nil {
		lives = append(lives, y.Recoat.Life)
	}
	for _, life := range lives {
		if in := r.study.Inputs[life]; in.Likely.GreaterThan(longLife) {
			r.warn(r.places[in.Path], in.Path, lifeLong(in.Likely, longLife))
		}
	}
	alone := y.Then == i
	switch {
	case alone && y.InPlace && len(y.First) == 0:
		r.warn(at, path, keptForEver())
	case alone && !y.InPlace && (y.Work == lcc.WorkRestore || y.Recoat != nil):
		r.warn(at, path, restoredForEver(y.Key))
	}
	switch {
	case y.InPlace && len(y.First) > 0:
		r.warn(at, path, firstCostsInPlace())
	case len(y.First) == 0 && (!y.InPlace || r.isNext(i)):
		r.warn(at, path, noFirstCosts())
	}
}

// isNext tells whether another system names this one in its then.
func (r *reader) isNext(i int) bool {
	return slices.ContainsFunc(r.study.Systems, func(y lcc.System) bool {
		return y.Then == i && y.Key != r.study.Systems[i].Key
	})
}

func (r *reader) remarkAlternatives() {
	s := r.study
	at := r.places["alternatives[1]"]
	if len(s.Alternatives) == 1 {
		r.warn(at, "alternatives", oneAlternative())
	}
	if s.BaseCase() < 0 {
		r.warn(at, "alternatives", noBaseCase())
	}
	for i, a := range s.Alternatives {
		if a.Wait == nil {
			continue
		}
		on, path := s.Systems[a.Wait.On], entry("alternatives", i)+".wait"
		at := r.places[path+".years"]
		if !on.InPlace {
			r.warn(at, path, waitNotInPlace(on.Key))
		}
		life := s.Inputs[on.Life]
		if least := decimal.NewFromInt(int64(a.Wait.Years)); life.Shape.HasRange() && life.Low.LessThan(least) {
			r.warn(at, path, waitOverLow(a.Wait.Years, on.Key, life.Low))
		}
	}
}

// remarkUnused tells systems that no alternative comes to, quantities that
// nothing is priced by, and beside a take-off defects that the survey found and no cost depends on.
func (r *reader) remarkUnused() {
	used := make([]bool, len(r.study.Systems))
	awaited := make([]bool, len(r.study.Systems))
	for _, a := range r.study.Alternatives {
		if a.Wait != nil {
			awaited[a.Wait.On] = true
		}
		for at := a.Start; !used[at]; at = r.study.Systems[at].Then {
			used[at] = true
		}
	}
	for i := range used {
		if path := "systems." + r.systemKeys[i]; !used[i] && !awaited[i] {
			r.warn(r.places[path], path, unusedSystem())
		}
	}
	var idle, unpaid []string
	for key, q := range r.quantities {
		switch {
		case q.used:
		case !q.found:
			idle = append(idle, "roof.quantities."+key)
		case r.study.Inputs[q.ref].Likely.IsPositive():
			unpaid = append(unpaid, key)
		}
	}
	if len(unpaid) > 0 && r.takenOff() != nil {
		slices.Sort(unpaid)
		r.warn(r.places["survey"], "survey", foundUnpriced(unpaid))
	}
	slices.Sort(idle)
	for _, path := range idle {
		r.warn(r.places[path], path, unusedQuantity())
	}
}
