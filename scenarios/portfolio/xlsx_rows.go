package portfolio

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// maxSheetColumn is the last column of a sheet, by the format.
const maxSheetColumn = 16_384

// sheet is a sheet that is being read.
type sheet struct {
	*workbook
	name string
	e    *elements
	line int // of the row before
}

// said is what a cell of a row says, or why it says nothing.
type said struct {
	column    int // from 1
	text, bad string
}

func (w *workbook) openSheet(name string) (*sheet, error) {
	part, err := w.open(name, maxSheet)
	if err != nil {
		return nil, err
	}
	if part == nil {
		return nil, w.t.unreadable(0, "the part %q of the workbook is missing", name)
	}
	return &sheet{workbook: w, name: name, e: elementsOf(part)}, nil
}

// head reads the head: the first row that is not blank.
func (s *sheet) head() error {
	cells, line, err := s.row()
	if errors.Is(err, io.EOF) {
		return s.t.unreadable(0, "the sheet is empty, expected a row of heads")
	}
	if err != nil {
		return err
	}
	for _, c := range cells {
		text := strings.TrimSpace(c.text)
		switch {
		case c.bad != "":
			return s.t.unreadable(line, "%s: %s", columnName(c.column), c.bad)
		case text == "":
			continue
		}
		if len(s.t.Head)+1 < c.column {
			return s.t.unreadable(line, "column %s has no head: the table begins in column A, and its head is the first row that is not blank", columnName(len(s.t.Head)+1))
		}
		s.t.Head = append(s.t.Head, text)
	}
	s.t.next = s.next
	return s.t.checkHead(line)
}

// next gives the next row that is not blank, under the heads.
func (s *sheet) next() (Row, error) {
	cells, line, err := s.row()
	if err != nil {
		return Row{}, err
	}
	row := Row{Line: line, Cells: make([]string, len(s.t.Head))}
	for _, c := range cells {
		beyond := c.column > len(row.Cells)
		switch {
		case !beyond:
			row.Cells[c.column-1] = c.text
			if c.bad != "" && row.Bad == nil {
				row.Bad = s.t.reject(line, s.t.Head[c.column-1], "", c.bad)
			}
		case row.Bad == nil && (c.bad != "" || strings.TrimSpace(c.text) != ""):
			row.Bad = s.t.reject(line, "", c.text, fmt.Sprintf("column %s has no head, expected %d columns as the head has", columnName(c.column), len(s.t.Head)))
		}
	}
	if row.Bad == nil {
		s.t.checkCells(&row)
	}
	return row, nil
}

// row gives the cells of the next row that has any with something in it.
func (s *sheet) row() (cells []said, line int, err error) {
	for {
		token, err := s.e.next()
		if err != nil {
			return nil, 0, s.ended(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			switch token.Name.Local {
			case "row":
				if err := s.begin(token); err != nil {
					return nil, 0, err
				}
				if cells, err = s.cells(); err != nil || len(cells) > 0 {
					return cells, s.line, err
				}
			case "mergeCell":
				if err := s.merged(attribute(token, "ref")); err != nil {
					return nil, 0, err
				}
			}
		}
	}
}

// ended words what is wrong with a sheet, unless it is its end.
func (s *sheet) ended(err error) error {
	switch {
	case errors.Is(err, io.EOF):
		return io.EOF
	case errors.Is(err, errLongRow):
		return s.t.unreadable(s.line, "a cell here or in the next row is longer than %d bytes, the most that is read", MaxRow)
	}
	return s.damaged(s.name, err)
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// begin finds which row it is: the next one, where it does not say.
func (s *sheet) begin(row xml.StartElement) error {
	line := s.line + 1
	if r := attribute(row, "r"); r != "" {
		n, err := strconv.Atoi(r)
		if err != nil || n < line {
			return s.t.unreadable(0, "the rows of the sheet are out of order: %q after row %d", r, s.line)
		}
		line = n
	}
	if line > MaxSheetRow {
		return s.t.unreadable(0, "the sheet has a row %d, at most %d are read", line, MaxSheetRow)
	}
	s.line = line
	return nil
}

// cells reads the cells of a row that was begun; those with nothing in them are
// none.
func (s *sheet) cells() ([]said, error) {
	cells := make([]said, 0, len(s.t.Head))
	column, size := 0, 0
	for begun := s.e.depth; s.e.depth >= begun; {
		token, err := s.e.next()
		if err != nil {
			return nil, s.ended(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "c" {
			continue
		}
		c := cell{column: column + 1}
		if err := s.place(&c, start); err != nil {
			return nil, err
		}
		column = c.column
		if err := s.content(&c); err != nil {
			return nil, s.ended(err)
		}
		text, bad := s.text(c)
		if text == "" && bad == "" {
			continue
		}
		if size += len(text); size > MaxRow {
			return nil, s.t.unreadable(s.line, "the row is longer than %d bytes, the most that is read", MaxRow)
		}
		cells = append(cells, said{c.column, text, bad})
	}
	return cells, nil
}

// merged refuses cells of the table that are merged: only the first of them
// has a value, and the others would have the template's. Either two opposite
// corners may stand for the cells.
func (s *sheet) merged(ref string) error {
	from, to, two := strings.Cut(ref, ":")
	if !two {
		to = from
	}
	corner := func(cell string) (column, line int) {
		line, _ = strconv.Atoi(strings.TrimLeft(cell, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
		return columnNumber(strings.TrimRight(cell, "0123456789")), line
	}
	column, line := corner(from)
	otherColumn, otherLine := corner(to)
	if line = min(line, otherLine); min(column, otherColumn) > len(s.t.Head) || line > s.line {
		return nil
	}
	return s.t.unreadable(line, "the cells %s are merged, so that only the first has a value: take them apart and fill each", ref)
}
