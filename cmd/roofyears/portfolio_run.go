package main

import (
	"context"
	"errors"
	"io"
	"runtime"

	"roofyears/lcc"
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
	m.Asked, m.Idle = planColumns, !want.plans()
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
	far     portfolio.Far
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
