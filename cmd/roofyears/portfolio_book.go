package main

import (
	"errors"

	"roofyears/report/roofbook"
	"roofyears/scenarios/portfolio"
)

// begin writes what goes before the rows.
func (w *roofWriting) begin() error {
	switch w.run.format {
	case portfolio.NDJSON:
		return nil
	case portfolio.XLSX:
		var err error
		w.book, err = roofbook.New(w.run.result)
		return err
	}
	_, err := w.out.Write(w.run.result.AppendHead(nil))
	return err
}

// rows writes the rows of a batch.
func (w *roofWriting) rows(b *batch) error {
	if w.book == nil {
		_, err := w.out.Write(b.out)
		return err
	}
	columns := w.run.result.Columns()
	for rest := b.cells; len(rest) > 0; rest = rest[columns:] {
		err := w.book.Row(rest[:columns])
		var full roofbook.TooMany
		if errors.As(err, &full) {
			return usageError{"portfolio", full.Error()}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// close removes what a workbook needs while it is written.
func (w *roofWriting) close() {
	if w.book != nil {
		w.book.Close()
	}
}
