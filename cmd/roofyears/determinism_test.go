//go:build unix

package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// everyWriter are commands that between them write every kind of result.
var everyWriter = [][]string{
	{"compare", "--json", "-o", "school.json", "example:school"},
	{"compare", "--json", "-o", "cold-store.json", "example:cold-store"},
	{"compare", "-o", "school.txt", "example:school"},
	{"report", "--trials", "5000", "-o", "school.html", "example:school"},
	{"report", "--trials", "5000", "-o", "cold-store.html", "example:cold-store"},
	{"takeoff", "--csv", "-o", "take-off.csv", "example:cold-store"},
	{"sensitivity", "--json", "-o", "sensitivity.json", "example:cold-store"},
	{"break-even", "--json", "-o", "break-even.json", "example:cold-store"},
	{"risk", "--json", "--trials", "5000", "-o", "risk.json", "example:cold-store"},
	{"portfolio", "--plan", "--page", "plan.html", "--summary", "plan.json", "-o", "plan.csv", "example:portfolio", "example:portfolio"},
	{"portfolio", "--trials", "500", "--page", "roofs.html", "--summary", "roofs.json", "-o", "roofs.ndjson", "example:portfolio", "example:portfolio"},
	{"portfolio", "-o", "roofs.xlsx", "example:portfolio", "example:portfolio"},
	{"workbook", "-o", "cold-store.xlsx", "example:cold-store"},
	{"takeoff", "--json", "-o", "take-off.json", "example:cold-store"},
}

// sums runs all of them in a folder, behind a program that runs programs if
// need be, and gives the SHA-256 of each file.
func sums(t *testing.T, dir string, env []string, command ...string) map[string]string {
	t.Helper()
	for _, args := range everyWriter {
		all := append(append([]string{}, command...), args...)
		cmd := exec.Command(all[0], all[1:]...)
		cmd.Env = env
		code, _, told := inFolder(t, dir, cmd)
		require.Equal(t, exitDone, code, "%q: %s", all, told)
	}
	out := map[string]string{}
	for file, text := range filesIn(t, dir) {
		out[file] = fmt.Sprintf("%x", sha256.Sum256([]byte(text)))
	}
	return out
}

// Neither the run, the number of processors, the time zone, the language, the
// home nor the folder changes a byte of any result.
func TestTheSameBytesEverywhere(t *testing.T) {
	program := built(t)
	want := sums(t, t.TempDir(), []string{"GOMAXPROCS=1", "TZ=UTC", "LANG=C"}, program)
	require.Len(t, want, 18)
	elsewhere := filepath.Join(t.TempDir(), "ein Ordner, anderswo")
	require.NoError(t, os.Mkdir(elsewhere, 0o700))
	for _, run := range []struct {
		dir string
		env []string
	}{
		{t.TempDir(), []string{"GOMAXPROCS=2", "TZ=Pacific/Kiritimati", "LC_ALL=de_DE.UTF-8", "HOME=/nowhere", "TERM=xterm-256color", "COLUMNS=40"}},
		{elsewhere, append(os.Environ(), "GOMAXPROCS=7", "TZ=America/St_Johns", "LANG=tr_TR.UTF-8", "LC_NUMERIC=fr_FR", "GODEBUG=cpu.all=off", "GOGC=20")},
	} {
		assert.Equal(t, want, sums(t, run.dir, run.env, program), run.env)
	}
}

// otherProcessor is one that the machine has not, and the program of the Debian
// package qemu-user that runs its programs.
func otherProcessor(t *testing.T) (processor, runner string) {
	t.Helper()
	processor, runner = "arm64", "qemu-aarch64"
	if runtime.GOARCH == processor {
		processor, runner = "amd64", "qemu-x86_64"
	}
	path, err := exec.LookPath(runner)
	require.NoError(t, err, "the Debian package qemu-user has it")
	return processor, path
}

// Another kind of processor writes the same bytes.
func TestTheSameBytesOnAnotherProcessor(t *testing.T) {
	processor, runner := otherProcessor(t)
	program, err := compile(processor)
	require.NoError(t, err)
	want := sums(t, t.TempDir(), nil, built(t))
	assert.Equal(t, want, sums(t, t.TempDir(), nil, runner, program))
}

// fused is an instruction of arm64 that multiplies and adds with one rounding.
var fused = regexp.MustCompile(`^\s+(\S+\.go:\d+)\s.*\sFN?M(ADD|SUB)[SD] `)

