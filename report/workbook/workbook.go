// Package workbook writes a study as a spreadsheet that computes: every figure
// past the inputs is a formula, and its value in the file is the one that the
// ledger holds.
//
// The values are there for whoever reads a workbook without computing it: the
// preview of a mail program, a program that opens files from outside as
// protected, a script. The file asks to be computed anew when it is opened,
// and the tests do so with two spreadsheet programs and compare every cell.
package workbook

import (
	"io"

	"roofyears/report"
)

// Write writes the workbook of a study as an XLSX file: the same bytes for the
// same study. A study that a spreadsheet cannot hold gives a Refusal.
func Write(w io.Writer, study report.Study) error {
	curve, err := study.Result.RateCurve(report.WordsOf(study).CurveStep())
	if err != nil {
		return err
	}
	if err := fits(study, curve); err != nil {
		return err
	}
	b := lay(study, curve)
	if err := b.fits(); err != nil {
		return err
	}
	return b.save(w)
}
