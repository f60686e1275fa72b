//go:build unix

package main

import (
	"flag"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios"
)

var (
	kills     = flag.Int("kills", 40, "at how many moments TestKilledAtAnyMoment kills a run")
	killRoofs = flag.Int("killroofs", 8, "how many roofs of the example that run has, 1 to 40")
)

// notWhole tells which files of a folder are neither of an earlier run nor of a
// whole one, leaving out what a killed run was writing, of which it gives the
// number.
func notWhole(found, wanted map[string]string) (broken []string, left int) {
	for file, text := range found {
		switch {
		case strings.HasPrefix(filepath.Base(file), ".roofyears-"):
			left++
		case text != wanted[file] && (earlier[file] == "" || text != earlier[file]):
			broken = append(broken, file)
		}
	}
	return broken, left
}

// killedAfter starts a run and ends it as a power cut would, unless it has
// ended.
func killedAfter(t *testing.T, dir string, wait time.Duration, args []string) {
	t.Helper()
	cmd := exec.Command(built(t), args...)
	cmd.Dir = dir
	require.NoError(t, cmd.Start())
	time.Sleep(wait)
	_ = cmd.Process.Kill()
	_ = cmd.Wait()
}

// firstRoofs writes a table of the first so many roofs of the example.
func firstRoofs(t *testing.T, n int) string {
	t.Helper()
	table, _ := scenarios.ExampleTable(scenarios.PortfolioExample)
	lines := strings.SplitAfter(string(table.Text), "\n")
	path := filepath.Join(t.TempDir(), "roofs.csv")
	require.NoError(t, os.WriteFile(path, []byte(strings.Join(lines[:1+n], "")), 0o600))
	return path
}

// Whenever a run with pages is killed, each file is there whole, new or as it
// was; what it was writing lies beside under a name of its own. The same run
// again ends with the same files and leaves those of others alone.
func TestKilledAtAnyMoment(t *testing.T) {
	args := faultRun(firstRoofs(t, *killRoofs))

	dir, program := t.TempDir(), built(t)
	begun := time.Now()
	code, _, told := inFolder(t, dir, exec.Command(program, args...))
	took := time.Since(begun)
	require.Equal(t, exitDone, code, told)
	wanted := filesIn(t, dir)
	require.Len(t, wanted, *killRoofs+3)
	for file, text := range wanted {
		if strings.HasPrefix(file, "pages") {
			code, _, told := verified(t, text)
			require.Equal(t, exitDone, code, told)
		}
	}

	halfway, left := 0, 0
	for moment := range *kills {
		dir := earlierFiles(t)
		killedAfter(t, dir, took*time.Duration(moment)/time.Duration(*kills), args)
		found := filesIn(t, dir)
		broken, beside := notWhole(found, wanted)
		assert.Empty(t, broken, "killed at moment %d of %d", moment, *kills)
		left += beside
		if len(found) > len(earlier) && found["answers.csv"] == earlier["answers.csv"] {
			halfway++
		}
		if moment%5 == 4 {
			assertRunAgain(t, dir, args, wanted, found)
		}
	}
	t.Logf("a run of %v, killed at %d moments: %d between its first and its last file, %d files left beside", took, *kills, halfway, left)
	assert.NotZero(t, halfway, "no run was killed while it wrote")
}

// assertRunAgain runs to the end in the folder of a killed run.
func assertRunAgain(t *testing.T, dir string, args []string, wanted, found map[string]string) {
	t.Helper()
	code, _, told := inFolder(t, dir, exec.Command(built(t), args...))
	require.Equal(t, exitDone, code, told)
	want := maps.Clone(found) // temporary files, which may be another run's, and what this one does not write
	maps.Copy(want, wanted)
	assert.Equal(t, want, filesIn(t, dir))
}
