package roofbook

import (
	"fmt"
	"io"
	"math"
	"math/big"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"roofyears/report"
)

// MaxRoofs is how many rows a sheet holds below its head, by the format.
const MaxRoofs = excelize.TotalRows - 1

// The sheets.
const (
	roofSheet  = "roofs"
	totalSheet = "totals"
)

// TooMany is the error of a table that is longer than a sheet.
type TooMany struct{ Most int }

// Error tells the limit.
func (e TooMany) Error() string {
	return fmt.Sprintf("a sheet of a workbook holds %d roofs, and there are more: write CSV or NDJSON", e.Most)
}

// Writer writes a workbook row by row, for one goroutine. The rows of the sheet
// are kept in a temporary file, not in memory.
type Writer struct {
	roofs *report.Roofs
	heads []string
	names []string // of the alternatives
	scale float64  // minor units in a unit of the currency
	most  int

	book    *excelize.File
	sheet   *excelize.StreamWriter
	looks   looks
	rows    int
	cells   []any // of the row at hand
	tooLong bool  // an amount is not exact
}

// looks are the formats of cells.
type looks struct{ head, text, amount int }

// New begins a workbook. It fails when its temporary file cannot be made;
// whoever has it calls Close in the end.
func New(roofs *report.Roofs) (*Writer, error) {
	names, _, digits := roofs.About()
	w := &Writer{roofs: roofs, heads: roofs.Heads(), names: names, scale: math.Pow10(digits), most: MaxRoofs, book: excelize.NewFile()}
	if err := w.begin(digits); err != nil {
		w.Close()
		return nil, err
	}
	return w, nil
}

func (w *Writer) begin(digits int) error {
	if err := w.book.SetSheetName(w.book.GetSheetName(0), roofSheet); err != nil {
		return err
	}
	if _, err := w.book.NewSheet(totalSheet); err != nil {
		return err
	}
	// A document that says when it was made would differ from run to run; this
	// is the first time that a zip file can name.
	const day = "1980-01-01T00:00:00Z"
	if err := w.book.SetDocProps(&excelize.DocProperties{Creator: "roofyears", Created: day, Modified: day, LastModifiedBy: "roofyears"}); err != nil {
		return err
	}
	var err error
	if w.looks, err = w.newLooks(digits); err != nil {
		return err
	}
	if w.sheet, err = w.newSheet(roofSheet, w.width, len(w.heads)); err != nil {
		return err
	}
	return w.head(w.sheet, w.heads)
}

// newLooks makes the formats. That of a text keeps it one when somebody edits
// the cell.
func (w *Writer) newLooks(digits int) (looks, error) {
	code, text := "#,##0", "@"
	if digits > 0 {
		code += "." + strings.Repeat("0", digits)
	}
	var l looks
	for _, style := range []struct {
		to *int
		is excelize.Style
	}{
		{&l.head, excelize.Style{
			CustomNumFmt: &text, Font: &excelize.Font{Bold: true}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"},
			Border: []excelize.Border{{Type: "bottom", Color: "000000", Style: 1}},
		}},
		{&l.text, excelize.Style{CustomNumFmt: &text}},
		{&l.amount, excelize.Style{CustomNumFmt: &code}},
	} {
		var err error
		if *style.to, err = w.book.NewStyle(&style.is); err != nil {
			return l, err
		}
	}
	return l, nil
}

// newSheet begins a sheet whose head stays in sight.
func (w *Writer) newSheet(name string, width func(column int) float64, columns int) (*excelize.StreamWriter, error) {
	sheet, err := w.book.NewStreamWriter(name)
	if err != nil {
		return nil, err
	}
	for i := range columns {
		if err := sheet.SetColWidth(i+1, i+1, width(i)); err != nil {
			return nil, err
		}
	}
	return sheet, sheet.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
}

// width is how many characters of a column of roofs are in sight.
func (w *Writer) width(column int) float64 {
	first, last := w.roofs.AmountColumn(0), w.roofs.LowestColumn()
	switch head := w.heads[column]; {
	case column == 1: // the name
		return 28
	case column >= first && column < last && (column-first)%4 == 3: // standings
		return 22
	case column < last:
		return 16
	case head == "lowest", head == "runner_up", head == "plan": // names of alternatives
		return 28
	case head == "tie", head == "currency":
		return 10
	}
	return 16
}

// headHeight is the height of a head of three lines, in points.
const headHeight = 45

func (w *Writer) head(sheet *excelize.StreamWriter, heads []string) error {
	cells := make([]any, len(heads))
	for i, head := range heads {
		cells[i] = excelize.Cell{StyleID: w.looks.head, Value: head}
	}
	return sheet.SetRow("A1", cells, excelize.RowOpts{Height: headHeight})
}

// Row writes a roof. The error is [TooMany] when the sheet is full.
func (w *Writer) Row(row []report.RoofCell) error {
	if w.rows == w.most {
		return TooMany{w.most}
	}
	w.rows++
	w.cells = w.cells[:0]
	for i := range row {
		w.cells = append(w.cells, w.cell(&row[i]))
	}
	return w.sheet.SetRow("A"+strconv.Itoa(w.rows+1), w.cells)
}

// cell is a cell of a roof; nil is none. A text stays one, whatever it looks
// like, except what is carried through and is the text of a number as a
// spreadsheet would give it.
func (w *Writer) cell(c *report.RoofCell) any {
	switch c.Kind {
	case report.RoofAmount:
		w.tooLong = w.tooLong || !exact(c.Minor)
		return w.amount(c.Minor)
	case report.RoofNumber:
		if x, err := strconv.ParseFloat(c.Text, 64); err == nil {
			return x
		}
	case report.RoofName:
		return excelize.Cell{StyleID: w.looks.text, Value: w.names[c.Minor]}
	case report.RoofCarried:
		if x, err := strconv.ParseFloat(c.Text, 64); err == nil && len(c.Text) <= mostDigits && strconv.FormatFloat(x, 'f', -1, 64) == c.Text {
			return x
		}
	}
	if c.Text == "" {
		return nil
	}
	return excelize.Cell{StyleID: w.looks.text, Value: c.Text}
}

// mostDigits is how many digits of a number a spreadsheet keeps.
const mostDigits = 15

// exact tells whether a spreadsheet holds an amount, in minor units, as it is.
func exact(minor int64) bool { return minor < 1e15 && minor > -1e15 }

// amount is money as a number; as a text where a spreadsheet would round it.
func (w *Writer) amount(minor int64) excelize.Cell {
	if !exact(minor) {
		return excelize.Cell{StyleID: w.looks.text, Value: w.roofs.AmountOf(big.NewInt(minor))}
	}
	return excelize.Cell{StyleID: w.looks.amount, Value: float64(minor) / w.scale} // rounds once
}

// Finish writes the totals and the workbook, which is whole then. It fails when
// the temporary file cannot be read, or out fails.
func (w *Writer) Finish(out io.Writer, totals *report.RoofTotals) error {
	last, err := excelize.CoordinatesToCellName(len(w.heads), w.rows+1)
	if err != nil {
		return err
	}
	if err := w.book.AutoFilter(roofSheet, "A1:"+last, nil); err != nil {
		return err
	}
	if err := w.sheet.Flush(); err != nil {
		return err
	}
	if err := w.totals(totals); err != nil {
		return err
	}
	w.book.SetZipWriter(func(io.Writer) excelize.ZipWriter { return newPackage(out) })
	_, err = w.book.WriteToBuffer()
	return err
}

// Close removes the temporary file.
func (w *Writer) Close() error { return w.book.Close() }
