package workbook

import (
	"strings"

	"github.com/xuri/excelize/v2"

	"roofyears/report"
)

// form is how a number is written.
type form uint8

const (
	general    form = iota
	words           // a text, set off from a number before it
	money           // the currency's digits, in groups of three
	moneySign       // with the currency's sign
	price           // money with as many digits as it has, six at most
	rate            // per cent
	factor          // six decimals
	ratio           // four decimals
	whole           // no decimals, not grouped
	yearNumber      // year 12
	tiny            // a difference: twelve decimals
	unrounded       // money with more digits than it is paid in
)

// look is how a cell stands out.
type look uint8

const (
	plain look = iota
	wrapped
	title
	heading    // of a part of a sheet
	head       // of a column of words
	numberHead // of a column of numbers
	total
	strong
	event // a dated event among lines
	input // may be changed
	note
	noteRight
	verdict // the result of a check
	answer
)

// style is how a cell looks. The zero value is plain text.
type style struct {
	form form
	look look
}

// formatted is a style of a cell whose text, if literal, stays one when it is
// edited.
type formatted struct {
	style
	literal bool
}

// The colours: those of the page.
const (
	ink    = "1B2227"
	muted  = "55606A"
	rule   = "D3D9DE"
	tint   = "F4F6F8"
	accent = "1B4D7E"
	cream  = "FFF9EA" // behind inputs
	red    = "9C1C1C"
	rose   = "FBE3E3"
)

var palette = []string{"2B3C97", "72410D", "3EA639", "BC6EDC", "7F6D32", "1568AA", "DA6694", "5B6066"}

// hue is the colour of a series.
func hue(i int) string { return palette[i%len(palette)] }

// formats are the number formats of a currency.
func formats(cur report.Currency) map[form]string {
	amount := "#,##0"
	if cur.Digits > 0 {
		amount += "." + strings.Repeat("0", int(cur.Digits))
	}
	sign := func(around [2]string) string {
		return inQuotes(around[0]) + amount + inQuotes(around[1])
	}
	looks := cur.Form()
	out := map[form]string{
		money: amount + ";-" + amount, moneySign: sign(looks.Positive) + ";" + sign(looks.Negative),
		price: amount + "####", rate: "0.00##%", factor: "0.000000", ratio: "0.0000", whole: "0",
		yearNumber: `"year "0`, tiny: "0.000000000000", unrounded: "#,##0.000000;-#,##0.000000",
	}
	if cur.Digits == 0 { // a lone point would stay behind
		out[price] = "General"
	}
	return out
}

// inQuotes is a text within a number format.
func inQuotes(text string) string {
	if text == "" {
		return ""
	}
	return `"` + strings.ReplaceAll(text, `"`, "") + `"`
}

// styles makes the styles of a file as they are asked for.
type styles struct {
	f       *excelize.File
	formats map[form]string
	made    map[formatted]int
}

func (s *styles) formatted(want formatted) (int, error) {
	if id, ok := s.made[want]; ok {
		return id, nil
	}
	made := &excelize.Style{
		Font: &excelize.Font{Family: "Arial", Size: 10, Color: ink}, Alignment: &excelize.Alignment{Vertical: "top"},
	}
	if format, ok := s.formats[want.form]; ok {
		made.CustomNumFmt = &format
		made.Alignment.Horizontal = "right"
	}
	if text := "@"; want.literal {
		made.CustomNumFmt = &text
	}
	if want.form == words {
		made.Alignment.Horizontal, made.Alignment.Indent = "left", 1
	}
	dress(made, want.look)
	id, err := s.f.NewStyle(made)
	s.made[want] = id
	return id, err
}

// dress puts a look onto a style.
func dress(s *excelize.Style, l look) {
	fill := func(colour string) { s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}} }
	edge := func(side string) {
		s.Border = append(s.Border, excelize.Border{Type: side, Color: muted, Style: 1})
	}
	switch l {
	case wrapped:
		s.Alignment.WrapText = true
	case title:
		s.Font.Size, s.Font.Bold, s.Font.Color = 16, true, accent
	case heading:
		s.Font.Size, s.Font.Bold, s.Font.Color = 12, true, accent
	case head, numberHead:
		s.Font.Bold, s.Alignment.WrapText, s.Alignment.Vertical = true, true, "bottom"
		if l == numberHead {
			s.Alignment.Horizontal = "right"
		}
		fill(tint)
		edge("bottom")
	case total:
		s.Font.Bold = true
		edge("top")
	case strong:
		s.Font.Bold = true
	case event:
		s.Font.Bold, s.Font.Color = true, accent
		fill(tint)
	case input:
		fill(cream)
		s.Border = []excelize.Border{{Type: "bottom", Color: rule, Style: 1}}
	case note, noteRight:
		s.Font.Color, s.Alignment.WrapText = muted, true
		if l == noteRight {
			s.Font.Size, s.Alignment.Horizontal = 8, "right"
		}
	case verdict:
		s.Font.Bold, s.Alignment.WrapText = true, true
	case answer:
		s.Font.Size, s.Font.Bold, s.Alignment.WrapText = 12, true, true
	}
}
