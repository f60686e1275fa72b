//go:build linux

package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// largeStudy is a study of so many alternatives, systems and years: each
// system has so many costs every year and is followed by the next, each
// alternative starts with another.
func largeStudy(alternatives, systems, years, costs int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "roofyears: 1\nstudy: {title: Large, base_date: 2026-10-12, period: %d, currency: USD, rate_basis: real, discount_rate: 3%%}\n", years)
	b.WriteString("roof: {area: 20000 ft2}\nsystems:\n")
	for i := range systems {
		var upkeep []string
		for j := range costs {
			upkeep = append(upkeep, fmt.Sprintf("{item: upkeep %d, amount: %d, growth: 1%%}", j, 100+i+j))
		}
		then := ""
		if i < systems-1 {
			then = fmt.Sprintf(", then: s%d", i+1)
		}
		fmt.Fprintf(&b, "  s%d: {name: System %d, life: {low: 5, likely: %d, high: 40}, first_costs: [{item: work, amount: {low: 50000, likely: %d, high: 90000}}], annual_costs: [%s]%s}\n",
			i, i, 10+i%20, 60_000+i, strings.Join(upkeep, ", "), then)
	}
	b.WriteString("alternatives:\n")
	for i := range alternatives {
		fmt.Fprintf(&b, "  - {name: Choice %d, start: s%d%s}\n", i, i*systems/alternatives, map[bool]string{true: ", base_case: true"}[i == 0])
	}
	return b.String()
}

// peak runs a command and gives the most memory that it held, in MB, as the
// kernel of Linux tells while it runs.
func peak(t *testing.T, dir string, in io.Reader, args ...string) (code int, told string, most float64) {
	t.Helper()
	var said strings.Builder
	cmd := exec.Command(built(t), args...)
	cmd.Dir, cmd.Stdin, cmd.Stderr = dir, in, &said
	require.NoError(t, cmd.Start())
	ended := make(chan struct{})
	go func() {
		_ = cmd.Wait() // its exit code is looked at
		close(ended)
	}()
	high := regexp.MustCompile(`VmHWM:\s+(\d+) kB`)
	for going := true; going; {
		select {
		case <-ended:
			going = false
		case <-time.After(5 * time.Millisecond):
			status, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", cmd.Process.Pid))
			if found := high.FindSubmatch(status); found != nil {
				kB, err := strconv.Atoi(string(found[1]))
				require.NoError(t, err)
				most = max(most, float64(kB)/1000)
			}
		}
	}
	require.NotZero(t, most, "Linux tells no memory")
	return cmd.ProcessState.ExitCode(), said.String(), most
}

// The largest study that is read, near every limit at once, is done within the
// memory that the manual states, and so are a simulation and the page of it.
func TestTheLargestStudy(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "large.yaml"), []byte(largeStudy(50, 200, 200, 4)), 0o600))
	for _, c := range []struct {
		args []string
		most float64 // MB
	}{
		{[]string{"compare", "--json", "-o", "large.json", "large.yaml"}, 200},
		{[]string{"risk", "--json", "--trials", "5000", "-o", "large.json", "large.yaml"}, 200},
		{[]string{"report", "--trials", "5000", "-o", "large.html", "large.yaml"}, 500},
	} {
		begun := time.Now()
		code, told, most := peak(t, dir, nil, c.args...)
		t.Logf("%s: %.0f MB, %v", c.args[0], most, time.Since(begun))
		assert.Equal(t, exitDone, code, told)
		assert.Less(t, most, c.most, c.args)
	}
	page, err := os.ReadFile(filepath.Join(dir, "large.html"))
	require.NoError(t, err)
	assert.Greater(t, bytes.Count(page, []byte("<td>upkeep ")), 40_000-1, "the page holds the ledgers whole")
}

// What is larger is refused, with the limit, and is not read to its end.
func TestLargerStudiesAreRefused(t *testing.T) {
	dir := t.TempDir()
	for file, c := range map[string]struct{ text, said string }{
		"alternatives": {largeStudy(200, 200, 200, 1), `alternatives: 200 entries, at most 50 are read`},
		"systems":      {largeStudy(50, 500, 200, 1), `systems: 500 entries, at most 200 are read`},
		"years":        {largeStudy(2, 2, 201, 1), `study.period: "201" is out of range(.|\n)*expected a whole number from 1 to 200`},
		"inputs":       {largeStudy(50, 200, 200, 13), `alternatives: the study has 5602 inputs, at most 5000 are read`},
		"lines":        {largeStudy(50, 200, 200, 6), `alternatives: the ledgers of the alternatives have 6\d{4} lines together, at most 50000 are computed`},
		"bytes":        {largeStudy(2, 2, 20, 1) + strings.Repeat("# a comment that goes on\n", 2_000_000), `the file is larger than 4 MiB, the most that is read`},
	} {
		path := filepath.Join(dir, file+".yaml")
		require.NoError(t, os.WriteFile(path, []byte(c.text), 0o600))
		code, told, most := peak(t, dir, nil, "compare", path)
		assert.Equal(t, exitInput, code, file)
		assert.Regexp(t, c.said, told)
		assert.Less(t, most, 150.0, file)
	}
}

// rowsOf writes a table of so many roofs as it is read.
func rowsOf(n int) io.Reader {
	read, write := io.Pipe()
	go func() {
		to := bufio.NewWriter(write)
		fmt.Fprintln(to, "id,name,roof.area,systems.existing.life")
		for i := range n {
			fmt.Fprintf(to, "R%07d,Roof number %d,%d,%d\n", i, i, 5000+i%55_000, 1+i%10)
		}
		_ = write.CloseWithError(to.Flush()) // which fails when nobody reads on
	}()
	return read
}

// A million roofs stream through the memory that the manual states.
func TestAMillionRoofs(t *testing.T) {
	const roofs = 1_000_000
	dir := t.TempDir()
	begun := time.Now()
	code, told, most := peak(t, dir, rowsOf(roofs), "portfolio", "--in", "csv", "-o", "answers.csv", "example:portfolio", "-")
	t.Logf("%.0f MB, %v", most, time.Since(begun))
	assert.Equal(t, exitDone, code, told)
	assert.Less(t, most, 200.0)
	assert.Contains(t, told, "1,000,000 roofs\n")
	answers, err := os.Open(filepath.Join(dir, "answers.csv"))
	require.NoError(t, err)
	defer answers.Close()
	lines := 0
	for in := bufio.NewScanner(answers); in.Scan(); lines++ {
		if lines > 0 && !strings.HasPrefix(in.Text(), fmt.Sprintf("R%07d,", lines-1)) {
			t.Fatalf("row %d is %.60s", lines, in.Text())
		}
	}
	assert.Equal(t, roofs+1, lines)
}
