package main

import (
	"slices"

	"roofyears/lcc"
	"roofyears/lcc/plan"
	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/scenarios/portfolio"
)

// worker does batches, with kernels of its own.
type worker struct {
	*roofRun
	lays    []layWorker         // by template
	sims    []*risk.RoofsWorker // by template; none without a simulation
	roof    portfolio.Roof
	scratch doneRoof          // when roofs are not kept
	cells   []report.RoofCell // of the row at hand
	size    int               // of the rows of the batch before
}

// doneRoof is a roof that was done and is kept.
type doneRoof struct {
	report.Roof
	row     portfolio.Roof
	from    portfolio.Row
	options plan.Roof // when a plan is made
}

func (r *roofRun) worker() (*worker, error) {
	w := &worker{roofRun: r}
	for i := range r.columns.Lays {
		lay := &r.columns.Lays[i]
		var made *plan.Template
		if r.plan != nil {
			made = r.plan.lays[i]
		}
		plain, err := newLayRoofs(lay.File.Study, lay.Refs, made)
		if err != nil {
			return nil, err
		}
		w.lays = append(w.lays, layWorker{
			lay, plain, make([]lcc.RoofCost, len(plain.study.Alternatives)), map[string]layRoofs{},
		})
		if r.risk == nil {
			continue
		}
		sim, err := r.risk.roofs[i].Worker()
		if err != nil {
			return nil, err
		}
		w.sims = append(w.sims, sim)
	}
	return w, nil
}

func (w *worker) do(b *batch) {
	b.far = make(portfolio.Far, len(w.columns.Inputs()))
	b.empty, b.out = make([]int, len(w.columns.Inputs())), make([]byte, 0, w.size+w.size/8)
	defer func() { w.size = len(b.out) }()
	for _, row := range b.rows {
		out := &w.scratch
		if w.keeps() {
			out = &doneRoof{}
		}
		reject := w.row(row, out)
		switch {
		case reject != nil:
			b.rejects = append(b.rejects, *reject)
			if w.strict {
				return
			}
		case w.keeps():
			out.row, out.from, out.Costs = w.roof.Clone(), row, slices.Clone(out.Costs)
			out.Free = out.row.Free
			b.roofs = append(b.roofs, out)
		default:
			w.finish(b, out, &w.roof, row)
		}
	}
	if w.risk != nil {
		w.simulate(b)
	}
	for _, out := range b.roofs {
		w.finish(b, out, &out.row, out.from)
	}
	if !w.gather {
		b.roofs = nil
	}
}

// keeps tells that roofs are kept for more than their row.
func (r *roofRun) keeps() bool { return r.gather || r.risk != nil }

// row does one roof; what it finds holds until the next one.
func (w *worker) row(row portfolio.Row, out *doneRoof) *portfolio.Reject {
	if reject := w.columns.Roof(row, &w.roof); reject != nil {
		return reject
	}
	l := &w.lays[w.roof.Template]
	on, reject := w.evaluate(l, row)
	if reject != nil {
		return reject
	}
	out.Roof = report.Roof{
		ID: w.roof.ID, Name: w.roof.Name, Free: w.roof.Free, Template: w.roof.Template,
		Study: on.study, Costs: l.costs, Answer: on.study.RoofAnswer(l.costs), Area: on.roofs.Area(),
	}
	if w.plan == nil {
		return nil
	}
	return w.options(l, on, row, out)
}

// finish counts a roof that was done, and writes its row unless all rows are
// written later.
func (w *worker) finish(b *batch, out *doneRoof, roof *portfolio.Roof, row portfolio.Row) {
	w.columns.Empty(roof, row, b.empty)
	w.columns.Far(roof, row, b.far)
	b.totals.Add(w.result, &out.Roof)
	if !w.gather {
		w.cells = w.appendRoof(b, &out.Roof, w.cells)
	}
}

// appendRoof appends the row of a roof to a batch, in the format that is asked
// for; cells are room that is used again.
func (r *roofRun) appendRoof(b *batch, roof *report.Roof, cells []report.RoofCell) []report.RoofCell {
	switch r.format {
	case portfolio.NDJSON:
		b.out = r.result.AppendJSON(b.out, roof)
	case portfolio.XLSX:
		b.cells = r.result.AppendCells(b.cells, roof)
	default:
		cells = r.result.AppendCells(cells[:0], roof)
		b.out = r.result.AppendCSV(b.out, cells)
	}
	return cells
}

// options prices what a plan may choose for the roof at hand.
func (w *worker) options(l *layWorker, on layRoofs, row portfolio.Row, out *doneRoof) *portfolio.Reject {
	rules, wrong, err := w.plan.rules(w.roof.Asked, on.study)
	if err != nil {
		return w.columns.Wrong(&w.roof, wrong, err.Error())
	}
	values, given := l.differs(&w.roof)
	if out.options, err = on.plan.Roof(values, given, rules); err != nil {
		return w.columns.Again(&w.roof, row, "", err.Error())
	}
	out.options.Name = out.ID
	return nil
}
