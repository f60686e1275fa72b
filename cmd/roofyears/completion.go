package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/urfave/cli/v2"

	"roofyears/scenarios"
)

// shells are those for which completions are written.
var shells = []string{"bash", "zsh", "fish", "powershell"}

// completion is the script of a shell; "" for one that is not known.
func completion(shell string, all []commandHelp) string {
	var b strings.Builder
	switch shell {
	case "bash":
		bashCompletion(&b, all)
	case "zsh":
		zshCompletion(&b, all)
	case "fish":
		fishCompletion(&b, all)
	case "powershell":
		powershellCompletion(&b, all)
	}
	return b.String()
}

// completionCommand writes the completions of a shell.
func (c commands) completionCommand() *cli.Command {
	return &cli.Command{
		Name:      "completion",
		Usage:     "write the script by which a shell completes commands, flags and examples",
		UsageText: name + " completion " + strings.Join(shells, "|"),
		Description: "Example: source <(" + name + " completion bash)\n" +
			"Example: " + name + " completion fish > " + name + ".fish\n" +
			"In bash, the first line goes into ~/.bashrc. For zsh, write it to a file _" + name + " in a folder of $fpath; for fish,\n" +
			"to ~/.config/fish/completions/" + name + ".fish; for PowerShell, run it from the profile:\n" +
			"  " + name + " completion powershell | Out-String | Invoke-Expression",
		Action: func(ctx *cli.Context) error {
			if ctx.NArg() != 1 {
				return usageError{"completion", "completion needs one shell: " + strings.Join(shells, ", ")}
			}
			script := completion(ctx.Args().First(), helpOf(ctx.App))
			if script == "" {
				return usageError{"completion", fmt.Sprintf("there is no completion for %q; there are %s", ctx.Args().First(), strings.Join(shells, ", "))}
			}
			return c.write("", func(w io.Writer) error { _, err := io.WriteString(w, script); return err })
		},
	}
}

// argumentsOf are the words that may follow a command; none for one that works
// on files.
func argumentsOf(command string, all []commandHelp) []string {
	switch command {
	case "help":
		return namesOf(all)
	case "completion":
		return shells
	}
	return nil
}

func namesOf(all []commandHelp) []string {
	var out []string
	for _, o := range all {
		out = append(out, o.name)
	}
	return out
}

// flagNames are the flags of a command, help with them.
func (o commandHelp) flagNames() []string {
	var out []string
	for _, f := range o.flags {
		out = append(out, f.names...)
	}
	return append(out, "--help")
}

// bashCompletion runs on bash 3.2 too, which macOS has. Bash takes a colon for
// the end of a word, so what follows "example:" is a word of its own.
func bashCompletion(w *strings.Builder, all []commandHelp) {
	line := func(format string, about ...any) { fmt.Fprintf(w, format+"\n", about...) }
	line("# bash completion for %s", name)
	line("_%s() {", name)
	line("\tlocal cur=\"${COMP_WORDS[COMP_CWORD]}\" before=\"${COMP_WORDS[COMP_CWORD - 1]}\" command=\"\" words=\"\" flags=\"\" i")
	line("\tCOMPREPLY=()")
	line("\tfor ((i = 1; i < COMP_CWORD; i++)); do")
	line("\t\tif [[ \"${COMP_WORDS[i]}\" != -* ]]; then command=\"${COMP_WORDS[i]}\"; break; fi")
	line("\tdone")
	line("\tcase \"$command\" in")
	line("\t\"\") words=\"%s\" flags=\"--help --version\" ;;", strings.Join(namesOf(all), " "))
	for _, o := range all {
		line("\t%s) words=\"%s\" flags=\"%s\" ;;", o.name, strings.Join(argumentsOf(o.name, all), " "), strings.Join(o.flagNames(), " "))
	}
	line("\tesac")
	line("\tif [[ \"$cur\" == : && \"$before\" == example ]]; then cur=\"\" before=\":\"; fi")
	line("\tif [[ \"$cur\" == -* ]]; then words=\"$flags\"")
	line("\telif [[ \"$before\" == : ]]; then words=\"%s\"", strings.Join(scenarios.ExampleNames(), " "))
	line("\telif [[ -z \"$words\" && -n \"$cur\" && -z \"$(compgen -f -- \"$cur\")\" ]]; then")
	line("\t\twords=\"%s\"", examplePrefix)
	line("\t\tcompopt -o nospace 2>/dev/null")
	line("\tfi")
	line("\tCOMPREPLY=($(compgen -W \"$words\" -- \"$cur\"))")
	line("}")
	line("complete -o default -F _%s %s", name, name)
}
