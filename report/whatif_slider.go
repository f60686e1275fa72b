package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/vary"
)

// mostPositions is about how many positions a slider has at most.
const mostPositions = 60

// span is the stated range of an input with the study's own value in it.
type span struct {
	low, own, high decimal.Decimal
	notes          []string
}

// spanOf gives the range that the study states for an input.
func (t *teller) spanOf(in lcc.Ref) (span, bool) {
	low, high, quantiles, found := vary.StatedEnds(&t.study.Inputs[in])
	if !found {
		return span{}, false
	}
	own := t.Inputs[in]
	s := span{low: decimal.Min(low, own), own: own, high: decimal.Max(high, own)}
	if quantiles {
		s.notes = []string{strings.ToUpper(quantileNote[:1]) + quantileNote[1:] + "."}
	}
	return s, s.low.LessThan(s.high)
}

// stops are the multiples of a step inside a range, its ends and its own
// value, in order. The step is doubled until they are few enough.
func (s span) stops(step decimal.Decimal) []decimal.Decimal {
	two := decimal.NewFromInt(2)
	for s.high.Sub(s.low).GreaterThan(step.Mul(decimal.NewFromInt(mostPositions - 2))) {
		step = step.Mul(two)
	}
	out := []decimal.Decimal{s.low, s.own, s.high}
	for x := s.low.Div(step).Floor().Add(one).Mul(step); x.LessThan(s.high); x = x.Add(step) {
		out = append(out, x)
	}
	slices.SortFunc(out, decimal.Decimal.Cmp)
	return slices.CompactFunc(out, decimal.Decimal.Equal)
}

// oneInput is the slider of a single input; possible says which values the
// study can be evaluated at.
func (t *teller) oneInput(label string, in lcc.Ref, step decimal.Decimal, possible func(decimal.Decimal) bool) (Slider, bool) {
	s, found := t.spanOf(in)
	if !found {
		return Slider{}, false
	}
	out := Slider{Label: label, Notes: s.notes, Inputs: []lcc.Ref{in}}
	for _, x := range s.stops(step) {
		if !possible(x) {
			continue
		}
		if x.Equal(s.own) {
			out.Start = len(out.Positions)
		}
		out.Positions = append(out.Positions, SliderPosition{[]decimal.Decimal{x}, t.inputValue(&t.study.Inputs[in], x)})
	}
	return out, len(out.Positions) > 1
}

// rateSlider moves the discount rate by a quarter of a per cent.
func (t *teller) rateSlider() (Slider, bool) {
	return t.oneInput("Discount rate, "+t.study.Basis.String(), t.study.Rate, decimal.New(25, -4),
		func(x decimal.Decimal) bool { return lcc.CheckRate(x) == nil })
}

// lifeSliders move a system's service life by whole years; a life that follows
// from others, by what it follows from.
func (t *teller) lifeSliders(y *lcc.System) []Slider {
	lasts := func(x decimal.Decimal) bool { return x.IsPositive() && x.LessThanOrEqual(lcc.MaxLife) }
	if !t.study.IsDerived(y.Life) {
		if s, found := t.oneInput(t.study.Inputs[y.Life].Label, y.Life, one, lasts); found {
			return []Slider{s}
		}
		return nil
	}
	var out []Slider
	for _, in := range t.study.FollowsFrom(y.Life) {
		s, found := t.spanOf(in)
		if !found {
			continue
		}
		possible := func(x decimal.Decimal) bool {
			v := append(lcc.Vector(nil), t.Inputs...)
			v[in] = x
			return lasts(t.filled(v)[y.Life])
		}
		if slider, found := t.oneInput(t.study.Inputs[in].Label, in, s.high.Sub(s.low).Shift(-1).Div(decimal.NewFromInt(2)), possible); found {
			slider.Notes = append(slider.Notes, fmt.Sprintf("The service life follows from it, with the study's other values: %s.", t.inputValue(&t.study.Inputs[y.Life], t.Inputs[y.Life])))
			out = append(out, slider)
		}
	}
	return out
}

// costSteps is how many positions a first cost has on either side of the
// study's own.
const costSteps = 10

