package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// roofWorkbook makes a workbook of rows of cells.
func roofWorkbook(t testing.TB, rows [][]any) []byte {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	for i, row := range rows {
		require.NoError(t, book.SetSheetRow("Sheet1", fmt.Sprint("A", i+1), &row))
	}
	b, err := book.WriteToBuffer()
	require.NoError(t, err)
	return b.Bytes()
}

// exampleRows are the roofs of the example, with numbers as numbers.
func exampleRows(t testing.TB) [][]any {
	t.Helper()
	src, found := scenarios.ExampleTable(scenarios.PortfolioExample)
	require.True(t, found)
	lines, err := csv.NewReader(bytes.NewReader(src.Text)).ReadAll()
	require.NoError(t, err)
	var rows [][]any
	for _, line := range lines {
		var row []any
		for _, cell := range line {
			if x, err := strconv.ParseFloat(cell, 64); err == nil {
				row = append(row, x)
			} else {
				row = append(row, cell)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// The same roofs from a workbook give the bytes that they give from CSV: from
// a file, and from standard input.
func TestAWorkbookOfRoofsGivesWhatTheCSVGives(t *testing.T) {
	_, want, wantTold := roofs(t, "", "example:portfolio", "example:portfolio")
	file := roofWorkbook(t, exampleRows(t))
	code, out, told := roofs(t, string(file), "--in", "xlsx", "example:portfolio", "-")
	require.Equal(t, exitDone, code, told)
	assert.Equal(t, want, out)
	assert.Equal(t, wantTold, told)

	path := filepath.Join(t.TempDir(), "roofs.xlsx")
	require.NoError(t, os.WriteFile(path, file, 0o600))
	_, out, _ = roofs(t, "", "--sheet", "Sheet1", "example:portfolio", path)
	assert.Equal(t, want, out)
}

// A rate is the same rate whether the cell is a fraction, a fraction shown as
// a percentage, or a text.
func TestARateInAWorkbookIsThatOfTheCSV(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	percent, err := book.NewStyle(&excelize.Style{NumFmt: 10})
	require.NoError(t, err)
	for i, row := range [][]any{{"id", "study.discount_rate"}, {"a", 0.0325}, {"b", 0.0325}, {"c", "3.25%"}, {"d", "0.0325"}} {
		require.NoError(t, book.SetSheetRow("Sheet1", fmt.Sprint("A", i+1), &row))
	}
	require.NoError(t, book.SetCellStyle("Sheet1", "B3", "B3", percent))
	shown, err := book.GetCellValue("Sheet1", "B3")
	require.NoError(t, err)
	require.Equal(t, "3.25%", shown)
	file, err := book.WriteToBuffer()
	require.NoError(t, err)
	_, got, told := roofs(t, file.String(), "--in", "xlsx", "example:portfolio", "-")
	_, want, _ := roofs(t, "id,study.discount_rate\na,0.0325\nb,3.25%\nc,3.25%\nd,0.0325\n", "--in", "csv", "example:portfolio", "-")
	assert.Equal(t, want, got, told)
	_, other, _ := roofs(t, "id,study.discount_rate\na,0.03\nb,3%\nc,3%\nd,0.03\n", "--in", "csv", "example:portfolio", "-")
	assert.NotEqual(t, want, other)
}

// Cells that say no number are told with the row of the sheet.
func TestCellsOfAWorkbookAreRejectedWithTheirRow(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	for i, row := range [][]any{{"id", "roof.area"}, nil, {"a", true}, {"b", "1,5"}, {"c", 5000}, {"c", 1}} {
		require.NoError(t, book.SetSheetRow("Sheet1", fmt.Sprint("A", i+1), &row))
	}
	require.NoError(t, book.SetCellFormula("Sheet1", "B9", "1+1"))
	require.NoError(t, book.SetCellStr("Sheet1", "A9", "d"))
	file, err := book.WriteToBuffer()
	require.NoError(t, err)
	code, _, told := roofs(t, file.String(), "--in", "xlsx", "example:portfolio", "-")
	assert.Equal(t, exitInput, code)
	for _, said := range []string{
		`standard input:3: roof.area: "true" is not a number`,
		`standard input:4: roof.area: "1,5" is not a number`, `write 1.5, with a decimal point; the cell is a text, where a number is expected`,
		`standard input:6: id: "c": the id stands in line 5 already`,
		`standard input:9: roof.area: the cell is a formula without a stored value`,
		"1 roof\n", "4 rows not done",
	} {
		assert.Contains(t, told, said)
	}
}

// What is written as a workbook is read again as the rows of the CSV.
func TestAWrittenWorkbookIsReadAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.xlsx")
	code, out, told := roofs(t, "", "example:portfolio", "example:portfolio", "-o", path)
	require.Equal(t, exitDone, code, told)
	assert.Empty(t, out)
	_, text, _ := roofs(t, "", "example:portfolio", "example:portfolio")
	want, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff"))).ReadAll()
	require.NoError(t, err)

	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	table, err := portfolio.Open("answers", f, portfolio.Options{Format: portfolio.XLSX})
	require.NoError(t, err)
	assert.Equal(t, want[0], table.Head)
	for i, cells := range want[1:] {
		row, err := table.Next()
		require.NoError(t, err)
		require.Nil(t, row.Bad)
		assert.Equal(t, i+2, row.Line)
		for j, cell := range cells {
			if x, err := strconv.ParseFloat(cell, 64); err == nil {
				cell = strconv.FormatFloat(x, 'f', -1, 64) // 48753.70 and 48753.7
			}
			assert.Equal(t, cell, row.Cells[j])
		}
	}
	_, err = table.Next()
	assert.ErrorIs(t, err, io.EOF)

	_, again, _ := roofs(t, "", "--format", "xlsx", "example:portfolio", "example:portfolio")
	assert.True(t, again == string(mustRead(t, path)), "the same bytes, from many processors, to standard output")
}

// What ends a run half way leaves the workbook that was there, nothing beside
// it and nothing where temporary files are.
func TestAHalfDoneWorkbookLeavesNoFile(t *testing.T) {
	temporary := t.TempDir()
	t.Setenv("TMPDIR", temporary)
	table := manyRoofs(20_000) // more than is held in memory
	for what, in := range map[string]io.Reader{
		"a disk that fails":         &failing{strings.NewReader(table), errors.New("the disk is gone")},
		"an id for the second time": strings.NewReader(table + "R000001,100,\n"),
	} {
		assertLeavesNothing(t, what, in, "out.xlsx", temporary)
	}
}
