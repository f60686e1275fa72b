package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/report/html/browsertest"
	"roofyears/scenarios/portfolio"
)

// roofsPageFile writes the page of a table, and its results as CSV.
func roofsPageFile(t testing.TB, table string, args ...string) (page, out string) {
	t.Helper()
	page = filepath.Join(t.TempDir(), "roofs.html")
	code, out, told := roofs(t, table, append([]string{"--page", page}, args...)...)
	require.Equal(t, exitDone, code, told)
	return page, out
}

// budgetedExample is the page of the example with a plan.
func budgetedExample(t testing.TB, args ...string) (page, out string) {
	t.Helper()
	return roofsPageFile(t, "", append([]string{"--budget", "2027-2029=1050000", "--crew", "2028=200000", "--trials", "300", "example:portfolio", "example:portfolio"}, args...)...)
}

// tableRows are the rows of a table of a page by their heads, without marks of
// notes; the last is that of the totals.
func tableRows(p *browsertest.Page, id string) []map[string]string {
	return browsertest.Eval[[]map[string]string](p, `((t) => {
		const text = (c) => [...c.childNodes].filter((n) => n.nodeName !== 'SUP').map((n) => n.textContent).join('');
		const heads = [...t.tHead.rows[0].cells].map(text);
		return [...t.tBodies[0].rows].filter((r) => r.cells.length === heads.length).map((r) => Object.fromEntries(heads.map((h, i) => [h, text(r.cells[i])])));
	})(document.getElementById('`+id+`'))`)
}

// number reads an amount as the page writes it; "–" and words are none.
func number(t *testing.T, shown string) decimal.Decimal {
	t.Helper()
	d, err := decimal.NewFromString(strings.ReplaceAll(shown, ",", ""))
	require.NoError(t, err, shown)
	return d
}

// csvRows reads a result by its heads.
func csvRows(t *testing.T, out string) (rows []map[string]string) {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(out, "\ufeff"))).ReadAll()
	require.NoError(t, err)
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, cell := range cells {
			row[all[0][i]] = cell
		}
		rows = append(rows, row)
	}
	return rows
}

// Every figure of a roof on the page is that of the results of the same run,
// and every sum is the sum of the rows, to the cent.
func TestRoofsPageIsItsTable(t *testing.T) {
	page, out := budgetedExample(t)
	p := browsertest.Open(t, page, browsertest.Options{NoScript: true})
	shown := tableRows(p, "roofs")
	want := map[string]map[string]string{}
	for _, row := range csvRows(t, out) {
		want[row["id"]] = row
	}
	require.Len(t, shown, len(want)+1)
	columns := map[string]string{"First cost": "first_cost", "Life-cycle cost": "life_cycle_cost", "Net savings": "net_savings"}
	sums := map[string]decimal.Decimal{}
	for _, row := range shown[:len(want)] {
		own := want[row["Id"]]
		lowest := own["lowest"]
		assert.Equal(t, []string{own["name"], own["region"], own["built"], lowest, own["plan"]},
			[]string{row["Roof"], row["region"], row["built"], row["Lowest alternative"], row["Plan: alternative"]})
		for head, key := range columns {
			if lowest == "Keep patching" && key == "net_savings" {
				assert.Equal(t, "base case", row[head])
				continue
			}
			figure := number(t, row[head])
			assert.Equal(t, own[lowest+": "+key], figure.StringFixed(2), "%s of %s", head, row["Id"])
			sums[head] = sums[head].Add(figure)
		}
		assert.Equal(t, own["margin"], number(t, row["Margin to the next"]).StringFixed(2))
		if own["sir"] == "" {
			assert.Equal(t, "–", row["SIR"])
		} else {
			assert.Equal(t, decimal.RequireFromString(own["sir"]).StringFixed(4), row["SIR"])
		}
		if own["plan_start"] == "" {
			assert.Contains(t, []string{"no work", "forced"}, row["Plan: start"])
		} else {
			assert.Equal(t, own["plan_start"], row["Plan: start"])
		}
		works := decimal.Zero
		for year := 2027; year <= 2029; year++ {
			works = works.Add(decimal.RequireFromString(own[fmt.Sprintf("plan_works_%d", year)]))
		}
		assert.Equal(t, works.StringFixed(2), number(t, row["Plan: works 2027–2029"]).StringFixed(2))
		sums["Plan: works 2027–2029"] = sums["Plan: works 2027–2029"].Add(works)
		sums["Plan area, ft²"] = sums["Plan area, ft²"].Add(number(t, row["Plan area, ft²"]))
	}
	for head, sum := range sums {
		assert.True(t, sum.Equal(number(t, shown[len(want)][head])), head)
	}
	assertRoofTotals(t, tableRows(p, "roof-totals"), csvRows(t, out), sums)
	assertPlanTables(t, p, csvRows(t, out))
}

