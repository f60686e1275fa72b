package main

import (
	"slices"

	"roofyears/lcc/risk"
	"roofyears/scenarios/portfolio"
)

// simulation draws the uncertain inputs of all roofs.
type simulation struct {
	roofs   []*risk.Roofs         // by template
	workers [][]*risk.RoofsWorker // by processor, then by template
}

// lowestSet is the set of choices in which each roof has its lowest
// alternative, as its row states it.
const lowestSet = 0

func newSimulation(w wanted, lays []portfolio.Lay) (*simulation, error) {
	s := &simulation{}
	for _, l := range lays {
		roofs, err := risk.NewRoofs(l.File.Study, l.Refs, risk.RoofsOptions{Trials: w.trials, Seed: w.seed, Choices: lowestSet + 1})
		if err != nil {
			return nil, err
		}
		s.roofs = append(s.roofs, roofs)
	}
	return s, nil
}

// result is what all roofs may cost together; nil where there are several
// templates, whose common draws are not the same.
func (s *simulation) result() (*risk.RoofsResult, error) {
	if len(s.roofs) > 1 {
		return nil, nil
	}
	var all []*risk.RoofsWorker
	for _, sims := range s.workers {
		all = append(all, sims...)
	}
	return s.roofs[0].Result(all...)
}

// simulate finds the chances of the roofs of a batch. One that cannot be
// simulated is rejected.
func (w *worker) simulate(b *batch) {
	for template, sim := range w.sims {
		var roofs []risk.Roof
		var of []*doneRoof
		for _, r := range b.roofs {
			if r.Template == template {
				roofs, of = append(roofs, r.drawn()), append(of, r)
			}
		}
		out := make([]risk.RoofRisk, len(roofs))
		sim.Do(roofs, out)
		for i, r := range of {
			if err := out[i].Err; err != nil {
				b.rejects = append(b.rejects, *w.columns.Again(&r.row, r.from, "", "the simulation: "+err.Error()))
				b.roofs = slices.DeleteFunc(b.roofs, func(other *doneRoof) bool { return other == r })
			}
			r.Chances = out[i].Cheapest
		}
	}
	slices.SortStableFunc(b.rejects, func(a, b portfolio.Reject) int { return a.Line - b.Line })
}

// drawn is the roof as a simulation has it.
func (r *doneRoof) drawn() risk.Roof {
	out := risk.Roof{Key: risk.RoofKey(r.ID), Values: r.row.Values, Given: r.row.Given, Choices: []int{r.Answer.Lowest}}
	for i := range r.Study.Alternatives {
		out.Eligible = append(out.Eligible, r.Study.Alternatives[i].Eligible())
	}
	return out
}