// A processor that multiplies and adds with one rounding gives other digits than
// one that rounds twice. So no code of ours lets a compiler join the two: a
// product that is added is written float64(a*b).
func TestNoProductIsAddedWithoutBeingRounded(t *testing.T) {
	program, err := compile("arm64")
	require.NoError(t, err)
	out, err := exec.Command("go", "tool", "objdump", "-s", `^(roofyears/|main\.)`, program).Output()
	require.NoError(t, err)
	require.Contains(t, string(out), "FMULD", "it multiplies")
	for _, line := range strings.Split(string(out), "\n") {
		if found := fused.FindStringSubmatch(line); found != nil {
			t.Errorf("%s: a product is added without being rounded: write float64(a*b)", found[1])
		}
	}
}

// otherClock is put into the standard library in place of its clock: it is as
// many years ahead as the environment says, or behind, and some months.
const otherClock = `
func Now() Time {
	said, _ := syscall.Getenv("ROOFYEARS_TEST_YEARS")
	years, err := atoi(said)
	if err != nil {
		panic("years: " + said)
	}
	return clock().AddDate(years, 5, 3)
}

func clock() Time {
`

// withOtherClock builds the command with a clock that can be set.
func withOtherClock(t *testing.T) string {
	t.Helper()
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	original := filepath.Join(strings.TrimSpace(string(root)), "src", "time", "time.go")
	text := string(mustRead(t, original))
	const head, imports = "\nfunc Now() Time {\n", "\nimport (\n"
	require.Equal(t, 1, strings.Count(text, head), original)
	require.Equal(t, 1, strings.Count(text, imports), original)
	text = strings.Replace(strings.Replace(text, head, otherClock, 1), imports, imports+"\t\"syscall\"\n", 1)
	dir := t.TempDir()
	changed, overlay := filepath.Join(dir, "time.go"), filepath.Join(dir, "overlay.json")
	require.NoError(t, os.WriteFile(changed, []byte(text), 0o600))
	require.NoError(t, os.WriteFile(overlay, fmt.Appendf(nil, `{"Replace": {%q: %q}}`, original, changed), 0o600))
	program, err := compile("", "-overlay", overlay)
	require.NoError(t, err)
	return program
}

// The clock changes no byte of any result, be it before the first year that a
// zip file knows or after the last.
func TestTheSameBytesAtAnyTime(t *testing.T) {
	want := sums(t, t.TempDir(), nil, built(t))
	program := withOtherClock(t)
	for _, years := range []string{"-70", "120"} {
		assert.Equal(t, want, sums(t, t.TempDir(), []string{"ROOFYEARS_TEST_YEARS=" + years}, program), years)
	}
	cmd := exec.Command(program, "compare", "example:school")
	cmd.Env = []string{"ROOFYEARS_TEST_YEARS=some"}
	code, _, told := inFolder(t, t.TempDir(), cmd)
	assert.NotEqual(t, exitDone, code, "the other clock is the one that is linked")
	assert.Contains(t, told, "panic: years: some")
}

// Nor does the time at which a file was last changed: that of the input, or of
// what is replaced.
func TestTheSameBytesOfOldAndNewFiles(t *testing.T) {
	dir := t.TempDir()
	file := func(name string) string { return filepath.Join(dir, name) }
	inDir := func(args ...string) {
		code, _, told := inFolder(t, dir, exec.Command(built(t), args...))
		require.Equal(t, exitDone, code, told)
	}
	inDir("new", "--example", "portfolio", "template.yaml")
	var first map[string]string
	for _, year := range []int{1960, 1979, 2026, 2200} {
		at := time.Date(year, 3, 1, 1, 2, 3, 0, time.UTC)
		for name := range filesIn(t, dir) {
			require.NoError(t, os.Chtimes(file(name), at, at))
		}
		inDir("report", "--trials", "100", "-o", "page.html", "template.yaml")
		inDir("workbook", "-o", "study.xlsx", "template.yaml")
		inDir("portfolio", "--page", "roofs.html", "--summary", "roofs.json", "-o", "roofs.xlsx", "template.yaml", "portfolio.csv")
		inDir("portfolio", "-o", "roofs.csv", "template.yaml", "portfolio.csv")
		found := filesIn(t, dir)
		if first == nil {
			first = found
		}
		assert.Equal(t, first, found, "files of the year %d", year)
	}
	assert.Len(t, first, 8)
}
