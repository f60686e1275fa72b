package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// flagsFirst moves the flags of a subcommand before its file, since the
// command line library stops looking for flags at the first other argument
// and would take them for files without a word. What follows "--" stays. A
// flag that lacks its value is a mistake; asking for help is never one.
func flagsFirst(app *cli.App, args []string) ([]string, error) {
	at := slices.IndexFunc(args[min(1, len(args)):], func(a string) bool { return !strings.HasPrefix(a, "-") }) + 1
	if at == 0 {
		return args, nil
	}
	cmd := app.Command(args[at])
	if cmd == nil {
		return args, nil
	}
	var flags, others []string
	rest := args[at+1:]
	for i := 0; i < len(rest); i++ {
		switch a := rest[i]; {
		case a == "-h" || a == "--help":
			return append(slices.Clone(args[:at+1]), "--help"), nil
		case a == "--":
			others = append(others, rest[i+1:]...)
			i = len(rest)
		case len(a) > 1 && strings.HasPrefix(a, "-"):
			flags = append(flags, a)
			if !takesValue(cmd, a) {
				continue
			}
			i++
			if i == len(rest) || rest[i] == "--" || rest[i] == "" {
				return nil, usageError{cmd.Name, fmt.Sprintf("%s needs a value", a)}
			}
			flags = append(flags, rest[i])
		default:
			others = append(others, a)
		}
	}
	out := append(slices.Clone(args[:at+1]), flags...)
	return append(append(out, "--"), others...), nil
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
