package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"

	"roofyears/lcc/plan"
	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/report/roofbook"
	"roofyears/scenarios/portfolio"
)

// mostTold is how many rows that cannot be done are told on standard error; of
// the rest, the number.
const mostTold = 200

// roofWriting is where the results of a table of roofs go.
type roofWriting struct {
	run      *roofRun
	took     *filesRead
	others   []fileOut // all that is written beside the roofs' own pages
	out      io.Writer
	book     *roofbook.Writer // nil: out has text
	rejects  io.Writer        // nil: nowhere but to standard error
	totalled io.Writer        // the totals as JSON; nil: nowhere
	page     *aside           // nil when none is asked for
	told     io.Writer
	totals   report.RoofTotals
	empty    []int
	far      portfolio.Far
	bad      int
	roofs    []*doneRoof       // when they are kept
	plan     *plan.Plan        // nil when none is asked for
	risk     *risk.RoofsResult // nil when none is asked for
}

// roofFilesOut are the files that a run writes; "" is none, and of the rows
// standard output.
type roofFilesOut struct{ rows, rejects, summary, page string }

// fileOut is a file that a flag names.
type fileOut struct{ flag, path string }

// named are the files that there are, standard output as "-".
func (to roofFilesOut) named() []fileOut {
	all := []fileOut{{"output", to.rows}, {"rejects", to.rejects}, {"summary", to.summary}, {"page", to.page}}
	return slices.DeleteFunc(all, func(f fileOut) bool { return f.path == "" })
}

// writeRoofs does the roofs and writes what comes of them. An interruption, a
// failure or a row that stops the run leaves no half file.
func (c commands) writeRoofs(r *roofRun, to roofFilesOut) (err error) {
	ctx, stop := signal.NotifyContext(context.Background(), ending(to)...)
	defer stop()
	w := &roofWriting{run: r, took: c.took, others: to.named(), told: c.std.err, out: c.std.out, empty: make([]int, len(r.columns.Inputs()))}
	var out, bad, sums *aside
	for _, file := range []struct {
		path string
		to   **aside
		use  *io.Writer
	}{{to.rows, &out, &w.out}, {to.rejects, &bad, &w.rejects}, {to.summary, &sums, &w.totalled}} {
		if file.path == "" || file.path == "-" {
			continue
		}
		if *file.to, err = openAside(file.path); err != nil {
			return errors.Join(err, c.end(out, false), c.end(bad, false))
		}
		*file.use = *file.to
	}
	if w.page, err = r.page.open(); err != nil {
		return errors.Join(err, c.end(out, false), c.end(bad, false), c.end(sums, false))
	}
	w.told = r.shown.above(w.told)
	err = w.write(ctx)
	r.shown.end()
	whole := err == nil || errors.Is(err, errRejected)
	if whole && r.pages != "" {
		fmt.Fprintf(c.std.err, "wrote %s into %s\n", report.Plural(len(w.roofs), "page"), printable(r.pages))
	}
	endErr := errors.Join(c.end(out, whole), c.end(bad, whole || errors.Is(err, errInput)), c.end(sums, whole), c.end(w.page, whole))
	switch {
	case endErr != nil:
		return endErr
	case errors.Is(err, errRejected):
		return errInput
	}
	return err
}

// interruptions are the signals by which somebody ends a run.
var interruptions = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP}

// ending are the signals upon which a run puts its files away and ends. A pipe
// that nobody reads any more ends one that has no files by itself.
func ending(to roofFilesOut) []os.Signal {
	if to != (roofFilesOut{rows: to.rows}) {
		return append([]os.Signal{syscall.SIGPIPE}, interruptions...)
	}
	return interruptions
}

// end commits a file when it is whole, and says so, and discards it otherwise;
// nil is none.
func (c commands) end(a *aside, whole bool) error {
	if a == nil {
		return nil
	}
	if !whole {
		a.discard()
		return nil
	}
	if err := a.commit(); err != nil {
		return err
	}
	c.wrote(a.name)
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
		return errInterrupted
	}
	if err != nil {
		return err
	}
	if w.run.risk != nil {
		if w.risk, err = w.run.risk.result(); err != nil {
			return err
		}
	}
	if err := w.gathered(ctx); err != nil {
		return err
	}
	if w.book != nil {
		if err := w.book.Finish(w.out, &w.totals); err != nil {
			return err
		}
	}
	if err := w.writePage(); err != nil {
		return err
	}
	w.summary()
	if w.totalled != nil {
		if err := w.run.result.WriteRoofsSummary(w.totalled, w.summed()); err != nil {
			return err
		}
	}
	if w.bad > 0 || w.plan != nil && !w.plan.HasPlan() {
		return errRejected
	}
	return nil
}

