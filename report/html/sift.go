package html

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"html/template"

	"roofyears/report"
)

//go:embed assets/sift.js
var siftScript string

// siftData is what the script that sorts and filters needs to know of a table,
// as JSON. The rows are those of the table itself.
type siftData struct {
	ID   string
	Data template.JS
}

// sifted is that JSON.
type sifted struct {
	Noun    string           `json:"noun"`
	Find    string           `json:"find"`
	Money   report.MoneyForm `json:"money"`
	Columns []siftedColumn   `json:"columns"`
	Search  []int            `json:"search"`
	Choose  []int            `json:"choose"`
	Tell    []int            `json:"tell"`
}

// siftedColumn says how a column is sorted, as text or as numbers, and how it
// is added up: not at all, or with so many decimals, all of them written or
// none at the end that is 0.
type siftedColumn struct {
	Number bool  `json:"number"`
	Sum    bool  `json:"sum"`
	Digits int32 `json:"digits"`
	All    bool  `json:"all"`
}

// sift keeps what the script needs for a table that can be sifted.
func (l *layout) sift(t report.Table) error {
	if t.Sift == nil {
		return nil
	}
	s := sifted{Noun: t.Sift.Noun, Find: t.Sift.Find, Money: l.doc.Currency.Form(), Search: t.Sift.Search, Choose: t.Sift.Choose, Tell: t.Sift.Tell}
	total := t.Rows[len(t.Rows)-1]
	for i, c := range t.Columns {
		of := siftedColumn{Number: c.Numeric}
		switch cell := total.Cells[i]; {
		case cell.State != "":
		case cell.Kind == report.MoneyCell:
			of.Sum, of.Digits, of.All = true, l.doc.Currency.Digits, true
		case cell.Kind == report.QuantityCell:
			of.Sum, of.Digits = true, cell.Digits
		}
		s.Columns = append(s.Columns, of)
	}
	text, err := json.Marshal(s)
	if err != nil {
		return fmt.Errorf("the table %s: %w", t.ID, err)
	}
	l.sifts = append(l.sifts, siftData{t.ID, template.JS(text)})
	return nil
}
