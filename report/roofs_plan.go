package report

import (
	"fmt"
	"strconv"

	"github.com/shopspring/decimal"

	"roofyears/lcc/budget"
	"roofyears/lcc/plan"
)

// RoofPlan is what a plan chooses for one roof.
type RoofPlan struct {
	Alternative int     // of the roof's study
	Year        int     // calendar year in which it starts; 0 when it starts no work
	LCC         int64   // in minor units
	Spent       []int64 // what works cost in each year of the plan, in minor units; what is left out at the end is 0
	Worked      []int64 // what is worked on in each year, in hundredths of the area unit; likewise
}

// NewRoofPlan is what was chosen for a roof of a plan whose first year is a
// calendar year.
func NewRoofPlan(o *plan.Option, first int) *RoofPlan {
	p := &RoofPlan{Alternative: o.Alternative, LCC: o.LCC, Spent: o.Paid, Worked: o.Area}
	if o.Year != plan.NoWork {
		p.Year = first + o.Year
	}
	return p
}

// planHeads are the heads of the columns of a plan.
func (t *Roofs) planHeads() []string {
	if t.plan == nil {
		return nil
	}
	heads := []string{"plan", "plan_start", "plan_life_cycle_cost"}
	for _, year := range t.plan {
		heads = append(heads, fmt.Sprintf("plan_works_%d", year))
	}
	return heads
}

// appendPlan appends the cells of the plan; they hold nothing without one.
func (t *Roofs) appendPlan(to []RoofCell, r *Roof) []RoofCell {
	if t.plan == nil {
		return to
	}
	p := r.Plan
	if p == nil {
		return append(to, make([]RoofCell, len(t.plan)+3)...)
	}
	var start RoofCell
	if p.Year > 0 {
		start = RoofCell{Kind: RoofNumber, Text: strconv.Itoa(p.Year)}
	}
	to = append(to, t.nameCell(r, p.Alternative), start, RoofCell{Kind: RoofAmount, Minor: p.LCC})
	for i := range t.plan {
		to = append(to, RoofCell{Kind: RoofAmount, Minor: p.spent(i)})
	}
	return to
}

func (p *RoofPlan) spent(i int) int64 { return at(p.Spent, i) }

// at is an entry of a list whose end is left out where it is 0.
func at(list []int64, i int) int64 {
	if i < len(list) {
		return list[i]
	}
	return 0
}

// appendPlanJSON appends the plan as a key of the row's object.
func (t *Roofs) appendPlanJSON(b []byte, r *Roof) []byte {
	if t.plan == nil {
		return b
	}
	p := r.Plan
	if p == nil {
		return append(b, `,"plan":null`...)
	}
	b = append(append(b, `,"plan":{"alternative":`...), t.names[t.places[r.Template][p.Alternative]]...)
	b = append(b, `,"start":`...)
	if p.Year > 0 {
		b = strconv.AppendInt(b, int64(p.Year), 10)
	} else {
		b = append(b, "null"...)
	}
	b = t.appendMinor(append(b, `,"life_cycle_cost":`...), p.LCC)
	b = append(b, `,"works":{`...)
	for i, year := range t.plan {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(strconv.AppendInt(append(b, '"'), int64(year), 10), `":`...)
		b = t.appendMinor(b, p.spent(i))
	}
	return append(b, "}}"...)
}

// PlanLines tell a plan, whose years begin with a calendar year: what it and
// its limits cost, and what each year holds and is used.
func (t *Roofs) PlanLines(p *plan.Plan, ids []string) []string {
	if !p.HasPlan() {
		return []string{"plan: " + t.noPlan(p, t.plainWords(ids))}
	}
	out := []string{"plan: life-cycle cost " + t.minorSum(p.Cost) + ", " + t.boundText(p)}
	if costs, ok := p.LimitsCost(); ok {
		out = append(out, fmt.Sprintf("without limits %s, so the limits cost %s", t.minorSum(p.Unlimited), t.minorSum(costs)))
	}
	for i, y := range p.Money {
		line := fmt.Sprintf("%d: works %s", t.plan[i], t.minorSum(y.Used))
		if y.Limit.Set {
			line += fmt.Sprintf(" of %s, one more %s saves %s", t.minorSum(y.Limit.Most), t.currency(), worth(y.Worth, t.currency()))
		}
		if c := p.Crews[i]; c.Limit.Set {
			line += fmt.Sprintf("; %s of %s worked on, one more %s saves %s", t.area(c.Used), t.area(c.Limit.Most), t.studies[0].About.AreaUnit, worth(t.byArea(c), t.currency()))
		}
		out = append(out, line)
	}
	return out
}

// boundText says how near a plan is to the least possible.
func (t *Roofs) boundText(p *plan.Plan) string {
	gap, _ := p.Gap()
	if gap == 0 {
		return "which no other plan within the limits undercuts"
	}
	text := "and none within the limits can cost less than " + t.minorSum(p.Bound)
	if share, ok := p.GapShare(); ok {
		text += fmt.Sprintf(" (at most %s dearer than need be)", shareText(share))
	}
	return text
}

// shareText writes a small share with two figures that count.
func shareText(share float64) string {
	d := decimal.NewFromFloat(share).Shift(2)
	places := int32(2)
	for ; places < 6 && d.LessThan(decimal.New(1, 1-places)); places++ {
	}
	return d.RoundUp(places).String() + "%"
}

// planWords are how amounts and roofs are written in what is said of a plan.
type planWords struct {
	money func(minor int64) string
	roof  func(i int) string
}

// plainWords are those of messages.
func (t *Roofs) plainWords(ids []string) planWords {
	return planWords{money: t.minorSum, roof: func(i int) string { return strconv.Quote(ids[i]) }}
}

// noPlan says why there is no plan.
func (t *Roofs) noPlan(p *plan.Plan, say planWords) string {
	at := func(i int) int { return t.plan[p.Years[i].Year] }
	r := p.Reason
	switch r.Cause {
	case budget.NoOption:
		return fmt.Sprintf("no option of the roof %s may be chosen", say.roof(r.Roof))
	case budget.YearShort:
		y := p.Years[r.Years[0]]
		needed, most := say.money(r.Needed), say.money(y.Most)
		if y.Kind == budget.Crew {
			needed, most = t.area(r.Needed), t.area(y.Most)
		}
		return fmt.Sprintf("works that no choice avoids take %s in %d, which holds %s", needed, t.plan[y.Year], most)
	case budget.RoofTooLarge:
		return fmt.Sprintf("every option of the roof %s takes more of some year than it holds", say.roof(r.Roof))
	case budget.YearsTogether:
		years := []string{}
		for _, i := range r.Years {
			years = append(years, strconv.Itoa(at(i)))
		}
		return fmt.Sprintf("the limits of %s cannot be kept together", listed(years))
	}
	return "none was found that keeps the limits, and none was proven impossible"
}

// minorSum writes an amount in minor units with the currency.
func (t *Roofs) minorSum(minor int64) string {
	return string(*t.number(minor)) + " " + t.currency()
}

// worth writes what one more unit of a limit saves.
func worth(w float64, currency string) string {
	return decimal.NewFromFloat(w).StringFixed(2) + " " + currency
}

// area writes hundredths of the area unit.
func (t *Roofs) area(hundredths int64) string {
	return string(*hundredth(hundredths)) + " " + t.studies[0].About.AreaUnit
}
