package report

import (
	"fmt"
	"slices"

	"roofyears/lcc"
)

// rankColumn is a column of the table of all roofs: its cells, and what stands
// under them.
type rankColumn struct {
	Column
	cell   func(*rankedRoof) Cell
	total  Cell
	search bool // the reader may look for a text in it
	choose bool // the reader may choose one entry of it
	tell   bool // its sum is told above the table too
}

// rankColumns are the columns: who the roof is, what is lowest, what that costs
// and saves, and what the plan says of it.
func (t *roofsTeller) rankColumns() []rankColumn {
	out := append(t.whoColumns(), t.lowestColumns()...)
	if t.saveable() {
		out = append(out, t.savingColumns()...)
	}
	out = append(out, rankColumn{Column: number("Margin to the next"), cell: t.marginCell})
	if t.Roofs.chances {
		out = append(out, rankColumn{Column: number("Chance of being the cheapest"), cell: orNone(t.chanceCell)})
	}
	return append(out, t.planColumns()...)
}

// mostPrinted is how many columns that are carried through are printed: more
// would not fit beside the figures.
const mostPrinted = 2

// unprinted are the columns that are carried through and not printed.
func (t *roofsTeller) unprinted() []string {
	var out []string
	for _, head := range t.Roofs.free[min(mostPrinted, len(t.Roofs.free)):] {
		out = append(out, "“"+oneLine(head)+"”")
	}
	return out
}

func (t *roofsTeller) whoColumns() []rankColumn {
	var out []rankColumn
	for i, c := range t.roofColumns() {
		out = append(out, rankColumn{Column: c, search: true, cell: func(r *rankedRoof) Cell { return t.roofCells(r.Roof)[i] }})
	}
	out[0].total = text(fmt.Sprintf("Total of %s", Plural(len(t.ranked), "roof")))
	for i, head := range t.Roofs.free {
		if head = oneLine(head); head == "" {
			head = "–" // a column needs a head
		}
		out = append(out, rankColumn{
			Column: Column{Head: head, OnScreen: i >= mostPrinted}, search: true, choose: t.isFew(i),
			cell: func(r *rankedRoof) Cell { return text(oneLine(r.Free[i])) },
		})
	}
	if t.Roofs.templates != nil {
		out = append(out, rankColumn{Column: Column{Head: "Template", OnScreen: true}, choose: true,
			cell: func(r *rankedRoof) Cell { return t.templateName(r.Template) }})
	}
	if area, ok := t.area(); ok {
		unit := area.Unit
		area.Unit = ""
		out = append(out, rankColumn{Column: number("Plan area, " + unit), total: area,
			cell: func(r *rankedRoof) Cell { return planArea(r.Roof) }})
	}
	return out
}

// mostChoices is how many different entries a column has at most that a reader
// may choose from.
const mostChoices = 15

// isFew tells whether a column that is carried through has few enough
// different entries to choose from, and more than one.
func (t *roofsTeller) isFew(i int) bool {
	seen := map[string]bool{}
	for _, r := range t.Rows {
		if seen[r.Free[i]] = true; len(seen) > mostChoices {
			return false
		}
	}
	return len(seen) > 1 && len(seen) < len(t.Rows)
}

// orNone is a cell that has a figure only where the roof has a lowest
// alternative.
func orNone(cell func(*rankedRoof) Cell) func(*rankedRoof) Cell {
	return func(r *rankedRoof) Cell {
		if r.Answer.Lowest < 0 {
			return state("–", "")
		}
		return cell(r)
	}
}

func (t *roofsTeller) lowestColumns() []rankColumn {
	l := &t.Totals.Lowest
	return []rankColumn{
		{Column: words("Lowest alternative"), choose: true, cell: t.lowestCell},
		{Column: number("First cost"), total: money(t.sum(&l.First)), tell: true,
			cell: orNone(func(r *rankedRoof) Cell { return money(t.minor(first(r))) })},
		{Column: number(lccLabel), total: money(t.sum(&l.LCC)), tell: true,
			cell: orNone(func(r *rankedRoof) Cell { return money(t.minor(r.Costs[r.Answer.Lowest].LCC)) })},
	}
}

