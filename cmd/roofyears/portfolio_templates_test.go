package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios"
)

// otherTemplate writes the example with other words in it to a file.
func otherTemplate(t *testing.T, changes ...string) string {
	t.Helper()
	src, _ := scenarios.Example("portfolio")
	for i := 0; i < len(changes); i += 2 {
		require.Contains(t, string(src.Text), changes[i])
	}
	path := filepath.Join(t.TempDir(), "other.yaml")
	text := strings.NewReplacer(changes...).Replace(string(src.Text))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// Roofs of two templates in one table have the rows that each template gives
// alone, and a cell is empty where a template has no such alternative.
func TestRoofsOfSeveralTemplates(t *testing.T) {
	steep := otherTemplate(t, "  - {name: Roof over, start: recover}\n", "", "name: Restore,", "name: Coat,", "unit_price: 3.05", "unit_price: 4.10")
	code, out, told := roofs(t, "id,template,roof.area,systems.restoration.life\na,,9000,\nb,steep,8000,15\nc,steep,,\nd,flat,1,\n",
		"--in", "csv", "--template", "steep="+steep, "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, `template: there is no template "flat"; there is "steep", and the one of rows that name none`, "a row of no template is told")
	_, one, _ := roofs(t, "id,roof.area,systems.restoration.life\na,9000,\n", "--in", "csv", "example:portfolio", "-")
	_, two, _ := roofs(t, "id,roof.area,systems.restoration.life\nb,8000,15\nc,,\n", "--in", "csv", steep, "-")
	own := func(out string, line int) []string { return strings.Split(strings.Split(out, "\n")[line], ",") }
	a, b, c := own(out, 1), own(out, 2), own(out, 3)
	assert.Equal(t, "id,name,template,Keep patching", strings.TrimPrefix(strings.Split(strings.Split(out, "\n")[0], ":")[0], "\ufeff"))
	assert.Equal(t, own(one, 1)[2:18], a[3:19])
	for i, row := range [][]string{b, c} {
		alone := own(two, i+1)
		assert.Equal(t, alone[2:6], row[3:7], "keep patching")
		assert.Equal(t, strings.Repeat(",", 7), strings.Join(row[7:15], ","), "this template neither restores nor roofs over")
		assert.Equal(t, alone[10:14], row[15:19], "tear off")
		assert.Equal(t, alone[6:10], row[19:23], "coat")
		assert.Equal(t, alone[14:], row[23:], "the answer")
	}
	assert.Equal(t, ",,,", strings.Join(a[19:23], ","))
	assert.Contains(t, told, "\nCoat, of 2 roofs: life-cycle cost ")
	assert.Contains(t, told, "\nTear off and replace: life-cycle cost ")
}

func TestTemplatesThatDoNotAddUp(t *testing.T) {
	for said, path := range map[string]string{
		"has another currency than the first one":     otherTemplate(t, "currency: USD", "currency: EUR"),
		"has another base date than the first one":    otherTemplate(t, "base_date: 2027-01-01", "base_date: 2028-01-01"),
		"has another study period than the first one": otherTemplate(t, "period: 30 ", "period: 40 "),
		"has another timing than the first one":       otherTemplate(t, "timing: end-of-year", "timing: mid-year"),
		"has another rate basis than the first one":   otherTemplate(t, "rate_basis: real", "rate_basis: nominal"),
	} {
		code, _, told := roofs(t, "id,template\na,b\n", "--in", "csv", "--template", "b="+path, "example:portfolio", "-")
		assert.Equal(t, exitInput, code)
		assert.Contains(t, told, `the template "b" `+said)
	}
	code, _, told := roofs(t, "id,template\na,b\n", "--in", "csv", "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, `there is no template "b"; say --template b=FILE`)
	code, _, told = roofs(t, "id,Template\na,b\n", "--in", "csv", "--template", "b="+otherTemplate(t), "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, `there is no column "template", which says what template a roof is laid on; say --map HEAD=template`)
	for _, args := range [][]string{{"--template", "b"}, {"--template", "=x"}, {"--template", "b=-"}, {"--template", "b=x", "--template", "b=y"}} {
		code, _, _ := roofs(t, "id\na\n", append(append([]string{"--in", "csv"}, args...), "example:portfolio", "-")...)
		assert.Equal(t, exitUsage, code, "%q", args)
	}
}

// A column may be an input of one template and not of another: there its cells
// have to be empty.
func TestAColumnOfAnotherTemplate(t *testing.T) {
	other := otherTemplate(t, "    drains: 8\n", "    drains: 8\n    curbs: 5\n", "- {item: Rework drains, unit_price: 620, per: drains}", "- {item: Rework drains, unit_price: 620, per: drains}\n      - {item: Curbs, unit_price: 90, per: curbs}")
	code, _, told := roofs(t, "id,template,roof.quantities.curbs\na,,\nb,other,7\nc,,7\nd,other,\n", "--in", "csv", "--template", "other="+other, "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, `standard input:4: roof.quantities.curbs: "7": the column is no input of the roof's template, so its cell must be empty`)
	assert.Contains(t, told, "3 roofs\n")
	assert.Contains(t, told, "roof.quantities.curbs: 1 cell is empty, where the template's value holds", "the cell of a roof that has no such input is not counted")
}

// A template may say what the heads of a table stand for; the command line
// goes before it.
func TestATemplateNamesColumns(t *testing.T) {
	src, _ := scenarios.Example("portfolio")
	path := filepath.Join(t.TempDir(), "template.yaml")
	text := string(src.Text) + "  columns: {No.: id, Size: roof.area, Not here: roof.quantities.drains}\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	_, want, _ := roofs(t, "id,roof.area\na,5000\n", "--in", "csv", "example:portfolio", "-")
	code, got, told := roofs(t, "No.,Size\na,5000\n", "--in", "csv", path, "-")
	require.Equal(t, exitDone, code, told)
	assert.Equal(t, want, got)
	_, want, _ = roofs(t, "id,roof.quantities.drains\na,5\n", "--in", "csv", "example:portfolio", "-")
	code, got, told = roofs(t, "No.,Size\na,5\n", "--in", "csv", "--map", "Size=roof.quantities.drains", path, "-")
	require.Equal(t, exitDone, code, told)
	assert.Equal(t, want, got)

	other := filepath.Join(t.TempDir(), "other.yaml")
	require.NoError(t, os.WriteFile(other, []byte(strings.Replace(text, "Size: roof.area", "Size: roof.quantities.drains", 1)), 0o600))
	code, _, told = roofs(t, "No.,Size\na,5\n", "--in", "csv", "--template", "b="+other, path, "-")
	assert.Equal(t, exitInput, code)
	assert.Contains(t, told, `the column "Size" is roof.area by one template and roof.quantities.drains by another; say --map "Size=PATH"`)
}

// Findings of a row are put to the rules as those of a study file are.
func TestFindingsOfARoof(t *testing.T) {
	template := "../../testdata/scenarios/good/findings-all.yaml"
	text := string(mustRead(t, template))
	changes := [][3]string{
		{"findings.wet_share", "60%", `wet_share: {value: 8%, source: "infrared survey with cores, 2026-06-20"}`},
		{"findings.covering", "single_ply", `covering: {value: metal_panel, source: "roof survey, 2026-06-18"}`},
		{"findings.coverings", "2", "coverings: 1"},
		{"findings.rust.perforated", "30%", `rust: {light: 20%, perforated: 1%, source: "roof survey, 2026-06-18"}`},
		{"findings.wet_limit.share", "5%", "wet_limit: {share: 20%, replace_all: true, source: city code 15.04}"},
		{"findings.deck", "wood", "deck: steel"},
		{"findings.asbestos", "surveyed_found", "asbestos: surveyed_none"},
	}
	inFile := []string{"wet_share: 60%", "covering: single_ply", "coverings: 2", `rust: {light: 20%, perforated: 30%, source: "roof survey, 2026-06-18"}`, "wet_limit: {share: 5%, replace_all: true, source: city code 15.04}", "deck: wood", "asbestos: surveyed_found"}
	heads, rows, files := []string{"id"}, "", []string(nil)
	for i, c := range changes {
		require.Contains(t, text, c[2])
		heads = append(heads, c[0])
		rows += strings.Join([]string{string(rune('a' + i)), strings.Repeat(",", i) + c[1] + strings.Repeat(",", len(changes)-1-i)}, ",") + "\n"
		files = append(files, strings.Replace(text, c[2], inFile[i], 1))
	}
	code, out, told := roofs(t, strings.Join(heads, ",")+"\n"+rows, "--in", "csv", "--format", "ndjson", template, "-")
	require.Equal(t, exitDone, code, told)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, len(changes))
	standings := map[string]bool{}
	for i, line := range lines {
		sameAsCompare(t, files[i], line)
		_, from, _ := strings.Cut(line, `"standing"`)
		standings[from] = true
	}
	assert.Greater(t, len(standings), 1, "the findings make a difference")

	_, _, told = roofs(t, "id,findings.deck,roof.area\na,paper,\nb,,0\n", "--in", "csv", template, "-")
	assert.Contains(t, told, `standard input:2: findings.deck: "paper" is not known here, expected one of: cementitious_wood_fibre, concrete, gypsum, lightweight_concrete, steel, wood, other`)
	assert.Contains(t, told, `standard input:3: roof.area: "0" is out of range`)
	_, _, told = roofs(t, "id,findings.dek\na,\n", "--in", "csv", template, "-")
	assert.Contains(t, told, `did you mean "findings.deck"?`)
	_, _, told = roofs(t, "id,findings.deck\na,\n", "--in", "csv", "../../testdata/scenarios/good/tax.yaml", "-")
	assert.Contains(t, told, `the column "findings.deck" cannot be set: it is a finding, but the template has no findings, so that no rule is put to it; write the section there first`)
}

// A table of roofs is before tax, also where its template states tax: that is
// told.
func TestRoofsOfATemplateWithTaxAreBeforeTax(t *testing.T) {
	const told = "the figures are before tax; the roofs' own pages, of --pages, tell what is left after it\n"
	_, _, got := roofs(t, "id\na\n", "--in", "csv", "../../testdata/scenarios/good/tax.yaml", "-")
	assert.Contains(t, got, told)
	_, _, got = roofs(t, "id\na\n", "--in", "csv", "example:portfolio", "-")
	assert.NotContains(t, got, told)
}
