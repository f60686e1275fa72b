package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"github.com/urfave/cli/v2"

	"roofyears/report"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// portfolioCommand compares the choices for many roofs.
func (c commands) portfolioCommand() *cli.Command {
	return &cli.Command{
		Name:      "portfolio",
		Usage:     "compare the choices for every roof of a table, with one study as the template",
		UsageText: name + " portfolio [--format csv|ndjson|xlsx] [--map HEAD=PATH]… [--template NAME=FILE]… [--strict] [--plan] [--trials N] [--page PAGE.html] [--pages FOLDER] [--rejects FILE] [-o OUT] TEMPLATE ROOFS",
		Description: "Example: " + name + " portfolio example:portfolio example:portfolio -o answers.csv\n" +
			"A row of ROOFS is a roof. The head of a column is the path of an input in the template, as \"" + name + " check\"\n" +
			"lists it, or id (needed, no two alike), name, or any other text without a point: that is carried through.\n" +
			"An empty cell means the template's value. ROOFS is CSV, NDJSON (a JSON object a line) or a workbook by its name,\n" +
			".csv, .ndjson or .xlsx; standard input is -, with --in. Rows stream, in the order of input. A row that cannot be done is told\n" +
			"on standard error and left out; the exit code is then 1. With a plan the columns must_do (yes, or the year by which a\n" +
			"work has to start), not_before (a year) and only (an alternative) bind a roof.",
		Flags: append(roofsPageFlags(),
			&cli.StringFlag{Name: "in", Usage: "read ROOFS as `FORMAT`, csv, ndjson or xlsx"},
			&cli.StringFlag{Name: "sheet", Usage: "read the sheet `NAME` of a workbook, not the first"},
			&cli.StringFlag{Name: "format", Usage: "write `FORMAT`, csv, ndjson or xlsx: csv unless OUT ends with .ndjson or .xlsx"},
			&cli.StringFlag{Name: "separator", Usage: "divide the cells of a CSV table at `CHARACTER`, or tab", Value: ","},
			&cli.StringFlag{Name: "decimal", Usage: "numbers of the table have a decimal `MARK`, a point or a comma", Value: "."},
			&cli.StringSliceFlag{Name: "map", Usage: "the column HEAD is the input PATH, id or name: `HEAD=PATH`"},
			&cli.StringSliceFlag{Name: "template", Usage: "rows whose column template says NAME are laid on another template: `NAME=FILE`"},
			&cli.BoolFlag{Name: "plan", Usage: "plan which roofs to do when, within the budget and crews that the template states"},
			&cli.StringSliceFlag{Name: "budget", Usage: "plan which roofs to do when, with works of at most `YEAR=AMOUNT`, several with commas between; 2027-2031=1500000 is each year alike"},
			&cli.StringSliceFlag{Name: "crew", Usage: "and with at most `YEAR=AREA` worked on, in the template's unit of area"},
			&cli.IntFlag{Name: "trials", Usage: "draw `N` futures: how sure is each roof's answer, and what may all cost together"},
			&cli.Uint64Flag{Name: "seed", Usage: "start the draws at seed `N`; the same seed gives the same result", Value: 1},
			&cli.StringFlag{Name: "pages", Usage: "write the page of each roof into `FOLDER`, which is made if need be, named after its id"},
			&cli.BoolFlag{Name: "strict", Usage: "stop at the first row that cannot be done, and write no file"},
			&cli.StringFlag{Name: "rejects", Usage: "write the rows that cannot be done to `FILE`, as CSV"},
			&cli.StringFlag{Name: "summary", Usage: "write the totals, and the plan, to `FILE`, as JSON"},
			outputFlag(),
		),
		Action: c.portfolio,
	}
}

