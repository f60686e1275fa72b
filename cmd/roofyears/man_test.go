package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The man page is set without a warning, and has all commands with their flags
// and examples.
func TestManPage(t *testing.T) {
	out, err := shell(t.TempDir(), "roofyears man -o roofyears.1\ngroff -man -Tutf8 -ww -z roofyears.1")
	require.NoError(t, err, out)
	assert.Equal(t, "wrote roofyears.1\n", out, "warnings")

	text, err := shell(t.TempDir(), "roofyears man | groff -man -Tascii -P-c -rLL=300n | col -bx")
	require.NoError(t, err, text)
	text = strings.Join(strings.Fields(text), " ")
	for _, o := range helpOf(newApp(stream{})) {
		for _, said := range append(append(o.flagNames()[:len(o.flags)], o.examples...), o.name, o.usage) {
			assert.Contains(t, text, strings.Join(strings.Fields(said), " "), o.name)
		}
	}
	for code, words := range exitWords {
		assert.Contains(t, text, strings.Join([]string{string(rune('0' + code)), words}, " "))
	}
	for _, said := range []string{"NO_COLOR", "study.yaml", "DESCRIPTION", "EXIT STATUS", "ENVIRONMENT", "FILES"} {
		assert.Contains(t, text, said)
	}
}
