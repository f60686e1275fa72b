package scenarios

import (
	"roofyears/lcc"
)

// escalation reads the escalation of each category: a rate, or a list of one
// rate for each year of the study period.
func (r *reader) escalation(n *node) {
	s, ok := r.section(n, "study.escalation", inEscalation, lcc.CategoryNames())
	if !ok {
		return
	}
	for c := range lcc.NumCategories {
		v := s.get(c.String())
		if v == nil {
			continue
		}
		path, label := s.sub(c.String()), labelEscalation(c)
		r.places[path] = v.place
		if v.shape != list {
			r.study.Escalation[c] = lcc.Series{r.estimate(v, rate, subject{path: path, label: label})}
			continue
		}
		switch n := r.study.Period; {
		case n > 0 && len(v.values) != n:
			r.fail(v.place, path, escalationLength(len(v.values), n))
			continue
		case len(v.values) > lcc.MaxPeriod:
			r.fail(v.place, path, tooMany(len(v.values), lcc.MaxPeriod))
			continue
		}
		for i, year := range v.values {
			about := subject{path: entry(path, i), label: labelYear(label, i+1)}
			r.study.Escalation[c] = append(r.study.Escalation[c], r.estimate(year, rate, about))
		}
	}
}
