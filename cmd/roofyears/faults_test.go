//go:build unix

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// faultRun is a portfolio run that writes every file it can.
func faultRun(table string) []string {
	return []string{"portfolio", "--pages", "pages", "--page", "roofs.html", "--summary", "summary.json", "-o", "answers.csv", "example:portfolio", table}
}

// earlier are files of an earlier run, which a failure must leave alone.
var earlier = map[string]string{"answers.csv": "an earlier table\n", "roofs.html": "an earlier page\n", "summary.json": "{}\n"}

// earlierFiles makes a folder with the files of an earlier run.
func earlierFiles(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	for file, text := range earlier {
		require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(text), 0o600))
	}
	return dir
}

// filesIn gives what lies in a folder, and in folders in it.
func filesIn(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		within, err := filepath.Rel(dir, path)
		out[within] = string(mustRead(t, path))
		return err
	}))
	return out
}

// inFolder runs a command in a folder and tells its exit code and streams.
func inFolder(t testing.TB, dir string, cmd *exec.Cmd) (code int, out, told string) {
	t.Helper()
	var o, e bytes.Buffer
	cmd.Dir = dir
	if cmd.Stdout == nil {
		cmd.Stdout = &o
	}
	cmd.Stderr = &e
	var ended *exec.ExitError
	if err := cmd.Run(); err != nil && !errors.As(err, &ended) {
		require.NoError(t, err)
	}
	return cmd.ProcessState.ExitCode(), o.String(), e.String()
}

// limited is the command with no file longer than so many blocks of 512
// bytes: what a full disk is, without a disk to fill.
func limited(program, blocks string, args ...string) *exec.Cmd {
	return exec.Command("sh", append([]string{"-c", `ulimit -f ` + blocks + ` && exec "$0" "$@"`, program}, args...)...)
}

// A disk that fills up at any moment ends the run with a sentence, and leaves
// what was there and nothing beside it.
func TestAFullDisk(t *testing.T) {
	program := built(t)
	for _, blocks := range []string{"0", "8", "600"} { // at the first byte, within the table, within a page
		dir := earlierFiles(t)
		code, _, told := inFolder(t, dir, limited(program, blocks, faultRun("example:portfolio")...))
		assert.Equal(t, exitFailure, code, blocks)
		assert.Regexp(t, `(?m)^roofyears: writing (answers\.csv|pages/R\d+\.html): [a-z ]+$`, told)
		assert.Equal(t, 1, strings.Count(told, "roofyears: "), told)
		assert.Equal(t, earlier, filesIn(t, dir), blocks)
	}
	for _, args := range [][]string{
		{"compare", "--json", "-o", "answers.csv", "example:school"}, {"report", "-o", "roofs.html", "example:school"},
		{"portfolio", "--format", "xlsx", "-o", "book.xlsx", "example:portfolio", "example:portfolio"},
		{"portfolio", "--page", "roofs.html", "-o", "-", "example:portfolio", "example:portfolio"},
		{"takeoff", "--csv", "-o", "answers.csv", "example:cold-store"}, {"schema", "-o", "summary.json"}, {"new", "study.yaml"},
	} {
		dir := earlierFiles(t)
		code, _, told := inFolder(t, dir, limited(program, "4", args...))
		assert.Equal(t, exitFailure, code, args)
		assert.Regexp(t, `(?m)^roofyears: writing [a-z.]+: file too large$`, told, args)
		assert.Equal(t, earlier, filesIn(t, dir), args)
	}
}

