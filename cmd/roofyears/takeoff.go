package main

import (
	"fmt"
	"io"

	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
	"roofyears/report"
	"roofyears/report/text"
	"roofyears/scenarios/coating"
	"roofyears/scenarios/units"
)

// takeOffCommand tells what the work on a roof takes.
func (c commands) takeOffCommand() *cli.Command {
	return &cli.Command{
		Name:      "takeoff",
		Usage:     "list what was measured, what to buy, what to do in which order and what it costs",
		UsageText: name + " takeoff [--csv | --json] [-o OUT] FILE",
		Description: "Example: " + name + " takeoff --csv study.yaml -o take-off.csv\n" +
			"The study needs a take-off; its costs are the first costs that the study charges, to the cent.\n" +
			"With --csv, one table for spreadsheets, UTF-8, whose first column says what a row is: measured, buy, step,\n" +
			"cost or total. Numbers have a decimal point and all their digits; a text that begins with =, +, - or @ has\n" +
			"an apostrophe before it, so that no spreadsheet runs it. With --json, the same for programs.",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "csv", Usage: "write a table for spreadsheets"},
			&cli.BoolFlag{Name: "json", Usage: "write the take-off for programs"},
			outputFlag(),
		},
		Action: c.onStudy(func(ctx *cli.Context, study report.Study, out output) error {
			if ctx.Bool("csv") && ctx.Bool("json") {
				return usageError{"takeoff", "--csv and --json are given, expected one of them"}
			}
			if study.TakeOff == nil {
				fmt.Fprintf(c.std.err, "%s: the study has no take-off; a take-off needs a section %q\n", printable(study.File.Name), "takeoff")
				return errInput
			}
			return out(func(w io.Writer) error {
				switch {
				case ctx.Bool("csv"):
					return report.WriteTakeOffCSV(w, study)
				case ctx.Bool("json"):
					return report.WriteTakeOff(w, study)
				}
				return text.Write(w, report.TakeOffDocument(study), c.layout(ctx))
			})
		}),
	}
}

// takeOffOf adds to a study's take-off what the gauge shows; nil without one.
func takeOffOf(r *lcc.Result, off *takeoff.TakeOff) (*report.TakeOff, error) {
	if off == nil {
		return nil, nil
	}
	out := &report.TakeOff{TakeOff: *off, Notches: make([]decimal.Decimal, len(off.Steps))}
	for i, step := range off.Steps {
		if step.Material == nil || step.Material.Coat == nil || step.Material.Coat.Wet == lcc.NoRef {
			continue
		}
		var err error
		if out.Notches[i], err = notch(r, step.Material.Coat.Wet); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// notch is the notch of the gauge for a wet film, in the unit of the film; 0
// for no film.
func notch(r *lcc.Result, wet lcc.Ref) (decimal.Decimal, error) {
	if !r.Inputs[wet].IsPositive() {
		return decimal.Zero, nil
	}
	unit, err := units.Named(r.Study.Inputs[wet].UnitText)
	if err != nil {
		return decimal.Zero, err
	}
	at, err := coating.Notch(units.Of(r.Inputs[wet], unit))
	if err != nil {
		return decimal.Zero, err
	}
	at, err = at.To(unit)
	return at.Number, err
}
