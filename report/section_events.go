package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// eventsSection shows what happens to the roof when, on a time line and as a
// table of dated work.
func (t *teller) eventsSection() Section {
	stories := List{}
	for i := range t.Alternatives {
		stories.Items = append(stories.Items, t.story(i))
	}
	return Section{ID: "what-happens-when", Heading: t.eventsHeading(), Blocks: []Block{
		stories, t.timeline(), t.eventsTable(),
	}}
}

func (t *teller) eventsTable() Table {
	table := Table{
		ID:      "events",
		Caption: fmt.Sprintf("Work on the roof, %s; a system that follows another is paid together with the removal of what it follows", t.study.About.Currency),
		Columns: []Column{words("Alternative"), number("Year"), number("Calendar"), words("Work"), number("Amount then"), number("Present value")},
	}
	for i := range t.Alternatives {
		o := &t.Alternatives[i]
		head := t.name(i)
		for _, e := range o.Interventions {
			table.Rows = append(table.Rows, plainRow(text(head), year(e.Year), text(t.calendar(e.Year)),
				text(t.workOf(e)), money(e.Amount), money(e.PV)))
			head = ""
		}
		if len(o.Interventions) == 0 {
			table.Rows = append(table.Rows, plainRow(text(head), state("–", ""), state("–", ""),
				text("no work within the study period"), state("–", ""), state("–", "")))
		}
		if !o.Residual.Amount.IsZero() {
			n := o.Residual.Year
			table.Rows = append(table.Rows, plainRow(text(""), year(n), text(t.calendar(n)),
				text("Residual value (credit)"), money(o.Residual.Amount.Neg()), money(o.Residual.PV.Neg())))
		}
	}
	return table
}

// workOf names an intervention.
func (t *teller) workOf(e lcc.Intervention) string {
	if e.Recoat {
		return "Recoat: " + t.system(e.System)
	}
	return "Install: " + t.system(e.System)
}

// timeline draws the spells of each alternative.
func (t *teller) timeline() Timeline {
	line := Timeline{
		ID: "timeline", Title: "What stands on the roof, and when it is renewed",
		Years: t.study.Period, BaseYear: t.baseYear(),
	}
	for i := range t.Alternatives {
		row := TimelineRow{Name: t.name(i)}
		for _, p := range t.Alternatives[i].Spells {
			if p.From == p.Until { // a wait of no years
				continue
			}
			row.Bars = append(row.Bars, t.bar(p))
		}
		line.Rows = append(line.Rows, row)
	}
	line.Summary = "A bar for each alternative over the study period; the table of dated work below holds the same years."
	return line
}

func (t *teller) bar(p lcc.Spell) TimelineBar {
	bar := TimelineBar{From: p.From, To: p.Until, Label: t.system(p.System), Same: p.Begin == lcc.Recoated}
	switch p.Begin {
	case lcc.Installed:
		bar.Start = "install"
	case lcc.Recoated:
		bar.Start = "recoat"
	}
	return bar
}

// crossoverTable lists the discount rates at which alternatives tie.
func (t *teller) crossoverTable() Table {
	table := Table{
		ID: "crossovers",
		Caption: fmt.Sprintf("Discount rates from %s to %s at which two alternatives cost the same",
			Percent(t.RateRange[0], 2), Percent(t.RateRange[1], 2)),
		Columns: []Column{number("Discount rate"), words("Cheaper below it"), words("Cheaper above it")},
	}
	for _, c := range t.Crossovers {
		below, above := text(t.name(c.Below)), text(t.name(c.Above))
		if !c.Crosses() {
			above = text(fmt.Sprintf("%s (“%s” ties with it at this rate only)", t.name(c.Above), t.name(c.A+c.B-c.Above)))
		}
		table.Rows = append(table.Rows, plainRow(Cell{Kind: RateCell, Number: c.Rate}, below, above))
	}
	return table
}

// crossings tells, for a pair of alternatives, the years in which the
// cumulated cost of the one passes the other's.
func crossings(a, b []decimal.Decimal) []int {
	var out []int
	sign := 0
	for year := range a {
		now := a[year].Cmp(b[year])
		if now != 0 && sign != 0 && now != sign {
			out = append(out, year)
		}
		if now != 0 {
			sign = now
		}
	}
	return out
}
