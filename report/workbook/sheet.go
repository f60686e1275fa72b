package workbook

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// cell is a piece of data, or a formula with the value that the engine found
// for it. The value is nil, a string or a decimal.Decimal.
type cell struct {
	formula string // without the equals sign; "" for data
	value   any
	style   style
}

// data is a text or a number that no formula stands behind.
func data(value any, s style) cell { return cell{value: value, style: s} }

// label is a text.
func label(text string, look look) cell { return cell{value: text, style: style{look: look}} }

// beside is a text in a column of its own, set off from a number before it.
func beside(text string, look look) cell { return data(text, style{words, look}) }

// calc is a formula and what the engine found for it.
func calc(formula string, value any, s style) cell { return cell{formula, value, s} }

// asArray is a formula that goes through columns line by line, as spreadsheets
// show it: in braces. See arrays.
func asArray(formula string) string { return "{" + formula + "}" }

// number is a whole number as a cell's value.
func number(n int) decimal.Decimal { return decimal.NewFromInt(int64(n)) }

// sheet is a sheet before it is written. Rows and columns count from 1.
type sheet struct {
	name      string
	cells     [][]cell
	widths    []float64
	heights   map[int]float64
	frozen    [2]int // rows, columns that stay in view
	onePage   bool   // printed on one page, however small
	printed   int    // last column that is printed; 0: all
	repeat    int    // row that every printed page repeats; 0 is none
	landscape bool
	alerts    []alert
	limits    []limit
	merged    []area
	charts    []placedChart
}

// area is a rectangle of cells.
type area struct{ row, col, lastRow, lastCol int }

// alert paints cells red while a condition on the first of them holds.
type alert struct {
	area
	condition string
}

// limit keeps what is typed into a cell within bounds.
type limit struct {
	row, col int
	bound    bound
}

// placedChart is a chart whose upper left corner is at a cell.
type placedChart struct {
	row, col int
	chart    *excelize.Chart
}

// put puts a cell into its place.
func (s *sheet) put(row, col int, c cell) {
	for len(s.cells) < row {
		s.cells = append(s.cells, nil)
	}
	line := s.cells[row-1]
	for len(line) < col {
		line = append(line, cell{})
	}
	line[col-1] = c
	s.cells[row-1] = line
}

// row puts cells side by side.
func (s *sheet) row(row int, cells ...cell) {
	for i, c := range cells {
		s.put(row, i+1, c)
	}
	if len(cells) > 0 && cells[0].style.look == title {
		s.grow(row, 2)
	}
}

// head writes the heads of columns; those in words are of texts.
func (s *sheet) head(row int, texts []string, words ...int) {
	for i, text := range texts {
		if text == "" {
			continue
		}
		c := label(text, numberHead)
		if slices.Contains(words, i+1) {
			c = beside(text, head)
		}
		s.put(row, i+1, c)
	}
	s.headLines(row)
}

// headLines makes a row of heads as high as the longest of them.
func (s *sheet) headLines(row int) {
	for i, c := range s.cells[row-1] {
		if text, ok := c.value.(string); ok && i < len(s.widths) {
			s.grow(row, linesOf(text, s.widths[i]/boldWider))
		}
	}
}

// boldWider is how much wider bold text runs.
const boldWider = 1.15

// next is the first row after those in use.
func (s *sheet) next() int { return len(s.cells) + 1 }

// text puts a text over several columns; its row grows with it.
func (s *sheet) text(row, lastCol int, c cell) {
	s.put(row, 1, c)
	text, ok := c.value.(string)
	if !ok {
		return
	}
	width := 0.0
	for i := range min(lastCol, len(s.widths)) {
		width += s.widths[i]
	}
	s.merged = append(s.merged, area{row, 1, row, lastCol})
	if c.style.look == answer {
		width /= 1.25
	}
	s.grow(row, linesOf(text, width))
}

// grow makes a row as high as so many lines.
func (s *sheet) grow(row, lines int) {
	if s.heights == nil {
		s.heights = map[int]float64{}
	}
	s.heights[row] = max(s.heights[row], min(float64(lineHeight*float64(lines))+2, highestRow))
}

// The heights of rows in points.
const (
	lineHeight = 14.5
	highestRow = 400 // a spreadsheet allows 409
)

// linesOf is how many lines a text takes in a column of so many characters.
func linesOf(text string, width float64) int {
	lines := 0
	for _, part := range strings.Split(text, "\n") {
		lines += 1 + int(float64(len([]rune(part)))*0.87/max(1, width))
	}
	return lines
}

// here is a cell of the sheet for a formula of the sheet itself.
func here(row, col int) string {
	name, err := excelize.CoordinatesToCellName(col, row)
	if err != nil { // the limits were checked
		panic(err)
	}
	return name
}

// fixed is here, with row and column that do not move when it is copied.
func fixed(row, col int) string {
	name, err := excelize.CoordinatesToCellName(col, row, true)
	if err != nil {
		panic(err)
	}
	return name
}

// at is a cell of the sheet for a formula anywhere.
func (s *sheet) at(row, col int) string { return quoted(s.name) + "!" + fixed(row, col) }

// column is a part of a column for a formula anywhere.
func (s *sheet) column(first, last, col int) string {
	return s.at(first, col) + ":" + fixed(last, col)
}

// line is a part of a row for a formula anywhere.
func (s *sheet) line(row, first, last int) string {
	return s.at(row, first) + ":" + fixed(row, last)
}

// quoted is a sheet's name for a formula.
func quoted(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// literal is a text within a formula.
func literal(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }
