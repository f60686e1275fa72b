package roofbook

import (
	"fmt"
	"math/big"
	"strconv"

	"github.com/xuri/excelize/v2"

	"roofyears/report"
)

// totals writes the sheet of the totals. Sums are formulas over the sheet of the
// roofs, so that a reader sees what they are the sums of, with the sum to the
// cent stored beside each; plain where some amount is a text. Counts are plain:
// spreadsheets differ in how a formula compares names.
func (w *Writer) totals(t *report.RoofTotals) error {
	width := func(column int) float64 {
		if column == 0 {
			return 40
		}
		return 20
	}
	heads := []string{"alternative", "life_cycle_cost", "first_cost", "net_savings", "lowest_for", "currency"}
	sheet, err := w.newSheet(totalSheet, width, len(heads))
	if err != nil {
		return err
	}
	if err := w.head(sheet, heads); err != nil {
		return err
	}
	_, currency, _ := w.roofs.About()
	line := 1
	for i := range t.Alternatives {
		a := &t.Alternatives[i]
		line++
		from := w.roofs.AmountColumn(i)
		cells := []any{w.word(w.names[i]), w.sum(from, a.LCC.Big()), w.sum(from+1, a.First.Big()), nil, a.Lowest, w.word(currency)}
		if w.roofs.Saves(i) {
			cells[3] = w.sum(from+2, a.Saved.Big())
		}
		if err := sheet.SetRow(at(line), cells); err != nil {
			return err
		}
	}
	for _, count := range []struct {
		what string
		n    int
	}{{"roofs", t.Count}, {"roofs without an alternative that is not ruled out", t.None}} {
		line++
		if err := sheet.SetRow(at(line), []any{w.word(count.what), nil, nil, nil, count.n}); err != nil {
			return err
		}
	}
	line++
	best := []any{w.word("each roof's lowest"), w.plain(t.Lowest.LCC.Big()), w.plain(t.Lowest.First.Big()), nil, nil, w.word(currency)}
	if w.roofs.AnySaves() {
		best[3] = w.plain(t.Lowest.Saved.Big())
	}
	if err := sheet.SetRow(at(line), best); err != nil {
		return err
	}
	return sheet.Flush()
}

func at(line int) string { return "A" + strconv.Itoa(line) }

func (w *Writer) word(s string) any { return excelize.Cell{StyleID: w.looks.text, Value: s} }

// column is the rows of a column of roofs, for a formula.
func (w *Writer) column(place int) string {
	name, err := excelize.ColumnNumberToName(place + 1)
	if err != nil {
		panic(err) // the head was written there
	}
	return fmt.Sprintf("%s!$%s$2:$%s$%d", roofSheet, name, name, w.rows+1)
}

// plain is an amount without a formula.
func (w *Writer) plain(minor *big.Int) any {
	if !minor.IsInt64() || w.rows == 0 {
		return w.word(w.roofs.AmountOf(minor))
	}
	return w.amount(minor.Int64())
}

// sum is the total of a column of amounts.
func (w *Writer) sum(place int, minor *big.Int) any {
	cell, ok := w.plain(minor).(excelize.Cell)
	if !ok || !minor.IsInt64() || w.rows == 0 {
		return cell
	}
	if exact(minor.Int64()) && !w.tooLong {
		cell.Formula = "SUM(" + w.column(place) + ")"
	}
	return cell
}
