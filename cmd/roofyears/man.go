package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/urfave/cli/v2"

	"roofyears/lcc"
)

// manCommand writes the man page.
func (c commands) manCommand() *cli.Command {
	return &cli.Command{
		Name:      "man",
		Usage:     "write the man page of this program",
		UsageText: name + " man [-o OUT]",
		Description: "Example: " + name + " man -o " + name + ".1\n" +
			"Read it with \"man -l " + name + ".1\", or put it into a folder man1 of $MANPATH.",
		Flags: []cli.Flag{outputFlag()},
		Action: func(ctx *cli.Context) error {
			if err := noFile(ctx); err != nil {
				return err
			}
			return c.write(ctx.String("output"), func(w io.Writer) error {
				_, err := io.WriteString(w, manPage(ctx.App))
				return err
			})
		},
	}
}

// environment are the variables that are looked at.
var environment = [][2]string{
	{"NO_COLOR", "No colour when it is set, to whatever. There is colour on a terminal only."},
	{"TERM", "No colour when it is dumb."},
	{"PATH", "Where a Chromium is looked for, to print a page as PDF."},
}

// manFiles are the files that are read and written.
var manFiles = [][2]string{
	{"study.yaml", "A study file, YAML or JSON: what is on the roof, what each choice costs and how long it lasts. \"" + name + " new study.yaml\" writes one to start from, with comments; \"" + name + " schema\" writes its JSON Schema."},
	{"logo.png", "The logo that a study names under letterhead, beside the study file or in a folder below it."},
	{"roofs.csv", "A table of roofs for portfolio, CSV, or NDJSON by the ending .ndjson."},
}

// page is a man page in the making.
type page struct{ strings.Builder }

func (p *page) request(request, text string) {
	p.WriteString(strings.TrimRight("."+request+" "+text, " ") + "\n")
}

// text writes running text; a line is never taken for a request.
func (p *page) text(text string) { p.WriteString(roff(text) + "\n") }

// term writes what is explained, in bold, and the explanation.
func (p *page) term(term, text string) {
	p.request("TP", "")
	p.WriteString(`\fB` + roff(term) + `\fR` + "\n")
	p.text(text)
}

// shown writes lines as they stand.
func (p *page) shown(lines []string) {
	p.request("PP", "")
	p.request("EX", "")
	for _, line := range lines {
		p.text(line)
	}
	p.request("EE", "")
}

// roff escapes a text: hyphens stay hyphens, so that a command can be copied,
// and neither a dot nor a quote at the start is a request.
func roff(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, "^", `\(ha`, "~", `\(ti`, "`", `\(ga`, "'", `\(aq`).Replace(text)
	if strings.HasPrefix(text, ".") {
		text = `\&` + text
	}
	var out strings.Builder
	for _, c := range text {
		if c < 128 {
			out.WriteRune(c)
		} else {
			fmt.Fprintf(&out, `\[u%04X]`, c)
		}
	}
	return out.String()
}

// quoted is an argument of a request.
func quoted(text string) string { return `"` + strings.ReplaceAll(roff(text), `"`, `\(dq`) + `"` }

// manPage is the page, from what the help says.
func manPage(app *cli.App) string {
	p := &page{}
	p.request("TH", strings.Join([]string{strings.ToUpper(name), "1", quoted(lcc.Edition), quoted(name + " " + version()), quoted("User commands")}, " "))
	p.request("SH", "NAME")
	p.text(name + " - " + app.Usage)
	p.request("SH", "SYNOPSIS")
	p.text(app.UsageText)
	p.request("SH", "DESCRIPTION")
	p.text(strings.ReplaceAll(app.Description, "\n", " "))
	p.request("PP", "")
	p.text("Flags may stand before or after the file. Results go to standard output or to the file named, messages to standard error.")
	p.request("SH", "COMMANDS")
	for _, o := range helpOf(app) {
		p.command(o)
	}
	p.request("SH", quoted("EXIT STATUS"))
	for code, words := range exitWords {
		p.term(fmt.Sprint(code), words)
	}
	for _, s := range []struct {
		title string
		terms [][2]string
	}{{"ENVIRONMENT", environment}, {"FILES", manFiles}} {
		p.request("SH", s.title)
		for _, t := range s.terms {
			p.term(t[0], t[1])
		}
	}
	p.request("SH", "STANDARDS")
	p.text("Life-cycle costing as in ASTM E917 and NIST Handbook 135; this is edition " + lcc.Edition + " of the method.")
	return p.String()
}

// command writes a command: what it does, how it is called, its flags and its
// worked examples.
func (p *page) command(o commandHelp) {
	p.request("SS", quoted(o.name))
	p.text(o.usage)
	p.shown(strings.Split(o.synopsis, "\n"))
	if len(o.about) > 0 {
		p.request("PP", "")
		p.text(strings.Join(o.about, " "))
	}
	for _, f := range o.flags {
		p.term(strings.TrimSpace(strings.Join(f.names, ", ")+" "+f.value), f.usage)
	}
	p.request("PP", "")
	p.text("Example:")
	p.shown(o.examples)
}
