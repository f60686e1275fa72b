package main

import (
	"context"
	"errors"
	"io"
	"runtime"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/report"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// batchRows is how many rows are done at a time by one processor.
const batchRows = 256

// roofRun is a table of roofs that is being done.
type roofRun struct {
	file    *scenarios.File
	table   *portfolio.Table
	columns *portfolio.Columns
	result  *report.Roofs
	format  portfolio.Format // of the result
	strict  bool
	shown   *progress // nil: none
}

func newRoofRun(file *scenarios.File, name string, in io.Reader, o portfolio.Options, m portfolio.Meaning) (*roofRun, error) {
	r := &roofRun{file: file}
	var err error
	if r.table, err = portfolio.Open(name, in, o); err != nil {
		return nil, err
	}
	if r.columns, err = portfolio.Compile(file, r.table, m); err != nil {
		return nil, err
	}
	if r.result, err = report.NewRoofs(file.Study, r.columns.Free); err != nil {
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
	totals  report.RoofTotals
	rejects []portfolio.Reject
	empty   []int // empty cells, by input column
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

// worker does batches, with a kernel of its own.
type worker struct {
	*roofRun
	roofs *lcc.Roofs
	roof  portfolio.Roof
	costs []lcc.RoofCost
	cells []report.RoofCell // of the row at hand
	size  int               // of the rows of the batch before
}

func (r *roofRun) worker() (*worker, error) {
	roofs, err := r.file.Study.Roofs(r.columns.Refs)
	return &worker{roofRun: r, roofs: roofs, costs: make([]lcc.RoofCost, len(r.file.Study.Alternatives))}, err
}

func (w *worker) do(b *batch) {
	b.empty, b.out = make([]int, len(w.columns.Refs)), make([]byte, 0, w.size+w.size/8)
	defer func() { w.size = len(b.out) }()
	for _, row := range b.rows {
		reject := w.row(b, row)
		if reject == nil {
			continue
		}
		b.rejects = append(b.rejects, *reject)
		if w.strict {
			return
		}
	}
}

// row does one roof.
func (w *worker) row(b *batch, row portfolio.Row) *portfolio.Reject {
	if reject := w.columns.Roof(row, &w.roof); reject != nil {
		return reject
	}
	study, reject := w.evaluate(row)
	if reject != nil {
		return reject
	}
	for i, given := range w.roof.Given {
		if !given {
			b.empty[i]++
		}
	}
	out := report.Roof{ID: w.roof.ID, Name: w.roof.Name, Free: w.roof.Free, Study: study, Costs: w.costs, Answer: study.RoofAnswer(w.costs)}
	b.totals.Add(w.result, &out)
	switch w.format {
	case portfolio.NDJSON:
		b.out = w.result.AppendJSON(b.out, &out)
	case portfolio.XLSX:
		b.cells = w.result.AppendCells(b.cells, &out)
	default:
		w.cells = w.result.AppendCells(w.cells[:0], &out)
		b.out = w.result.AppendCSV(b.out, w.cells)
	}
	return nil
}

// evaluate finds what the alternatives cost for the roof at hand, and the study
// whose verdicts hold for it: the template, or the template read again where
// the reader looks at a value that the roof has of its own.
func (w *worker) evaluate(row portfolio.Row) (*lcc.Study, *portfolio.Reject) {
	study, roofs, values, given := w.file.Study, w.roofs, w.roof.Values, w.roof.Given
	if w.columns.Weighed {
		own := map[lcc.Ref]decimal.Decimal{}
		for i, in := range w.columns.Refs {
			if given[i] {
				own[in] = values[i]
			}
		}
		again, diagnostics := w.file.With(own)
		if again == nil {
			d := diagnostics[0]
			return nil, w.columns.Again(&w.roof, row, d.Path, d.What)
		}
		var err error
		if roofs, err = again.Study.Roofs(nil); err != nil {
			return nil, w.columns.Again(&w.roof, row, "", err.Error())
		}
		study, values, given = again.Study, nil, nil
	}
	if err := roofs.Costs(values, given, w.costs); err != nil {
		return nil, w.columns.Again(&w.roof, row, "", err.Error())
	}
	return study, nil
}
