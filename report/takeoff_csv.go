package report

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"strconv"
)

// takeOffColumns are the columns of the take-off as CSV. Every row has all of
// them, and a blank where one does not concern it.
var takeOffColumns = []string{
	"row", "step", "name", "detail", "quantity", "unit", "per", "per_unit", "pack", "packs", "bought", "left_over",
	"price", "cost", "currency", "dry_film", "wet_film", "gauge_notch", "film_unit", "volume_solids", "loss", "extra_paint", "then_wait_hours", "how", "source",
}

// csvRow is a row by column.
type csvRow map[string]string

// WriteTakeOffCSV writes the take-off as one table of comma-separated values
// with one head: UTF-8 with a byte order mark, since spreadsheets take it for
// another encoding without. The first column says what a row is: measured,
// buy, step, cost or total. Numbers have all their digits, a decimal point and
// no unit; units stand in columns of their own. What a material costs stands in
// its buy row and in its cost row; the cost rows add up to the total. The study
// has a take-off.
//
// A text that a spreadsheet would take for a formula has an apostrophe before
// it: one that begins with =, +, -, @, a tab or a line end, also after a
// semicolon, a tab or a line end within, where another separator would cut it.
func WriteTakeOffCSV(out io.Writer, in Study) error {
	if _, err := io.WriteString(out, "\ufeff"); err != nil {
		return err
	}
	w := csv.NewWriter(out)
	if err := w.Write(takeOffColumns); err != nil {
		return err
	}
	for _, row := range tell(in).work().json().rows() {
		cells := make([]string, len(takeOffColumns))
		if row["cost"] != "" {
			row["currency"] = in.Result.Study.About.Currency
		}
		for i, column := range takeOffColumns {
			cells[i] = row[column]
		}
		if err := w.Write(cells); err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

// rows are the rows of the table.
func (d *takeOffDoc) rows() []csvRow {
	var out []csvRow
	for _, m := range d.Measured {
		out = append(out, csvRow{"row": "measured", "name": harmless(m.Label), "detail": m.Group, "quantity": string(m.Quantity), "unit": harmless(m.Unit),
			"how": harmless(m.How), "source": harmless(m.Source)})
	}
	for i := range d.Materials {
		out = append(out, d.Materials[i].row())
	}
	for _, s := range d.Steps {
		out = append(out, csvRow{"row": "step", "step": strconv.Itoa(s.Number), "name": harmless(s.Name), "quantity": orBlank(s.Quantity), "unit": harmless(s.Unit),
			"then_wait_hours": orBlank(s.Wait), "how": harmless(s.Note)})
	}
	for _, c := range d.Costs {
		row := csvRow{"row": "cost", "name": harmless(c.Item), "detail": c.Kind, "quantity": orBlank(c.Quantity), "unit": harmless(c.Unit),
			"price": string(c.Price), "cost": string(c.Amount)}
		if c.Step != nil {
			row["step"] = strconv.Itoa(*c.Step)
		}
		out = append(out, row)
	}
	return append(out, csvRow{"row": "total", "name": "all first costs", "cost": string(d.Total)})
}

func (m *takeOffMaterial) row() csvRow {
	row := csvRow{"row": "buy", "step": strconv.Itoa(m.Step), "name": harmless(m.Name), "detail": harmless(m.Colour), "quantity": string(m.Needed),
		"unit": harmless(m.Unit), "per": orBlank(m.Rate), "per_unit": harmless(m.RateOf), "pack": orBlank(m.Pack), "packs": orBlank(m.Packs),
		"bought": string(m.Bought), "left_over": string(m.LeftOver), "price": orBlank(m.UnitPrice), "cost": orBlank(m.Cost)}
	if c := m.Coat; c != nil {
		row["dry_film"], row["wet_film"], row["gauge_notch"], row["film_unit"] = orBlank(c.Dry), orBlank(c.Wet), orBlank(c.Notch), harmless(c.Unit)
		row["volume_solids"], row["loss"], row["extra_paint"] = orBlank(c.Solids), orBlank(c.Loss), orBlank(c.Extra)
	}
	return row
}

func orBlank(n *json.Number) string {
	if n == nil {
		return ""
	}
	return string(*n)
}
