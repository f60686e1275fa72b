package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// roofs runs the command on a table from standard input.
func roofs(t testing.TB, table string, args ...string) (code int, out, told string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(append([]string{name, "portfolio"}, args...), stream{strings.NewReader(table), &o, &e})
	return code, o.String(), e.String()
}

// differing is a number of a study file that differs from roof to roof: its
// path, how the file has it, and how a roof has it.
type differing struct {
	path, text string
	draw       func(r *rand.Rand) (cell, inFile string)
}

func whole(low, high int, before, after string) func(*rand.Rand) (string, string) {
	return func(r *rand.Rand) (string, string) {
		n := fmt.Sprint(low + r.IntN(high-low+1))
		return n, before + n + after
	}
}

func hundredths(low, high int, before, after string) func(*rand.Rand) (string, string) {
	return func(r *rand.Rand) (string, string) {
		n := decimal.New(int64(low+r.IntN(high-low+1)), -2).String()
		return n + after, before + n + after
	}
}

// What differs: of a plain template, and of one with a survey, a take-off,
// findings and a life that follows from a film.
var plainDiffering = []differing{
	{"study.discount_rate", `discount_rate: {low: 2%, likely: 3%, high: 4.5%, source: "the trust's finance office, 2026-10-12"}`, hundredths(0, 700, "discount_rate: ", "%")},
	{"roof.area", `area: {value: 22000 ft2, source: measured from drawings}`, whole(2000, 90000, "area: ", " ft2")},
	{"roof.quantities.drains", "drains: 8", whole(0, 40, "drains: ", "")},
	{"systems.existing.life", `life: {low: 12, likely: 18, high: 24, source: "roof surveys, 2026"}`, hundredths(50, 1400, "life: ", "")},
	{"systems.existing.annual_costs[1].amount", "amount: 5200,", hundredths(0, 4000000, "amount: ", "")},
	{"systems.restoration.first_costs[5].unit_price", "unit_price: 3.05,", hundredths(100, 900, "unit_price: ", "")},
	{"systems.restoration.recoat.life", "life: {low: 7, likely: 10, high: 13}", hundredths(300, 1500, "life: ", "")},
}

var surveyDiffering = []differing{
	{"survey.planes[2].width", "length: 310 ft, width: 100 ft,", whole(20, 150, "length: 310 ft, width: ", " ft,")},
	{"survey.wet.area", "wet: {area: 0 ft2,", whole(0, 30000, "wet: {area: ", " ft2,")},
	{"survey.rust.perforated", "perforated: 1.4%", hundredths(0, 3000, "perforated: ", "%")},
	{"systems.restoration.life.from_film.wear", `wear: {low: 1.05, likely: 1.35, high: 1.75, source: "supplier's test panels on two roofs nearby"}`, hundredths(90, 300, "wear: ", "")},
	{"systems.existing.life", `life: {low: 2, likely: 4, high: 6, source: "roof survey, 2026-06-18"}`, hundredths(50, 1400, "life: ", "")},
}

// cellOf takes the words of the file out of a cell.
func cellOf(cell string) string {
	cell = strings.TrimSuffix(cell, ",")
	return strings.TrimSuffix(strings.TrimSuffix(cell, " ft2"), " ft")
}

// drawnRoofs draws a table of roofs on an example, and a study file for each: one
// in which the numbers are written where the template has its own.
func drawnRoofs(t *testing.T, example string, differs []differing, n int) (table string, files []string) {
	t.Helper()
	src, _ := scenarios.Example(example)
	r := rand.New(rand.NewPCG(11, 0))
	heads := []string{"id"}
	for _, d := range differs {
		require.Equal(t, 1, strings.Count(string(src.Text), d.text), d.text)
		heads = append(heads, d.path)
	}
	table = strings.Join(heads, ",") + "\n"
	for i := range n {
		file, cells := string(src.Text), []string{fmt.Sprintf("R%d", i)}
		for _, d := range differs {
			cell, inFile := d.draw(r)
			if r.IntN(4) == 0 {
				cells = append(cells, "") // the template's value
				continue
			}
			if strings.HasPrefix(d.path, "systems.existing.annual") || strings.Contains(d.path, "unit_price") {
				inFile += ","
			}
			cells, file = append(cells, cellOf(cell)), strings.Replace(file, d.text, inFile, 1)
		}
		table, files = table+strings.Join(cells, ",")+"\n", append(files, file)
	}
	return table, files
}

// Every roof has the figures that compare gives for a study file of its own,
// to the cent.
func TestRoofsAreTheirOwnCompare(t *testing.T) {
	for _, c := range []struct {
		example string
		differs []differing
		roofs   int
	}{{"portfolio", plainDiffering, 110}, {"cold-store", surveyDiffering, 25}} {
		table, files := drawnRoofs(t, c.example, c.differs, c.roofs)
		code, out, told := roofs(t, table, "--in", "csv", "--format", "ndjson", "example:"+c.example, "-")
		require.Equal(t, exitDone, code, told)
		lines := strings.Split(strings.TrimSpace(out), "\n")
		require.Len(t, lines, c.roofs)
		open := 0
		for i, line := range lines {
			open += sameAsCompare(t, files[i], line)
		}
		if c.example == "cold-store" {
			assert.Greater(t, open, c.roofs, "wet roofs leave more open than the template, by the verdicts of their own survey")
		}
	}
}