// What cannot be written to standard output is a failure too, of every command.
func TestAFullStandardOutput(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if errors.Is(err, os.ErrNotExist) && runtime.GOOS != "linux" {
		full, err = os.Open(os.DevNull) // open for reading: writing fails
	}
	require.NoError(t, err)
	defer full.Close()
	for _, args := range [][]string{
		{"compare", "example:school"}, {"compare", "--json", "example:school"}, {"check", "example:school"}, {"report", "-o", "-", "example:school"},
		{"takeoff", "example:cold-store"}, {"sensitivity", "example:school"}, {"break-even", "example:school"}, {"risk", "--trials", "100", "example:school"},
		{"portfolio", "example:portfolio", "example:portfolio"}, {"portfolio", "--format", "xlsx", "example:portfolio", "example:portfolio"},
		{"portfolio", "--format", "ndjson", "--page", "roofs.html", "example:portfolio", "example:portfolio"},
		{"factors", "--rate", "3%", "--years", "30"}, {"schema"}, {"completion", "bash"}, {"man"}, {"version"}, {"new", "-"}, {"help"}, {"help", "report"}, {"--version"},
	} {
		dir := earlierFiles(t)
		cmd := exec.Command(built(t), args...)
		cmd.Stdout = full
		code, _, told := inFolder(t, dir, cmd)
		assert.Equal(t, exitFailure, code, args)
		assert.Regexp(t, `(?m)^roofyears: .*write /dev/stdout: [a-z ]+$`, told, args)
		assert.Equal(t, earlier, filesIn(t, dir), args)
	}
}

// A pipe that nobody reads any more leaves no half page beside the table.
func TestAPipeThatNobodyReads(t *testing.T) {
	dir := earlierFiles(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "many.csv"), []byte(manyRoofs(5000)), 0o600))
	read, write, err := os.Pipe()
	require.NoError(t, err)
	read.Close()
	cmd := exec.Command(built(t), "portfolio", "--page", "roofs.html", "--rejects", "rejects.csv", "example:portfolio", "many.csv")
	cmd.Stdout = write
	code, _, told := inFolder(t, dir, cmd)
	write.Close()
	assert.Equal(t, exitFailure, code)
	assert.Regexp(t, `^roofyears: (write /dev/stdout: broken pipe|interrupted)\n$`, told)
	require.NoError(t, os.Remove(filepath.Join(dir, "many.csv")))
	assert.Equal(t, earlier, filesIn(t, dir))
}

// stranger runs a command as somebody who may write only what he is let: an
// ordinary user as himself, root as nobody.
func stranger(cmd *exec.Cmd) *exec.Cmd {
	if os.Geteuid() == 0 {
		const nobody = 65534
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	return cmd
}

// openFolder is a folder that a stranger finds his way to, with the command in
// it.
func openFolder(t *testing.T) (dir, program string) {
	t.Helper()
	root, err := os.MkdirTemp("", "roofyears-test-")
	require.NoError(t, err)
	t.Cleanup(func() {
		assert.NoError(t, exec.Command("chmod", "-R", "u+rwx", root).Run())
		assert.NoError(t, os.RemoveAll(root))
	})
	dir, program = filepath.Join(root, "work"), filepath.Join(root, name)
	require.NoError(t, os.WriteFile(program, mustRead(t, built(t)), 0o755))
	require.NoError(t, os.Mkdir(dir, 0o755))
	for file, text := range earlier {
		require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(text), 0o644))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "pages"), 0o755))
	require.NoError(t, os.Chmod(root, 0o755))
	return dir, program
}

