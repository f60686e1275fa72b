package report

import (
	"encoding/json"
	"io"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/risk"
	"roofyears/lcc/vary"
)

// The machine-readable forms of what would change the answer. Values are in
// the unit of the input as the study file has it, rates as fractions, money in
// the study's currency.

type (
	inputJSON struct {
		Path   string      `json:"input"`
		Value  json.Number `json:"value"`
		Source string      `json:"source,omitempty"`
	}
	tieJSON struct {
		Alternatives [2]string    `json:"alternatives"`
		At           json.Number  `json:"at"`
		Below        string       `json:"cheaper_below"`
		Above        string       `json:"cheaper_above"`
		Step         bool         `json:"step"`
		GapAt        *json.Number `json:"difference_at,omitempty"`
		GapNext      *json.Number `json:"difference_a_year_on,omitempty"`
		GapBelow     *json.Number `json:"difference_just_below,omitempty"` // at a step of packs
		GapAbove     *json.Number `json:"difference_just_above,omitempty"`
	}
	pointJSON struct {
		Value   json.Number            `json:"value"`
		LCC     map[string]json.Number `json:"life_cycle_cost"`
		Lowest  *string                `json:"lowest"`
		Problem string                 `json:"problem,omitempty"`
	}
)

// writeJSON writes a value as indented JSON. It fails when w does; so do the
// functions Write… that end in it.
func writeJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

func plainNumber(d decimal.Decimal) json.Number { return json.Number(d.String()) }

func (t *teller) inputJSON(in lcc.Ref) inputJSON {
	return inputJSON{t.study.Inputs[in].Path, plainNumber(t.Inputs[in]), t.study.Inputs[in].Source}
}

// nameOrNull is the name of an alternative; null for none.
func (t *teller) nameOrNull(i int) *string {
	if i < 0 {
		return nil
	}
	name := t.name(i)
	return &name
}

func (t *teller) tieJSON(tie lcc.Tie) tieJSON {
	out := tieJSON{Alternatives: [2]string{t.name(tie.A), t.name(tie.B)}, At: plainNumber(tie.At), Below: t.name(tie.Below), Above: t.name(tie.Above), Step: tie.Step}
	switch {
	case tie.Near:
		below, above := t.money(tie.GapAt), t.money(tie.GapNext)
		out.GapBelow, out.GapAbove = &below, &above
	case tie.Step:
		at, next := t.money(tie.GapAt), t.money(tie.GapNext)
		out.GapAt, out.GapNext = &at, &next
	}
	return out
}

func (t *teller) pointJSON(p vary.Point) pointJSON {
	out := pointJSON{Value: plainNumber(p.Value), LCC: map[string]json.Number{}, Lowest: t.nameOrNull(p.Lowest), Problem: p.Problem}
	for i, v := range p.LCC {
		out.LCC[t.name(i)] = t.money(v)
	}
	return out
}

// WriteAlong writes a sweep of one input.
func WriteAlong(w io.Writer, in Study, s *vary.Sweep) error {
	t := tell(in)
	out := struct {
		Version int         `json:"roofyears"`
		Input   inputJSON   `json:"varied"`
		Points  []pointJSON `json:"points"`
		Ties    []tieJSON   `json:"ties"`
	}{formatVersion, t.inputJSON(s.In), []pointJSON{}, []tieJSON{}}
	for _, p := range s.Points {
		out.Points = append(out.Points, t.pointJSON(p))
	}
	for _, tie := range s.Ties {
		out.Ties = append(out.Ties, t.tieJSON(tie))
	}
	return writeJSON(w, out)
}

// WriteMap writes a map of two inputs.
func WriteMap(w io.Writer, in Study, m *vary.Map) error {
	t := tell(in)
	type rowJSON struct {
		Value  json.Number `json:"value"`
		Points []pointJSON `json:"points"`
	}
	out := struct {
		Version int       `json:"roofyears"`
		X       inputJSON `json:"varied"`
		Y       inputJSON `json:"against"`
		Rows    []rowJSON `json:"rows"`
	}{formatVersion, t.inputJSON(m.X.In), t.inputJSON(m.Y.In), []rowJSON{}}
	for i, points := range m.Points {
		row := rowJSON{plainNumber(m.Ys[i]), []pointJSON{}}
		for _, p := range points {
			row.Points = append(row.Points, t.pointJSON(p))
		}
		out.Rows = append(out.Rows, row)
	}
	return writeJSON(w, out)
}

