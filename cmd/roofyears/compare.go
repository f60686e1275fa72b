package main

import (
	"io"

	"github.com/urfave/cli/v2"

	"roofyears/report"
	"roofyears/report/text"
)

// compareCommand answers on the terminal.
func (c commands) compareCommand() *cli.Command {
	return &cli.Command{
		Name:      "compare",
		Usage:     "answer a study: which alternative costs least, side by side, what happens when",
		UsageText: name + " compare [--json] [-o OUT] FILE",
		Description: "Example: " + name + " compare example:cold-store\n" +
			"With --json, the machine-readable answer with every ledger line.",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "json", Usage: "write the machine-readable answer"},
			outputFlag(),
		},
		Action: c.onStudy(func(ctx *cli.Context, study report.Study, out output) error {
			return out(func(w io.Writer) error {
				if ctx.Bool("json") {
					return report.WriteAnswer(w, study)
				}
				return text.Write(w, report.Brief(study), c.layout(ctx))
			})
		}),
	}
}