// sameAsCompare compares a row with compare of its own file, and counts
// the alternatives that are open.
func sameAsCompare(t *testing.T, file, row string) int {
	t.Helper()
	path := filepath.Join(t.TempDir(), "roof.yaml")
	require.NoError(t, os.WriteFile(path, []byte(file), 0o600))
	var o, e bytes.Buffer
	require.Equal(t, exitDone, run([]string{name, "compare", "--json", path}, stream{nil, &o, &e}), e.String())
	type figures struct {
		Name     string      `json:"name"`
		LCC      json.Number `json:"life_cycle_cost"`
		First    json.Number `json:"first_cost"`
		Saved    json.Number `json:"net_savings"`
		Standing string      `json:"standing"`
		Eligible bool        `json:"eligible"`
		Open     []any       `json:"open"`
		Against  *struct {
			Saved json.Number `json:"net_savings"`
			SIR   json.Number `json:"sir"`
		} `json:"against_base"`
	}
	var own struct {
		Answer struct {
			Lowest   *string     `json:"lowest"`
			RunnerUp *string     `json:"runner_up"`
			Margin   json.Number `json:"margin"`
		} `json:"answer"`
		Alternatives []figures `json:"alternatives"`
	}
	var got struct {
		Lowest       *string     `json:"lowest"`
		RunnerUp     *string     `json:"runner_up"`
		Margin       json.Number `json:"margin"`
		SIR          json.Number `json:"sir"`
		Alternatives []figures   `json:"alternatives"`
	}
	require.NoError(t, json.Unmarshal(o.Bytes(), &own))
	require.NoError(t, json.Unmarshal([]byte(row), &got))
	require.Len(t, got.Alternatives, len(own.Alternatives))
	out := 0
	for i, want := range own.Alternatives {
		a := got.Alternatives[i]
		saved := json.Number("")
		if want.Against != nil {
			saved = want.Against.Saved
			if own.Answer.Lowest != nil && want.Name == *own.Answer.Lowest {
				assert.Equal(t, want.Against.SIR, got.SIR, row)
			}
		}
		assert.Equal(t, []any{want.Name, want.LCC, want.First, saved}, []any{a.Name, a.LCC, a.First, a.Saved}, row)
		open := want.Eligible && len(want.Open) > 0
		assert.Equal(t, []bool{want.Eligible, open}, []bool{a.Standing != "ruled out", strings.HasPrefix(a.Standing, "open: ")}, row)
		if open {
			out++
		}
	}
	assert.Equal(t, []any{own.Answer.Lowest, own.Answer.RunnerUp, own.Answer.Margin}, []any{got.Lowest, got.RunnerUp, got.Margin}, row)
	return out
}

// manyRoofs is a table of roofs that differ in area.
func manyRoofs(n int) string {
	var b strings.Builder
	b.WriteString("id,roof.area,note\n")
	for i := range n {
		fmt.Fprintf(&b, "R%06d,%d,\n", i, 2000+i)
	}
	return b.String()
}

// Many workers give the order of the input, and what one worker gives.
func TestRoofsComeInTheOrderOfTheInput(t *testing.T) {
	table := manyRoofs(5000)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(16))
	code, many, told := roofs(t, table, "--in", "csv", "example:portfolio", "-")
	require.Equal(t, exitDone, code, told)
	for i, line := range strings.Split(strings.TrimSpace(many), "\n")[1:] {
		require.True(t, strings.HasPrefix(line, fmt.Sprintf("R%06d,", i)), line)
	}
	runtime.GOMAXPROCS(1)
	_, one, _ := roofs(t, table, "--in", "csv", "example:portfolio", "-")
	assert.True(t, many == one, "one worker gives the same bytes")
}

// The totals are the sums of the rows, to the cent.
func TestTotalsFootToTheRows(t *testing.T) {
	_, out, told := roofs(t, manyRoofs(700), "--in", "csv", "--format", "ndjson", "example:portfolio", "-")
	sum, lowest, rows := decimal.Zero, 0, 0
	for _, line := range strings.Split(strings.TrimSpace(out), "\n") {
		var row struct {
			Lowest       string `json:"lowest"`
			Alternatives []struct {
				LCC decimal.Decimal `json:"life_cycle_cost"`
			} `json:"alternatives"`
		}
		require.NoError(t, json.Unmarshal([]byte(line), &row))
		sum, rows = sum.Add(row.Alternatives[1].LCC), rows+1
		if row.Lowest == "Restore" {
			lowest++
		}
	}
	assert.Equal(t, 700, rows)
	assert.Contains(t, told, "700 roofs\n")
	assert.Contains(t, told, "Restore: life-cycle cost "+sum.StringFixed(2)+" USD, first cost ")
	assert.Regexp(t, fmt.Sprintf(`(?m)^Restore: .*, lowest for %d roofs?$`, lowest), told)
}

