package workbook

import (
	"fmt"

	"roofyears/lcc"
	"roofyears/report"
)

// layStanding finds the lowest of those that may be chosen.
func (b *book) layStanding() {
	m, s, a := &b.measures, b.measure, b.r.Answer
	s.put(s.next()+1, 1, label("Which is the lowest", heading))
	may := func(text string, of func(i int) cell) int {
		return b.measureRow(text, plain, func(i int) cell {
			if !b.s.Alternatives[i].Eligible() {
				return data(report.TextRuledOut, style{form: money})
			}
			return of(i)
		})
	}
	m.eligible = may("Life-cycle cost, of those that may be chosen", func(i int) cell {
		return calc(here(m.lcc, 2+i), b.r.Alternatives[i].LCC, style{form: money})
	})
	m.unbacked = may("The same without residual value", func(i int) cell {
		return calc(here(m.backless, 2+i), b.withoutResidual(i), style{form: money})
	})
	if a.Lowest < 0 {
		return
	}
	m.best = b.find("The lowest, the first where several tie", m.eligible, m.lcc, a.Lowest)
	m.lowest = m.best.place
	m.backed = b.find("The lowest without residual value", m.unbacked, m.backless, b.leastUnbacked())
	m.rests = b.fact("What the lowest costs more than that, without residual value",
		b.footed(b.among(s, m.backless, m.lowest)+"-"+m.backed.cost), b.withoutResidual(a.Lowest).Sub(b.withoutResidual(b.leastUnbacked())), style{form: money})
	rest := may("Life-cycle cost, of the others that may be chosen", func(i int) cell {
		value := any(b.r.Alternatives[i].LCC)
		if i == a.Lowest {
			value = lowestText
		}
		return calc(fmt.Sprintf("IF(%s=%d,%s,%s)", m.lowest, i+1, literal(lowestText), here(m.lcc, 2+i)), value, style{form: money})
	})
	if a.RunnerUp >= 0 {
		b.layMargin(rest)
		b.layTied()
	}
	m.standing = b.measureRow(report.LabelStanding, total, func(i int) cell {
		is, not := b.words.Stands(i, true), b.words.Stands(i, false)
		value := not
		if i == a.Lowest {
			value = is
		}
		return calc(fmt.Sprintf("IF(%s=%d,%s,%s)", m.lowest, i+1, literal(is), literal(not)), value, style{money, total})
	})
	if len(b.words.RuledOut()) > 0 {
		m.reasons = b.measureRow("What rules it out", plain, func(i int) cell {
			if b.s.Alternatives[i].Eligible() {
				return cell{}
			}
			return label(b.words.RuledOutBy(i), noteRight)
		})
		s.heights[m.reasons] = noteHeight
	}
	if len(b.unshown()) > 0 {
		m.unshown = b.measureRow("What is open", plain, func(i int) cell { return label(b.words.Unshown(i), noteRight) })
		s.heights[m.unshown] = noteHeight
	}
}

// noteHeight has room for the longest note.
const noteHeight = 34

// fact adds a row with one cell and gives that.
func (b *book) fact(text, formula string, value any, as style) string {
	s, row := b.measure, b.measure.next()
	s.row(row, label(text, plain), calc(formula, value, as))
	return s.at(row, 2)
}

// find looks for the least of a row and gives the cells of whose it is.
func (b *book) find(text string, row, cost, value int) found {
	cells := b.measure.line(row, 2, 1+len(b.ledgers))
	var out found
	out.place = b.fact(text+": place", fmt.Sprintf("MATCH(MIN(%s),%s,0)", cells, cells), number(value+1), style{})
	out.name = b.fact(text+": name", b.among(b.measure, measureHead, out.place), b.alternative(value), style{form: money})
	amount := b.r.Alternatives[value].LCC
	if cost == b.measures.backless {
		amount = b.withoutResidual(value)
	}
	out.cost = b.fact(text+": cost", b.among(b.measure, cost, out.place), amount, style{form: money})
	return out
}

// layTied lists the lowest and all that cost the same: each cell goes on from
// the one before it.
func (b *book) layTied() {
	m, s := &b.measures, b.measure
	at := s.next()
	row := b.measureRow("Those that cost the least, listed", plain, func(i int) cell {
		before, col := "", 2+i
		if i > 0 {
			before = here(at, col-1) + "&"
		}
		so := fmt.Sprintf("COUNTIF(%s:%s,%s)", fixedColumn(m.eligible, 2), here(m.eligible, col), m.best.cost)
		all := fmt.Sprintf("COUNTIF(%s,%s)", s.line(m.eligible, 2, 1+len(b.ledgers)), m.best.cost)
		formula := fmt.Sprintf(`%sIF(%s=%s,IF(%s=1,"",IF(%s=%s," and ",", "))&"“"&%s&"”","")`, before,
			here(m.eligible, col), m.best.cost, so, so, all, here(measureHead, col))
		return calc(formula, b.tied(i), style{look: noteRight})
	})
	s.heights[row] = noteHeight
	m.tied = s.at(row, 1+len(b.ledgers))
}

// tied lists those that cost the least, up to an alternative.
func (b *book) tied(last int) string {
	least, all := b.r.Alternatives[b.r.Answer.Lowest].LCC, 0
	is := func(i int) bool { return b.s.Alternatives[i].Eligible() && b.r.Alternatives[i].LCC.Equal(least) }
	for i := range b.ledgers {
		if is(i) {
			all++
		}
	}
	out, so := "", 0
	for i := range last + 1 {
		if !is(i) {
			continue
		}
		switch so++; {
		case so == 1:
		case so == all:
			out += " and "
		default:
			out += ", "
		}
		out += "“" + b.alternative(i) + "”"
	}
	return out
}

// layMargin finds the next best, and whether it is too close to call.
func (b *book) layMargin(rest int) {
	m, a := &b.measures, b.r.Answer
	m.next = b.find("The next best", rest, m.lcc, a.RunnerUp)
	m.margin = b.fact("Margin: what the next best costs more", b.footed(m.next.cost+"-"+m.best.cost), a.Margin, style{form: money})
	is := tieNo
	if a.Tie {
		is = tieYes
	}
	m.tie = b.fact(fmt.Sprintf("Is the margin nothing, or under %s of the lowest cost?", report.Percent(lcc.TieShare, 1)),
		fmt.Sprintf("IF(OR(%s=0,%s<%s*ABS(%s)),%s,%s)", m.margin, m.margin, lcc.TieShare, m.best.cost, literal(tieYes), literal(tieNo)), is, style{form: money})
}

// Whether two alternatives tie.
const (
	tieYes = "a tie"
	tieNo  = "no tie"
)

const lowestText = "the lowest"

// leastUnbacked is the first of those that may be chosen with the least cost
// without residual value.
func (b *book) leastUnbacked() int {
	best := -1
	for i := range b.r.Alternatives {
		if b.s.Alternatives[i].Eligible() && (best < 0 || b.withoutResidual(i).LessThan(b.withoutResidual(best))) {
			best = i
		}
	}
	return best
}
