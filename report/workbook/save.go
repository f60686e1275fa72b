package workbook

import (
	"fmt"
	"html"
	"io"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// save writes a workbook's bytes: the same ones for the same workbook.
func (b *book) save(w io.Writer) error {
	f := excelize.NewFile()
	defer f.Close()
	made := &styles{f: f, formats: formats(b.cur), made: map[formatted]int{}}
	for i, s := range b.order {
		if err := addSheet(f, i, s.name); err != nil {
			return err
		}
	}
	paper := letter
	if b.s.About.AreaUnit == "m2" {
		paper = a4
	}
	if err := b.define(f); err != nil {
		return err
	}
	for _, s := range b.order {
		if err := s.save(f, made, paper); err != nil {
			return fmt.Errorf("sheet %q: %w", s.name, err)
		}
	}
	if err := b.properties(f); err != nil {
		return err
	}
	packed, err := f.WriteToBuffer()
	if err != nil {
		return err
	}
	return repack(w, packed.Bytes())
}

// addSheet adds a sheet; a new file has one already.
func addSheet(f *excelize.File, i int, name string) error {
	if i == 0 {
		return f.SetSheetName(f.GetSheetName(0), name)
	}
	_, err := f.NewSheet(name)
	return err
}

// define names cells, and the rows that every printed page repeats.
func (b *book) define(f *excelize.File) error {
	for _, n := range b.named {
		if err := f.SetDefinedName(&excelize.DefinedName{Name: n.name, RefersTo: n.refersTo}); err != nil {
			return fmt.Errorf("name %q: %w", n.name, err)
		}
	}
	for _, s := range b.order {
		if s.repeat > 0 {
			rows := fmt.Sprintf("%s!$%d:$%d", quoted(s.name), s.repeat, s.repeat)
			if err := f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: rows, Scope: s.name}); err != nil {
				return err
			}
		}
		if s.printed > 0 {
			part := s.at(1, 1) + ":" + fixed(len(s.cells), s.printed)
			if err := f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: part, Scope: s.name}); err != nil {
				return err
			}
		}
	}
	return nil
}

// properties say what the workbook is. Its dates are those of the study, so
// that they are the same on every run.
func (b *book) properties(f *excelize.File) error {
	day := b.s.About.BaseDate
	if day == "" {
		day = "2000-01-01"
	}
	day += "T00:00:00Z"
	yes := true
	return joined(
		f.SetDocProps(&excelize.DocProperties{Title: cut(b.s.About.Title, longestLiteral), Creator: cut(b.s.About.PreparedBy, longestLiteral), Created: day, Modified: day}),
		f.SetAppProps(&excelize.AppProperties{Application: "roofyears"}),
		f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &yes}),
	)
}

// joined gives the first of several errors.
func joined(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// save writes a sheet.
func (s *sheet) save(f *excelize.File, made *styles, paper int) error {
	if err := s.layout(f, paper); err != nil {
		return err
	}
	out, err := f.NewStreamWriter(s.name)
	if err != nil {
		return err
	}
	if err := s.view(out); err != nil {
		return err
	}
	for r, cells := range s.cells {
		line := make([]any, len(cells))
		for i, c := range cells {
			if line[i], err = c.written(made); err != nil {
				return err
			}
		}
		if err := out.SetRow(here(r+1, 1), line, excelize.RowOpts{Height: s.heights[r+1]}); err != nil {
			return err
		}
	}
	for _, m := range s.merged {
		if err := out.MergeCell(here(m.row, m.col), here(m.lastRow, m.lastCol)); err != nil {
			return err
		}
	}
	if err := s.extras(f, made); err != nil {
		return err
	}
	return out.Flush()
}

// written is a cell as the library takes it; nil for an empty one.
func (c cell) written(made *styles) (any, error) {
	if c.value == nil && c.formula == "" && c.style == (style{}) {
		return nil, nil
	}
	value := c.value
	text, ok := value.(string)
	id, err := made.formatted(formatted{c.style, ok && c.formula == "" && runs(text)})
	if d, ok := value.(decimal.Decimal); ok {
		value = d.InexactFloat64()
	}
	return excelize.Cell{StyleID: id, Formula: c.formula, Value: value}, err
}

// runs tells a text that a spreadsheet would make a formula of, once somebody
// edits its cell. Excel shows a longer one of such a cell as number signs.
func runs(text string) bool {
	return text != "" && strings.ContainsRune("=+-@", rune(text[0])) && len(text) <= 255
}

// view sets the widths of columns and what stays in view.
func (s *sheet) view(out *excelize.StreamWriter) error {
	for i, width := range s.widths {
		if err := out.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	rows, cols := s.frozen[0], s.frozen[1]
	if rows == 0 {
		return nil
	}
	pane := "bottomLeft"
	if cols > 0 {
		pane = "bottomRight"
	}
	return out.SetPanes(&excelize.Panes{Freeze: true, XSplit: cols, YSplit: rows, TopLeftCell: here(rows+1, cols+1), ActivePane: pane})
}

// Papers as the file format numbers them; a roof in ft2 is printed on letter,
// one in m2 on A4.
const (
	letter = 1
	a4     = 9
)

// layout sets a sheet up for printing: as wide as a page, with page numbers.
func (s *sheet) layout(f *excelize.File, paper int) error {
	fit, one, high, hidden := true, 1, 0, false
	if s.onePage {
		high = 1
	}
	orientation := "portrait"
	if s.landscape {
		orientation = "landscape"
	}
	side, end, foot := 0.5, 0.7, 0.35
	return joined(
		f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}),
		f.SetSheetView(s.name, 0, &excelize.ViewOptions{ShowGridLines: &hidden}),
		f.SetPageLayout(s.name, &excelize.PageLayoutOptions{Size: &paper, Orientation: &orientation, FitToWidth: &one, FitToHeight: &high}),
		f.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &end, Bottom: &end, Header: &foot, Footer: &foot}),
		f.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{OddFooter: "&L&8&A&R&8Page &P of &N"}),
	)
}

// extras adds what is beside the cells: red alerts, limits, charts.
func (s *sheet) extras(f *excelize.File, made *styles) error {
	alarm, err := made.f.NewConditionalStyle(&excelize.Style{
		Font: &excelize.Font{Color: red, Bold: true}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{rose}}})
	if err != nil {
		return err
	}
	for _, a := range s.alerts {
		over := here(a.row, a.col) + ":" + here(a.lastRow, a.lastCol)
		if err := f.SetConditionalFormat(s.name, over, []excelize.ConditionalFormatOptions{{Type: "formula", Criteria: a.condition, Format: &alarm}}); err != nil {
			return err
		}
	}
	for _, l := range s.limits {
		if err := s.limit(f, l); err != nil {
			return err
		}
	}
	for _, c := range s.charts {
		if err := f.AddChart(s.name, here(c.row, c.col), c.chart); err != nil {
			return err
		}
	}
	return nil
}

// limit keeps what is typed into a cell within its bounds.
func (s *sheet) limit(f *excelize.File, l limit) error {
	at := here(l.row, l.col)
	v := excelize.NewDataValidation(true)
	v.Sqref = at
	v.Type, v.Formula1 = "custom", html.EscapeString(l.bound.condition(at)) // the library takes it for XML
	v.SetError(excelize.DataValidationErrorStyleStop, "Outside its bounds", l.bound.text+".")
	return f.AddDataValidation(s.name, v)
}
