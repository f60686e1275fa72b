package lcc

import "github.com/shopspring/decimal"

// Lines is how many lines the ledgers of all alternatives have at a vector in
// range, without writing them: what a study takes of time and memory.
func (s *Study) Lines(v Vector) (int, error) {
	v, err := s.filled(v)
	if err != nil {
		return 0, err
	}
	lines := 0
	for i := range s.Alternatives {
		for w := s.Walk(i); ; {
			slot, more := w.Slot()
			if !more {
				break
			}
			lines += s.spellLines(w.Next(wholeYears(v[s.LifeAt(slot)])), v)
		}
	}
	return lines, nil
}

// MostLines is how many lines the ledgers of all alternatives have at most,
// whatever the lives: a spell is a year or longer, and has its costs of a year in
// each, those of its beginning and of its end once. Only a wait of no years is
// shorter, and ends with the removal of what was waited on.
func (s *Study) MostLines() int {
	year, end, removal := 0, 0, 0
	for i := range s.Systems {
		y := &s.Systems[i]
		begin := len(y.First) + len(y.recoatCosts())
		year = max(year, begin+len(y.Annual)+len(y.Periodic)+len(y.Removal))
		end = max(end, begin+1)
		removal = max(removal, len(y.Removal))
	}
	return len(s.Alternatives) * (s.Period*year + end + removal)
}

// spellLines counts the lines of a spell; see bookkeeper.spell.
func (s *Study) spellLines(p *Spell, v Vector) int {
	y := &s.Systems[p.System]
	lines := len(p.renewalItems(y)) + len(y.Annual)*(p.Until-p.From)
	for i := range y.Periodic {
		every := y.Periodic[i].Every
		if first := p.firstPeriodic(every); first <= p.periodicEnd() {
			lines += (p.periodicEnd()-first)/every + 1
		}
	}
	switch p.End {
	case ToNext:
		lines += len(y.Removal)
	case AtHorizon:
		lines += s.residualLines(p, y, v)
	}
	return lines
}

// residualLines counts the credits at the end; see bookkeeper.residual.
func (s *Study) residualLines(p *Spell, y *System, v Vector) (lines int) {
	switch y.Residual.Mode {
	case FixedAmount:
		return 1
	case NoResidual:
		return 0
	}
	if !v[s.LifeAt(p.Slot)].GreaterThan(decimal.NewFromInt(int64(s.Period - p.From))) {
		return 0
	}
	for _, it := range p.renewalItems(y) {
		if it.Category == Construction {
			lines++
		}
	}
	return lines
}
