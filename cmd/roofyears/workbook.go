package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/urfave/cli/v2"

	"roofyears/report"
	"roofyears/report/workbook"
)

// workbookCommand writes a study as a workbook that computes.
func (c commands) workbookCommand() *cli.Command {
	return &cli.Command{
		Name:      "workbook",
		Usage:     "write a spreadsheet of formulas, for the owner's finance office to recalculate",
		UsageText: name + " workbook -o OUT.xlsx FILE",
		Description: "Example: " + name + " workbook example:cold-store -o cold-store.xlsx\n" +
			"Change a rate, a price or a quantity on the sheet \"Inputs\", and every figure follows. Years of work are laid out;\n" +
			"a check turns red where another service life would need other years. With -o -, the workbook goes to standard output.",
		Flags: []cli.Flag{&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the workbook to `OUT.xlsx`"}},
		Action: func(ctx *cli.Context) error {
			if ctx.String("output") == "" && ctx.NArg() == 1 {
				return usageError{"workbook", "workbook needs -o OUT.xlsx, the file to write"}
			}
			return c.onStudy(c.writeWorkbook)(ctx)
		},
	}
}

// writeWorkbook writes the workbook of a study; one that a spreadsheet cannot
// hold is an error of the input.
func (c commands) writeWorkbook(ctx *cli.Context, study report.Study, out output) error {
	err := out(func(w io.Writer) error { return workbook.Write(w, study) })
	var refusal workbook.Refusal
	if errors.As(err, &refusal) {
		fmt.Fprintf(c.std.err, "%s: %s\n", printable(study.File.Name), printable(refusal.Error()))
		return errInput
	}
	return err
}
