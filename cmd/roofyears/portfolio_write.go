package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"roofyears/report"
	"roofyears/report/roofbook"
)

// mostTold is how many rows that cannot be done are told on standard error; of
// the rest, the number.
const mostTold = 200

// roofWriting is where the results of a table of roofs go.
type roofWriting struct {
	run     *roofRun
	out     io.Writer
	book    *roofbook.Writer // nil: out has text
	rejects io.Writer        // nil: nowhere but to standard error
	told    io.Writer
	totals  report.RoofTotals
	empty   []int
	bad     int
}

// writeRoofs does the roofs and writes what comes of them. An interruption, a
// failure or a row that stops the run leaves no half file.
func (c commands) writeRoofs(r *roofRun, path, rejects string) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	w := &roofWriting{run: r, told: c.std.err, out: c.std.out, empty: make([]int, len(r.columns.Refs))}
	var out, bad *aside
	var err error
	if path != "" && path != "-" {
		if out, err = openAside(path); err != nil {
			return err
		}
		w.out = out
	}
	if rejects != "" {
		if bad, err = openAside(rejects); err != nil {
			out.end(false)
			return err
		}
		w.rejects = bad
	}
	w.told = r.shown.above(w.told)
	err = w.write(ctx)
	r.shown.end()
	whole := err == nil || errors.Is(err, errRejected)
	endErr := errors.Join(out.end(whole), bad.end(whole || errors.Is(err, errInput)))
	switch {
	case endErr != nil:
		return endErr
	case errors.Is(err, errRejected):
		return errInput
	}
	return err
}

// end commits a file when it is whole, and discards it otherwise; nil is none.
func (a *aside) end(whole bool) error {
	switch {
	case a == nil:
		return nil
	case whole:
		return a.commit()
	}
	a.discard()
	return nil
}

// write writes heads, rows and the summary.
func (w *roofWriting) write(ctx context.Context) error {
	if err := w.begin(); err != nil {
		return err
	}
	defer w.close()
	if w.rejects != nil {
		if _, err := w.rejects.Write(report.AppendRejectHead(nil)); err != nil {
			return err
		}
	}
	err := w.run.do(ctx, w.take)
	if errors.Is(err, context.Canceled) {
		return errors.New("interrupted")
	}
	if err != nil {
		return err
	}
	if w.book != nil {
		if err := w.book.Finish(w.out, &w.totals); err != nil {
			return err
		}
	}
	w.summary()
	if w.bad > 0 {
		return errRejected
	}
	return nil
}

// errRejected ends a run of which some rows could not be done.
var errRejected = errors.New("rows were rejected")

// take writes what came of a batch.
func (w *roofWriting) take(b *batch) error {
	if err := w.rows(b); err != nil {
		return err
	}
	w.run.shown.step(len(b.rows))
	w.totals.Join(&b.totals)
	for i, n := range b.empty {
		w.empty[i] += n
	}
	for _, reject := range b.rejects {
		if w.bad++; w.bad <= mostTold {
			fmt.Fprintln(w.told, printable(reject.String()))
		}
		if w.rejects != nil {
			if _, err := w.rejects.Write(report.AppendReject(nil, report.Reject(reject))); err != nil {
				return err
			}
		}
		if w.run.strict {
			return errInput
		}
	}
	return nil
}

// summary tells the totals, which cells were empty and how many rows could not
// be done.
func (w *roofWriting) summary() {
	for _, line := range w.run.result.RoofTotalLines(&w.totals) {
		fmt.Fprintln(w.told, printable(line))
	}
	for i, n := range w.empty {
		if n > 0 {
			fmt.Fprintf(w.told, "%s: %s empty, where the template's value holds\n", printable(w.run.columns.Inputs[i]), cells(n))
		}
	}
	if w.bad > 0 {
		more := ""
		if w.bad > mostTold {
			more = fmt.Sprintf(", the first %d of them told above", mostTold)
		}
		fmt.Fprintf(w.told, "%s not done%s\n", report.Plural(w.bad, "row"), more)
	}
}

func cells(n int) string {
	if n == 1 {
		return "1 cell is"
	}
	return report.Plural(n, "cell") + " are"
}
