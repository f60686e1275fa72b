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
	require.Len(t, want, 16)
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