// firstCostSlider moves together all inputs with a range that a system's first
// costs use and nothing else does, each over its own range.
func (t *teller) firstCostSlider(system int) (Slider, bool) {
	inputs := t.ownInputs(system)
	out := Slider{Label: "First cost, at base-date prices", Inputs: inputs}
	var labels []string
	spans := make([]span, len(inputs))
	for i, in := range inputs {
		spans[i], _ = t.spanOf(in)
		labels = append(labels, lowerFirst(t.study.Inputs[in].Label))
		for _, note := range spans[i].notes {
			if !slices.Contains(out.Notes, note) {
				out.Notes = append(out.Notes, note)
			}
		}
	}
	out.Notes = append([]string{"Moved together, each over its range: " + strings.Join(labels, "; ") + "."}, out.Notes...)
	for step := -costSteps; step <= costSteps; step++ {
		p := t.costPosition(system, inputs, spans, step)
		if n := len(out.Positions); n > 0 && slices.EqualFunc(p.Values, out.Positions[n-1].Values, decimal.Decimal.Equal) {
			p, out.Positions = out.Positions[n-1], out.Positions[:n-1] // nothing moves on this side
		}
		if step == 0 {
			out.Start = len(out.Positions)
		}
		out.Positions = append(out.Positions, p)
	}
	return out, len(out.Positions) > 1
}

// costPosition is a step of the way from the study's own values to the low
// ones (below 0) or to the high ones.
func (t *teller) costPosition(system int, inputs []lcc.Ref, spans []span, step int) SliderPosition {
	v := append(lcc.Vector(nil), t.Inputs...)
	var p SliderPosition
	part := decimal.New(int64(max(step, -step)), -1) // tenths
	for i, s := range spans {
		end := s.high
		if step < 0 {
			end = s.low
		}
		x := s.own.Add(end.Sub(s.own).Mul(part))
		v[inputs[i]] = x
		p.Values = append(p.Values, x)
	}
	p.Text = t.cur.Amount(t.study.FirstCost(v, system))
	return p
}

// ownInputs are the inputs with a range that a system's first costs use and
// nothing else in the study does, in the order of the study.
func (t *teller) ownInputs(system int) []lcc.Ref {
	inside := uses{}
	inside.items(t.study.Systems[system].First)
	inside.through(t.study.Derived)
	all := usesOf(t.study)
	var out []lcc.Ref
	for i := range t.study.Inputs {
		in := lcc.Ref(i)
		if _, found := t.spanOf(in); found && inside[in] > 0 && inside[in] == all[in] {
			out = append(out, in)
		}
	}
	return out
}

// uses counts how often a study uses its inputs.
type uses map[lcc.Ref]int

func (u uses) items(items []lcc.Item) {
	for _, it := range items {
		u[it.Price]++
		u[it.Quantity]++
		u[it.Growth]++
	}
}

// through counts what is derived as uses of what it follows from.
func (u uses) through(derived []lcc.Derivation) {
	for i := len(derived) - 1; i >= 0; i-- {
		for _, term := range derived[i].Terms {
			for _, f := range term.Factors {
				u[f.Of] += u[derived[i].In]
			}
		}
	}
}

// usesOf counts the uses in a whole study.
func usesOf(s *lcc.Study) uses {
	u := uses{s.Rate: 1, s.Area: 1}
	u[s.Inflation]++
	for _, series := range s.Escalation {
		for _, in := range series {
			u[in]++
		}
	}
	for _, d := range s.Derived {
		for _, term := range d.Terms {
			for _, f := range term.Factors {
				u[f.Of]++
			}
		}
	}
	for i := range s.Systems {
		y := &s.Systems[i]
		u[y.Life]++
		for _, items := range [][]lcc.Item{y.First, y.Annual, y.Periodic, y.Removal} {
			u.items(items)
		}
		if y.Recoat != nil {
			u[y.Recoat.Life]++
			u.items(y.Recoat.Costs)
		}
		if y.Residual.Mode == lcc.FixedAmount {
			u[y.Residual.Amount]++
		}
	}
	u.through(s.Derived)
	return u
}
