package portfolio

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// The limits of a table.
const (
	MaxColumns = 1000     // columns
	MaxCell    = 4096     // bytes of a cell
	MaxRow     = 1 << 20  // bytes of a row, line ends and quotes included
	readAhead  = 64 << 10 // bytes that are read before they are asked for
)

// Format is how a table is written.
type Format string

// The formats.
const (
	CSV    Format = "csv"
	NDJSON Format = "ndjson" // a JSON object a line
	XLSX   Format = "xlsx"   // a sheet of a workbook, ECMA-376
)

// Options say how a table is written; none of it is guessed.
type Options struct {
	Format    Format
	Separator rune   // of CSV; 0 is a comma
	Sheet     string // of a workbook; "" is the first that is not hidden
}

// Row is a line of a table as it stands, a cell for each column of the head.
type Row struct {
	Line  int // of its begin, from 1; of a sheet the number of the row
	Cells []string
	Bad   *Reject // not nil when the row cannot be read; Cells then says what could be
}

// Reject says why a row was not done.
type Reject struct {
	File   string
	Line   int
	Column string // as the head has it; "" when it is about the whole row
	Value  string // of the cell
	Reason string
}

// String gives file:line: column: value: reason in a line.
func (r Reject) String() string {
	said := fmt.Sprintf("%s:%d: ", r.File, r.Line)
	if r.Column != "" {
		said += fmt.Sprintf("%s: ", r.Column)
	}
	if r.Value != "" && !strings.Contains(r.Reason, fmt.Sprintf("%q", r.Value)) {
		said += fmt.Sprintf("%q: ", r.Value)
	}
	return said + r.Reason
}

// Table is a table that is being read.
type Table struct {
	Head []string // as it stands; of NDJSON the keys of the first line
	name string
	next func() (Row, error)

	cells bool // of a workbook, where a number is no text
}

// Open reads the head of a table. The name is what messages call it. An error
// is an [*Unreadable], or a failure of the reader. A workbook is held in memory
// unless the reader is [Sized].
func Open(name string, in io.Reader, o Options) (*Table, error) {
	t := &Table{name: name, cells: o.Format == XLSX}
	read := t.openCSV
	switch o.Format {
	case NDJSON:
		read = t.openNDJSON
	case XLSX:
		read = t.openXLSX
	}
	if err := read(in, o); err != nil {
		return nil, err
	}
	return t, nil
}

// Next gives the next row; io.EOF after the last one. Blank lines are none.
// Another error is an [*Unreadable], where it cannot be told what is a row
// from there on, or a failure of the reader.
func (t *Table) Next() (Row, error) { return t.next() }

// Unreadable tells why a table, or the rest of it, cannot be read.
type Unreadable struct {
	File   string
	Line   int // 0 when it is about no one line
	Reason string
}

// Error gives file:line: reason.
func (u *Unreadable) Error() string {
	if u.Line == 0 {
		return u.File + ": " + u.Reason
	}
	return fmt.Sprintf("%s:%d: %s", u.File, u.Line, u.Reason)
}

func (t *Table) unreadable(line int, format string, args ...any) error {
	return &Unreadable{t.name, line, fmt.Sprintf(format, args...)}
}

// checkHead tells a head that cannot be one.
func (t *Table) checkHead(line int) error {
	seen := map[string]bool{}
	for _, head := range t.Head {
		switch {
		case head == "":
			return t.unreadable(line, "a column has no head")
		case len(head) > MaxCell || !utf8.ValidString(head):
			return t.unreadable(line, "a head is longer than %d bytes, or not UTF-8", MaxCell)
		case seen[head]:
			return t.unreadable(line, "the column %q stands there twice", head)
		}
		seen[head] = true
	}
	if len(t.Head) > MaxColumns {
		return t.unreadable(line, "%d columns, at most %d are read", len(t.Head), MaxColumns)
	}
	return nil
}

// checkCells tells the first cell that cannot be one.
func (t *Table) checkCells(row *Row) {
	for i, cell := range row.Cells {
		switch {
		case len(cell) > MaxCell:
			row.Bad = t.reject(row.Line, t.Head[i], "", fmt.Sprintf("the cell has %d bytes, at most %d are read", len(cell), MaxCell))
		case !utf8.ValidString(cell):
			row.Bad = t.reject(row.Line, t.Head[i], "", "the cell is not UTF-8")
		default:
			continue
		}
		return
	}
}

func (t *Table) reject(line int, column, value, reason string) *Reject {
	return &Reject{File: t.name, Line: line, Column: column, Value: value, Reason: reason}
}
