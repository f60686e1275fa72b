package portfolio

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios"
)

// The columns that are no inputs.
const (
	ID   = "id"   // needed, no two alike
	Name = "name" // what people call the roof
)

// Columns say what the columns of a table stand for.
type Columns struct {
	Refs   []lcc.Ref // inputs that differ from roof to roof
	Inputs []string  // their heads
	Free   []string  // heads of the columns that are carried through
	// Weighed tells that the template has to be read again for each roof, see
	// scenarios.File.Weighed.
	Weighed bool

	file     *scenarios.File
	table    string
	comma    bool  // numbers have a decimal comma
	cells    bool  // numbers are those of a workbook
	id, name int   // −1: there is no name
	inputs   []int // columns of Refs
	free     []int // columns of Free
}

// Meaning says what people call things otherwise: the path, id or name that a
// head stands for, and how numbers are written.
type Meaning struct {
	Map          map[string]string
	DecimalComma bool
}

// Compile finds what the columns of a table stand for in a template. The error
// says which head is none, or lacks, and what was likely meant.
func Compile(file *scenarios.File, t *Table, m Meaning) (*Columns, error) {
	c := &Columns{file: file, table: t.name, comma: m.DecimalComma, cells: t.cells, id: -1, name: -1}
	for head := range m.Map {
		if !slices.Contains(t.Head, head) {
			return nil, t.unreadable(0, "there is no column %q to map; there are %q", head, t.Head)
		}
	}
	taken := map[string]string{} // heads by what they stand for
	for i, head := range t.Head {
		path, mapped := m.Map[head]
		if !mapped {
			path = head
		}
		if other, twice := taken[path]; twice {
			return nil, t.unreadable(0, "the columns %q and %q are both %s", other, head, path)
		}
		taken[path] = head
		if err := c.column(t, i, head, path, mapped); err != nil {
			return nil, err
		}
	}
	if c.id < 0 {
		return nil, t.unreadable(0, "there is no column %q, which tells the roofs apart; say --map HEAD=id if another one does", ID)
	}
	return c, nil
}

// column finds what one column stands for.
func (c *Columns) column(t *Table, i int, head, path string, mapped bool) error {
	in := c.file.Study.Find(path)
	switch {
	case path == ID:
		c.id = i
	case path == Name:
		c.name = i
	case in != lcc.NoRef:
		if err := c.file.Settable(in); err != nil {
			return t.unreadable(0, "the column %q cannot be set: it %s", head, err)
		}
		c.Refs, c.Inputs, c.inputs = append(c.Refs, in), append(c.Inputs, head), append(c.inputs, i)
		c.Weighed = c.Weighed || c.file.Weighed(in)
	case mapped || strings.Contains(path, "."):
		return t.unreadable(0, "%q is no input of the template%s", path, c.near(path))
	default:
		c.Free, c.free = append(c.Free, head), append(c.free, i)
	}
	return nil
}

func (c *Columns) near(path string) string {
	var paths []string
	for _, in := range c.file.Study.Inputs {
		paths = append(paths, in.Path)
	}
	if near := scenarios.Nearest(path, paths); near != "" {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

// Roof is a row that was read: what differs from the template.
type Roof struct {
	Line     int
	ID, Name string
	Free     []string          // as they stand, for Columns.Free
	Values   []decimal.Decimal // for Columns.Refs
	Given    []bool            // false: the cell is empty, so the template's value holds
}

// Roof reads the cells of a row into a roof, whose slices are used again. It
// gives the reason when a cell cannot be read.
func (c *Columns) Roof(row Row, to *Roof) *Reject {
	if row.Bad != nil {
		return row.Bad
	}
	to.Line, to.Name = row.Line, ""
	if to.ID = row.Cells[c.id]; strings.TrimSpace(to.ID) == "" {
		return &Reject{c.table, row.Line, ID, to.ID, "the roof has no id"}
	}
	if c.name >= 0 {
		to.Name = row.Cells[c.name]
	}
	to.Free, to.Values, to.Given = to.Free[:0], to.Values[:0], to.Given[:0]
	for _, i := range c.free {
		to.Free = append(to.Free, row.Cells[i])
	}
	for i, in := range c.Refs {
		text := strings.TrimSpace(row.Cells[c.inputs[i]])
		var value decimal.Decimal
		if text != "" {
			var err error
			if value, err = c.number(in, text); err != nil {
				return &Reject{c.table, row.Line, c.Inputs[i], text, err.Error()}
			}
		}
		to.Values, to.Given = append(to.Values, value), append(to.Given, text != "")
	}
	return nil
}

// number reads a number of an input.
func (c *Columns) number(in lcc.Ref, text string) (decimal.Decimal, error) {
	written := text
	if c.comma {
		if strings.Contains(text, ".") {
			return decimal.Zero, fmt.Errorf("%q has a point, expected a decimal comma and no other mark", text)
		}
		written = strings.Replace(text, ",", ".", 1)
	}
	v, err := c.file.ParseCell(in, written)
	if err != nil && !c.comma && strings.Contains(text, ",") {
		hint := "if all numbers have a decimal comma, say --decimal ,"
		if c.cells {
			hint = "the cell is a text, where a number is expected"
		}
		err = fmt.Errorf("%w; %s", err, hint)
	}
	return v, err
}

// Once makes a row bad whose id an earlier row had.
func (c *Columns) Once(row *Row, seen *Seen) {
	if c.id >= len(row.Cells) || row.Cells[c.id] == "" {
		return // told when the row is read
	}
	id := row.Cells[c.id]
	if before := seen.Line(id, row.Line); before > 0 && row.Bad == nil {
		row.Bad = &Reject{c.table, row.Line, ID, id, fmt.Sprintf("the id stands in line %d already", before)}
	}
}

// Again is a reject of a roof that was read: of the cell of the column that
// the path stands for, or of the whole row.
func (c *Columns) Again(roof *Roof, row Row, path, reason string) *Reject {
	r := &Reject{File: c.table, Line: roof.Line, Reason: reason}
	for i, in := range c.Refs {
		if c.file.Study.Inputs[in].Path == path {
			r.Column, r.Value = c.Inputs[i], row.Cells[c.inputs[i]]
		}
	}
	return r
}
