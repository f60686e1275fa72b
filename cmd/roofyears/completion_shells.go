package main

import (
	"fmt"
	"strings"

	"roofyears/scenarios"
)

// exampleFiles are the embedded examples as they are written in place of a file.
func exampleFiles() []string {
	var out []string
	for _, n := range scenarios.ExampleNames() {
		out = append(out, examplePrefix+n)
	}
	return out
}

// zshCompletion can be sourced, and can stand in a folder of $fpath.
func zshCompletion(w *strings.Builder, all []commandHelp) {
	line := func(format string, about ...any) { fmt.Fprintf(w, format+"\n", about...) }
	line("#compdef %s", name)
	line("_%s_files() {", name)
	line("\t_alternative 'files:file:_files' 'examples:example:compadd -- %s'", strings.Join(exampleFiles(), " "))
	line("}")
	line("_%s() {", name)
	line("\tlocal -a commands")
	line("\tcommands=(")
	for _, o := range all {
		line("\t\t%s", zshQuoted(o.name+":"+zshEscaped(o.usage)))
	}
	line("\t)")
	line("\tif ((CURRENT == 2)); then")
	line("\t\t_describe -t commands command commands")
	line("\t\treturn")
	line("\tfi")
	line("\tlocal command=${words[2]}")
	line("\tshift words")
	line("\t((CURRENT--))")
	line("\tcase $command in")
	for _, o := range all {
		rest := "_" + name + "_files"
		if words := argumentsOf(o.name, all); words != nil {
			rest = "(" + strings.Join(words, " ") + ")"
		}
		line("\t%s)", o.name)
		line("\t\t_arguments \\")
		for _, f := range o.flags {
			line("\t\t\t%s \\", zshFlag(f))
		}
		line("\t\t\t'--help[show help]' '*:file:%s'", rest)
		line("\t\t;;")
	}
	line("\tesac")
	line("}")
	line("if [ \"$funcstack[1]\" = _%s ]; then _%s \"$@\"; else compdef _%s %s; fi", name, name, name, name)
}

// zshFlag is a flag as _arguments takes it, all its names.
func zshFlag(f flagHelp) string {
	about := "[" + zshEscaped(f.usage) + "]"
	if f.value != "" {
		about += ":" + zshEscaped(f.value) + ":_files"
	}
	var out []string
	for _, n := range f.names {
		but := "(" + strings.Join(f.names, " ") + ")"
		if f.again {
			but = "*"
		}
		out = append(out, zshQuoted(but+n+about))
	}
	return strings.Join(out, " ")
}

func zshEscaped(text string) string {
	return strings.NewReplacer(`\`, `\\`, "[", `\[`, "]", `\]`, ":", `\:`).Replace(text)
}

func zshQuoted(text string) string { return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'" }

func fishCompletion(w *strings.Builder, all []commandHelp) {
	line := func(format string, about ...any) { fmt.Fprintf(w, format+"\n", about...) }
	line("# fish completion for %s", name)
	for _, o := range all {
		line("complete -c %s -n __fish_use_subcommand -f -a %s -d %s", name, o.name, fishQuoted(o.usage))
	}
	for _, o := range all {
		after := fmt.Sprintf("complete -c %s -n '__fish_seen_subcommand_from %s'", name, o.name)
		for _, f := range o.flags {
			names := ""
			for _, n := range f.names {
				if long, is := strings.CutPrefix(n, "--"); is {
					names += " -l " + long
				} else {
					names += " -s " + n[1:]
				}
			}
			if f.value != "" {
				names += " -r"
			}
			line("%s%s -d %s", after, names, fishQuoted(f.usage))
		}
		line("%s -l help -d 'show help'", after)
		if words := argumentsOf(o.name, all); words != nil {
			line("%s -f -a %s", after, fishQuoted(strings.Join(words, " ")))
		} else {
			line("%s -a %s", after, fishQuoted(strings.Join(exampleFiles(), " ")))
		}
	}
}

func fishQuoted(text string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, "'", `\'`).Replace(text) + "'"
}

// powershellCompletion offers nothing where a file stands, so that PowerShell
// completes files there.
func powershellCompletion(w *strings.Builder, all []commandHelp) {
	line := func(format string, about ...any) { fmt.Fprintf(w, format+"\n", about...) }
	pair := func(word, about string) string {
		return fmt.Sprintf("@(%s, %s)", powershellQuoted(word), powershellQuoted(about))
	}
	line("# PowerShell completion for %s", name)
	line("Register-ArgumentCompleter -Native -CommandName %s -ScriptBlock {", name)
	line("\tparam($word, $tree, $cursor)")
	line("\t$commands = @(")
	for _, o := range all {
		line("\t\t,%s", pair(o.name, o.usage))
	}
	line("\t)")
	line("\t$flags = @{")
	for _, o := range all {
		line("\t\t%s = @(", powershellQuoted(o.name))
		for _, f := range o.flags {
			for _, n := range f.names {
				line("\t\t\t,%s", pair(n, f.usage))
			}
		}
		line("\t\t\t,%s", pair("--help", "show help"))
		line("\t\t)")
	}
	line("\t}")
	line("\t$before = @($tree.CommandElements | Select-Object -Skip 1 | Where-Object { $_.Extent.EndOffset -lt $cursor } | ForEach-Object { $_.ToString() })")
	line("\t$command = $before | Where-Object { $_ -notlike '-*' } | Select-Object -First 1")
	line("\tif (-not $command) { $offered = $commands }")
	line("\telseif ($word -like '-*') { $offered = $flags[$command] }")
	for _, o := range all {
		if words := argumentsOf(o.name, all); words != nil {
			var pairs []string
			for _, word := range words {
				pairs = append(pairs, ","+pair(word, word))
			}
			line("\telseif ($command -eq %s) { $offered = @(%s) }", powershellQuoted(o.name), strings.Join(pairs, "; "))
		}
	}
	line("\telse { $offered = @() }")
	line("\t$offered | Where-Object { $_[0] -like \"$word*\" } | ForEach-Object {")
	line("\t\t[System.Management.Automation.CompletionResult]::new($_[0], $_[0], 'ParameterValue', $_[1])")
	line("\t}")
	line("}")
}

func powershellQuoted(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }
