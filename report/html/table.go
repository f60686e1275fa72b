package html

import (
	"fmt"
	"strings"

	"roofyears/report"
)

// table is a table ready to be shown.
type table struct {
	ID, Caption string
	Map, Sifts  bool
	Head        []headCell
	Rows        []row
	Notes       []note
}

type headCell struct{ Text, Class string }

type row struct {
	Class string
	Group string // the heading of a group, over all columns; else there are cells
	Span  int
	Cells []cell
}

type cell struct {
	Text, Class, Mark string
	Head              bool
	NoteID, Link      string
}

type note struct{ ID, Mark, Text string }

func (l *layout) table(t report.Table) *table {
	out := &table{ID: t.ID, Caption: isolated(t.Caption), Map: t.Map, Sifts: t.Sift != nil}
	for _, c := range t.Columns {
		out.Head = append(out.Head, headCell{c.Head, columnClass(c)})
	}
	for _, r := range t.Rows {
		shown := row{Class: rowClass(r.Role)}
		if r.Role == report.Group {
			shown.Group, shown.Span = isolated(groupName(r)), len(t.Columns)
			out.Rows = append(out.Rows, shown)
			continue
		}
		for i, c := range r.Cells {
			shown.Cells = append(shown.Cells, l.cell(out, t.Columns[i], c, i == 0))
		}
		out.Rows = append(out.Rows, shown)
	}
	return out
}

func (l *layout) cell(t *table, column report.Column, c report.Cell, head bool) cell {
	out := cell{Text: isolated(c.Show(l.doc.Currency)), Class: columnClass(column), Link: c.Link}
	out.Head = head && out.Text != "" // a blank is no name for its row
	if c.State != "" {
		out.Class = strings.TrimSpace(out.Class + " undefined")
	}
	if c.Hue > 0 {
		out.Class = fmt.Sprintf("hue s%d", (c.Hue-1)%8+1)
	}
	if c.Note != "" {
		n := t.note(isolated(c.Note))
		out.Mark, out.NoteID = n.Mark, n.ID
	}
	return out
}

// groupName is the one text of a group's row.
func groupName(r report.Row) string {
	for _, c := range r.Cells {
		if c.Text != "" {
			return c.Text
		}
	}
	return ""
}

// note keeps a note once, and gives it a letter.
func (t *table) note(text string) note {
	for _, n := range t.Notes {
		if n.Text == text {
			return n
		}
	}
	mark := report.NoteMark(len(t.Notes))
	n := note{ID: t.ID + "-note-" + mark, Mark: mark, Text: text}
	t.Notes = append(t.Notes, n)
	return n
}

func columnClass(c report.Column) string {
	var classes []string
	for _, is := range []struct {
		so   bool
		name string
	}{{c.Numeric, "num"}, {c.Numeric && c.Lowest, "lowest"}, {c.OnScreen, "onscreen"}} {
		if is.so {
			classes = append(classes, is.name)
		}
	}
	return strings.Join(classes, " ")
}

func rowClass(r report.RowRole) string {
	switch r {
	case report.Total:
		return "total"
	case report.Group:
		return "group"
	}
	return ""
}
