package main

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/vary"
	"roofyears/report"
	"roofyears/scenarios"
)

// mapSteps is how many steps the page's map has in each direction.
const mapSteps = 12

// change asks what would change the answer, for the page.
func change(r *lcc.Result) (*report.Change, error) {
	c := &report.Change{}
	if r.Answer.RunnerUp < 0 {
		return c, nil
	}
	var err error
	if c.Swings, err = vary.Swings(r); err != nil {
		return nil, err
	}
	if c.Holds, err = vary.Holds(r, r.Answer.Lowest, vary.Rivals(r, r.Answer.Lowest)); err != nil {
		return nil, err
	}
	c.Map, err = widestMap(r, c.Swings)
	return c, err
}

// widestMap moves the discount rate against the other input that swings the
// margin most; nil when none does.
func widestMap(r *lcc.Result, swings []vary.Swing) (*vary.Map, error) {
	for _, s := range swings {
		if s.In == r.Study.Rate || s.Width.IsZero() {
			continue
		}
		steps := decimal.NewFromInt(mapSteps)
		x := vary.Range{In: r.Study.Rate, From: r.RateRange[0], To: r.RateRange[1]}
		y := vary.Range{In: s.In, From: s.Low.Value, To: s.High.Value}
		x.Step = x.To.Sub(x.From).Div(steps)
		y.Step = y.To.Sub(y.From).Div(steps)
		if r.Study.Inputs[s.In].Unit == lcc.Years { // work falls at whole years
			y.From, y.To, y.Step = decimal.Max(y.From.Floor(), decimal.NewFromInt(1)), y.To.Ceil(), y.Step.Ceil()
			if y.From.Equal(y.To) {
				continue
			}
		}
		return vary.Across(r, x, y)
	}
	return nil, nil
}

// alternativeNamed finds an alternative by its name.
func alternativeNamed(s *lcc.Study, command, flag, wanted string) (int, error) {
	for i, a := range s.Alternatives {
		if a.Name == wanted {
			return i, nil
		}
	}
	names := make([]string, len(s.Alternatives))
	for i, a := range s.Alternatives {
		names[i] = a.Name
	}
	return 0, usageError{command, fmt.Sprintf("--%s: there is no alternative %q; %s", flag, wanted, scenarios.There(names))}
}
