package scenarios

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// alternatives reads the choices that are compared.
func (r *reader) alternatives(n *node) {
	switch {
	case n == nil:
		return
	case n.shape != list:
		r.wrongShape(n, "alternatives", expectAlternatives)
		return
	case len(n.values) == 0:
		r.fail(n.place, "alternatives", noAlternatives())
	case len(n.values) > maxAlternatives:
		r.fail(n.place, "alternatives", tooMany(len(n.values), maxAlternatives))
		return
	}
	names := map[string]place{}
	var base place
	for i, v := range n.values {
		s, ok := r.section(v, entry("alternatives", i), inAlternative, alternateKey)
		if !ok {
			continue
		}
		a := r.alternative(s)
		if before, twice := names[a.Name]; twice && a.Name != "" {
			r.fail(s.values["name"].place, s.sub("name"), sameName(a.Name, before.line))
		} else if a.Name != "" {
			names[a.Name] = s.values["name"].place
		}
		if a.BaseCase && base.line > 0 {
			r.fail(s.place("base_case"), s.path, secondBaseCase(base.line))
		} else if a.BaseCase {
			base = s.place("base_case")
		}
		r.places[s.path] = s.at
		r.study.Alternatives = append(r.study.Alternatives, a)
	}
}

func (r *reader) alternative(s *section) lcc.Alternative {
	a := lcc.Alternative{Name: s.needLine("name")}
	started := false
	if s.need("start") != nil {
		a.Start, started = r.systemNamed(s, "start")
	}
	a.BaseCase = s.yes("base_case")
	if w, ok := r.section(s.get("wait"), s.sub("wait"), inWait, waitKeys); ok {
		a.Wait = r.wait(w, a.Name)
		if started && r.study.Systems[a.Start].InPlace {
			r.fail(w.at, w.path, waitForWhatIsThere(r.study.Systems[a.Start].Key))
		}
	}
	if v, ok := r.section(s.get("ruled_out"), s.sub("ruled_out"), inRuledOut, rulingKeys); ok {
		a.RuledOut = &lcc.Ruling{Rule: v.needLine("rule"), Finding: v.needLine("finding"), Source: v.line("source")}
	}
	return a
}

// wait reads how long another system is kept first: less than the study
// period, and no longer than its likely life.
func (r *reader) wait(s *section, alternative string) *lcc.Wait {
	w := &lcc.Wait{}
	known := false
	if s.need("on") != nil {
		w.On, known = r.systemNamed(s, "on")
	}
	period := r.study.Period
	if period == 0 {
		period = lcc.MaxPeriod
	}
	var ok bool
	if w.Years, ok = s.whole("years", 0, period-1, labelWait(alternative)); !ok || !known {
		return w
	}
	life := r.lifeOf(w.On)
	if life.IsPositive() && decimal.NewFromInt(int64(w.Years)).GreaterThan(life) {
		r.fail(s.values["years"].place, s.sub("years"), waitTooLong(w.Years, r.study.Systems[w.On].Key, life))
	}
	return w
}

// lifeOf is the likely life of a system; 0 when it was not read.
func (r *reader) lifeOf(system int) decimal.Decimal {
	if ref := r.study.Find("systems." + r.study.Systems[system].Key + ".life"); ref >= 0 {
		return r.study.Inputs[ref].Likely
	}
	return decimal.Zero
}
