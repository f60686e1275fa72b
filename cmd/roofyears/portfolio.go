package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/urfave/cli/v2"

	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// portfolioCommand compares the choices for many roofs.
func (c commands) portfolioCommand() *cli.Command {
	return &cli.Command{
		Name:      "portfolio",
		Usage:     "compare the choices for every roof of a table, with one study as the template",
		UsageText: name + " portfolio [--format csv|ndjson] [--map HEAD=PATH]… [--template NAME=FILE]… [--strict] [--rejects FILE] [--page PAGE.html] [-o OUT] TEMPLATE ROOFS",
		Description: "Example: " + name + " portfolio example:portfolio example:portfolio -o answers.csv\n" +
			"A row of ROOFS is a roof. The head of a column is the path of an input in the template, as \"" + name + " check\"\n" +
			"lists it, or id (needed, no two alike), name, or any other text without a point: that is carried through.\n" +
			"An empty cell means the template's value. ROOFS is CSV or NDJSON (a JSON object a line) by its name, .csv or\n" +
			".ndjson; standard input is -, with --in. Rows stream, in the order of input. A row that cannot be done is told\n" +
			"on standard error and left out; the exit code is then 1.",
		Flags: append(roofsPageFlags(),
			&cli.StringFlag{Name: "in", Usage: "read ROOFS as `FORMAT`, csv or ndjson"},
			&cli.StringFlag{Name: "format", Usage: "write `FORMAT`, csv or ndjson: csv unless OUT ends with .ndjson"},
			&cli.StringFlag{Name: "separator", Usage: "divide the cells of a CSV table at `CHARACTER`, or tab", Value: ","},
			&cli.StringFlag{Name: "decimal", Usage: "numbers of the table have a decimal `MARK`, a point or a comma", Value: "."},
			&cli.StringSliceFlag{Name: "map", Usage: "the column HEAD is the input PATH, id or name: `HEAD=PATH`"},
			&cli.StringSliceFlag{Name: "template", Usage: "rows whose column template says NAME are laid on another template: `NAME=FILE`"},
			&cli.StringSliceFlag{Name: "budget", Usage: "plan which roofs to do when, with works of at most `YEAR=AMOUNT`, several with commas between; 2027-2031=1500000 is each year alike"},
			&cli.StringSliceFlag{Name: "crew", Usage: "and with at most `YEAR=AREA` worked on, in the template's unit of area"},
			&cli.BoolFlag{Name: "strict", Usage: "stop at the first row that cannot be done, and write no file"},
			&cli.StringFlag{Name: "rejects", Usage: "write the rows that cannot be done to `FILE`, as CSV"},
			outputFlag(),
		),
		Action: c.portfolio,
	}
}

// portfolio reads the command line, opens everything and runs.
func (c commands) portfolio(ctx *cli.Context) error {
	if ctx.NArg() != 2 {
		return usageError{"portfolio", fmt.Sprintf("portfolio needs a template and a table of roofs, found %d arguments", ctx.NArg())}
	}
	template, rows := ctx.Args().Get(0), ctx.Args().Get(1)
	if template == "-" && rows == "-" {
		return usageError{"portfolio", "template and roofs cannot both be standard input"}
	}
	o, err := tableOptions(ctx, rows)
	if err != nil {
		return err
	}
	meaning, err := meaningOf(ctx)
	if err != nil {
		return err
	}
	want, err := planFlags(ctx)
	if err != nil {
		return err
	}
	json, err := writesJSON(ctx)
	if err != nil {
		return err
	}
	files, err := templateFiles(template, ctx.StringSlice("template"))
	if err != nil {
		return err
	}
	if err := checkRoofFiles(append(files.paths, rows), ctx.String("output"), ctx.String("rejects"), ctx.String("page")); err != nil {
		return err
	}
	templates, err := c.templates(files)
	if err != nil {
		return err
	}
	in, shown, err := c.openRoofs(rows)
	if err != nil {
		return err
	}
	defer in.Close()
	r, err := newRoofRun(templates, printable(shown), in, o, meaning, want)
	if err != nil {
		return c.unreadable(err)
	}
	r.json, r.strict = json, ctx.Bool("strict")
	if r.page, err = roofsPageOf(ctx, templates, shown); err != nil {
		return err
	}
	r.gather = r.gather || r.page != nil
	return c.unreadable(c.writeRoofs(r, ctx.String("output"), ctx.String("rejects")))
}

