package main

import (
	"fmt"
	"io"

	"github.com/urfave/cli/v2"

	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/report/html"
)

// reportCommand writes the owner's page.
func (c commands) reportCommand() *cli.Command {
	return &cli.Command{
		Name:        "report",
		Usage:       "write the owner's page: one HTML file that needs nothing else",
		UsageText:   name + " report -o PAGE.html FILE",
		Description: "Example: " + name + " report example:cold-store -o cold-store.html\nWith -o -, the page goes to standard output.",
		Flags: append(trialFlags(),
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the page to `PAGE.html`"},
		),
		Action: c.onStudy(func(ctx *cli.Context, study report.Study, out output) error {
			target := ctx.String("output")
			if target == "" {
				return usageError{"report", "report needs -o PAGE.html, the file to write"}
			}
			options, err := riskOptions(ctx)
			if err != nil {
				return err
			}
			doc, err := document(study, options)
			if err != nil {
				return err
			}
			if err := out(func(w io.Writer) error { return html.Write(w, doc) }); err != nil {
				return err
			}
			if target != "-" {
				fmt.Fprintf(c.std.err, "wrote %s\n", target)
			}
			return nil
		}),
	}
}

// document makes the owner's document of a plain study. It carries what it was
// made from, so that verify can make it again.
func document(study report.Study, options risk.Options) (doc *report.Document, err error) {
	study.Options = report.Options{Trials: options.Trials, Seed: options.Seed}
	if study.Change, err = change(study.Result); err != nil {
		return nil, err
	}
	if study.Risk, err = risk.Run(study.Result.Study, options); err != nil {
		return nil, err
	}
	return report.Build(study)
}
