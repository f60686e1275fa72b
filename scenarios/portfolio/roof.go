package portfolio

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios"
)

// Roof is a row that was read: what differs from its template.
type Roof struct {
	Line     int
	ID, Name string
	Free     []string          // as they stand, for Columns.Free
	Template int               // place in Columns.Lays
	Values   []decimal.Decimal // for Refs of the template
	Given    []bool            // false: the cell is empty, so the template's value holds
	Texts    []string          // for Texts of the template; "" likewise
	Asked    []string          // for Meaning.Asked; "" where there is no such column
}

// Clone is a roof with slices of its own.
func (r *Roof) Clone() Roof {
	out := *r
	out.Free, out.Values, out.Given = slices.Clone(r.Free), slices.Clone(r.Values), slices.Clone(r.Given)
	out.Texts, out.Asked = slices.Clone(r.Texts), slices.Clone(r.Asked)
	return out
}

// Roof reads the cells of a row into a roof, whose slices are used again. It
// gives the reason when a cell cannot be read.
func (c *Columns) Roof(row Row, to *Roof) *Reject {
	if row.Bad != nil {
		return row.Bad
	}
	to.Line, to.Name = row.Line, ""
	if to.ID = strings.TrimSpace(row.Cells[c.id]); to.ID == "" {
		return &Reject{c.table, row.Line, ID, row.Cells[c.id], "the roof has no id"}
	}
	if c.name >= 0 {
		to.Name = row.Cells[c.name]
	}
	to.Free, to.Asked = to.Free[:0], to.Asked[:0]
	for _, i := range c.asked {
		text := ""
		if i >= 0 {
			text = strings.TrimSpace(row.Cells[i])
		}
		to.Asked = append(to.Asked, text)
	}
	for _, i := range c.free {
		to.Free = append(to.Free, row.Cells[i])
	}
	if reject := c.templateOf(row, to); reject != nil {
		return reject
	}
	l := &c.Lays[to.Template]
	for _, i := range l.others {
		if text := strings.TrimSpace(row.Cells[i]); text != "" {
			reason := "the column is no input of the roof's template, so its cell must be empty"
			if why := l.why[i]; why != "" {
				reason = "the column cannot be set in the roof's template, so its cell must be empty: it " + why
			}
			return &Reject{c.table, row.Line, c.head[i], text, reason}
		}
	}
	return c.lay(l, row, to)
}

// lay reads the cells that differ from the template.
func (c *Columns) lay(l *Lay, row Row, to *Roof) *Reject {
	to.Values, to.Given, to.Texts = to.Values[:0], to.Given[:0], to.Texts[:0]
	for i := range l.Refs {
		text := strings.TrimSpace(row.Cells[l.refs[i]])
		var value decimal.Decimal
		if text != "" {
			var err error
			if value, err = c.number(l.cells[i], text); err != nil {
				return &Reject{c.table, row.Line, c.head[l.refs[i]], text, err.Error()}
			}
		}
		to.Values, to.Given = append(to.Values, value), append(to.Given, text != "")
	}
	for at, i := range l.texts {
		text := strings.TrimSpace(row.Cells[i])
		if l.numbers[at] && c.comma {
			written, err := withPoint(text)
			if err != nil {
				return &Reject{c.table, row.Line, c.head[i], text, err.Error()}
			}
			text = written
		}
		to.Texts = append(to.Texts, text)
	}
	return nil
}

// templateOf finds the template that the row names.
func (c *Columns) templateOf(row Row, to *Roof) *Reject {
	to.Template = 0
	if c.template < 0 {
		return nil
	}
	name := strings.TrimSpace(row.Cells[c.template])
	if name == "" {
		return nil
	}
	to.Template = slices.IndexFunc(c.Lays, func(l Lay) bool { return l.Name == name })
	if to.Template >= 0 {
		return nil
	}
	var names []string
	for _, l := range c.Lays[1:] {
		names = append(names, l.Name)
	}
	reason := fmt.Sprintf("there is no template %q", name)
	if near := len(names) > 0; near {
		reason += fmt.Sprintf("; %s, and the one of rows that name none", scenarios.There(names))
	} else {
		reason += fmt.Sprintf("; say --template %s=FILE", name)
	}
	return &Reject{c.table, row.Line, c.head[c.template], name, reason}
}

