package report

import "fmt"

// work is what the plan pays for one roof in one year.
type work struct {
	roof        *Roof
	what        string
	spent, area int64 // minor units; hundredths of the area unit
}

// worksOf are the works of a year of the plan, by its place among the years, in
// the order of the ranking.
func (t *roofsTeller) worksOf(year int) []work {
	var out []work
	for i := range t.ranked {
		p := t.ranked[i].Plan
		w := work{roof: t.ranked[i].Roof, spent: p.spent(year), area: at(p.Worked, year)}
		switch starts := p.Year - t.Roofs.plan[year]; {
		case starts == 0:
			w.what = "starts"
		case w.spent == 0 && w.area == 0:
			continue
		case p.Year > 0 && starts < 0:
			w.what = "follows"
		default:
			w.what = "forced"
		}
		out = append(out, w)
	}
	return out
}

// isLeft tells a roof on which the plan has no work within its years.
func (t *roofsTeller) isLeft(r *rankedRoof) bool {
	last := t.Roofs.plan[len(t.Roofs.plan)-1]
	if r.Plan.Year > 0 && r.Plan.Year <= last || r.Plan.sum() > 0 {
		return false
	}
	for _, area := range r.Plan.Worked {
		if area > 0 {
			return false
		}
	}
	return true
}

// scheduleHeading is over which roofs to do when.
func (t *roofsTeller) scheduleHeading() string {
	left := t.count(t.isLeft)
	done := len(t.ranked) - left
	if done == 0 {
		return "The plan has no work on any roof"
	}
	text := fmt.Sprintf("The plan has works on %s of %s", few(done), counted(len(t.ranked), "roof"))
	switch {
	case left == 0:
		return "The plan has works on " + allOf(done, "roof")
	case left == 1:
		return text + ", and leaves one as it is"
	}
	return text + fmt.Sprintf(", and leaves %s as they are", few(left))
}

// mostOpen is how many rows of works stand open; more are folded, so that what
// follows is found.
const mostOpen = 80

// scheduleSection says which roofs to do when, and which to leave.
func (t *roofsTeller) scheduleSection() Section {
	works := t.scheduleTable()
	s := Section{ID: "schedule", Heading: t.scheduleHeading(), Blocks: []Block{Paragraph{Role: Lead,
		Text: "“Starts” is the year in which the plan starts the alternative; “follows” is what comes of it later within these years, as a recoat does; “forced” is what has to be paid as the old roof ends within them. Roofs of a year stand in the order of their net savings."}}}
	if len(works.Rows) > mostOpen {
		s.Blocks = append(s.Blocks, Fold{ID: "works-fold", Summary: "Works of " + t.yearsText(" to ") + ", roof by roof", Blocks: []Block{works}})
	} else {
		s.Blocks = append(s.Blocks, works)
	}
	if left := t.leftTable(); len(left.Rows) > 0 {
		s.Blocks = append(s.Blocks, Fold{ID: "left-fold", Summary: fmt.Sprintf("Left as they are in %s: %s", t.yearsText(" to "), Plural(len(left.Rows), "roof")), Blocks: []Block{left}})
	}
	return s
}

// scheduleTable has the works of each year, and their sum.
func (t *roofsTeller) scheduleTable() Table {
	table := Table{ID: "works", Caption: fmt.Sprintf("Works by year, %s; %s", t.cur.Code, moneyText(t.study.Basis)),
		Columns: append(t.roofColumns(), words("Alternative"), words("Work"), number("Cost of works"))}
	crews := t.crews()
	if crews {
		table.Columns = append(table.Columns, number("Area worked on, "+unitSign(t.study.About.AreaUnit)))
	}
	blank := len(t.roofColumns()) + 2
	for i, year := range t.Roofs.plan {
		group := Row{Role: Group, Cells: make([]Cell, len(table.Columns))}
		group.Cells[0] = text(fmt.Sprint(year))
		table.Rows = append(table.Rows, group)
		sum := work{}
		for _, w := range t.worksOf(i) {
			cells := append(t.roofCells(w.roof), text(t.name(w.roof, w.roof.Plan.Alternative)), text(w.what), money(t.minor(w.spent)))
			if crews {
				cells = append(cells, areaCell(w.area))
			}
			table.Rows = append(table.Rows, plainRow(cells...))
			sum.spent, sum.area = sum.spent+w.spent, sum.area+w.area
		}
		total := totalRow(make([]Cell, blank)...)
		total.Cells[0] = text(fmt.Sprintf("Works of %d", year))
		total.Cells = append(total.Cells, money(t.minor(sum.spent)))
		if crews {
			total.Cells = append(total.Cells, areaCell(sum.area))
		}
		table.Rows = append(table.Rows, total)
	}
	return table
}

// leftTable has the roofs without a work in the years of the plan.
func (t *roofsTeller) leftTable() Table {
	table := Table{ID: "left", Caption: fmt.Sprintf("Roofs without a work in %s, %s", t.yearsText(" to "), t.cur.Code),
		Columns: append(t.roofColumns(), words("The plan’s choice"), words("Lowest as the study states"), number("First cost of that"), number("Net savings of that"))}
	for i := range t.ranked {
		r := &t.ranked[i]
		if !t.isLeft(r) {
			continue
		}
		choice := t.name(r.Roof, r.Plan.Alternative)
		if r.Plan.Year > 0 {
			choice += fmt.Sprintf(", from %d", r.Plan.Year)
		}
		table.Rows = append(table.Rows, plainRow(append(t.roofCells(r.Roof),
			text(choice), t.lowestCell(r), orNone(func(r *rankedRoof) Cell { return money(t.minor(first(r))) })(r), t.savedCell(r))...))
	}
	return table
}
