package roofbook

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"roofyears/lcc"
	"roofyears/report"
)

// study has two alternatives, the second with a name that needs care; amounts
// have so many digits.
func study(digits int32) *lcc.Study {
	s := &lcc.Study{Alternatives: []lcc.Alternative{{Name: "Keep", BaseCase: true}, {Name: "=1+1"}}}
	s.About.Currency, s.About.Digits = "USD", digits
	return s
}

// roof is a roof by what its alternatives cost, in minor units.
func roof(s *lcc.Study, id, carried string, costs ...int64) *report.Roof {
	r := &report.Roof{ID: id, Name: "Hall", Free: []string{carried}, Study: s}
	for _, cost := range costs {
		r.Costs = append(r.Costs, lcc.RoofCost{LCC: cost, First: cost / 2})
	}
	r.Answer = s.RoofAnswer(r.Costs)
	return r
}

// written writes roofs as a workbook and as CSV.
func written(t *testing.T, digits int32, make func(*lcc.Study) []*report.Roof) (book, text []byte) {
	t.Helper()
	s := study(digits)
	table, err := report.NewRoofs([]*lcc.Study{s}, report.RoofColumns{Free: []string{"note"}})
	require.NoError(t, err)
	w, err := New(table)
	require.NoError(t, err)
	defer func() { require.NoError(t, w.Close()) }()
	text = table.AppendHead(nil)
	var totals report.RoofTotals
	for _, r := range make(s) {
		cells := table.AppendCells(nil, r)
		text = table.AppendCSV(text, cells)
		require.NoError(t, w.Row(cells))
		totals.Add(table, r)
	}
	var b bytes.Buffer
	require.NoError(t, w.Finish(&b, &totals))
	return b.Bytes(), text
}

