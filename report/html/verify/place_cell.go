package verify

import "fmt"

// cellPlace names the row and the column of what is in a table.
func cellPlace(t, n *node) []string {
	row, cell := n.above(tagged("tr")), n.above(tagged("td", "th"))
	if row == nil {
		return nil
	}
	column := ""
	if cell != nil {
		column = columnName(t, at(row, cell))
	}
	if row.up.tag == "thead" {
		return []string{"head of " + column}
	}
	name := "row " + quoted(rowHead(row))
	if twice(row) {
		name = fmt.Sprintf("row %d %s", row.place(), quoted(rowHead(row)))
	}
	if cell == nil {
		return []string{name}
	}
	return []string{name, column}
}

// rowHead is what the first cell of a row says.
func rowHead(row *node) string {
	if len(row.kids) == 0 {
		return ""
	}
	return row.kids[0].allText()
}

// twice tells whether another row has the head of this one.
func twice(row *node) bool {
	for _, k := range row.up.kids {
		if k != row && k.tag == "tr" && rowHead(k) == rowHead(row) {
			return true
		}
	}
	return false
}

// at is the place of a cell in its row, from 0.
func at(row, cell *node) int {
	for i, k := range row.kids {
		if k == cell {
			return i
		}
	}
	return -1
}

// columnName names a column by its head, or by its number where it has none.
func columnName(t *node, i int) string {
	head := t.find(tagged("thead"))
	if head != nil {
		if row := head.find(tagged("tr")); row != nil && i >= 0 && i < len(row.kids) && row.kids[i].allText() != "" {
			return "column " + quoted(row.kids[i].allText())
		}
	}
	return fmt.Sprintf("column %d", i+1)
}