// assertRoofTotals compares the table of alternatives with the sums of rows.
func assertRoofTotals(t *testing.T, shown, rows []map[string]string, lowest map[string]decimal.Decimal) {
	t.Helper()
	require.Len(t, shown, 5)
	for _, line := range shown[:4] {
		for head, key := range map[string]string{"First cost": "first_cost", "Life-cycle cost": "life_cycle_cost", "Net savings against the base case": "net_savings"} {
			if line["Alternative"] == "Keep patching" && key == "net_savings" {
				continue
			}
			sum := decimal.Zero
			for _, row := range rows {
				sum = sum.Add(decimal.RequireFromString(row[line["Alternative"]+": "+key]))
			}
			assert.True(t, sum.Equal(number(t, line[head])), "%s of %s", head, line["Alternative"])
		}
	}
	for head, of := range map[string]string{"First cost": "First cost", "Life-cycle cost": "Life-cycle cost", "Net savings against the base case": "Net savings"} {
		assert.True(t, lowest[of].Equal(number(t, shown[4][head])), head)
	}
}

// assertPlanTables compares the money of each year and the schedule with the
// rows.
func assertPlanTables(t *testing.T, p *browsertest.Page, rows []map[string]string) {
	t.Helper()
	years, works := tableRows(p, "plan-money"), tableRows(p, "works")
	require.Len(t, years, 4)
	all := decimal.Zero
	for i, year := range []string{"2027", "2028", "2029"} {
		sum := decimal.Zero
		for _, row := range rows {
			sum = sum.Add(decimal.RequireFromString(row["plan_works_"+year]))
		}
		assert.Equal(t, year, years[i]["Year"])
		assert.True(t, sum.Equal(number(t, years[i]["Works planned"])), year)
		assert.True(t, number(t, years[i]["Budget"]).Sub(sum).Equal(number(t, years[i]["Left"])), year)
		listed := decimal.Zero
		for _, row := range works {
			if row["Roof"] == "Works of "+year {
				assert.True(t, listed.Equal(number(t, row["Cost of works"])), "the schedule of %s", year)
				assert.True(t, sum.Equal(listed), year)
			}
			if listed = listed.Add(number(t, row["Cost of works"])); strings.HasPrefix(row["Roof"], "Works of ") {
				listed = decimal.Zero
			}
		}
		all = all.Add(sum)
	}
	assert.True(t, all.Equal(number(t, years[3]["Works planned"])))
	assert.Equal(t, "200,000", tableRows(p, "plan-crews")[1]["Crews’ limit"])
}

