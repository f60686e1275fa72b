package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onTerminal starts the command with standard error on a terminal, and gives
// what is written there once it ended.
func onTerminal(t *testing.T, in io.Reader, args ...string) (*exec.Cmd, func() string) {
	t.Helper()
	path, err := exec.LookPath(name)
	require.NoError(t, err)
	cmd := exec.Command(path, append([]string{"portfolio"}, args...)...)
	cmd.Dir, cmd.Stdin, cmd.Env = t.TempDir(), in, append(os.Environ(), "TERM=xterm")
	screen, end, err := pty.Open()
	require.NoError(t, err)
	cmd.Stderr = end
	require.NoError(t, cmd.Start())
	end.Close()
	all := make(chan string)
	go func() {
		var b bytes.Buffer
		_, _ = io.Copy(&b, screen) // ends with an error when the other end is closed
		all <- b.String()
	}()
	return cmd, func() string {
		said := <-all
		screen.Close()
		return said
	}
}

// shownLines are the lines that a terminal shows in the end: what is written after
// the cursor went to the begin of a line goes over what was there.
func shownLines(written string) []string {
	var out []string
	for line := range strings.SplitSeq(strings.ReplaceAll(written, "\r\n", "\n"), "\n") {
		var shown []rune
		for _, part := range strings.Split(line, "\r") {
			over := []rune(part)
			shown = append(over, shown[min(len(over), len(shown)):]...)
		}
		out = append(out, strings.TrimRight(string(shown), " "))
	}
	return out
}

func TestLinesAreWhatATerminalShows(t *testing.T) {
	assert.Equal(t, []string{"done", "abef", ""}, shownLines("half\r    \rdone\r\nabcd\r  ef\rab\n"))
}

// How far a run is stands on a terminal while it lasts, by what is read of a
// file, and nothing of it stays, with rows that are told in between too.
func TestProgressOfAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "roofs.csv")
	table := manyRoofs(30_000)
	half := strings.Index(table, "R015000")
	require.NoError(t, os.WriteFile(path, []byte(table[:half]+"bad,0,\n"+table[half:]), 0o600))
	cmd, said := onTerminal(t, nil, "example:portfolio", path, "-o", "answers.csv")
	require.Equal(t, exitInput, exitOf(cmd.Wait()))
	written := said()
	assert.Regexp(t, `\rroofs +[0-9]+% \|`, written)
	shown := shownLines(written)
	assert.Contains(t, shown[0], path+":15002: roof.area: \"0\" is out of range")
	assert.Equal(t, "30,000 roofs", shown[1])
	assert.Equal(t, []string{"1 row not done", "wrote answers.csv", ""}, shown[len(shown)-3:])
	assert.NotContains(t, strings.Join(shown, "\n"), "%")
}

// Of standard input only the roofs that are done are known; Ctrl-C leaves the
// line clean.
func TestProgressIsTakenAwayByAnInterruption(t *testing.T) {
	in, feed, err := os.Pipe()
	require.NoError(t, err)
	defer feed.Close()
	cmd, said := onTerminal(t, in, "--in", "csv", "example:portfolio", "-", "-o", "answers.csv")
	in.Close()
	_, err = io.WriteString(feed, manyRoofs(3000))
	require.NoError(t, err)
	time.Sleep(500 * time.Millisecond) // so that some are done; it waits for more
	require.NoError(t, cmd.Process.Signal(syscall.SIGINT))
	require.Equal(t, exitFailure, exitOf(cmd.Wait()))
	written := said()
	assert.Regexp(t, `\r\S? ?roofs.*\([0-9]+/-, `, written)
	assert.Equal(t, []string{"roofyears: interrupted", ""}, shownLines(written))
	assert.NoFileExists(t, filepath.Join(cmd.Dir, "answers.csv"))
}

// It does not show where nobody looks, or where the rows are shown themselves.
func TestProgressIsForATerminalOnly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "roofs.csv")
	require.NoError(t, os.WriteFile(path, []byte(manyRoofs(5000)), 0o600))
	command, err := exec.LookPath(name)
	require.NoError(t, err)
	cmd := exec.Command(command, "portfolio", "example:portfolio", path)
	var told bytes.Buffer
	cmd.Stderr = &told
	require.NoError(t, cmd.Run())
	assert.NotContains(t, told.String(), "\r")

	screen, end, err := pty.Open()
	require.NoError(t, err)
	defer screen.Close()
	defer end.Close()
	c := commands{std: stream{nil, end, end}}
	assert.Nil(t, c.progress(watch(strings.NewReader("")), ""))
	assert.Nil(t, c.progress(watch(strings.NewReader("")), "-"))
	assert.NotNil(t, c.progress(watch(strings.NewReader("")), "answers.csv"))
	t.Setenv("TERM", "dumb")
	assert.Nil(t, c.progress(watch(strings.NewReader("")), "answers.csv"))
}

// A workbook is not poured over a screen.
func TestAWorkbookIsNotForATerminal(t *testing.T) {
	screen, end, err := pty.Open()
	require.NoError(t, err)
	defer screen.Close()
	defer end.Close()
	var told bytes.Buffer
	code := run([]string{name, "portfolio", "--format", "xlsx", "example:portfolio", "example:portfolio"}, stream{nil, end, &told})
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, told.String(), "a workbook is no text for a terminal; name a file with --output")
}

func exitOf(err error) int {
	if err == nil {
		return exitDone
	}
	return err.(*exec.ExitError).ExitCode()
}
