package main

import (
	"fmt"
	"io"

	"github.com/urfave/cli/v2"

	"roofyears/report"
	"roofyears/report/text"
)

// checkCommand tells what is wrong with a file, and what it rests on.
func (c commands) checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "tell every error and warning of a study file, and every input with its source",
		UsageText: name + " check FILE",
		Description: "Example: " + name + " check study.yaml\n" +
			"Errors and warnings go to standard error, the inputs to standard output.",
		Action: c.onStudyRead(c.withLogo, func(ctx *cli.Context, study report.Study, out output) error {
			return out(func(w io.Writer) error {
				if err := text.Write(w, report.Check(study), c.terminal()); err != nil {
					return err
				}
				_, err := fmt.Fprintf(w, "\nno errors, %s\n", report.Plural(len(study.Warnings), "warning"))
				return err
			})
		}),
	}
}