// lowestCell names the lowest alternative of a roof, with what qualifies it.
func (t *roofsTeller) lowestCell(r *rankedRoof) Cell {
	if r.Answer.Lowest < 0 {
		return state("none", "every alternative of the roof is ruled out")
	}
	cell := text(t.name(r.Roof, r.Answer.Lowest))
	if t.openFindings(r.Roof) > 0 {
		cell = cell.noted("not yet shown to be allowed: findings are open")
	}
	return cell
}

func (t *roofsTeller) marginCell(r *rankedRoof) Cell {
	switch {
	case r.Answer.Lowest < 0:
		return state("–", "")
	case r.Answer.RunnerUp < 0:
		return state("no other", "no other alternative of the roof may be chosen")
	}
	cell := money(t.minor(r.Answer.Margin))
	if r.Answer.Tie {
		cell = cell.noted(fmt.Sprintf("a tie for practical purposes: under %s of the life-cycle cost", Percent(lcc.TieShare, 1)))
	}
	return cell
}

func (t *roofsTeller) savingColumns() []rankColumn {
	total := state("–", "")
	if stand := t.standings(); stand[savesSomething]+stand[keepsBase] > 0 {
		total = money(t.sum(&t.Totals.Lowest.Saved))
	}
	place := func(n int) Cell {
		if n == 0 {
			return state("–", "")
		}
		return count(n)
	}
	return []rankColumn{
		{Column: number("Net savings"), total: total, tell: true, cell: t.savedCell},
		{Column: number("Rank by savings"), cell: func(r *rankedRoof) Cell { return place(r.rank) }},
		{Column: number("SIR"), cell: t.sirCell},
		{Column: number("Rank by SIR"), cell: func(r *rankedRoof) Cell { return place(r.sirRank) }},
	}
}

func (t *roofsTeller) savedCell(r *rankedRoof) Cell {
	switch t.standing(r) {
	case keepsBase:
		return state(isBaseCase, "")
	case savesSomething:
		return money(t.minor(r.saved))
	case withoutBase:
		return state("–", "the roof’s template has no base case to save against")
	}
	return state("–", "")
}

func (t *roofsTeller) sirCell(r *rankedRoof) Cell {
	if t.standing(r) != savesSomething {
		return state("–", "")
	}
	if !r.sir.Defined() {
		return state("–", "not defined: "+r.sir.Reason)
	}
	return Cell{Kind: RatioCell, Number: r.sir.Value}
}

// planColumns are what the plan says of a roof; none without a plan.
func (t *roofsTeller) planColumns() []rankColumn {
	if t.Plan == nil || !t.Plan.HasPlan() {
		return nil
	}
	var spent int64
	for _, y := range t.Plan.Money {
		spent += y.Used
	}
	return []rankColumn{
		{Column: number("Plan: start"), choose: true, cell: t.startCell},
		{Column: words("Plan: alternative"), choose: true, cell: func(r *rankedRoof) Cell { return text(t.name(r.Roof, r.Plan.Alternative)) }},
		{Column: number("Plan: works " + t.yearsText("–")), total: money(t.minor(spent)),
			cell: func(r *rankedRoof) Cell { return money(t.minor(r.Plan.sum())) }},
	}
}

// startCell is the year in which the plan starts a work, as a name: 2028.
func (t *roofsTeller) startCell(r *rankedRoof) Cell {
	switch {
	case r.Plan.Year > 0:
		return text(fmt.Sprint(r.Plan.Year))
	case r.Plan.sum() > 0:
		return state("forced", forcedText)
	}
	return state("no work", "")
}

// forcedText says why works are paid for where the plan starts none.
const forcedText = "the old roof ends within these years, and what has to follow is paid from the same budgets"

// sum is what works cost in all years of the plan.
func (p *RoofPlan) sum() (sum int64) {
	for _, spent := range p.Spent {
		sum += spent
	}
	return sum
}

// yearsText names the years of the plan.
func (t *roofsTeller) yearsText(to string) string {
	years := t.Roofs.plan
	if len(years) == 1 {
		return fmt.Sprint(years[0])
	}
	return fmt.Sprintf("%d%s%d", slices.Min(years), to, slices.Max(years))
}