// A folder that may not be written, and a file system that takes no files, are
// told as such; nothing in them changes.
func TestAFolderThatMayNotBeWritten(t *testing.T) {
	dir, program := openFolder(t)
	require.NoError(t, os.Chmod(filepath.Join(dir, "pages"), 0o555))
	require.NoError(t, os.Chmod(dir, 0o555))
	for _, args := range [][]string{
		{"report", "-o", "page.html", "example:school"}, {"report", "--into", "pages", "example:school"}, {"report", "--into", "new", "example:school"},
		{"portfolio", "--pages", "pages", "example:portfolio", "example:portfolio"}, {"portfolio", "--pages", "new", "example:portfolio", "example:portfolio"},
		{"portfolio", "-o", "other.csv", "example:portfolio", "example:portfolio"}, {"portfolio", "--page", "page.html", "example:portfolio", "example:portfolio"},
		{"portfolio", "--rejects", "rejects.csv", "example:portfolio", "example:portfolio"}, {"new", "study.yaml"}, {"schema", "-o", "schema.json"},
		{"compare", "-o", "answers.csv", "example:school"},
	} {
		code, _, told := inFolder(t, dir, stranger(exec.Command(program, args...)))
		assert.Equal(t, exitFailure, code, args)
		assert.Regexp(t, `(?m)^roofyears: .*(permission denied|may not be written; it was left as it is)$`, told, args)
		assert.Equal(t, earlier, filesIn(t, dir), args)
	}
}

// A file of somebody else's is not replaced by way of its folder, which may be
// written.
func TestAFileThatMayNotBeWritten(t *testing.T) {
	dir, program := openFolder(t)
	require.NoError(t, os.Chmod(dir, 0o777))
	if os.Geteuid() != 0 { // his own file
		require.NoError(t, os.Chmod(filepath.Join(dir, "answers.csv"), 0o444))
	}
	code, _, told := inFolder(t, dir, stranger(exec.Command(program, "compare", "-o", "answers.csv", "example:school")))
	assert.Equal(t, exitFailure, code)
	assert.Contains(t, told, "answers.csv may not be written; it was left as it is\n")
	assert.Equal(t, earlier, filesIn(t, dir))
}

// No folder of the system's is needed: neither a home, nor one for temporary
// files, nor a search path. The kernel's own file systems take no files.
func TestNothingOfTheSystemIsNeeded(t *testing.T) {
	dir := earlierFiles(t)
	for _, args := range [][]string{faultRun("example:portfolio"), {"report", "-o", "page.html", "example:school"}, {"portfolio", "-o", "book.xlsx", "example:portfolio", "example:portfolio"}} {
		cmd := exec.Command(built(t), args...)
		cmd.Env = []string{"TMPDIR=/nowhere"}
		code, _, told := inFolder(t, dir, cmd)
		assert.Equal(t, exitDone, code, told)
	}
	for _, target := range []string{"/dev/null", "/dev/full", "/dev", ".", "/proc/answers.csv", "/sys/answers.csv"} {
		code, _, told := inFolder(t, dir, exec.Command(built(t), "compare", "-o", target, "example:school"))
		assert.Equal(t, exitFailure, code, target)
		assert.Regexp(t, `^roofyears: .*(is no ordinary file; the result was not written|no such file or directory|permission denied|operation not permitted|read-only file system)\n$`, told)
	}
}

// A file that is new may be read by whom the user's mask lets; one that was
// there keeps its mode.
func TestWhoMayReadWhatIsWritten(t *testing.T) {
	for _, c := range []struct {
		mask                  string
		file, folder, answers os.FileMode
	}{{"022", 0o644, 0o755, 0o600}, {"002", 0o664, 0o775, 0o660}, {"077", 0o600, 0o700, 0o644}} {
		dir := earlierFiles(t)
		require.NoError(t, os.Chmod(filepath.Join(dir, "answers.csv"), c.answers))
		require.NoError(t, os.Remove(filepath.Join(dir, "roofs.html")))
		code, _, told := inFolder(t, dir, exec.Command("sh", append([]string{"-c", "umask " + c.mask + ` && exec "$0" "$@"`, built(t)}, faultRun(firstRoofs(t, 1))...)...))
		require.Equal(t, exitDone, code, told)
		for file, want := range map[string]os.FileMode{"roofs.html": c.file, "pages/R01.html": c.file, "pages": c.folder, "answers.csv": c.answers} {
			info, err := os.Stat(filepath.Join(dir, file))
			require.NoError(t, err)
			assert.Equal(t, want, info.Mode().Perm(), "%s under %s", file, c.mask)
		}
	}
}

