package main

import (
	"context"
	"errors"
	"io"
	"runtime"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/plan"
	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/scenarios/portfolio"
)

// batchRows is how many rows are done at a time by one processor.
const batchRows = 256

// roofRun is a table of roofs that is being done.
type roofRun struct {
	table   *portfolio.Table
	columns *portfolio.Columns
	result  *report.Roofs
	plan    *planning        // nil when none is asked for
	gather  bool             // roofs are kept until all are done
	page    *roofsPage       // nil when none is asked for
	pages   string           // folder of the roofs' own pages; "" when none are written
	risk    *simulation      // nil when none is asked for
	format  portfolio.Format // of the result
	strict  bool
	shown   *progress // nil: none
}

func newRoofRun(templates []portfolio.Template, name string, in io.Reader, o portfolio.Options, m portfolio.Meaning, want wanted) (*roofRun, error) {
	r := &roofRun{}
	var err error
	if want.plans() {
		m.Asked = planColumns
	}
	if r.table, err = portfolio.Open(name, in, o); err != nil {
		return nil, err
	}
	if r.columns, err = portfolio.Compile(templates, r.table, m); err != nil {
		return nil, err
	}
	var studies []*lcc.Study
	var names []string // nil when no column tells them
	for _, t := range templates {
		studies = append(studies, t.File.Study)
		if r.columns.Named {
			names = append(names, t.Name)
		}
	}
	columns := report.RoofColumns{Templates: names, Free: r.columns.Free}
	if want.plans() {
		r.gather = true
		if want, err = want.stated(templates[0].File.Portfolio); err != nil {
			return nil, err
		}
		if r.plan, err = newPlanning(want, templates); err != nil {
			return nil, err
		}
		columns.Plan = r.plan.calendar()
	}
	if want.trials > 0 {
		if r.risk, err = newSimulation(want, r.columns.Lays); err != nil {
			return nil, &portfolio.Unreadable{File: name, Reason: err.Error()}
		}
		columns.Chances = true
	}
	if r.result, err = report.NewRoofs(studies, columns); err != nil {
		return nil, &portfolio.Unreadable{File: name, Reason: err.Error()}
	}
	return r, nil
}

// batch is some rows, and what came of them.
type batch struct {
	rows []portfolio.Row
	err  error // of reading on, after these rows
	done chan struct{}

	out     []byte            // of CSV and NDJSON
	cells   []report.RoofCell // of a workbook, row by row
	roofs   []*doneRoof       // when roofs are kept
	totals  report.RoofTotals
	rejects []portfolio.Reject
	empty   []int // empty cells, by column that is an input
}

// do does all rows, on all processors, and hands the batches to take in the
// order of the rows. It ends early when take fails or the context ends.
func (r *roofRun) do(ctx context.Context, take func(*batch) error) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	workers := runtime.GOMAXPROCS(0)
	jobs, ordered := make(chan *batch, workers), make(chan *batch, 4*workers)
	go r.read(ctx, jobs, ordered)
	for range workers {
		w, err := r.worker()
		if err != nil {
			return err
		}
		if r.risk != nil {
			r.risk.workers = append(r.risk.workers, w.sims)
		}
		go func() {
			for b := range jobs {
				w.do(b)
				close(b.done)
			}
		}()
	}
	for {
		var b *batch
		select {
		case <-ctx.Done():
			return ctx.Err()
		case b = <-ordered:
		}
		if b == nil {
			return nil
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-b.done:
		}
		if err := take(b); err != nil {
			return err
		}
		if b.err != nil {
			return b.err
		}
	}
}

// read divides the table into batches, and tells ids that were there before.
func (r *roofRun) read(ctx context.Context, jobs, ordered chan<- *batch) {
	defer close(ordered)
	defer close(jobs)
	seen := portfolio.NewSeen()
	for ended := false; !ended; {
		b := &batch{done: make(chan struct{})}
		for len(b.rows) < batchRows && !ended {
			row, err := r.table.Next()
			if ended = err != nil; ended {
				if !errors.Is(err, io.EOF) {
					b.err = err
				}
				continue
			}
			r.columns.Once(&row, seen)
			b.rows = append(b.rows, row)
		}
		for _, to := range []chan<- *batch{ordered, jobs} {
			select {
			case to <- b:
			case <-ctx.Done():
				return
			}
		}
	}
}

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

// doneRoof is a roof that was done and is kept.
type doneRoof struct {
	report.Roof
	row     portfolio.Roof
	from    portfolio.Row
	options plan.Roof // when a plan is made
}

// mostFound is how many templates a worker keeps that were read again.
const mostFound = 200

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

func newLayRoofs(study *lcc.Study, refs []lcc.Ref, made *plan.Template) (layRoofs, error) {
	on := layRoofs{study: study}
	var err error
	if on.roofs, err = study.Roofs(refs); err != nil || made == nil {
		return on, err
	}
	on.plan, err = made.Pricer(refs)
	return on, err
}

func (w *worker) do(b *batch) {
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
