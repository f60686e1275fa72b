package portfolio

import (
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// cell is a cell as it is stored, ECMA-376 part 1 section 18.3.1.4.
type cell struct {
	column  int // from 1
	kind    string
	style   int
	value   string
	has     bool // a value
	formula bool
	inline  string
}

// place reads where a cell is and what it is.
func (s *sheet) place(c *cell, start xml.StartElement) error {
	for _, a := range start.Attr {
		switch a.Name.Local {
		case "r":
			column := columnNumber(strings.TrimRight(a.Value, "0123456789"))
			if column < c.column {
				return s.t.unreadable(s.line, "the cells of the row are out of order at %q", a.Value)
			}
			c.column = column
		case "t":
			c.kind = a.Value
		case "s":
			c.style, _ = strconv.Atoi(a.Value) // without a style it has none
		}
	}
	if c.column > maxSheetColumn {
		return s.t.unreadable(s.line, "the row has over %d cells", maxSheetColumn)
	}
	return nil
}

// content reads what is in a cell that was begun.
func (s *sheet) content(c *cell) error {
	for begun := s.e.depth; s.e.depth >= begun; {
		token, err := s.e.next()
		if err != nil {
			return err
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "v":
			c.has = true
			c.value, err = s.e.text(true)
		case "is":
			c.inline, err = s.e.text(false)
		case "f":
			c.formula = true
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// text is what a cell says, or why it says nothing. A formula is the value that
// was stored for it.
func (s *sheet) text(c cell) (text, bad string) {
	if c.formula && (!c.has || c.value == "" && c.kind != "str") {
		return "", "the cell is a formula without a stored value: open the workbook in a spreadsheet program and save it"
	}
	switch c.kind {
	case "inlineStr":
		return unescaped(c.inline), ""
	case "str":
		return unescaped(c.value), ""
	case "d":
		return c.value, "" // a date as text, ISO 8601
	}
	if c.value == "" {
		return "", ""
	}
	switch c.kind {
	case "", "n":
		form := plainForm
		if c.style >= 0 && c.style < len(s.styles) {
			form = s.styles[c.style]
		}
		return numberText(c.value, form, s.from)
	case "s":
		if i, err := strconv.Atoi(c.value); err == nil && i >= 0 && i < len(s.texts) {
			return s.texts[i], ""
		}
		return "", "the cell has a text that the workbook does not hold"
	case "b":
		return strconv.FormatBool(c.value == "1" || c.value == "true"), ""
	case "e":
		return "", fmt.Sprintf("the cell holds the error %q", c.value)
	}
	return "", fmt.Sprintf("the cell is of the kind %q, which is not known", c.kind)
}

// columnNumber reads the letters of a column, A is 1; 0 is none.
func columnNumber(letters string) int {
	n := 0
	for _, c := range letters {
		if c < 'A' || c > 'Z' || n > maxSheetColumn {
			return 0
		}
		n = 26*n + int(c-'A') + 1
	}
	return n
}

// columnName gives the letters of a column, of 1 is A.
func columnName(n int) string {
	var b []byte
	for ; n > 0; n = (n - 1) / 26 {
		b = append(b, byte('A'+(n-1)%26))
	}
	slices.Reverse(b)
	return string(b)
}
