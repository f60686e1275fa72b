package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"github.com/urfave/cli/v2"

	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/report/html"
	"roofyears/report/html/verify"
	"roofyears/scenarios"
)

// verifyCommand proves a page.
func (c commands) verifyCommand() *cli.Command {
	return &cli.Command{
		Name:      "verify",
		Usage:     "tell whether every figure on a page is what the study it carries gives",
		UsageText: name + " verify PAGE.html",
		Description: "Example: " + name + " verify cold-store.html\n" +
			"The study that the page carries is computed again and the page is written again; everything on the two is\n" +
			"compared. A page saved by a browser is as good as the file itself. Every difference is told on standard\n" +
			"error, with exit code 1. Whether the study is the one you know, its SHA-256 tells.",
		Action: func(ctx *cli.Context) error {
			path, err := oneFile(ctx)
			if err != nil {
				return err
			}
			text, err := c.page(path)
			if err != nil {
				return err
			}
			return c.verify(path, text)
		},
	}
}

// page reads a page, from standard input for "-".
func (c commands) page(path string) ([]byte, error) {
	in := c.std.in
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return nil, &fs.PathError{Op: "read", Path: path, Err: errors.New("is a directory")}
		}
		in = f
	}
	return io.ReadAll(io.LimitReader(in, verify.MaxSize+1))
}

// verify compares a page with what its study gives.
func (c commands) verify(path string, text []byte) error {
	page, err := verify.Read(text)
	if err != nil {
		return c.unproved(path, err.Error())
	}
	if !page.Intact() {
		fmt.Fprintf(c.std.err, "%s: the study it carries was changed: its SHA-256 is %s, the page says %q\n",
			printable(path), html.SHA256(page.Carried.File.Text), printable(page.Sum))
	}
	switch logo, said := page.Logo(), page.Carried.Options.Logo; {
	case said != "" && logo == nil:
		return c.unproved(path, "the logo that it was made with is not on it")
	case said != "" && said != html.SHA256(logo):
		fmt.Fprintf(c.std.err, "%s: the logo was changed: its SHA-256 is %s, the page says %q\n",
			printable(path), html.SHA256(logo), printable(said))
	}
	again, err := c.again(path, page)
	if err != nil {
		return err
	}
	first, total, err := page.Compare(again)
	if err != nil {
		return err
	}
	if made := page.Carried.Version; made != version() {
		fmt.Fprintf(c.std.err, "%s: made by version %s, verified by version %s, which may write other words or scripts\n",
			printable(path), printable(made), version())
	}
	if total > 0 {
		return c.tellDifferences(path, first[:min(len(first), maxDifferences)], total)
	}
	return c.tellProof(page)
}

// again writes the page again from the study that it carries. The reader's
// warnings are on the page, so only errors are told.
func (c commands) again(path string, page *verify.Page) ([]byte, error) {
	carried := page.Carried
	file, diagnostics := scenarios.Read(scenarios.Source{
		Name: carried.File.Name, Text: carried.File.Text, Open: func(string) ([]byte, error) { return page.Logo(), nil },
	})
	if file == nil {
		c.tell(diagnostics)
		return nil, c.unproved(path, "the study it carries has errors")
	}
	if n := carried.Options.Trials; n < 1 || n > risk.MaxTrials {
		return nil, c.unproved(path, fmt.Sprintf("it says it was made with %d trials, expected 1 to %d", n, risk.MaxTrials))
	}
	if _, part, err := checkedLetterhead(carried.Options.Letterhead); err != nil {
		return nil, c.unproved(path, fmt.Sprintf("it says it was made with --%s: %v", part, err))
	}
	study, err := studyOf(file)
	if err != nil {
		return nil, err
	}
	if carried.Options.Logo != "" {
		logo, err := scenarios.ParseLogo(page.Logo())
		if err != nil {
			return nil, c.unproved(path, err.Error())
		}
		study.Logo = logoOf(logo)
	}
	study.Version = carried.Version
	doc, err := document(study, carried.Options)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = html.Write(&b, doc)
	return b.Bytes(), err
}

// unproved tells why a page cannot be verified.
func (c commands) unproved(path, why string) error {
	fmt.Fprintf(c.std.err, "%s: cannot be verified: %s\n", printable(path), printable(why))
	return errInput
}

// maxDifferences is how many differences are told; of the rest, the number.
const maxDifferences = 50

func (c commands) tellDifferences(path string, told []verify.Difference, total int) error {
	for _, d := range told {
		fmt.Fprintln(c.std.err, printable(d.String()))
	}
	if more := total - len(told); more > 0 {
		fmt.Fprintf(c.std.err, "and %d more\n", more)
	}
	fmt.Fprintf(c.std.err, "%s: %s: the page is not what its study gives\n", printable(path), report.Plural(total, "difference"))
	return errInput
}

// tellProof says that a page is what its study gives, and which study that is.
func (c commands) tellProof(page *verify.Page) error {
	file := page.Carried.File
	_, err := fmt.Fprintf(c.std.out, "every figure on the page is what its study gives\nstudy: %s, %s, SHA-256 %s\n",
		printable(file.Name), report.Plural(len(file.Text), "byte"), page.Sum)
	if err == nil {
		err = c.tellLetterhead(page)
	}
	if err == nil && page.Drawn > 0 {
		_, err = fmt.Fprintf(c.std.out, "not compared: what a browser drew of %s before it saved the page; the data it drew is what the study gives\n",
			report.Plural(page.Drawn, "chart"))
	}
	return err
}

// tellLetterhead says what of a proved page its study does not hold: the logo,
// and what flags gave.
func (c commands) tellLetterhead(page *verify.Page) error {
	var b strings.Builder
	if logo := page.Carried.Options.Logo; logo != "" {
		fmt.Fprintf(&b, "logo: %s, SHA-256 %s\n", report.Plural(len(page.Logo()), "byte"), logo)
	}
	if flags := flagsOf(page.Carried.Options.Letterhead); len(flags) > 0 {
		fmt.Fprintf(&b, "not in the study but given with the page: %s\n", strings.Join(flags, ", "))
	}
	_, err := io.WriteString(c.std.out, b.String())
	return err
}
