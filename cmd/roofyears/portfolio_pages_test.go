package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/verify"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// The page of a roof carries a study of its own, whose compare gives the
// figures of the roof's row, to the cent.
func TestPagesOfRoofsAreTheirRows(t *testing.T) {
	pages := filepath.Join(t.TempDir(), "new", "pages")
	table := "id,name,study.discount_rate,survey.wet.area,systems.existing.life,findings.deck\n" +
		"A1,North,2%,700 m2,2.5,wood\n../../x,,,,,\nB,\"two\nlines \u202e\",4.25%,0,,steel\n"
	code, out, told := roofs(t, table, "--in", "csv", "--format", "ndjson", "--pages", pages, "example:cold-store", "-")
	require.Equal(t, exitDone, code, told)
	assert.True(t, strings.HasSuffix(told, "\nwrote 3 pages into "+pages+"\n"), told)
	rows := strings.Split(strings.TrimSpace(out), "\n")
	titles := map[string]string{"A1": "North (A1)", "x": "Cold store, main roof (invented example), ../../x", "B": "two lines (B)"}
	for i, name := range []string{"A1", "x", "B"} {
		page, err := verify.Read(mustRead(t, filepath.Join(pages, name+".html")))
		require.NoError(t, err)
		sameAsCompare(t, string(page.Carried.File.Text), rows[i])
		assert.Equal(t, name+".yaml", page.Carried.File.Name)
		file, _ := scenarios.Read(scenarios.Source{Name: name, Text: page.Carried.File.Text})
		require.NotNil(t, file)
		assert.Equal(t, titles[name], file.Study.About.Title)
		var o, e bytes.Buffer
		assert.Equal(t, exitDone, run([]string{"roofyears", "verify", filepath.Join(pages, name+".html")}, stream{nil, &o, &e}), e.String())
	}
	all, err := filepath.Glob(filepath.Join(filepath.Dir(filepath.Dir(pages)), "*", "*", "*"))
	require.NoError(t, err)
	assert.Len(t, all, 3, "nothing lies anywhere else: %q", all)

	before := mustRead(t, filepath.Join(pages, "A1.html"))
	code, _, told = roofs(t, table, "--in", "csv", "--pages", pages, "example:cold-store", "-")
	require.Equal(t, exitDone, code, told)
	assert.Equal(t, before, mustRead(t, filepath.Join(pages, "A1.html")), "a second run gives the same bytes")
}

// Whatever an id is, its file has a name of its own and lies in its folder.
func TestNamesOfRoofsFiles(t *testing.T) {
	ids := []string{"R1", "r1", "R1-2", "../../etc/passwd", `..\..\x`, "..", "/", "", "con", "LPT1.old", "a b", "a:b", "ä", strings.Repeat("long ", 100), "x\x00y", "-rf", ".hidden", "R1"}
	names := roofFiles(ids)
	want := []string{"R1", "r1-2", "R1-2-2", "etc-passwd", "x", "roof", "roof-2", "roof-3", "_con", "_LPT1.old", "a-b", "a-b-2", "roof-4", "", "x-y", "rf", "hidden", "R1-3"}
	taken := map[string]bool{}
	for i, name := range names {
		if want[i] != "" {
			assert.Equal(t, want[i], name, "%q", ids[i])
		}
		assert.Regexp(t, `^[A-Za-z0-9_][A-Za-z0-9._-]{0,83}$`, name)
		assert.False(t, taken[strings.ToLower(name)], name)
		taken[strings.ToLower(name)] = true
		assert.Equal(t, filepath.Join("pages", name), filepath.Clean("pages/"+name))
	}
}

// What keeps the pages from being written leaves no half file.
func TestPagesThatCannotBeWritten(t *testing.T) {
	dir := t.TempDir()
	blocked := filepath.Join(dir, "pages")
	require.NoError(t, os.WriteFile(blocked, []byte("a file"), 0o600))
	out := filepath.Join(dir, "out.csv")
	code, _, told := roofs(t, "id\na\n", "--in", "csv", "--pages", blocked, "-o", out, "example:portfolio", "-")
	assert.Equal(t, exitFailure, code)
	assert.Contains(t, told, "pages")
	assert.NoFileExists(t, out)
	assert.Equal(t, "a file", string(mustRead(t, blocked)))

	src, _ := scenarios.Example("portfolio")
	file, _ := scenarios.Read(src)
	r, err := newRoofRun([]portfolio.Template{{File: file}}, "roofs", strings.NewReader("id\na\nb\n"), portfolio.Options{}, portfolio.Meaning{}, wanted{})
	require.NoError(t, err)
	r.gather = true
	w := &roofWriting{run: r, out: &bytes.Buffer{}, told: &bytes.Buffer{}, empty: make([]int, len(r.columns.Inputs()))}
	require.NoError(t, w.write(context.Background()))
	ctx, stop := context.WithCancel(context.Background())
	stop()
	folder := filepath.Join(dir, "interrupted")
	assert.ErrorIs(t, w.writePages(ctx, folder, roofFiles(w.ids())), errInterrupted)
	left, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// A roof whose own life makes its ledgers longer than those of a study file may
// be is refused as a row, so that the pages of the others are written.
func TestARoofOfTooManyLines(t *testing.T) {
	costs := strings.Repeat("{item: Part, amount: 100}, ", 150)
	template := filepath.Join(t.TempDir(), "template.yaml")
	require.NoError(t, os.WriteFile(template, []byte("roofyears: 1\n"+
		"study: {title: T, base_date: 2026-10-01, period: 200, currency: USD, rate_basis: real, discount_rate: 3%}\n"+
		"roof: {area: 4800 ft2}\nsystems:\n  new_roof: {name: New, work: tear_off, life: 20, first_costs: ["+costs+"]}\n"+
		"alternatives: [{name: Now, start: new_roof, base_case: true}, {name: Also now, start: new_roof}]\n"), 0o600))
	pages := filepath.Join(t.TempDir(), "pages")
	code, out, told := roofs(t, "id,systems.new_roof.life\nA,10\nB,1\n", "--in", "csv", "--pages", pages, template, "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, "standard input:3: the ledgers of the alternatives have 60000 lines together, at most 50000 are computed\n")
	assert.Contains(t, out, "\nA,")
	assert.NotContains(t, out, "\nB,")
	written, err := os.ReadDir(pages)
	require.NoError(t, err)
	require.Len(t, written, 1)
	assert.Equal(t, "A.html", written[0].Name())
}