// summed is what the table comes to.
func (w *roofWriting) summed() report.RoofsSummary {
	s := report.RoofsSummary{Totals: &w.totals, NotDone: w.bad, Empty: map[string]int{}, Far: w.farCells(), Plan: w.plan, Risk: w.risk, IDs: w.ids()}
	for i, head := range w.run.columns.Inputs() {
		s.Empty[head] = w.empty[i]
	}
	return s
}

// ids are those of the roofs that are kept.
func (w *roofWriting) ids() []string {
	out := make([]string, len(w.roofs))
	for i, r := range w.roofs {
		out[i] = r.ID
	}
	return out
}

// gathered does what needs all roofs, and writes their rows and pages.
func (w *roofWriting) gathered(ctx context.Context) (err error) {
	if !w.run.gather {
		return nil
	}
	if w.run.plan != nil {
		if w.plan, err = w.run.plan.choose(w.roofs); err != nil {
			return err
		}
		if ctx.Err() != nil {
			return errInterrupted
		}
	}
	b := &batch{}
	var cells []report.RoofCell
	for _, r := range w.roofs {
		b.out, b.cells = b.out[:0], b.cells[:0]
		cells = w.run.appendRoof(b, &r.Roof, cells)
		if err := w.rows(b); err != nil {
			return err
		}
	}
	if w.run.pages == "" {
		return nil
	}
	names := roofFiles(w.ids())
	if err := w.apart(w.run.pages, names); err != nil {
		return err
	}
	if w.run.page != nil {
		w.linkPages(names)
	}
	return w.writePages(ctx, w.run.pages, names)
}

// errRejected ends a run of which some rows could not be done.
var errRejected = errors.New("rows were rejected")

// take writes what came of a batch.
func (w *roofWriting) take(b *batch) error {
	if err := w.rows(b); err != nil {
		return err
	}
	w.run.shown.step(len(b.rows))
	w.roofs = append(w.roofs, b.roofs...)
	if err := w.run.page.roomFor(len(w.roofs)); err != nil {
		return err
	}
	w.totals.Join(&b.totals)
	for i, n := range b.empty {
		w.empty[i] += n
	}
	w.far.Join(b.far)
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

// summary tells the totals, which cells were empty or are far from the template's
// value, and how many rows could not be done.
func (w *roofWriting) summary() {
	for _, line := range w.run.result.RoofTotalLines(&w.totals) {
		fmt.Fprintln(w.told, printable(line))
	}
	some := w.totals.Count > 0 // of no roofs there is no risk and nothing to plan
	if w.risk != nil && some {
		for _, line := range w.run.result.RiskLines(w.risk) {
			fmt.Fprintln(w.told, printable(line))
		}
	}
	if w.plan != nil && some {
		for _, line := range append(w.run.result.PlanLines(w.plan, w.ids()), w.run.plan.remarks()...) {
			fmt.Fprintln(w.told, printable(line))
		}
	}
	for i, head := range w.run.columns.Inputs() {
		if n := w.empty[i]; n > 0 {
			fmt.Fprintf(w.told, "%s: %s empty, where the template's value holds\n", printable(head), cells(n))
		}
	}
	if w.run.plan == nil {
		if remark := idleColumns(w.run.columns.AskedHeads()); remark != "" {
			fmt.Fprintln(w.told, printable(remark))
		}
	}
	heads, meant := w.run.columns.Nearly()
	for i, head := range heads {
		fmt.Fprintln(w.told, printable(fmt.Sprintf("the column %q is carried through; call it %q if it is that, or say --map %q", head, meant[i], head+"="+meant[i])))
	}
	for _, far := range w.farCells() {
		fmt.Fprintln(w.told, printable(straight.Replace(far.Line())))
	}
	if slices.ContainsFunc(w.run.columns.Lays, func(l portfolio.Lay) bool { return l.File.Tax != nil }) {
		fmt.Fprintln(w.told, "the figures are before tax; the roofs' own pages, of --pages, tell what is left after it")
	}
	if w.bad > 0 {
		more := ""
		if w.bad > mostTold {
			more = fmt.Sprintf(", the first %d of them told above", mostTold)
		}
		fmt.Fprintf(w.told, "%s not done%s\n", report.Plural(w.bad, "row"), more)
	}
}

// straight has the quotation marks of messages, where a page has curved ones.
var straight = strings.NewReplacer("“", `"`, "”", `"`, "’", "'")

// farCells are the columns with cells that are far from the template's value.
func (w *roofWriting) farCells() []report.FarCells {
	var out []report.FarCells
	heads := w.run.columns.Inputs()
	for i, cells := range w.far {
		if cells.Count > 0 {
			out = append(out, report.FarCells{Head: heads[i], Count: cells.Count, Row: cells.Line, Text: cells.Text, Factor: portfolio.FarFactor})
		}
	}
	return out
}

func cells(n int) string {
	if n == 1 {
		return "1 cell is"
	}
	return report.Plural(n, "cell") + " are"
}
