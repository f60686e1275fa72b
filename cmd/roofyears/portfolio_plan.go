package main

import (
	"fmt"
	"slices"

	"roofyears/lcc"
	"roofyears/lcc/plan"
	"roofyears/report"
)

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
