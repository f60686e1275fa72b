package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"roofyears/lcc"
	"roofyears/lcc/plan"
	"roofyears/report"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// The columns of a table that bind a plan.
const (
	mustDo    = "must_do"
	notBefore = "not_before"
	only      = "only"
)

var planColumns = []string{mustDo, notBefore, only}

// planning is a plan that is made for the roofs of a table.
type planning struct {
	first  int // calendar year of the base date
	years  int
	limits plan.Limits
	lays   []*plan.Template // by template
}

// newPlanning prepares a plan over studies that add up.
func newPlanning(w wanted, templates []portfolio.Template) (*planning, error) {
	study := templates[0].File.Study
	about := study.About
	first, err := strconv.Atoi(about.BaseDate[:4])
	if err != nil {
		return nil, fmt.Errorf("the base date %s has no year: %w", about.BaseDate, err)
	}
	p := &planning{first: first, years: max(w.money.last(), w.crews.last()) - first + 1}
	if end := first + study.Period; first+p.years > end {
		return nil, usageError{"portfolio", fmt.Sprintf("the plan reaches %d, but the study period ends in %d", first+p.years-1, end)}
	}
	if p.limits.Money, err = w.money.limits(first, p.years, about.Digits, true); err != nil {
		return nil, err
	}
	if p.limits.Crews, err = w.crews.limits(first, p.years, areaDigits, false); err != nil {
		return nil, err
	}
	for _, template := range templates {
		lay, err := plan.NewTemplate(template.File.Study, p.years)
		if err == nil && len(p.lays) > 0 {
			err = p.lays[0].Agree(lay)
		}
		if err != nil {
			return nil, &portfolio.Unreadable{File: template.File.Source.Name, Reason: err.Error()}
		}
		p.lays = append(p.lays, lay)
	}
	return p, nil
}

// areaDigits are the decimals to which a plan counts areas.
const areaDigits = 2

// rules reads what binds a roof; wrong is the column with the mistake.
func (p *planning) rules(asked []string, study *lcc.Study) (r plan.Rules, wrong int, err error) {
	if r.MustDo, err = p.mustDo(asked[0]); err != nil {
		return r, 0, err
	}
	if text := asked[1]; text != "" {
		year, err := p.year(text)
		if err != nil {
			return r, 1, err
		}
		r.NotBefore = max(0, year-p.first)
		if r.MustDo.Set && r.NotBefore > r.MustDo.Is {
			return r, 1, fmt.Errorf("%q is after %d, by which the work must start", text, p.first+r.MustDo.Is)
		}
	}
	if text := asked[2]; text != "" {
		at := slices.IndexFunc(study.Alternatives, func(a lcc.Alternative) bool { return a.Name == text })
		if at < 0 {
			return r, 2, fmt.Errorf("%q is no alternative of the roof's template", text)
		}
		r.Only = plan.Just(at)
	}
	return r, 0, nil
}

// mustDo reads yes, no or the last year in which a roof's work may start. A
// workbook's own yes and no are true and false.
func (p *planning) mustDo(text string) (plan.Optional, error) {
	switch strings.ToLower(text) {
	case "", "no", "false":
		return plan.Optional{}, nil
	case "yes", "true":
		return plan.Just(p.years - 1), nil
	}
	year, err := p.year(text)
	switch {
	case err != nil:
		return plan.Optional{}, fmt.Errorf("%q is neither yes, no nor a year such as %d", text, p.first)
	case year < p.first || year >= p.first+p.years:
		return plan.Optional{}, fmt.Errorf("%q is outside the years of the plan, %d to %d", text, p.first, p.first+p.years-1)
	}
	return plan.Just(year - p.first), nil
}

func (p *planning) year(text string) (int, error) {
	year, err := strconv.Atoi(text)
	if err != nil || len(text) != 4 {
		return 0, fmt.Errorf("%q is no year, expected one such as %d", text, p.first)
	}
	return year, nil
}

// calendar lists the calendar years of the plan.
func (p *planning) calendar() []int {
	out := make([]int, p.years)
	for t := range out {
		out[t] = p.first + t
	}
	return out
}

// layRoofs prepares a template that was read again; p is nil when no plan is
// made.
func (p *planning) layRoofs(study *lcc.Study, refs []lcc.Ref) (layRoofs, error) {
	if p == nil {
		return newLayRoofs(study, refs, nil)
	}
	made, err := plan.NewTemplate(study, p.years)
	if err != nil {
		return layRoofs{}, err
	}
	return newLayRoofs(study, refs, made)
}

// choose makes the plan and tells each roof what it has chosen for it.
func (p *planning) choose(roofs []*doneRoof) (*plan.Plan, error) {
	options := make([]plan.Roof, len(roofs))
	for i, r := range roofs {
		options[i] = r.options
	}
	made, err := plan.Choose(options, p.years, p.limits)
	if err != nil {
		return nil, err
	}
	for i, r := range roofs {
		if chosen := made.Roofs[i].Option; chosen != nil {
			r.Plan = report.NewRoofPlan(chosen, p.first)
		}
	}
	return &made, nil
}

// remarks tell what of the templates tilts a plan.
func (p *planning) remarks() []string {
	var out []string
	for _, lay := range p.lays {
		for _, name := range lay.SkippedRemoval() {
			text := fmt.Sprintf("plan: %q pays for removing the old roof when it is put off, but not when it starts at once; if it should, give it a wait of 0 years on that roof", name)
			if !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return out
}

// idleColumns tells of columns that would bind a plan when none is made; ""
// when there are none.
func idleColumns(heads []string) string {
	switch len(heads) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("the column %q is carried through, and binds nothing without --plan", heads[0])
	}
	return fmt.Sprintf("the columns %s are carried through, and bind nothing without --plan", scenarios.Quoted(heads))
}
