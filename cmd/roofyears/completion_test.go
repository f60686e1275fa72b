package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// completed gives what bash offers for the last of some words.
func completed(t *testing.T, folder string, words ...string) []string {
	t.Helper()
	quoted := ""
	for _, w := range words {
		quoted += " '" + w + "'"
	}
	out, err := shell(folder, fmt.Sprintf(
		"source <(roofyears completion bash)\nCOMP_WORDS=(%s)\nCOMP_CWORD=%d\ncompopt() { :; }\n_roofyears || true\nprintf '%%s\\n' \"${COMPREPLY[@]:-}\"",
		quoted, len(words)-1))
	require.NoError(t, err, out)
	return strings.Fields(out)
}

func TestBashCompletes(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "exact.yaml"), nil, 0o644))
	for _, c := range []struct{ typed, offered string }{
		{"roofyears comp", "compare completion"},
		{"roofyears --v", "--version"},
		{"roofyears compare --j", "--json"},
		{"roofyears report --pa", "--paper"},
		{"roofyears report study.yaml --in", "--into"},
		{"roofyears sensitivity --vary study.discount_rate --fr", "--from"},
		{"roofyears help fac", "factors"},
		{"roofyears completion z", "zsh"},
		{"roofyears check exam", "example:"},
		{"roofyears check example :", "cold-store portfolio school"},
		{"roofyears check example : co", "cold-store"},
		{"roofyears check exa", ""}, // a file: that is left to bash
		{"roofyears check ", ""},
	} {
		words := strings.Split(c.typed, " ")
		assert.ElementsMatch(t, strings.Fields(c.offered), completed(t, folder, words...), c.typed)
	}
}

// The script registers the completion with bash.
func TestBashKnowsTheCompletion(t *testing.T) {
	out, err := shell(t.TempDir(), "source <(roofyears completion bash)\ncomplete -p roofyears")
	require.NoError(t, err, out)
	assert.Equal(t, "complete -o default -F _roofyears roofyears\n", out)
}

func TestOtherShellsReadTheirCompletion(t *testing.T) {
	out, err := shell(t.TempDir(), `roofyears completion zsh > _roofyears
zsh -n _roofyears
zsh -f -c 'autoload -U compinit; compinit -u -D; source ./_roofyears; print $_comps[roofyears]'`)
	require.NoError(t, err, out)
	assert.Equal(t, "_roofyears\n", out)

	asked := func(typed string) string {
		out, err := shell(t.TempDir(), `roofyears completion fish > roofyears.fish
fish --no-config -c 'source roofyears.fish; complete -C "`+typed+`"'`)
		require.NoError(t, err, out)
		return out
	}
	assert.Equal(t, "compare\tanswer a study: which alternative costs least, side by side, what happens when\n", asked("roofyears compa"))
	assert.Equal(t, "--json\twrite the machine-readable answer\n", asked("roofyears compare --j"))
	assert.Equal(t, "example:cold-store\n", asked("roofyears compare example:co"))

	// PowerShell is not at hand: that every command and flag stands in its
	// script is all that is checked.
	script, err := shell(t.TempDir(), "roofyears completion powershell")
	require.NoError(t, err)
	for _, o := range helpOf(newApp(stream{})) {
		for _, f := range append(o.flagNames(), o.name) {
			assert.Contains(t, script, powershellQuoted(f))
		}
	}
	assert.Equal(t, strings.Count(script, "{"), strings.Count(script, "}"))
}