// WriteSwings writes the swing of every uncertain input.
func WriteSwings(w io.Writer, in Study, swings []vary.Swing) error {
	t := tell(in)
	type endJSON struct {
		Value   json.Number  `json:"value"`
		Margin  *json.Number `json:"margin"`
		Lowest  *string      `json:"lowest"`
		Problem string       `json:"problem,omitempty"`
	}
	type swingJSON struct {
		inputJSON
		Low       endJSON     `json:"low"`
		High      endJSON     `json:"high"`
		Quantiles bool        `json:"ends_are_5_and_95_percent_quantiles"`
		Width     json.Number `json:"swing"`
		Flips     bool        `json:"changes_the_answer"`
	}
	end := func(e vary.End) endJSON {
		out := endJSON{Value: plainNumber(e.Value), Lowest: t.nameOrNull(e.Lowest), Problem: e.Problem}
		if e.Problem == "" {
			margin := t.money(e.Margin)
			out.Margin = &margin
		}
		return out
	}
	out := struct {
		Version int         `json:"roofyears"`
		Answer  answerPart  `json:"answer"`
		Swings  []swingJSON `json:"swings"`
	}{formatVersion, t.answerPart(), []swingJSON{}}
	for _, s := range swings {
		out.Swings = append(out.Swings, swingJSON{t.inputJSON(s.In), end(s.Low), end(s.High), s.Quantiles, t.money(s.Width), s.Flips})
	}
	return writeJSON(w, out)
}

// WriteHolds writes for which values of each input an alternative is the
// lowest.
func WriteHolds(w io.Writer, in Study, alternative int, holds []lcc.Hold) error {
	t := tell(in)
	type stretchJSON struct {
		From json.Number `json:"from"`
		To   json.Number `json:"to"`
	}
	type holdJSON struct {
		inputJSON
		Low    json.Number   `json:"looked_at_from"`
		High   json.Number   `json:"looked_at_to"`
		Within []stretchJSON `json:"lowest_within"`
		Ties   []tieJSON     `json:"ties"`
		Text   string        `json:"text"`
	}
	out := struct {
		Version     int        `json:"roofyears"`
		Alternative string     `json:"alternative"`
		Inputs      []holdJSON `json:"inputs"`
	}{formatVersion, t.name(alternative), []holdJSON{}}
	for i := range holds {
		h := &holds[i]
		item := holdJSON{t.inputJSON(h.In), plainNumber(h.Low), plainNumber(h.High), []stretchJSON{}, []tieJSON{}, t.holdText(h)}
		if !h.Always() {
			item.Text = t.holdSentence(h, alternative)
		}
		for _, s := range h.Within {
			item.Within = append(item.Within, stretchJSON{plainNumber(s.From), plainNumber(s.To)})
		}
		for _, tie := range h.Ties {
			item.Ties = append(item.Ties, t.tieJSON(tie))
		}
		out.Inputs = append(out.Inputs, item)
	}
	return writeJSON(w, out)
}

// WriteRisk writes a simulation. Its amounts are unrounded.
func WriteRisk(w io.Writer, in Study, r *risk.Result) error {
	t := tell(in)
	type momentsJSON struct {
		Mean float64 `json:"mean"`
		SD   float64 `json:"standard_deviation"`
		P5   float64 `json:"p5"`
		P50  float64 `json:"p50"`
		P95  float64 `json:"p95"`
	}
	type alternativeJSON struct {
		Name string `json:"name"`
		momentsJSON
		Cheapest      float64 `json:"chance_cheapest"`
		CheapestError float64 `json:"chance_cheapest_standard_error"`
		Regret        float64 `json:"expected_regret"`
	}
	type pairJSON struct {
		First  string `json:"first"`
		Second string `json:"second"`
		momentsJSON
		Less      float64 `json:"chance_first_costs_less"`
		LessError float64 `json:"chance_first_costs_less_standard_error"`
	}
	type influenceJSON struct {
		Path    string             `json:"input"`
		Margin  float64            `json:"share_of_difference"`
		Costs   map[string]float64 `json:"share_of_cost"`
		Knowing float64            `json:"worth_of_knowing"`
	}
	out := struct {
		Version      int               `json:"roofyears"`
		Trials       int               `json:"trials"`
		Seed         uint64            `json:"seed"`
		Chosen       *string           `json:"least_mean_cost"`
		Rival        *string           `json:"next_mean_cost"`
		Alternatives []alternativeJSON `json:"alternatives"`
		Pairs        []pairJSON        `json:"pairs"`
		Knowing      float64           `json:"worth_of_knowing_all"`
		KnowingError float64           `json:"worth_of_knowing_all_standard_error"`
		Influences   []influenceJSON   `json:"inputs"`
	}{formatVersion, r.Trials, r.Seed, t.nameOrNull(r.Chosen), t.nameOrNull(r.Rival), []alternativeJSON{}, []pairJSON{}, r.KnowingAll, r.KnowingAllError, []influenceJSON{}}
	moments := func(m risk.Moments) momentsJSON { return momentsJSON{m.Mean, m.SD, m.P5, m.P50, m.P95} }
	for i, a := range r.Alternatives {
		out.Alternatives = append(out.Alternatives, alternativeJSON{t.name(i), moments(a.Moments), a.Cheapest, a.CheapestError, a.Regret})
	}
	for _, p := range r.Pairs {
		out.Pairs = append(out.Pairs, pairJSON{t.name(p.A), t.name(p.B), moments(p.Moments), p.Less, p.LessError})
	}
	for _, f := range r.Influences {
		item := influenceJSON{t.study.Inputs[f.Ref].Path, f.Margin, map[string]float64{}, f.Knowing}
		for i, v := range f.Costs {
			item.Costs[t.name(i)] = v
		}
		out.Influences = append(out.Influences, item)
	}
	return writeJSON(w, out)
}
