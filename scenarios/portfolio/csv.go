package portfolio

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// errLongRow ends the reading of a row that is longer than MaxRow.
var errLongRow = errors.New("the row is too long")

// metered gives out so many bytes before it is filled up again, so that a
// quote that nobody closes does not take in the rest of the table.
type metered struct {
	in   io.Reader
	left int
}

func (m *metered) Read(b []byte) (int, error) {
	if m.left <= 0 {
		return 0, errLongRow
	}
	n, err := m.in.Read(b[:min(len(b), m.left)])
	m.left -= n
	return n, err
}

// openCSV reads the head of comma-separated values.
func (t *Table) openCSV(in io.Reader, o Options) error {
	meter := &metered{in, MaxRow}
	buffer := bufio.NewReaderSize(meter, readAhead)
	if err := t.skipMark(buffer); err != nil {
		return err
	}
	r := csv.NewReader(buffer)
	r.FieldsPerRecord = -1
	if r.Comma = ','; o.Separator != 0 {
		r.Comma = o.Separator
	}
	next := func() ([]string, int, error) {
		meter.left = MaxRow
		cells, err := r.Read()
		if err != nil {
			return nil, 0, err
		}
		line, _ := r.FieldPos(0)
		return cells, line, nil
	}
	head, line, err := next()
	if errors.Is(err, io.EOF) {
		return t.unreadable(0, "the table is empty, expected a line of heads")
	}
	if err != nil {
		return t.csvError(err)
	}
	for _, h := range head {
		if h = strings.TrimSpace(h); strings.Contains(h, "\r") {
			return t.unreadable(line, "the lines end with a carriage return alone, so that all of the table is one line: save it with the line ends of Windows or of Unix")
		}
		t.Head = append(t.Head, h)
	}
	if err := t.otherSeparator(line, r.Comma); err != nil {
		return err
	}
	t.next = func() (Row, error) {
		cells, line, err := next()
		if errors.Is(err, csv.ErrBareQuote) { // the row ends with its line all the same
			return t.straying(err), nil
		}
		if err != nil {
			return Row{}, t.csvError(err)
		}
		row := Row{Line: line, Cells: cells}
		if len(cells) != len(t.Head) {
			row.Bad = t.reject(line, "", "", fmt.Sprintf("the number of cells is %d, expected %d as the head has", len(cells), len(t.Head)))
			return row, nil
		}
		t.checkCells(&row)
		return row, nil
	}
	return t.checkHead(line)
}

// skipMark passes over a byte order mark of UTF-8 and refuses others.
func (t *Table) skipMark(in *bufio.Reader) error {
	start, _ := in.Peek(3)
	switch {
	case bytes.HasPrefix(start, []byte("\ufeff")):
		_, err := in.Discard(3)
		return err
	case bytes.HasPrefix(start, []byte("\xff\xfe")), bytes.HasPrefix(start, []byte("\xfe\xff")):
		return t.unreadable(1, "the table is UTF-16, expected UTF-8: save it as CSV UTF-8")
	case bytes.HasPrefix(start, []byte("PK\x03")):
		return t.unreadable(0, "the table is a workbook or another zip file, expected text: say --in xlsx if it is a workbook")
	}
	return nil
}

// otherSeparator tells a head of one column that another separator would
// divide.
func (t *Table) otherSeparator(line int, used rune) error {
	if len(t.Head) != 1 {
		return nil
	}
	for _, c := range []struct {
		sep        rune
		name, flag string
	}{{';', "semicolons", "';'"}, {'\t', "tabs", "tab"}, {',', "commas", "','"}} {
		if c.sep != used && strings.ContainsRune(t.Head[0], c.sep) {
			return t.unreadable(line, "the head is one column with %s in it: if they divide it, say --separator %s, and --decimal , where numbers have a decimal comma", c.name, c.flag)
		}
	}
	return nil
}

// strayQuote is said of a quote within a cell, as in 12" pipe.
const strayQuote = "a quote stands in a cell that does not begin with one: write the cell in quotes, and quotes in it twice"

// straying is a row with such a quote.
func (t *Table) straying(err error) Row {
	var parse *csv.ParseError
	errors.As(err, &parse)
	return Row{Line: parse.StartLine, Bad: t.reject(parse.StartLine, "", "", strayQuote)}
}

// csvError words what is wrong with the quotes of a table.
func (t *Table) csvError(err error) error {
	var parse *csv.ParseError
	switch {
	case errors.Is(err, errLongRow):
		return t.unreadable(0, "a row is longer than %d bytes, the most that is read; is a quote not closed?", MaxRow)
	case !errors.As(err, &parse):
		return err
	case errors.Is(err, csv.ErrBareQuote):
		return t.unreadable(parse.Line, strayQuote)
	}
	return t.unreadable(parse.StartLine, "a cell in quotes is not closed, or goes on after its closing quote, at line %d", parse.Line)
}
