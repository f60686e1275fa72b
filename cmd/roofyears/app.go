package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"github.com/urfave/cli/v2"

	"roofyears/scenarios"
)

// stream holds the three standard streams.
type stream struct {
	in       io.Reader
	out, err io.Writer
}

// The exit codes.
const (
	exitDone    = 0
	exitInput   = 1 // the input has errors
	exitUsage   = 2 // the command line is wrong
	exitFailure = 3 // disk, missing program, …
)

// exitWords say what the exit codes mean, each at its place.
var exitWords = []string{exitDone: "done", exitInput: "the input has errors", exitUsage: "wrong usage", exitFailure: "a failure, such as a full disk"}

func exitCodes() string {
	said := make([]string, len(exitWords))
	for code, words := range exitWords {
		said[code] = fmt.Sprintf("%d %s", code, words)
	}
	return strings.Join(said, ", ")
}

// run is the whole command: arguments and streams in, exit code out.
func run(args []string, std stream) int {
	out := &watched{Writer: std.out}
	std.out = out
	app := newApp(std)
	args, err := flagsFirst(app, args)
	if err == nil {
		err = app.Run(args)
	}
	if err == nil {
		err = out.err
	}
	return told(std.err, err)
}

// watched remembers a failure to write, which the help of the command line
// library does not tell.
type watched struct {
	io.Writer
	err error
}

func (w *watched) Write(b []byte) (int, error) {
	n, err := w.Writer.Write(b)
	if err != nil {
		w.err = err
	}
	return n, err
}

// told writes an error to standard error and gives the exit code for it.
func told(w io.Writer, err error) int {
	var usage usageError
	var help cli.ExitCoder // the library's: there is no such topic of help
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errInput):
		return exitInput // the diagnostics have been told
	case errors.As(err, &help):
		return told(w, usageError{text: strings.ToLower(help.Error()[:1]) + help.Error()[1:]})
	case errors.As(err, &usage):
		fmt.Fprintf(w, "%s: %s\n", name, printable(usage.text))
		fmt.Fprintf(w, "see %q\n", strings.TrimSpace(name+" help "+usage.command))
		return exitUsage
	}
	all := []error{err}
	if several, ok := err.(interface{ Unwrap() []error }); ok {
		all = several.Unwrap()
	}
	for _, one := range all {
		fmt.Fprintf(w, "%s: %s\n", name, printable(one.Error()))
	}
	return exitFailure
}

// printable escapes what a terminal would act on, as a file's name may have.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return '�'
	}, s)
}

const name = "roofyears"

// errInput ends a command whose input has errors, once they are told.
var errInput = errors.New("the input has errors")

// usageError is a mistake on the command line.
type usageError struct{ command, text string }

func (e usageError) Error() string { return e.text }

func newApp(std stream) *cli.App {
	c := commands{std, &filesRead{}}
	app := &cli.App{
		Name:      name,
		Usage:     "compare what keeping, restoring, roofing over and tearing off a roof cost over the years",
		UsageText: name + " COMMAND [FLAGS] FILE",
		Version:   version(),
		Description: "A study file says what is on the roof, what each choice costs and how long it lasts.\n" +
			"Start one with \"" + name + " new study.yaml\", or try an embedded example: \"" + name + " compare example:cold-store\".\n" +
			"A FILE of - is standard input. Exit codes: " + exitCodes() + ".",
		Reader: std.in, Writer: std.out, ErrWriter: std.err,
		ExitErrHandler: func(*cli.Context, error) {}, // told does it
		OnUsageError:   onUsageError,
		Flags:          []cli.Flag{cli.HelpFlag}, // the library adds it with a help command of its own only
		// A line of contact may have commas.
		DisableSliceFlagSeparator: true,
		Commands: []*cli.Command{
			c.newCommand(), c.checkCommand(), c.compareCommand(), c.sensitivityCommand(), c.breakEvenCommand(), c.riskCommand(),
			c.reportCommand(), c.workbookCommand(), c.takeOffCommand(), c.portfolioCommand(), c.verifyCommand(), c.factorsCommand(),
			c.schemaCommand(), c.completionCommand(), c.manCommand(), c.versionCommand(), c.helpCommand(),
		},
		Action: func(ctx *cli.Context) error {
			if ctx.Args().Present() {
				return unknownCommand(ctx)
			}
			return cli.ShowAppHelp(ctx)
		},
	}
	for _, cmd := range app.Commands {
		cmd.OnUsageError = onUsageError
	}
	return app
}

// commands are the subcommands; each has a file of its own.
type commands struct {
	std  stream
	took *filesRead // what the command has read
}

func onUsageError(ctx *cli.Context, err error, _ bool) error {
	e := usageError{text: err.Error()}
	if ctx.Command != nil && ctx.Command.Name != name {
		e.command = ctx.Command.Name
	}
	return e
}

func unknownCommand(ctx *cli.Context) error {
	given := ctx.Args().First()
	text := fmt.Sprintf("there is no command %q", given)
	if near := cli.SuggestCommand(ctx.App.Commands, given); near != "" {
		text += "; " + strings.ToLower(near[:1]) + near[1:] // "Did you mean …?"
	}
	return usageError{text: text}
}

// oneFile gives the one file that a command works on.
func oneFile(ctx *cli.Context) (string, error) {
	switch ctx.NArg() {
	case 0:
		return "", usageError{ctx.Command.Name, ctx.Command.Name + " needs a file"}
	case 1:
		return ctx.Args().First(), nil
	}
	return "", usageError{ctx.Command.Name, fmt.Sprintf("%s works on one file, not on %d: %s", ctx.Command.Name, ctx.NArg(), scenarios.Quoted(ctx.Args().Slice()))}
}
