package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"

	"roofyears/lcc"
	"roofyears/lcc/vary"
	"roofyears/report"
	"roofyears/report/text"
	"roofyears/scenarios"
)

// sensitivityCommand moves inputs over their ranges.
func (c commands) sensitivityCommand() *cli.Command {
	return &cli.Command{
		Name:      "sensitivity",
		Usage:     "move one input, two, or every one over its range: who is the lowest then",
		UsageText: name + " sensitivity [--vary PATH [--from V --to V --step V]]… [--json] [-o OUT] FILE",
		Description: "Example: " + name + " sensitivity --vary study.discount_rate --from 0% --to 12% --step 1% example:school\n" +
			"Without --vary, every input that has a range is moved to its low and high value, one at a time.\n" +
			"With one --vary, the life-cycle costs along its range and every value at which two alternatives tie.\n" +
			"With two, a map of who is the lowest; give --from, --to and --step twice, in the same order.\n" +
			"PATH is the place of an input in the file, as \"" + name + " check\" lists it.",
		Flags: []cli.Flag{
			&cli.StringSliceFlag{Name: "vary", Usage: "move the input at `PATH`"},
			&cli.StringSliceFlag{Name: "from", Usage: "start at `VALUE`: 0% for the discount rate, else the input's low value"},
			&cli.StringSliceFlag{Name: "to", Usage: "end at `VALUE`: 12% for the discount rate, else the input's high value"},
			&cli.StringSliceFlag{Name: "step", Usage: "go in steps of `VALUE`: a twelfth of the range unless given"},
			&cli.BoolFlag{Name: "json", Usage: "write the result for programs"},
			outputFlag(),
		},
		Action: c.onStudy(func(ctx *cli.Context, study report.Study, out output) error {
			write, err := c.sensitivity(ctx, study)
			if err != nil {
				return err
			}
			return out(write)
		}),
	}
}

func outputFlag() cli.Flag {
	return &cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write to `FILE` instead of standard output"}
}

// layout gives how text is laid out for a command's output.
func (c commands) layout(ctx *cli.Context) text.Options {
	if ctx.String("output") != "" {
		return text.Options{}
	}
	return c.terminal()
}

// sensitivity does the study and gives what writes the result.
func (c commands) sensitivity(ctx *cli.Context, study report.Study) (func(io.Writer) error, error) {
	ranges, err := rangesOf(ctx, study.Result)
	if err != nil {
		return nil, err
	}
	json := ctx.Bool("json")
	show := func(doc *report.Document) func(io.Writer) error {
		return func(w io.Writer) error { return text.Write(w, doc, c.layout(ctx)) }
	}
	switch len(ranges) {
	case 0:
		swings, err := vary.Swings(study.Result)
		if err != nil {
			return nil, err
		}
		if json {
			return func(w io.Writer) error { return report.WriteSwings(w, study, swings) }, nil
		}
		return show(report.SwingsDocument(study, swings)), nil
	case 1:
		sweep, err := vary.Along(study.Result, ranges[0])
		if err != nil {
			return nil, usageError{"sensitivity", err.Error()}
		}
		if json {
			return func(w io.Writer) error { return report.WriteAlong(w, study, sweep) }, nil
		}
		return show(report.AlongDocument(study, sweep)), nil
	case 2:
		m, err := vary.Across(study.Result, ranges[0], ranges[1])
		if err != nil {
			return nil, usageError{"sensitivity", err.Error()}
		}
		if json {
			return func(w io.Writer) error { return report.WriteMap(w, study, m) }, nil
		}
		return show(report.MapDocument(study, m)), nil
	}
	panic("more than two ranges") // rangesOf gives no more
}

// rangesOf reads the ranges that the flags name.
func rangesOf(ctx *cli.Context, r *lcc.Result) ([]vary.Range, error) {
	paths := ctx.StringSlice("vary")
	if len(paths) > 2 {
		return nil, usageError{"sensitivity", fmt.Sprintf("--vary is given %d times, expected at most twice", len(paths))}
	}
	for _, flag := range []string{"from", "to", "step"} {
		given := len(ctx.StringSlice(flag))
		if given > len(paths) && !(len(paths) == 0 && given == 1) {
			return nil, usageError{"sensitivity", fmt.Sprintf("--%s is given %d times for %d of --vary", flag, given, len(paths))}
		}
		if given > 0 && len(paths) == 0 {
			paths = []string{"study.discount_rate"}
		}
	}
	var out []vary.Range
	for i, path := range paths {
		g, err := rangeOf(ctx, r, path, i)
		if err != nil {
			return nil, err
		}
		out = append(out, g)
	}
	return out, nil
}

func rangeOf(ctx *cli.Context, r *lcc.Result, path string, i int) (vary.Range, error) {
	in := r.Study.Find(path)
	if in == lcc.NoRef {
		return vary.Range{}, usageError{"sensitivity", fmt.Sprintf("--vary: there is no input %q%s", path, nearest(r.Study, path))}
	}
	if r.Study.IsDerived(in) {
		return vary.Range{}, usageError{"sensitivity", fmt.Sprintf("--vary: %q %s; vary one of those", path, r.Study.Inputs[in].Source)}
	}
	g := vary.Range{In: in}
	g.From, g.To = vary.Ends(r, in)
	for _, flag := range []struct {
		name string
		to   *decimal.Decimal
	}{{"from", &g.From}, {"to", &g.To}, {"step", &g.Step}} {
		given := ctx.StringSlice(flag.name)
		if i >= len(given) {
			continue
		}
		v, err := scenarios.ParseValue(given[i], r.Study.Inputs[in])
		if err != nil {
			return g, usageError{"sensitivity", fmt.Sprintf("--%s: %s", flag.name, err)}
		}
		*flag.to = v
	}
	if i < len(ctx.StringSlice("step")) && !g.Step.IsPositive() {
		return g, usageError{"sensitivity", fmt.Sprintf("--step is %s, expected more than 0", ctx.StringSlice("step")[i])}
	}
	if g.From.Equal(g.To) {
		return g, usageError{"sensitivity", fmt.Sprintf("%s has no range in the study; say --from and --to", path)}
	}
	if i >= len(ctx.StringSlice("step")) {
		g.Step = g.To.Sub(g.From).Div(decimal.NewFromInt(mapSteps))
	}
	return g, nil
}

// nearest suggests an input for a path that is none.
func nearest(s *lcc.Study, path string) string {
	paths := make([]string, len(s.Inputs))
	for i := range paths {
		paths[i] = s.Inputs[i].Path
	}
	for _, whole := range paths { // the key alone, as discount_rate
		if strings.HasSuffix(whole, "."+path) {
			return fmt.Sprintf("; did you mean %q?", whole)
		}
	}
	if near := scenarios.Nearest(path, paths); near != "" {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}