func opened(t *testing.T, book []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

func hostile(s *lcc.Study) []*report.Roof {
	return []*report.Roof{
		roof(s, "007", "007", 123456, 100), roof(s, "7", "-1.5", 100, 100), roof(s, "=HYPERLINK(\"x\")", "1.10", -5, 7),
		roof(s, "+1", "@SUM(A1)", 1, 2), roof(s, "_x000D_", " two\nlines ", 1, 2), roof(s, "<&>\"'", "\tb", 1, 2), roof(s, "1E5", "1e5", 0, 0),
		roof(s, "12345678901234567890", "0.1234567890123456", 1e15-1, 1e15-1), roof(s, "屋根", "", 5, -100),
	}
}

// Cell by cell, the sheet says what the CSV says; a text is a text there, so it
// needs no apostrophe.
func TestSheetSaysWhatTheCSVSays(t *testing.T) {
	for _, digits := range []int32{0, 2, 3} {
		book, text := written(t, digits, hostile)
		f := opened(t, book)
		want, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\ufeff")))).ReadAll()
		require.NoError(t, err)
		got, err := f.GetRows(roofSheet, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		require.Len(t, got, len(want))
		for y := range want {
			for x, cell := range want[y] {
				place, _ := excelize.CoordinatesToCellName(x+1, y+1)
				kind, err := f.GetCellType(roofSheet, place)
				require.NoError(t, err)
				have := got[y][x]
				if kind == excelize.CellTypeUnset || kind == excelize.CellTypeNumber { // a number, or nothing
					assert.True(t, sameNumber(have, cell), "%s: %q, %q", place, have, cell)
					continue
				}
				assert.Equal(t, strings.TrimPrefix(strings.ReplaceAll(cell, "\t'", "\t"), "'"), have, place)
			}
		}
		for place, kind := range map[string]excelize.CellType{
			"A2": excelize.CellTypeInlineString, "C2": excelize.CellTypeInlineString, "C3": excelize.CellTypeNumber, "A4": excelize.CellTypeInlineString,
			"C4": excelize.CellTypeInlineString, "D2": excelize.CellTypeNumber, "A8": excelize.CellTypeInlineString, "C9": excelize.CellTypeInlineString,
		} {
			is, err := f.GetCellType(roofSheet, place)
			require.NoError(t, err)
			if is == excelize.CellTypeUnset {
				is = excelize.CellTypeNumber
			}
			assert.Equal(t, kind, is, place)
			formula, err := f.GetCellFormula(roofSheet, place)
			require.NoError(t, err)
			assert.Empty(t, formula, place)
		}
	}
}

func sameNumber(a, b string) bool {
	x, okX := new(big.Rat).SetString(a)
	y, okY := new(big.Rat).SetString(b)
	return a == b || okX && okY && x.Cmp(y) == 0
}

// The totals are formulas with the sums stored beside them, and give the same
// when they are calculated.
func TestTotalsAreSumsOfTheSheet(t *testing.T) {
	book, _ := written(t, 2, func(s *lcc.Study) []*report.Roof {
		return []*report.Roof{roof(s, "a", "", 1010, 2020), roof(s, "b", "", 30, 5), roof(s, "c", "", 1, 2)}
	})
	f := opened(t, book)
	for place, want := range map[string]string{
		"A2": "Keep", "B2": "10.41", "C2": "5.2", "D2": "", "E2": "2", "F2": "USD",
		"A3": "=1+1", "B3": "20.27", "C3": "10.13", "D3": "-9.86", "E3": "1", "A4": "roofs", "E4": "3", "E5": "0",
		"A6": "each roof's lowest", "B6": "10.16", "C6": "5.07", "D6": "0.25",
	} {
		stored, err := f.GetCellValue(totalSheet, place, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		assert.Equal(t, want, stored, place)
		formula, err := f.GetCellFormula(totalSheet, place)
		require.NoError(t, err)
		if strings.Contains("B2 C2 B3 C3 D3", place) {
			assert.NotEmpty(t, formula, place)
			again, err := f.CalcCellValue(totalSheet, place, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			assert.InDelta(t, number(t, want), number(t, again), 1e-9, place)
		} else {
			assert.Empty(t, formula, place)
		}
	}
	shown, err := f.GetCellValue(totalSheet, "C2")
	require.NoError(t, err)
	assert.Equal(t, "5.20", shown)
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, ok := new(big.Float).SetString(s)
	require.True(t, ok, s)
	f, _ := x.Float64()
	return f
}

// An amount that a spreadsheet would round is a text, and then no formula adds
// numbers up without it.
func TestAmountsOverFifteenDigitsAreTexts(t *testing.T) {
	book, _ := written(t, 2, func(s *lcc.Study) []*report.Roof { return []*report.Roof{roof(s, "a", "", 1e15, 12)} })
	f := opened(t, book)
	for sheet, place := range map[string]string{roofSheet: "D2", totalSheet: "B2"} {
		kind, err := f.GetCellType(sheet, place)
		require.NoError(t, err)
		assert.Equal(t, excelize.CellTypeInlineString, kind)
		text, err := f.GetCellValue(sheet, place)
		require.NoError(t, err)
		assert.Equal(t, "10000000000000.00", text)
	}
	formula, err := f.GetCellFormula(totalSheet, "B3")
	require.NoError(t, err)
	assert.Empty(t, formula)
}

func TestSameRoofsGiveTheSameBytes(t *testing.T) {
	one, _ := written(t, 2, hostile)
	for range 10 { // parts come in the order of a map
		two, _ := written(t, 2, hostile)
		assert.True(t, bytes.Equal(one, two))
	}
}

func TestSheetsAreFitToRead(t *testing.T) {
	book, _ := written(t, 2, hostile)
	f := opened(t, book)
	assert.Equal(t, []string{roofSheet, totalSheet}, f.GetSheetList())
	for _, sheet := range f.GetSheetList() {
		panes, err := f.GetPanes(sheet)
		require.NoError(t, err)
		assert.True(t, panes.Freeze && panes.YSplit == 1, sheet)
	}
	names := f.GetDefinedName()
	require.Len(t, names, 1)
	assert.Equal(t, "'roofs'!$A$1:$Q$10", names[0].RefersTo, "the filter")
}

// No roofs at all are a head and nothing to sum up.
func TestNoRoofs(t *testing.T) {
	book, _ := written(t, 2, func(*lcc.Study) []*report.Roof { return nil })
	rows, err := opened(t, book).GetRows(totalSheet)
	require.NoError(t, err)
	assert.Equal(t, "[roofs    0]", fmt.Sprint(rows[1]))
}

func TestASheetHasAnEnd(t *testing.T) {
	s := study(2)
	table, err := report.NewRoofs([]*lcc.Study{s}, report.RoofColumns{Free: []string{"note"}})
	require.NoError(t, err)
	w, err := New(table)
	require.NoError(t, err)
	defer w.Close()
	require.Equal(t, 1048575, w.most)
	w.most = 1
	cells := table.AppendCells(nil, roof(s, "a", "", 1, 2))
	require.NoError(t, w.Row(cells))
	assert.EqualError(t, w.Row(cells), "a sheet of a workbook holds 1 roofs, and there are more: write CSV or NDJSON")
}
