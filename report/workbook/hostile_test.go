package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"roofyears/lcc"
	"roofyears/report"
)

// hostile are texts that a spreadsheet might take for something else. A study file has none with control characters.
var hostile = []string{
	`=1+1`, `+1+1`, `-2+3`, `@SUM(A1)`, `=HYPERLINK("http://example.invalid","x")`, `'quoted'`, `A1`, `R1C1`, `History`, `history`,
	`[]:*?/\`, `a very long name of an alternative that does not fit on a tab`, `a very long name of an alternative that does not fit either`,
	`_x0041_`, `</t></is><c r="A1"><v>1</v></c>`, `"; DROP`, `{=1}`, `TRUE`, `1e5`, `#REF!`, ` leading and trailing `, "hidden\u200b, turned\u202e and \u00ad", `100%`, `🏚 roof 🏚`, `=cmd|'/c calc'!A1`,
	`*`, `~?`, `<>residual value`, `&P of &N`,
}

// hostileStudy has a hostile text wherever a study has a text.
func hostileStudy() *lcc.Study {
	s := &lcc.Study{Inflation: lcc.NoRef, Period: 12}
	text := func(i int) string { return hostile[i%len(hostile)] }
	n := 0
	in := func(path string, unit lcc.Unit, v string) lcc.Ref {
		n++
		return s.Add(lcc.Input{Path: path, Label: text(n), Of: text(n + 1), Unit: unit, Likely: decimal.RequireFromString(v), Source: text(n + 2)})
	}
	s.About = lcc.About{Title: hostile[0], PreparedFor: hostile[1], PreparedBy: hostile[4], BaseDate: "2026-10-01", Currency: "USD", Digits: 2, AreaUnit: "ft2"}
	s.Rate, s.Area = in("A1", lcc.Rate, "0.03"), in("A1", lcc.Area, "1000")
	for i, name := range hostile {
		life := in("systems."+name+".life", lcc.Years, "7")
		price := in("R1C1", lcc.Money, "1000.005")
		item := lcc.Item{Name: name, Price: price, Quantity: lcc.NoRef, Growth: lcc.NoRef}
		s.Systems = append(s.Systems, lcc.System{Key: name, Name: name, Life: life, First: []lcc.Item{item}, Then: i})
		a := lcc.Alternative{Name: name, Start: i, BaseCase: i == 0}
		if i%3 == 1 {
			a.RuledOut = &lcc.Ruling{Rule: name, Finding: name, Source: name}
		}
		s.Alternatives = append(s.Alternatives, a)
	}
	return s
}

func TestHostileTextsAreTexts(t *testing.T) {
	r, err := hostileStudy().Evaluate()
	require.NoError(t, err)
	tr := plainly(t, "hostile", report.Study{Result: r, Warnings: []lcc.Warning{{About: hostile[0], Text: hostile[4]}}, File: report.NamedStudy("=1+1.yaml", nil)})
	for _, e := range engines {
		recalculated(t, e, []trial{tr})
	}
	seen := map[string]bool{}
	for _, s := range tr.want.order {
		assert.False(t, seen[strings.ToLower(s.name)], s.name)
		seen[strings.ToLower(s.name)] = true
		assert.LessOrEqual(t, len(utf16.Encode([]rune(s.name))), longestSheetName, s.name)
		assert.NotRegexp(t, `[\[\]:*?/\\]|^'|'$`, s.name)
	}
	names := map[string]bool{}
	for _, n := range tr.want.named {
		assert.Regexp(t, `^[A-Za-z][A-Za-z0-9]*_[A-Za-z0-9_]*$`, n.name)
		assert.False(t, names[strings.ToLower(n.name)], n.name)
		names[strings.ToLower(n.name)] = true
	}
}

// parts are the parts of a file by name.
func parts(t *testing.T, file []byte) map[string]string {
	in, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	require.NoError(t, err)
	out := map[string]string{}
	for _, part := range in.File {
		from, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(from)
		require.NoError(t, err)
		out[part.Name] = string(text)
	}
	return out
}

// A text that begins as a formula does has the format of texts, so that it
// stays one when somebody edits its cell.
func TestTextsStayTextsWhenTheyAreEdited(t *testing.T) {
	r, err := hostileStudy().Evaluate()
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, Write(&b, report.Study{Result: r, File: report.NamedStudy("=1+1.yaml", nil)}))
	f, err := excelize.OpenReader(&b)
	require.NoError(t, err)
	defer f.Close()
	looked := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		for y, row := range rows {
			for x, text := range row {
				at, _ := excelize.CoordinatesToCellName(x+1, y+1)
				kind, err := f.GetCellType(sheet, at)
				require.NoError(t, err)
				formula, err := f.GetCellFormula(sheet, at)
				require.NoError(t, err)
				if formula != "" || kind != excelize.CellTypeInlineString && kind != excelize.CellTypeSharedString || text == "" || !strings.ContainsAny(text[:1], "=+-@") {
					continue
				}
				looked++
				id, err := f.GetCellStyle(sheet, at)
				require.NoError(t, err)
				style, err := f.GetStyle(id)
				require.NoError(t, err)
				require.NotNil(t, style.CustomNumFmt, "%s!%s: %s", sheet, at, text)
				assert.Equal(t, "@", *style.CustomNumFmt, "%s!%s: %s", sheet, at, text)
			}
		}
	}
	assert.Greater(t, looked, 20)
}

func TestNothingInItRunsOrLeadsOut(t *testing.T) {
	r, err := hostileStudy().Evaluate()
	require.NoError(t, err)
	for _, study := range []report.Study{{Result: r}, example(t, "cold-store")} {
		for name, text := range parts(t, plainly(t, "", study).file) {
			assert.NotRegexp(t, `(?i)vba|macro|externalLink|connection|\.bin$|hyperlink`, name)
			if strings.HasSuffix(name, ".rels") {
				assert.NotContains(t, text, "External", name)
			}
			assert.NotContains(t, text, "<hyperlink", name)
			for _, f := range formulas(text) {
				assert.NotRegexp(t, `(?i)(HYPERLINK|WEBSERVICE|INDIRECT)\(|\[|\|`, withoutLiterals(f), name)
			}
		}
	}
}

var (
	formulaText = regexp.MustCompile(`<f[^>]*>([^<]*)</f>`)
	literalText = regexp.MustCompile(`"(?:[^"]|"")*"`)
	notComputed = regexp.MustCompile(`"(?:[^"]|"")*"|'(?:[^']|'')*'!`)
)

// formulas are the formulas of a part.
func formulas(part string) []string {
	var out []string
	for _, m := range formulaText.FindAllStringSubmatch(part, -1) {
		out = append(out, strings.NewReplacer("&#34;", `"`, "&#39;", "'", "&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(m[1]))
	}
	return out
}

// withoutLiterals leaves texts and the names of sheets out of a formula.
func withoutLiterals(formula string) string {
	return notComputed.ReplaceAllString(formula, "_")
}