// A roof's figures on the page are those of compare for a study file of its
// own, to the cent.
func TestRoofsOnAPageAreTheirOwnCompare(t *testing.T) {
	table, files := drawnRoofs(t, "portfolio", plainDiffering, 15)
	page, _ := roofsPageFile(t, table, "--in", "csv", "example:portfolio", "-")
	p := browsertest.Open(t, page, browsertest.Options{NoScript: true})
	shown := tableRows(p, "roofs")
	require.Len(t, shown, len(files)+1)
	assert.Contains(t, browsertest.Eval[string](p, `document.querySelector("p.answer").textContent`), "at each roof’s own real discount rate")
	for _, row := range shown[:len(files)] {
		var n int
		_, err := fmt.Sscanf(row["Roof"], "R%d", &n)
		require.NoError(t, err)
		path := filepath.Join(t.TempDir(), "roof.yaml")
		require.NoError(t, os.WriteFile(path, []byte(files[n]), 0o600))
		var o, e bytes.Buffer
		require.Equal(t, exitDone, run([]string{name, "compare", "--json", path}, stream{nil, &o, &e}), e.String())
		var own struct {
			Answer struct {
				Lowest string          `json:"lowest"`
				Margin decimal.Decimal `json:"margin"`
			} `json:"answer"`
			Alternatives []struct {
				Name    string          `json:"name"`
				LCC     decimal.Decimal `json:"life_cycle_cost"`
				First   decimal.Decimal `json:"first_cost"`
				Against *struct {
					Saved decimal.Decimal  `json:"net_savings"`
					SIR   *decimal.Decimal `json:"sir"`
				} `json:"against_base"`
			} `json:"alternatives"`
		}
		require.NoError(t, json.Unmarshal(o.Bytes(), &own))
		assert.Equal(t, own.Answer.Lowest, row["Lowest alternative"])
		assert.True(t, own.Answer.Margin.Equal(number(t, row["Margin to the next"])))
		for _, a := range own.Alternatives {
			if a.Name != own.Answer.Lowest {
				continue
			}
			want := []string{a.LCC.StringFixed(2), a.First.StringFixed(2)}
			assert.Equal(t, want, []string{number(t, row["Life-cycle cost"]).StringFixed(2), number(t, row["First cost"]).StringFixed(2)})
			if a.Against == nil {
				assert.Equal(t, "base case", row["Net savings"])
				continue
			}
			assert.True(t, a.Against.Saved.Equal(number(t, row["Net savings"])))
			if a.Against.SIR == nil {
				assert.Equal(t, "–", row["SIR"])
			} else {
				assert.Equal(t, a.Against.SIR.StringFixed(4), row["SIR"])
			}
		}
	}
}

// What must not be written over, or has no place to stand.
func TestRoofsPageIsRefused(t *testing.T) {
	dir := t.TempDir()
	path := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.WriteFile(path("roofs.csv"), []byte("id\nR1\n"), 0o600))
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--page", path("roofs.csv")}, "roofs.csv is a file that is read; name another one to write"},
		{[]string{"--page", "-"}, "--page needs a file; standard output has the results"},
		{[]string{"--page", path("out.csv"), "-o", path("out.csv")}, "--output and --page name the same file"},
		{[]string{"--page", path("bad.csv"), "--rejects", path("bad.csv")}, "--rejects and --page name the same file"},
		{[]string{"--paper", "a4"}, "--paper is for the page; say --page PAGE.html too"},
		{[]string{"--page", path("p.html"), "--paper", "a3"}, `--paper: found "a3", expected a4 or letter`},
	} {
		code, _, told := roofs(t, "", append(c.args, "example:portfolio", path("roofs.csv"))...)
		assert.Equal(t, exitUsage, code, c.args)
		assert.Contains(t, told, c.want)
	}
	assert.Equal(t, "id\nR1\n", string(mustRead(t, path("roofs.csv"))))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing was written")
}

// A page that would open too slowly is refused, and nothing is left of it.
func TestTooManyRoofsForAPage(t *testing.T) {
	dir := t.TempDir()
	code, _, told := roofs(t, manyRoofs(report.MostRoofsOnPage+1), "--in", "csv", "-o", filepath.Join(dir, "out.csv"), "--page", filepath.Join(dir, "page.html"), "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, "it has more than 20000 roofs, the most that a page may have; without --page they can all be done")
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// What ends a run half way leaves the page that was there.
func TestAHalfDoneTableLeavesNoPage(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "page.html")
	require.NoError(t, os.WriteFile(path, []byte("before"), 0o600))
	code, _, _ := roofs(t, manyRoofs(600)+`R1,"100`+"\n", "--in", "csv", "--page", path, "example:portfolio", "-")
	assert.NotEqual(t, exitDone, code)
	assert.Equal(t, "before", string(mustRead(t, path)))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1)
}