// A table that GNU split divides gives the same bytes part by part.
func TestPartsOfATableAreTheWhole(t *testing.T) {
	dir := t.TempDir()
	head, rows, _ := strings.Cut(manyRoofs(1000), "\n")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "rows"), []byte(rows), 0o600))
	cmd := exec.Command("split", "-n", "l/2", "rows", "part-")
	cmd.Dir = dir
	require.NoError(t, cmd.Run())
	parts, err := filepath.Glob(filepath.Join(dir, "part-*"))
	require.NoError(t, err)
	require.Len(t, parts, 2)
	assertPartsOfNDJSON(t, rows)
	for format, heads := range map[string]int{"ndjson": 0, "csv": 1} {
		_, want, _ := roofs(t, head+"\n"+rows, "--in", "csv", "--format", format, "example:portfolio", "-")
		got := ""
		for i, part := range parts {
			_, out, _ := roofs(t, head+"\n"+string(mustRead(t, part)), "--in", "csv", "--format", format, "example:portfolio", "-")
			if i > 0 && heads > 0 {
				_, out, _ = strings.Cut(out, "\n")
			}
			got += out
		}
		assert.True(t, got == want, format)
	}
}

// assertPartsOfNDJSON divides a table that has no head to repeat.
func assertPartsOfNDJSON(t *testing.T, rows string) {
	t.Helper()
	var lines []string
	for _, row := range strings.Split(strings.TrimSpace(rows), "\n") {
		cells := strings.Split(row, ",")
		lines = append(lines, fmt.Sprintf(`{"id":%q,"roof.area":%s,"note":"a, b"}`+"\n", cells[0], cells[1]))
	}
	half := len(lines) / 2
	got := ""
	for _, part := range [][]string{lines[:half], lines[half:]} {
		_, out, _ := roofs(t, strings.Join(part, ""), "--in", "ndjson", "--format", "ndjson", "example:portfolio", "-")
		got += out
	}
	_, want, told := roofs(t, strings.Join(lines, ""), "--in", "ndjson", "--format", "ndjson", "example:portfolio", "-")
	assert.Contains(t, told, "1,000 roofs\n")
	assert.True(t, got == want, "NDJSON")
}

// failing gives some bytes, then fails.
type failing struct {
	io.Reader
	err error
}

func (f *failing) Read(b []byte) (int, error) {
	n, err := f.Reader.Read(b)
	if errors.Is(err, io.EOF) {
		err = f.err
	}
	return n, err
}

// What ends a run half way leaves the file that was there, and nothing beside.
func TestAHalfDoneTableLeavesNoFile(t *testing.T) {
	table := manyRoofs(600)
	for what, in := range map[string]io.Reader{
		"a disk that fails":         &failing{strings.NewReader(table), errors.New("the disk is gone")},
		"a quote that is open":      strings.NewReader(table + `R1,"100` + "\n"),
		"an id for the second time": strings.NewReader(table + "R000001,100,\n"),
	} {
		assertLeavesNothing(t, what, in, "out.csv", t.TempDir())
	}
}

// assertLeavesNothing runs the command on a table that ends half way: the file
// that was there stays as it was, and nothing is left beside it or in the
// folder of temporary files.
func assertLeavesNothing(t *testing.T, what string, in io.Reader, file, temporary string) {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, file)
	require.NoError(t, os.WriteFile(path, []byte("before"), 0o600))
	var o, e bytes.Buffer
	code := run([]string{name, "portfolio", "--strict", "--in", "csv", "-o", path, "example:portfolio", "-"}, stream{in, &o, &e})
	assert.NotEqual(t, exitDone, code, what)
	assert.Equal(t, "before", string(mustRead(t, path)), what)
	for dir, files := range map[string]int{dir: 1, temporary: 0} {
		left, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Len(t, left, files, what)
	}
}

// An interruption ends the run though standard input gives nothing more.
func TestAnInterruptionEndsTheRun(t *testing.T) {
	in, feed := io.Pipe()
	defer feed.Close()
	go func() { _, _ = io.WriteString(feed, manyRoofs(10)) }()
	src, _ := scenarios.Example("portfolio")
	file, _ := scenarios.Read(src)
	r, err := newRoofRun([]portfolio.Template{{File: file}}, "roofs", in, portfolio.Options{}, portfolio.Meaning{}, wanted{})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var told bytes.Buffer
	w := &roofWriting{run: r, out: io.Discard, told: &told}
	assert.EqualError(t, w.write(ctx), "interrupted")
}
