package report

import (
	"encoding/json"
	"io"
	"math"
	"math/big"

	"github.com/shopspring/decimal"

	"roofyears/lcc/budget"
	"roofyears/lcc/plan"
	"roofyears/lcc/risk"
)

// RoofsSummary is what a table of roofs comes to.
type RoofsSummary struct {
	Totals  *RoofTotals
	NotDone int               // rows that could not be done
	Empty   map[string]int    // cells where the template's value holds, by head
	Far     []FarCells        // cells far from the template's value
	Plan    *plan.Plan        // nil when none was asked for
	Risk    *risk.RoofsResult // nil when none was asked for, or roofs of several templates have none together
	IDs     []string          // of the roofs of the plan
}

type roofsAnswer struct {
	Format       int                `json:"roofyears"`
	Currency     string             `json:"currency"`
	Roofs        int                `json:"roofs"`
	NotDone      int                `json:"not_done"`
	NoChoice     int                `json:"without_choice"`
	Alternatives []roofsAlternative `json:"alternatives"`
	Lowest       roofsAlternative   `json:"each_roofs_lowest"`
	Empty        map[string]int     `json:"empty_cells"`
	Far          map[string]int     `json:"far_cells,omitempty"` // over 20 times the template's value, or under a 20th
	Risk         *roofsRisk         `json:"risk,omitempty"`
	Plan         *planAnswer        `json:"plan,omitempty"`
}

type roofsAlternative struct {
	Name   string       `json:"name,omitempty"`
	Roofs  int          `json:"roofs"`
	LCC    json.Number  `json:"life_cycle_cost"`
	First  json.Number  `json:"first_cost"`
	Saved  *json.Number `json:"net_savings"`
	Lowest *int         `json:"lowest_for,omitempty"`
}

type planAnswer struct {
	State     string       `json:"state"`
	Reason    string       `json:"reason,omitempty"`
	LCC       *json.Number `json:"life_cycle_cost"`
	Bound     *json.Number `json:"lower_bound"`
	Unlimited *json.Number `json:"without_limits"`
	Cost      *json.Number `json:"cost_of_limits"`
	Years     []planYear   `json:"years"`
}

type planYear struct {
	Year   int          `json:"year"`
	Budget *json.Number `json:"budget"`
	Works  json.Number  `json:"works"`
	Wanted json.Number  `json:"works_without_limits"`
	Worth  *float64     `json:"saved_by_one_more"`
	Crew   *json.Number `json:"crew_area"`
	Area   json.Number  `json:"area_worked_on"`
	ByArea *float64     `json:"saved_by_one_more_area"`
}

// WriteRoofsSummary writes the totals of a table of roofs, and its plan, as
// JSON.
func (t *Roofs) WriteRoofsSummary(w io.Writer, s RoofsSummary) error {
	out := roofsAnswer{
		Format: 1, Currency: t.currency(), Roofs: s.Totals.Count, NotDone: s.NotDone, NoChoice: s.Totals.None,
		Empty: s.Empty, Lowest: t.roofsTotal("", &s.Totals.Lowest, t.AnySaves()),
	}
	for i := range s.Totals.Alternatives {
		a := t.roofsTotal(t.alternatives[i], &s.Totals.Alternatives[i], t.Saves(i))
		a.Lowest = &s.Totals.Alternatives[i].Lowest
		out.Alternatives = append(out.Alternatives, a)
	}
	for _, far := range s.Far {
		if out.Far == nil {
			out.Far = map[string]int{}
		}
		out.Far[far.Head] = far.Count
	}
	if s.Risk != nil {
		out.Risk = t.roofsRisk(s.Risk)
	}
	if s.Plan != nil {
		out.Plan = t.planAnswer(s.Plan, s.IDs)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(out)
}

func (t *Roofs) roofsTotal(name string, a *RoofTotal, saves bool) roofsAlternative {
	out := roofsAlternative{Name: name, Roofs: a.Count, LCC: t.bigNumber(a.LCC.Big()), First: t.bigNumber(a.First.Big())}
	if saves {
		saved := t.bigNumber(a.Saved.Big())
		out.Saved = &saved
	}
	return out
}

func (t *Roofs) planAnswer(p *plan.Plan, ids []string) *planAnswer {
	out := &planAnswer{State: p.State.String()}
	if p.HasPlan() {
		cost, _ := p.LimitsCost()
		out.LCC, out.Bound, out.Unlimited, out.Cost = t.number(p.Cost), t.number(p.Bound), t.number(p.Unlimited), t.number(cost)
	} else {
		out.Reason = t.noPlan(p, t.plainWords(ids))
	}
	for i, y := range p.Money {
		c := p.Crews[i]
		year := planYear{Year: t.plan[i], Works: *t.number(y.Used), Wanted: *t.number(y.Wanted), Area: *hundredth(c.Used)}
		if year.Budget = limitOf(y.Limit, t.number); year.Budget != nil {
			year.Worth = &p.Money[i].Worth
		}
		if year.Crew = limitOf(c.Limit, hundredth); year.Crew != nil {
			byArea := t.byArea(c)
			year.ByArea = &byArea
		}
		out.Years = append(out.Years, year)
	}
	return out
}

// byArea is what one more unit of area saves, in units of the currency.
func (t *Roofs) byArea(y plan.Year) float64 { return y.Worth * math.Pow10(-int(t.digits())) }

func (t *Roofs) digits() int32 { return t.studies[0].About.Digits }

// limitOf is a limit as a number; nil when there is none.
func limitOf(l budget.Limit, write func(int64) *json.Number) *json.Number {
	if !l.Set {
		return nil
	}
	return write(l.Most)
}

func (t *Roofs) number(minor int64) *json.Number {
	n := t.bigNumber(big.NewInt(minor))
	return &n
}

func (t *Roofs) bigNumber(minor *big.Int) json.Number { return json.Number(t.AmountOf(minor)) }

// hundredth is an area that is counted in hundredths of its unit.
func hundredth(area int64) *json.Number {
	n := json.Number(decimal.New(area, -areaDigits).String())
	return &n
}
