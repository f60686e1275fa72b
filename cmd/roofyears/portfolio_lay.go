package main

import (
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/plan"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// layWorker does the roofs of one template.
type layWorker struct {
	lay   *portfolio.Lay
	plain layRoofs
	costs []lcc.RoofCost
	found map[string]layRoofs // by the findings that roofs have of their own
}

// layRoofs are a template, or the template read again, and what evaluates it.
type layRoofs struct {
	study *lcc.Study
	roofs *lcc.Roofs
	plan  *plan.Pricer // nil when no plan is made
}

// mostFound is how many templates a worker keeps that were read again.
const mostFound = 200

func newLayRoofs(study *lcc.Study, refs []lcc.Ref, made *plan.Template) (layRoofs, error) {
	on := layRoofs{study: study}
	var err error
	if on.roofs, err = study.Roofs(refs); err != nil || made == nil {
		return on, err
	}
	on.plan, err = made.Pricer(refs)
	return on, err
}

// differs is what a roof has of its own beside the study it is laid on; nothing
// where that study was read again with it.
func (l *layWorker) differs(roof *portfolio.Roof) ([]decimal.Decimal, []bool) {
	if l.lay.Weighed {
		return nil, nil
	}
	return roof.Values, roof.Given
}

// evaluate finds what the alternatives cost for the roof at hand, and the study
// whose verdicts hold for it.
func (w *worker) evaluate(l *layWorker, row portfolio.Row) (layRoofs, *portfolio.Reject) {
	on, reject := w.laid(l, row)
	if reject != nil {
		return on, reject
	}
	values, given := l.differs(&w.roof)
	if err := on.roofs.Costs(values, given, l.costs); err != nil {
		return on, w.columns.Again(&w.roof, row, "", err.Error())
	}
	if err := scenarios.Weigh(on.study, l.lay.Refs, values, given); err != nil {
		return on, w.columns.Again(&w.roof, row, "", err.Error())
	}
	return on, nil
}

// laid gives the template, or the template read again where the reader looks
// at a value or a finding that the roof has of its own.
func (w *worker) laid(l *layWorker, row portfolio.Row) (layRoofs, *portfolio.Reject) {
	texts := map[string]string{}
	for i, path := range l.lay.Texts {
		if text := w.roof.Texts[i]; text != "" {
			texts[path] = text
		}
	}
	own := map[lcc.Ref]decimal.Decimal{}
	refs, key := l.lay.Refs, ""
	if l.lay.Weighed {
		for i, in := range refs {
			if w.roof.Given[i] {
				own[in] = w.roof.Values[i]
			}
		}
		refs = nil
	} else {
		if len(texts) == 0 {
			return l.plain, nil
		}
		key = strings.Join(w.roof.Texts, "\x00")
		if on, has := l.found[key]; has {
			return on, nil
		}
	}
	again, diagnostics := l.lay.File.With(own, texts)
	if again == nil {
		d := diagnostics[0]
		reason := d.What
		if d.Expected != "" {
			reason += ", expected " + d.Expected
		}
		return layRoofs{}, w.columns.Again(&w.roof, row, d.Path, reason)
	}
	on, err := w.plan.layRoofs(again.Study, refs)
	if err != nil {
		return layRoofs{}, w.columns.Again(&w.roof, row, "", err.Error())
	}
	if key != "" && len(l.found) < mostFound {
		l.found[key] = on
	}
	return on, nil
}
