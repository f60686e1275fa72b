// Package text writes a document for the terminal.
package text

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/jedib0t/go-pretty/v6/table"
	pretty "github.com/jedib0t/go-pretty/v6/text"

	"roofyears/report"
)

// Options say what the terminal can do.
type Options struct {
	Width  int  // columns that running text may take; 0 is 80
	Colour bool // bold headings and the like; off for pipes and files
}

// Write lays a document out as text.
func Write(w io.Writer, doc *report.Document, o Options) error {
	if o.Width <= 0 {
		o.Width = 80
	}
	l := &layout{doc: doc, options: o}
	l.heading(doc.Title, "=")
	width := 15
	for _, f := range doc.Facts {
		width = max(width, utf8.RuneCountInString(f.Label))
	}
	for _, f := range doc.Facts {
		l.printf("%-*s %s\n", width, f.Label, f.Text)
	}
	for i, line := range doc.Letterhead.Contact {
		l.printf("%-*s %s\n", width, []string{"Contact", ""}[min(i, 1)], line)
	}
	for _, s := range doc.Sections {
		if s.Live {
			continue
		}
		l.printf("\n")
		l.heading(s.Heading, "-")
		for _, b := range s.Blocks {
			l.block(b)
		}
	}
	_, err := io.WriteString(w, l.out.String())
	return err
}

type layout struct {
	doc     *report.Document
	options Options
	out     strings.Builder
}

func (l *layout) printf(format string, args ...any) { fmt.Fprintf(&l.out, format, args...) }

func (l *layout) heading(s, rule string) {
	l.printf("%s\n%s\n", l.bold(s), strings.Repeat(rule, utf8.RuneCountInString(s)))
}

func (l *layout) bold(s string) string {
	if l.options.Colour {
		return pretty.Bold.Sprint(s)
	}
	return s
}

func (l *layout) block(b report.Block) {
	switch b := b.(type) {
	case report.Paragraph:
		s := l.wrap(b.Text, "")
		if b.Role == report.Answer {
			s = l.bold(s)
		}
		l.printf("%s\n", s)
	case report.List:
		for _, item := range b.Items {
			l.printf("%s\n", l.wrap(item, "- "))
		}
	case report.Table:
		if !b.PageOnly {
			l.table(b)
		}
	}
}

// wrap breaks running text at the width; the mark stands before its first
// line, and the others are indented by as much.
func (l *layout) wrap(s, mark string) string {
	indent := len(mark)
	lines := strings.Split(pretty.WrapSoft(s, l.options.Width-indent), "\n")
	for i := range lines {
		lead := strings.Repeat(" ", indent)
		if i == 0 {
			lead = mark
		}
		lines[i] = lead + strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// headWidth is how wide the head of a numeric column may grow before it wraps.
const headWidth = 16

// labelWidth is how wide a column of words may grow before it wraps.
const labelWidth = 44

// table lays a table out. Notes of cells follow it, marked by letters.
func (l *layout) table(t report.Table) {
	w := table.NewWriter()
	w.SetStyle(style())
	var notes []string
	head, columns := table.Row{}, []table.ColumnConfig{}
	for i, c := range t.Columns {
		config := table.ColumnConfig{Number: i + 1, WidthMax: labelWidth, WidthMaxEnforcer: pretty.WrapSoft, VAlignHeader: pretty.VAlignBottom}
		label := c.Head
		if c.Unbroken {
			config.WidthMax = 0
		}
		if c.Numeric {
			config.Align, config.AlignHeader, config.WidthMax = pretty.AlignRight, pretty.AlignRight, 0
			label = pretty.WrapSoft(label, headWidth)
		}
		head, columns = append(head, label), append(columns, config)
	}
	w.AppendHeader(head)
	w.SetColumnConfigs(columns)
	for _, row := range t.Rows {
		cells := table.Row{}
		for _, c := range row.Cells {
			s := c.Show(l.doc.Currency)
			if c.Note != "" {
				s += " " + mark(&notes, c.Note)
			}
			if row.Role == report.Total {
				s = l.bold(s)
			}
			cells = append(cells, s)
		}
		if row.Role == report.Total {
			w.AppendSeparator()
		}
		w.AppendRow(cells)
		if row.Role == report.Total {
			w.AppendSeparator()
		}
	}
	l.printf("%s\n%s\n", l.wrap(t.Caption, ""), trimLines(w.Render()))
	for i, note := range notes {
		l.printf("%s\n", l.wrap(note, letter(i)+" "))
	}
}

// mark gives a note its letter; the same note keeps the one it has.
func mark(notes *[]string, note string) string {
	for i, n := range *notes {
		if n == note {
			return letter(i)
		}
	}
	*notes = append(*notes, note)
	return letter(len(*notes) - 1)
}

func letter(i int) string { return report.NoteMark(i) + ")" }

func trimLines(s string) string {
	lines := strings.Split(s, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// style is a plain table: rules under the head and around totals only.
func style() table.Style {
	s := table.StyleDefault
	s.Box.PaddingLeft, s.Box.PaddingRight = "", "  "
	s.Box.MiddleHorizontal = "-"
	s.Box.MiddleSeparator, s.Box.LeftSeparator, s.Box.RightSeparator = "-", "-", "-"
	s.Options = table.Options{SeparateHeader: true}
	s.Format.Header = pretty.FormatDefault
	return s
}