// checkRoofFiles refuses to write over what is read, or one file twice.
func checkRoofFiles(read []string, out, rejects, page string) error {
	written := []struct{ flag, path string }{{"--output", out}, {"--rejects", rejects}, {"--page", page}}
	for i, w := range written {
		switch {
		case w.path == "":
			continue
		case slices.ContainsFunc(read, func(other string) bool { return sameFile(w.path, other) }):
			return usageError{"portfolio", fmt.Sprintf("%s is a file that is read; name another one to write", w.path)}
		case w.path == "-" && i > 0:
			return usageError{"portfolio", w.flag + " needs a file; standard output has the results"}
		}
		for _, before := range written[:i] {
			if before.path != "" && (filepath.Clean(before.path) == filepath.Clean(w.path) || sameFile(before.path, w.path)) {
				return usageError{"portfolio", fmt.Sprintf("%s and %s name the same file", before.flag, w.flag)}
			}
		}
	}
	return nil
}

// unreadable tells what is wrong with a table, as a mistake of the input.
func (c commands) unreadable(err error) error {
	var known *portfolio.Unreadable
	if !errors.As(err, &known) {
		return err
	}
	fmt.Fprintln(c.std.err, printable(known.Error()))
	return errInput
}

// tableOptions say how the table of roofs is written.
func tableOptions(ctx *cli.Context, rows string) (portfolio.Options, error) {
	o := portfolio.Options{Format: portfolio.CSV}
	switch in := ctx.String("in"); {
	case in == string(portfolio.CSV) || in == string(portfolio.NDJSON):
		o.Format = portfolio.Format(in)
	case in != "":
		return o, usageError{"portfolio", fmt.Sprintf("--in is %q, expected csv or ndjson", in)}
	case strings.HasPrefix(rows, examplePrefix), strings.EqualFold(filepath.Ext(rows), ".csv"):
	case strings.EqualFold(filepath.Ext(rows), ".ndjson"):
		o.Format = portfolio.NDJSON
	default:
		return o, usageError{"portfolio", fmt.Sprintf("the name %q does not say how the table is written; say --in csv or --in ndjson", rows)}
	}
	separator := ctx.String("separator")
	if separator == "tab" {
		separator = "\t"
	}
	c, size := utf8.DecodeRuneInString(separator)
	if size != len(separator) || strings.ContainsRune("\"\r\n\uFFFD", c) || c == utf8.RuneError {
		return o, usageError{"portfolio", fmt.Sprintf("--separator is %q, expected one character, such as ';', or tab", separator)}
	}
	o.Separator = c
	return o, nil
}

// meaningOf reads what columns stand for and how numbers are written.
func meaningOf(ctx *cli.Context) (portfolio.Meaning, error) {
	m := portfolio.Meaning{Map: map[string]string{}}
	switch mark := ctx.String("decimal"); mark {
	case ".":
	case ",":
		m.DecimalComma = true
	default:
		return m, usageError{"portfolio", fmt.Sprintf("--decimal is %q, expected . or ,", mark)}
	}
	for _, pair := range ctx.StringSlice("map") {
		at := strings.LastIndex(pair, "=")
		if at <= 0 || at == len(pair)-1 {
			return m, usageError{"portfolio", fmt.Sprintf("--map is %q, expected HEAD=PATH", pair)}
		}
		if _, twice := m.Map[pair[:at]]; twice {
			return m, usageError{"portfolio", fmt.Sprintf("--map says twice what the column %q is", pair[:at])}
		}
		m.Map[pair[:at]] = pair[at+1:]
	}
	return m, nil
}

// writesJSON tells the format of the result.
func writesJSON(ctx *cli.Context) (bool, error) {
	switch format := ctx.String("format"); format {
	case "":
		return strings.EqualFold(filepath.Ext(ctx.String("output")), ".ndjson"), nil
	case string(portfolio.CSV), string(portfolio.NDJSON):
		return format == string(portfolio.NDJSON), nil
	default:
		return false, usageError{"portfolio", fmt.Sprintf("--format is %q, expected csv or ndjson", format)}
	}
}

// openRoofs finds a table: an embedded example, standard input or a file.
func (c commands) openRoofs(path string) (io.ReadCloser, string, error) {
	if wanted, ok := strings.CutPrefix(path, examplePrefix); ok {
		src, found := scenarios.ExampleTable(wanted)
		if !found {
			return nil, "", usageError{"portfolio", fmt.Sprintf("there is no example %q with a table of roofs; there is %s", wanted, scenarios.PortfolioExample)}
		}
		return io.NopCloser(strings.NewReader(string(src.Text))), src.Name, nil
	}
	if path == "-" {
		return io.NopCloser(c.std.in), "standard input", nil
	}
	f, err := os.Open(path)
	return f, path, err
}