// Rows that are not done are told on the page; a page without a roof says so.
func TestRejectedRowsAreToldOnThePage(t *testing.T) {
	for table, want := range map[string]string{
		"id,roof.area\nR1,2000\nR2,none\n":                               "One row of “standard input” could not be done: it is in no figure of this page.",
		"id,roof.area\nR1,many\nR2,none\n":                               "Two rows of “standard input” could not be done: they are in no figure of this page.",
		"id,roof.area,systems.restoration.life\nR1,2000,300\nR2,none,\n": "systems.restoration.life: 1 cell is over 20 times the template’s value or under a 20th of it, in line 2: “300”; check the unit and the decimal point.",
		"id,roof.area\nR1,2000\nR1,2000\n\n":                             "One row of “standard input” could not be done: it is in no figure of this page.",
	} {
		page := filepath.Join(t.TempDir(), "roofs.html")
		code, _, _ := roofs(t, table, "--page", page, "--in", "csv", "example:portfolio", "-")
		assert.Equal(t, exitInput, code)
		p := browsertest.Open(t, page, browsertest.Options{})
		assert.Contains(t, browsertest.Eval[string](p, `document.body.textContent`), want)
		assertQuiet(t, p)
	}
}

// A plan that cannot be made is told on the page too, which is written.
func TestAPlanThatCannotBeMadeIsToldOnThePage(t *testing.T) {
	page := filepath.Join(t.TempDir(), "roofs.html")
	code, _, _ := roofs(t, "id,must_do,only\nR1,2027,Tear off and replace\n", "--page", page, "--in", "csv", "--budget", "2027=1000", "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	text := browsertest.Eval[string](browsertest.Open(t, page, browsertest.Options{}), `document.querySelector("#plan").textContent`)
	assert.Contains(t, text, "No plan can keep to the budget of 2027\n", "of one year it is one")
}

func TestVerifyTellsAPageOfManyRoofs(t *testing.T) {
	page, _ := budgetedExample(t)
	code, out, errs := verified(t, string(mustRead(t, page)))
	assert.Equal(t, exitInput, code)
	assert.Empty(t, out)
	assert.Contains(t, errs, "cannot be verified: it is a page about many roofs, which carries no study; the page of each roof carries the roof’s own, and can be verified\n")
}

// The link of a roof leads to its own page, as text of an attribute.
func TestRoofsLinkToTheirPages(t *testing.T) {
	w := writingOf(t, manyRoofs(3))
	w.roofs[1].Link = "pages/R000001.html"
	p := browsertest.Open(t, pageFrom(t, w), browsertest.Options{})
	assert.Equal(t, []string{"pages/R000001.html"}, browsertest.Eval[[]string](p, `[...document.querySelectorAll("#roofs a")].map((a) => a.getAttribute("href"))`))
	assert.Equal(t, []string{"pages/R000001.html"}, browsertest.Eval[[]string](p, live+`.querySelectorAll("tbody a").values().map((a) => a.getAttribute("href")).toArray()`))
	assert.Contains(t, browsertest.Eval[string](p, `document.querySelector("#roof-pages").textContent`), "Each roof’s own page can prove its figures")
}

// writingOf does a table and keeps what came of it.
func writingOf(t *testing.T, table string) *roofWriting {
	t.Helper()
	c := commands{std: stream{}}
	files, err := templateFiles("example:portfolio", nil)
	require.NoError(t, err)
	templates, err := c.templates(files, false)
	require.NoError(t, err)
	r, err := newRoofRun(templates, "roofs.csv", strings.NewReader(table), portfolio.Options{Format: portfolio.CSV, Separator: ','}, portfolio.Meaning{}, wanted{})
	require.NoError(t, err)
	r.gather, r.page = true, &roofsPage{table: "roofs.csv"}
	w := &roofWriting{run: r, out: &bytes.Buffer{}, told: &bytes.Buffer{}, empty: make([]int, len(r.columns.Inputs()))}
	require.NoError(t, r.do(t.Context(), w.take))
	return w
}

// pageFrom writes the page of what was done.
func pageFrom(t *testing.T, w *roofWriting) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "roofs.html")
	f, err := openAside(path)
	require.NoError(t, err)
	w.page = f
	require.NoError(t, w.writePage())
	require.NoError(t, f.commit())
	return path
}