// portfolio reads the command line, opens everything and runs.
func (c commands) portfolio(ctx *cli.Context) error {
	if ctx.NArg() != 2 {
		return usageError{"portfolio", fmt.Sprintf("portfolio needs a template and a table of roofs, found %s", report.Plural(ctx.NArg(), "argument"))}
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
	want, err := wantedFlags(ctx)
	if err != nil {
		return err
	}
	format, err := c.formatOf(ctx)
	if err != nil {
		return err
	}
	files, err := templateFiles(template, ctx.StringSlice("template"))
	if err != nil {
		return err
	}
	templates, err := c.templates(files, ctx.String("pages") != "")
	if err != nil {
		return err
	}
	in, shown, err := c.openRoofs(rows)
	if err != nil {
		return err
	}
	defer in.Close()
	to := roofFilesOut{ctx.String("output"), ctx.String("rejects"), ctx.String("summary"), ctx.String("page")}
	if err := c.checkRoofFiles(to); err != nil {
		return err
	}
	watched := watch(in)
	r, err := newRoofRun(templates, printable(shown), watched, o, meaning, want)
	if err != nil {
		return c.unreadable(err)
	}
	r.format, r.strict, r.pages = format, ctx.Bool("strict"), ctx.String("pages")
	if r.page, err = roofsPageOf(ctx, templates, shown); err != nil {
		return err
	}
	r.gather = r.gather || r.pages != "" || r.page != nil
	r.shown = c.progress(watched, to.rows)
	return c.unreadable(c.writeRoofs(r, to))
}

// checkRoofFiles refuses to write over what is read, or one file twice.
func (c commands) checkRoofFiles(to roofFilesOut) error {
	written := to.named()
	for i, file := range written {
		if err := c.took.refuse("portfolio", file.path); err != nil {
			return err
		}
		if file.flag != "output" && file.path == "-" {
			return usageError{"portfolio", fmt.Sprintf("--%s needs a file; standard output has the results", file.flag)}
		}
		for _, other := range written[:i] {
			if samePlace(other.path, file.path) {
				return usageError{"portfolio", fmt.Sprintf("--%s and --%s name the same file", other.flag, file.flag)}
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
	o := portfolio.Options{Sheet: ctx.String("sheet")}
	in, known := formatNamed(ctx.String("in"))
	switch {
	case !known:
		return o, usageError{"portfolio", fmt.Sprintf("--in is %q, expected csv, ndjson or xlsx", ctx.String("in"))}
	case in != "":
	case strings.HasPrefix(rows, examplePrefix):
		in = portfolio.CSV
	default:
		if in = formatOfName(rows); in == "" {
			return o, usageError{"portfolio", fmt.Sprintf("the name %q does not say how the table is written; say --in csv, --in ndjson or --in xlsx", rows)}
		}
	}
	if o.Format = in; in == portfolio.XLSX {
		for _, flag := range []string{"separator", "decimal"} {
			if ctx.IsSet(flag) {
				return o, usageError{"portfolio", fmt.Sprintf("--%s is for a table that is a text; a workbook has cells, and numbers in them", flag)}
			}
		}
	} else if o.Sheet != "" {
		return o, usageError{"portfolio", "--sheet is for a workbook"}
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

// formatNamed is the format that a flag names; "" is none.
func formatNamed(text string) (portfolio.Format, bool) {
	f := portfolio.Format(text)
	return f, f == "" || f == portfolio.CSV || f == portfolio.NDJSON || f == portfolio.XLSX
}

// formatOfName is the format that the name of a file tells; "" is none. The
// name of an old workbook is known, so that the reader says what to do.
func formatOfName(file string) portfolio.Format {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".csv":
		return portfolio.CSV
	case ".ndjson":
		return portfolio.NDJSON
	case ".xlsx", ".xlsm", ".xls":
		return portfolio.XLSX
	}
	return ""
}

// formatOf tells the format of the result.
func (c commands) formatOf(ctx *cli.Context) (portfolio.Format, error) {
	out := ctx.String("output")
	format, known := formatNamed(ctx.String("format"))
	switch {
	case !known:
		return "", usageError{"portfolio", fmt.Sprintf("--format is %q, expected csv, ndjson or xlsx", ctx.String("format"))}
	case format == "":
		format = formatOfName(out)
		if ext := filepath.Ext(out); format == portfolio.XLSX && !strings.EqualFold(ext, ".xlsx") {
			return "", usageError{"portfolio", fmt.Sprintf("a workbook is written as .xlsx, not as %s", ext)}
		}
	}
	if format == portfolio.XLSX && (out == "" || out == "-") && isTerminal(c.std.out) {
		return "", usageError{"portfolio", "a workbook is no text for a terminal; name a file with --output"}
	}
	return format, nil
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
		c.addInput(path)
		return io.NopCloser(c.std.in), "standard input", nil
	}
	f, err := os.Open(path)
	c.addInput(path)
	return f, path, err
}