// withPoint puts a decimal point in the place of a decimal comma.
func withPoint(text string) (string, error) {
	switch {
	case strings.Contains(text, "."):
		return "", fmt.Errorf("%q has a point, expected a decimal comma and no other mark", text)
	case strings.Count(text, ",") > 1:
		return "", fmt.Errorf("%q has several commas, expected a decimal comma and no other mark", text)
	}
	return strings.Replace(text, ",", ".", 1), nil
}

// withComma is what is said of a text that was written with a point, for a
// table whose numbers have a comma.
func withComma(said, text string) string {
	if written, err := withPoint(text); err == nil {
		said = strings.ReplaceAll(said, fmt.Sprintf("%q", written), fmt.Sprintf("%q", text))
	}
	said = strings.NewReplacer("the point", "the comma", "no point", "no comma").Replace(said)
	return pointed.ReplaceAllString(said, ",$1")
}

var pointed = regexp.MustCompile(`\.([0-9])`)

// number reads a number of an input.
func (c *Columns) number(cell *scenarios.Cell, text string) (decimal.Decimal, error) {
	written := text
	if c.comma {
		var err error
		if written, err = withPoint(text); err != nil {
			return decimal.Zero, err
		}
	}
	v, err := cell.Parse(written)
	switch {
	case err != nil && c.comma:
		err = errors.New(withComma(err.Error(), text))
	case err != nil && strings.Contains(text, ","):
		hint := "if all numbers have a decimal comma, say --decimal ,"
		if c.cells {
			hint = "the cell is a text, where a number is expected"
		}
		err = fmt.Errorf("%w; %s", err, hint)
	}
	return v, err
}

// Empty counts the cells of a roof that was read which are empty, so that the
// template's value holds, into one number for each of Inputs.
func (c *Columns) Empty(roof *Roof, row Row, counts []int) {
	others := c.Lays[roof.Template].others
	for at, i := range c.inputs {
		if strings.TrimSpace(row.Cells[i]) == "" && !slices.Contains(others, i) {
			counts[at]++
		}
	}
}

// Once makes a row bad whose id an earlier row had; blanks around it are none
// of it.
func (c *Columns) Once(row *Row, seen *Seen) {
	if c.id >= len(row.Cells) {
		return // told when the row is read
	}
	id := strings.TrimSpace(row.Cells[c.id])
	if id == "" {
		return // likewise
	}
	if before := seen.Line(id, row.Line); before > 0 && row.Bad == nil {
		row.Bad = &Reject{c.table, row.Line, ID, id, fmt.Sprintf("the id stands in line %d already", before)}
	}
}

// Wrong is a reject of a roof for what stands in a column of Meaning.Asked.
func (c *Columns) Wrong(roof *Roof, asked int, reason string) *Reject {
	return &Reject{c.table, roof.Line, c.head[c.asked[asked]], roof.Asked[asked], reason}
}

// Again is a reject of a roof that was read: of the cell of the column that
// the path stands for, or of the whole row.
func (c *Columns) Again(roof *Roof, row Row, path, reason string) *Reject {
	r := &Reject{File: c.table, Line: roof.Line, Reason: reason}
	l := &c.Lays[roof.Template]
	at := slices.IndexFunc(l.Refs, func(in lcc.Ref) bool { return l.File.Study.Inputs[in].Path == path })
	text := slices.Index(l.Texts, path)
	switch {
	case at >= 0:
		at = l.refs[at]
	case text >= 0:
		at = l.texts[text]
		if c.comma && l.numbers[text] {
			r.Reason = withComma(reason, strings.TrimSpace(row.Cells[at]))
		}
	default:
		return r
	}
	r.Column, r.Value = c.head[at], row.Cells[at]
	return r
}
