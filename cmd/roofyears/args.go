package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// flagsFirst moves the flags of a subcommand before its file, since the
// command line library stops looking for flags at the first other argument
// and would take them for files without a word. What follows "--" stays.
func flagsFirst(app *cli.App, args []string) []string {
	at := slices.IndexFunc(args[min(1, len(args)):], func(a string) bool { return !strings.HasPrefix(a, "-") }) + 1
	if at == 0 {
		return args
	}
	cmd := app.Command(args[at])
	if cmd == nil {
		return args
	}
	var flags, others []string
	rest := args[at+1:]
	for i := 0; i < len(rest); i++ {
		switch a := rest[i]; {
		case a == "--":
			others = append(others, rest[i+1:]...)
			i = len(rest)
		case len(a) > 1 && strings.HasPrefix(a, "-"):
			flags = append(flags, a)
			if takesValue(cmd, a) && i+1 < len(rest) {
				i++
				flags = append(flags, rest[i])
			}
		default:
			others = append(others, a)
		}
	}
	out := append(slices.Clone(args[:at+1]), flags...)
	return append(append(out, "--"), others...)
}

// takesValue tells whether the argument after this flag is its value.
func takesValue(cmd *cli.Command, arg string) bool {
	if strings.Contains(arg, "=") {
		return false
	}
	name := strings.TrimLeft(arg, "-")
	for _, f := range cmd.Flags {
		if slices.Contains(f.Names(), name) {
			_, boolean := f.(*cli.BoolFlag)
			return !boolean
		}
	}
	return false
}
