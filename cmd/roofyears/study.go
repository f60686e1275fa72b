package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"roofyears/lcc"
	"roofyears/lcc/tax"
	"roofyears/report"
	"roofyears/scenarios"
)

// examplePrefix stands before the name of an embedded example.
const examplePrefix = "example:"

// read reads a study file and tells everything that is wrong with it, or
// suspicious, on standard error. What does not show the logo does not need the
// file of it.
func (c commands) read(path string, logo bool) (*scenarios.File, error) {
	src, err := c.source(path)
	if err != nil {
		return nil, err
	}
	if !logo {
		src.Open = nil
	}
	file, diagnostics := scenarios.Read(src)
	c.tell(diagnostics)
	if file == nil {
		return nil, errInput
	}
	return file, nil
}

// tell writes what is to be said of a file to standard error; the file's name
// may hold what a terminal would act on.
func (c commands) tell(diagnostics []scenarios.Diagnostic) {
	for _, d := range diagnostics {
		d.File = printable(d.File)
		fmt.Fprintln(c.std.err, d)
	}
}

// output writes a command's result where its flags say.
type output func(write func(io.Writer) error) error

// action is what a command does with a study.
type action func(ctx *cli.Context, study report.Study, out output) error

// onStudy is what a command does that works on one study: it reads the file
// and does the plain study first.
func (c commands) onStudy(do action) cli.ActionFunc {
	return c.onStudyRead(func(_ *cli.Context, path string) (report.Study, error) { return c.study(path) }, do)
}

// onStudyRead is onStudy for a command that reads the file in its own way.
func (c commands) onStudyRead(read func(ctx *cli.Context, path string) (report.Study, error), do action) cli.ActionFunc {
	return func(ctx *cli.Context) error {
		path, err := oneFile(ctx)
		if err != nil {
			return err
		}
		study, err := read(ctx, path)
		if err != nil {
			return err
		}
		return do(ctx, study, func(write func(io.Writer) error) error {
			return c.write(ctx.String("output"), write)
		})
	}
}

// source finds a study file: an embedded example, standard input or a file.
func (c commands) source(path string) (scenarios.Source, error) {
	if wanted, ok := strings.CutPrefix(path, examplePrefix); ok {
		src, found := scenarios.Example(wanted)
		if !found {
			return src, usageError{text: fmt.Sprintf("there is no example %q; there are %s", wanted, strings.Join(scenarios.ExampleNames(), ", "))}
		}
		return src, nil
	}
	src, err := scenarios.Source{}, error(nil)
	if path == "-" {
		src, err = scenarios.LoadFrom("standard input", c.std.in)
	} else {
		src, err = scenarios.Load(path)
	}
	c.addInput(path)
	beside := scenarios.Beside(path)
	src.Open = func(name string) ([]byte, error) {
		c.took.add(os.Stat(filepath.Join(filepath.Dir(path), name)))
		return beside(name)
	}
	return src, err
}

// study reads a file and does its plain study, without the logo.
func (c commands) study(path string) (report.Study, error) { return c.studyFile(path, false) }

// withLogo reads a file with the logo that it names.
func (c commands) withLogo(_ *cli.Context, path string) (report.Study, error) {
	return c.studyFile(path, true)
}

// studyFile reads a file, with its logo or without, and does its plain study.
func (c commands) studyFile(path string, logo bool) (report.Study, error) {
	file, err := c.read(path, logo)
	if err != nil {
		return report.Study{}, err
	}
	return studyOf(file)
}

// taxOf is the study after tax; nil where it states no tax terms.
func taxOf(result *lcc.Result, terms *tax.Terms) (*tax.Result, error) {
	if terms == nil {
		return nil, nil
	}
	return tax.Evaluate(result, terms)
}

// studyOf does the plain study of a file that was read.
func studyOf(file *scenarios.File) (report.Study, error) {
	result, err := file.Study.Evaluate()
	if err != nil { // the reader has checked the study, so this is a defect
		return report.Study{}, fmt.Errorf("%s: %w", file.Source.Name, err)
	}
	taxed, err := taxOf(result, file.Tax)
	if err != nil { // terms that the reader has checked
		return report.Study{}, fmt.Errorf("%s: %w", file.Source.Name, err)
	}
	off, err := takeOffOf(result, file.TakeOff)
	if err != nil { // units that the reader has checked
		return report.Study{}, fmt.Errorf("%s: %w", file.Source.Name, err)
	}
	out := report.Study{
		Result: result, Warnings: file.Warnings, Version: version(), File: report.NamedStudy(file.Source.Name, file.Source.Text),
		Letterhead: report.Letterhead(file.Letterhead), Logo: logoOf(file.Logo), TakeOff: off, Tax: taxed, CoolRoofs: file.CoolRoofs,
	}
	for _, s := range file.Structure {
		out.Settings = append(out.Settings, report.Setting{Path: s.Path, Label: s.Label, Value: s.Value})
	}
	return out, nil
}
