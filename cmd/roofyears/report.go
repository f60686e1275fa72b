package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/urfave/cli/v2"

	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/report/html"
)

// pageTrials is how many futures are drawn for a page unless said otherwise:
// they tell a chance to a standard error of 0.22 % at most, on a page that
// shows tenths of a per cent, in half the time of what "risk" draws.
const pageTrials = 50_000

// reportCommand writes the owner's page, and prints it.
func (c commands) reportCommand() *cli.Command {
	return &cli.Command{
		Name:  "report",
		Usage: "write the owner's page: one HTML file that needs nothing else; or print it",
		UsageText: name + " report -o PAGE.html [--pdf PAGE.pdf] [--paper a4|letter] [--logo FILE] [--contact LINE] [--note TEXT] FILE\n" +
			name + " report --into FOLDER FILE...",
		Description: "Example: " + name + " report example:cold-store -o cold-store.html\n" +
			"With -o -, the page goes to standard output. --pdf prints the page through a Chromium on this machine; with --pdf -, the PDF file goes to standard output. --into makes a page of each of many studies.",
		Flags: append(append(trialFlags(pageTrials), letterheadFlags()...),
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the page to `PAGE.html`"},
			&cli.StringFlag{Name: "into", Usage: "write the page of each study into `FOLDER`, which is made if need be"},
			&cli.StringFlag{Name: "pdf", Usage: "print the page to `PAGE.pdf`"},
			&cli.StringFlag{Name: "paper", Usage: "lay the page out for `PAPER`: letter or a4; unless given, letter for a roof in ft2, a4 for one in m2"},
		),
		Action: c.intoFolder(c.onStudyRead(c.reportStudy, func(ctx *cli.Context, study report.Study, out output) error {
			target, pdf := ctx.String("output"), ctx.String("pdf")
			if target == "" && pdf == "" {
				return usageError{"report", "report needs -o PAGE.html or --pdf PAGE.pdf, the file to write"}
			}
			if target != "" && pdf != "" && samePlace(target, pdf) {
				return usageError{"report", "--output and --pdf name the same file"}
			}
			if pdf == "-" && isTerminal(c.std.out) {
				return usageError{"report", "a PDF file is no text for a terminal; name a file with --pdf"}
			}
			if err := c.took.refuse("report", pdf); err != nil {
				return err
			}
			page, err := written(ctx, study)
			if err != nil {
				return err
			}
			if target != "" {
				if err := out(func(w io.Writer) error { _, err := w.Write(page); return err }); err != nil {
					return err
				}
			}
			if pdf != "" {
				return c.write(pdf, func(w io.Writer) error { return printPDF(w, page) })
			}
			return nil
		})),
	}
}

// written is the page of a study, as the flags ask for it.
func written(ctx *cli.Context, study report.Study) ([]byte, error) {
	options, err := reportOptions(ctx, study)
	if err != nil {
		return nil, err
	}
	doc, err := document(study, options)
	if err != nil {
		return nil, err
	}
	var page bytes.Buffer
	err = html.Write(&page, doc)
	return page.Bytes(), err
}

// intoFolder does many studies where --into asks for it.
func (c commands) intoFolder(one cli.ActionFunc) cli.ActionFunc {
	return func(ctx *cli.Context) error {
		if folder := ctx.String("into"); folder != "" {
			return c.pages(ctx, folder, ctx.Args().Slice())
		}
		return one(ctx)
	}
}

// reportStudy reads a study with the logo of the flag, or else of the file.
func (c commands) reportStudy(ctx *cli.Context, path string) (report.Study, error) {
	logo, err := c.logoFlag(ctx)
	if err != nil {
		return report.Study{}, err
	}
	study, err := c.studyFile(path, logo == nil)
	if logo != nil {
		study.Logo = logo
	}
	return study, err
}

// reportOptions reads what a page is made with besides its study.
func reportOptions(ctx *cli.Context, study report.Study) (report.Options, error) {
	o, err := riskOptions(ctx)
	if err != nil {
		return report.Options{}, err
	}
	paper, err := paperOf(ctx, "report", study.Result.Study.About.AreaUnit)
	if err != nil {
		return report.Options{}, err
	}
	l, err := letterheadOf(ctx)
	return report.Options{Trials: o.Trials, Seed: o.Seed, Paper: paper, Letterhead: l}, err
}

// paperOf is the paper that a page is laid out for: that of the flag, else the
// usual one.
func paperOf(ctx *cli.Context, command, areaUnit string) (report.Paper, error) {
	paper := report.Paper(strings.ToLower(ctx.String("paper")))
	switch {
	case paper == "":
		return usualPaper(areaUnit), nil
	case !paper.Known():
		return "", usageError{command, fmt.Sprintf("--paper: found %q, expected a4 or letter", ctx.String("paper"))}
	}
	return paper, nil
}

// usualPaper is the paper that is usual where roofs are measured in a unit.
func usualPaper(areaUnit string) report.Paper {
	if areaUnit == "m2" {
		return report.A4
	}
	return report.Letter
}

// document makes the owner's document of a plain study. It carries what it was
// made from, so that verify can make it again.
func document(study report.Study, options report.Options) (doc *report.Document, err error) {
	study.Options = options
	study.Options.Logo = logoSum(study.Logo)
	if study.Change, err = change(study.Result); err != nil {
		return nil, err
	}
	if study.Risk, err = risk.Run(study.Result.Study, risk.Options{Trials: options.Trials, Seed: options.Seed}); err != nil {
		return nil, err
	}
	return report.Build(study)
}
