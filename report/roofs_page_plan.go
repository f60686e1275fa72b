package report

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc/budget"
	"roofyears/lcc/plan"
)

// planHeading is over the plan: what keeping its limits costs.
func (t *roofsTeller) planHeading() string {
	p := t.Plan
	costs, has := p.LimitsCost()
	switch {
	case p.State == budget.Undecided:
		return "No plan was found that keeps to " + t.limitsText()
	case !has:
		return "No plan can keep to " + t.limitsText()
	case costs == 0:
		return fmt.Sprintf("Keeping to %s costs nothing: the cheapest choices keep to them by themselves", t.limitsText())
	}
	return fmt.Sprintf("Keeping to %s raises the life-cycle cost by %s", t.limitsText(), t.amount(costs))
}

// limitsText names the limits of the plan.
func (t *roofsTeller) limitsText() string {
	several := ""
	if len(t.Plan.Money) > 1 {
		several = "s"
	}
	what := "the budget" + several
	switch {
	case t.limited(t.Plan.Money) && t.limited(t.Plan.Crews):
		what += " and crews’ limit" + several
	case t.limited(t.Plan.Crews):
		what = "the crews’ limit" + several
	}
	return what + " of " + t.yearsText(" to ")
}

// limited tells whether some year has a limit.
func (t *roofsTeller) limited(years []plan.Year) bool {
	return slices.ContainsFunc(years, func(y plan.Year) bool { return y.Limit.Set })
}

// planSections hold the plan by year and by roof, or say why there is none.
func (t *roofsTeller) planSections() []Section {
	s := Section{ID: "plan", Heading: t.planHeading()}
	if !t.Plan.HasPlan() {
		s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: t.noPlanText()})
		if stuck := t.stuck(); len(stuck) > 0 {
			s.Blocks = append(s.Blocks, List{Role: Remark, Items: stuck})
		}
		return []Section{s}
	}
	for _, text := range t.planTexts() {
		s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: text})
	}
	s.Blocks = append(s.Blocks, t.moneyTable())
	if t.crews() {
		s.Blocks = append(s.Blocks, t.crewTable())
	}
	return []Section{s, t.scheduleSection()}
}

// noPlanText says why there is no plan.
func (t *roofsTeller) noPlanText() string {
	why := t.Roofs.noPlan(t.Plan, planWords{money: t.amount, roof: func(i int) string { return "“" + called(t.Rows[i]) + "”" }})
	return upperFirst(why) + "."
}

// mostStuck is how many roofs without an option are named.
const mostStuck = 20

// stuck names the roofs that no plan can have.
func (t *roofsTeller) stuck() []string {
	var out []string
	for n, i := range t.Plan.Stuck {
		if n == mostStuck {
			return append(out, fmt.Sprintf("So it is with %s.", counted(len(t.Plan.Stuck)-n, "more roof")))
		}
		out = append(out, fmt.Sprintf("“%s” has no option that may be chosen and keeps the limits by itself.", called(t.Rows[i])))
	}
	return out
}

// planTexts say what the plan costs, and how good it is.
func (t *roofsTeller) planTexts() []string {
	p := t.Plan
	compare := fmt.Sprintf("The plan has a life-cycle cost of %s. Without limits, each roof’s cheapest choice in its cheapest year would cost %s; started as the study states, the roofs’ lowest alternatives cost %s.",
		t.amount(p.Cost), t.amount(p.Unlimited), t.amount(p.Stated))
	best := "No other plan that keeps the limits costs less."
	if gap, _ := p.Gap(); gap > 0 {
		share := ""
		if s, ok := p.GapShare(); ok {
			share = " (" + shareText(s) + ")"
		}
		best = fmt.Sprintf("It is proven that no plan that keeps the limits costs less than %s, so a better one would save %s%s at most.", t.amount(p.Bound), t.amount(gap), share)
	}
	return []string{compare, best}
}

func (t *roofsTeller) crews() bool { return t.limited(t.Plan.Crews) }

// yearWords are what a table of years says of its limits.
type yearWords struct {
	id, caption string
	heads       [6]string // year, limit, used, left, wanted, worth
	show        func(int64) Cell
	worth       func(float64) decimal.Decimal // money
}

// moneyTable holds the money of each year.
func (t *roofsTeller) moneyTable() Table {
	return t.yearTable(t.Plan.Money, yearWords{
		id: "plan-money", caption: fmt.Sprintf("The money of each year, %s; %s", t.cur.Code, moneyText(t.study.Basis)),
		heads: [6]string{"Year", "Budget", "Works planned", "Left", "Works wanted without limits", "One more " + t.cur.Code + " saves"},
		show:  func(minor int64) Cell { return money(t.minor(minor)) },
		worth: decimal.NewFromFloat,
	})
}

// crewTable holds what crews work on in each year.
func (t *roofsTeller) crewTable() Table {
	unit := unitSign(t.study.About.AreaUnit)
	return t.yearTable(t.Plan.Crews, yearWords{
		id: "plan-crews", caption: "The area that is worked on in each year, " + unit,
		heads: [6]string{"Year", "Crews’ limit", "Worked on", "Left", "Wanted without limits", fmt.Sprintf("One more %s saves, %s", unit, t.cur.Code)},
		show:  areaCell,
		worth: func(w float64) decimal.Decimal { return decimal.NewFromFloat(w).Shift(-t.cur.Digits) },
	})
}

// worthCell is what one more unit of a limit saves, with two decimals at least:
// it is a share of the currency's unit as often as not.
func (t *roofsTeller) worthCell(saved decimal.Decimal) Cell {
	return text(trimmedTo(saved, max(2, t.cur.Digits)))
}

// areaCell is an area in hundredths of the unit.
func areaCell(hundredths int64) Cell {
	return Cell{Kind: QuantityCell, Number: decimal.New(hundredths, -areaDigits), Digits: areaDigits}
}

// yearTable has a row for each year of the plan, and the sums below.
func (t *roofsTeller) yearTable(years []plan.Year, w yearWords) Table {
	table := Table{ID: w.id, Caption: w.caption, Columns: []Column{words(w.heads[0])}}
	for _, head := range w.heads[1:] {
		table.Columns = append(table.Columns, number(head))
	}
	var most, used, left, wanted int64
	limited := true
	for i, y := range years {
		limit, rest, worth := state("no limit", ""), state("–", ""), state("–", "")
		if y.Limit.Set {
			over, _ := y.Left()
			limit, rest, worth = w.show(y.Limit.Most), w.show(over), t.worthCell(w.worth(y.Worth))
			most, left = most+y.Limit.Most, left+over
		}
		limited = limited && y.Limit.Set
		used, wanted = used+y.Used, wanted+y.Wanted
		table.Rows = append(table.Rows, plainRow(text(fmt.Sprint(t.Roofs.plan[i])), limit, w.show(y.Used), rest, w.show(y.Wanted), worth))
	}
	total := totalRow(text("All years"), state("–", ""), w.show(used), state("–", ""), w.show(wanted), text(""))
	if limited {
		total.Cells[1], total.Cells[3] = w.show(most), w.show(left)
	}
	table.Rows = append(table.Rows, total)
	return table
}
