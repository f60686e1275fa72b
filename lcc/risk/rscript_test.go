package risk

import (
	"bytes"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// askR runs a script in R, which shares no line with this program, and reads
// what it prints: numbers by name, one name a line.
func askR(t *testing.T, script string) map[string][]float64 {
	t.Helper()
	path, err := exec.LookPath("Rscript")
	require.NoError(t, err, "these tests compare with R: install the Debian package r-base-core")
	cmd := exec.Command(path, "--vanilla", "-")
	cmd.Stdin = strings.NewReader(script)
	var said, complained bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &complained
	require.NoError(t, cmd.Run(), complained.String())
	answers := map[string][]float64{}
	for line := range strings.Lines(said.String()) {
		words := strings.Fields(line)
		for _, word := range words[1:] {
			x, err := strconv.ParseFloat(word, 64)
			require.NoError(t, err, line)
			answers[words[0]] = append(answers[words[0]], x)
		}
	}
	require.NotEmpty(t, answers, "R printed nothing")
	return answers
}
