package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// commandHelp is a command as the man page and the completions tell it.
type commandHelp struct {
	name, usage string
	synopsis    string   // a line for each way to call it
	examples    []string // command lines
	about       []string // lines of the description but for the examples
	flags       []flagHelp
}

// flagHelp is a flag of a command.
type flagHelp struct {
	names []string // with their hyphens
	value string   // what its value is called; "" when it takes none
	again bool     // it may be given several times
	usage string
}

// examplePrompt stands before a command line in a description.
const examplePrompt = "Example: "

// helpOf describes the commands, in the order of the help.
func helpOf(app *cli.App) []commandHelp {
	var out []commandHelp
	for _, cmd := range app.Commands {
		o := commandHelp{name: cmd.Name, usage: cmd.Usage, synopsis: cmd.UsageText}
		for _, line := range strings.Split(cmd.Description, "\n") {
			if example, is := strings.CutPrefix(line, examplePrompt); is {
				o.examples = append(o.examples, example)
			} else {
				o.about = append(o.about, line)
			}
		}
		for _, f := range cmd.Flags {
			if !isHelp(f) {
				o.flags = append(o.flags, helpOfFlag(f))
			}
		}
		out = append(out, o)
	}
	return out
}

// isHelp tells the flag that the library adds to commands as they run.
func isHelp(f cli.Flag) bool { return slices.Contains(f.Names(), "help") }

func helpOfFlag(f cli.Flag) flagHelp {
	var o flagHelp
	for _, n := range f.Names() {
		if len(n) == 1 {
			o.names = append(o.names, "-"+n)
		} else {
			o.names = append(o.names, "--"+n)
		}
	}
	doc, ok := f.(cli.DocGenerationFlag)
	if !ok {
		return o
	}
	o.usage = doc.GetUsage()
	if before, quoted, found := strings.Cut(o.usage, "`"); found {
		value, after, _ := strings.Cut(quoted, "`")
		o.value, o.usage = value, before+value+after
	}
	if slice, is := f.(cli.DocGenerationSliceFlag); is {
		o.again = slice.IsSliceFlag()
	}
	if doc.TakesValue() && o.value == "" {
		o.value = "VALUE"
	}
	return o
}
