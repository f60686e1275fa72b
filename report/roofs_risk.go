package report

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/risk"
)

// chanceHeads are the heads of the columns of a simulation.
func (t *Roofs) chanceHeads() []string {
	if !t.chances {
		return nil
	}
	var heads []string
	for _, name := range t.alternatives {
		heads = append(heads, name+": chance_lowest")
	}
	return heads
}

// chanceText writes a chance as a fraction, to the sixth decimal.
func chanceText(p float64) string { return strconv.FormatFloat(math.Round(p*1e6)/1e6, 'f', -1, 64) }

// appendChances appends the cells of the simulation.
func (t *Roofs) appendChances(to []RoofCell, r *Roof) []RoofCell {
	if !t.chances {
		return to
	}
	for at := range t.alternatives {
		cell := RoofCell{}
		if i := t.own(r, at); i >= 0 && i < len(r.Chances) {
			cell = RoofCell{Kind: RoofNumber, Text: chanceText(r.Chances[i])}
		}
		to = append(to, cell)
	}
	return to
}

// appendChancesJSON appends the chances as a key of the row's object, in the
// order of its alternatives.
func (t *Roofs) appendChancesJSON(b []byte, r *Roof) []byte {
	if !t.chances {
		return b
	}
	b = append(b, `,"chances_lowest":[`...)
	for i, p := range r.Chances {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, chanceText(p)...)
	}
	return append(b, ']')
}

// RiskLines tell what all roofs may cost together.
func (t *Roofs) RiskLines(r *risk.RoofsResult) []string {
	out := []string{fmt.Sprintf("%s; all roofs share the draws of %s, and each draws %s for itself", Plural(r.Trials, "future"), Plural(len(r.Common), "input"), Plural(len(r.Local), "input"))}
	line := func(name string, x *risk.RoofsTotal, saves bool) {
		text := fmt.Sprintf("%s: life-cycle cost %s to %s in 8 of 10 futures, %s on average", name, t.rough(x.Cost.P10), t.rough(x.Cost.P90), t.rough(x.Cost.Mean))
		if saves {
			text += fmt.Sprintf("; saves in %s of them", chance(x.Saves))
		}
		out = append(out, text)
	}
	for i := range r.Alternatives {
		line(t.alternatives[i], &r.Alternatives[i], t.Saves(i))
	}
	for i := range r.Choices {
		if r.Choices[i].Roofs == 0 {
			continue // every alternative of every roof is ruled out
		}
		line("each roof's lowest", &r.Choices[i], t.AnySaves())
	}
	return out
}

// rough writes an amount of a simulation in whole units.
func (t *Roofs) rough(x float64) string {
	return decimal.NewFromFloat(x).StringFixed(0) + " " + t.currency()
}

type roofsRisk struct {
	Trials       int              `json:"trials"`
	Seed         uint64           `json:"seed"`
	Common       []string         `json:"common_inputs"`
	Local        []string         `json:"local_inputs"`
	Alternatives []roofsRiskTotal `json:"alternatives"`
	Lowest       roofsRiskTotal   `json:"each_roofs_lowest"`
}

type roofsRiskTotal struct {
	Name   string     `json:"name,omitempty"`
	Roofs  int        `json:"roofs"`
	Cost   riskRange  `json:"life_cycle_cost"`
	Saving *riskRange `json:"net_savings"`
	Saves  *float64   `json:"chance_of_saving"`
}

type riskRange struct {
	Mean json.Number `json:"mean"`
	SD   json.Number `json:"sd"`
	P10  json.Number `json:"p10"`
	P50  json.Number `json:"p50"`
	P90  json.Number `json:"p90"`
}

func (t *Roofs) roofsRisk(r *risk.RoofsResult) *roofsRisk {
	paths := func(refs []lcc.Ref) []string {
		out := []string{}
		for _, in := range refs {
			out = append(out, t.studies[0].Inputs[in].Path)
		}
		return out
	}
	out := &roofsRisk{Trials: r.Trials, Seed: r.Seed, Common: paths(r.Common), Local: paths(r.Local)}
	for i := range r.Alternatives {
		out.Alternatives = append(out.Alternatives, t.riskTotal(t.alternatives[i], &r.Alternatives[i], t.Saves(i)))
	}
	out.Lowest = t.riskTotal("", &r.Choices[0], t.AnySaves())
	return out
}

func (t *Roofs) riskTotal(name string, x *risk.RoofsTotal, saves bool) roofsRiskTotal {
	out := roofsRiskTotal{Name: name, Roofs: x.Roofs, Cost: rangeNumbers(x.Cost)}
	if saves {
		saving := rangeNumbers(x.Saving)
		out.Saving, out.Saves = &saving, &x.Saves
	}
	return out
}

// rangeNumbers are whole units of the currency: a simulation knows no more.
func rangeNumbers(r risk.Range) riskRange {
	whole := func(x float64) json.Number { return json.Number(decimal.NewFromFloat(x).StringFixed(0)) }
	return riskRange{whole(r.Mean), whole(r.SD), whole(r.P10), whole(r.P50), whole(r.P90)}
}