// browserThat makes a program under a browser's name, whose script has in $out
// where the page is to be printed, and tells the environment to find it in.
func browserThat(t *testing.T, script string) (env []string, temporary string) {
	t.Helper()
	folder, temporary := t.TempDir(), t.TempDir()
	text := "#!/bin/sh\nfor a; do case $a in --print-to-pdf=*) out=${a#*=} ;; esac; done\n" + script + "\n"
	require.NoError(t, os.WriteFile(filepath.Join(folder, browsers[0]), []byte(text), 0o700))
	return []string{"PATH=" + folder + ":" + os.Getenv("PATH"), "TMPDIR=" + temporary}, temporary
}

// A page that a browser did not print to its end is not put in the place of an
// earlier one.
func TestAPageThatIsPrintedToHalf(t *testing.T) {
	for script, said := range map[string]string{
		`printf '%%PDF-1.4 half' > "$out"`:                                                 "printed only part of the page; is there room in ",
		`printf '%%PDF-1.4 %%%%EOF' > "$out"; echo a first line; echo no room >&2; exit 1`: "did not print the page: no room\n",
		`exit 1`: "did not print the page: exit status 1\n",
		`exit 0`: "did not print the page: open ",
	} {
		dir := earlierFiles(t)
		cmd := exec.Command(built(t), "report", "example:school", "--pdf", "roofs.html")
		var temporary string
		cmd.Env, temporary = browserThat(t, script)
		code, _, told := inFolder(t, dir, cmd)
		assert.Equal(t, exitFailure, code, script)
		assert.Contains(t, told, said)
		assert.Equal(t, earlier, filesIn(t, dir), script)
		assert.Empty(t, filesIn(t, temporary), script)
	}
}

// Whoever ends the command while it prints ends the browser, and nothing is left
// of either.
func TestInterruptedWhilePrinting(t *testing.T) {
	dir := earlierFiles(t)
	cmd := exec.Command(built(t), "report", "example:school", "--pdf", "roofs.html")
	var temporary string
	cmd.Env, temporary = browserThat(t, `kill -TERM $PPID; exec sleep 600`)
	code, _, told := inFolder(t, dir, cmd)
	assert.Equal(t, exitFailure, code)
	assert.Equal(t, "roofyears: interrupted\n", told)
	assert.Equal(t, earlier, filesIn(t, dir))
	left, err := os.ReadDir(temporary)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// To print needs neither a home nor anything else but a browser and a folder for
// temporary files, in which nothing stays.
func TestPrintingNeedsNoHome(t *testing.T) {
	dir, temporary := earlierFiles(t), t.TempDir()
	for folder, want := range map[string]int{temporary: exitDone, filepath.Join(temporary, "gone"): exitFailure} {
		cmd := exec.Command(built(t), "report", "example:school", "--pdf", "page.pdf")
		cmd.Env = []string{"PATH=" + os.Getenv("PATH"), "TMPDIR=" + folder}
		code, _, told := inFolder(t, dir, cmd)
		assert.Equal(t, want, code, told)
		if want == exitFailure {
			assert.Equal(t, "roofyears: printing needs a folder for temporary files, and "+folder+" is none: no such file or directory\n", told)
		}
	}
	left, err := os.ReadDir(temporary)
	require.NoError(t, err)
	assert.Empty(t, left)
	assert.Regexp(t, `(?s)^%PDF-.*%%EOF\s*$`, filesIn(t, dir)["page.pdf"])
}

// What fails of several files is told line by line.
func TestSeveralFailuresAreToldEach(t *testing.T) {
	var said bytes.Buffer
	assert.Equal(t, exitFailure, told(&said, errors.Join(errors.New("writing a: no room"), errors.New("writing b\n: no room"))))
	assert.Equal(t, "roofyears: writing a: no room\nroofyears: writing b�: no room\n", said.String())
}
