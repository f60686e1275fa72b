package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// ledgerSection holds the ledger of each alternative, folded.
func (t *teller) ledgerSection() Section {
	s := Section{ID: "ledgers", Appendix: true, Heading: "Appendix B: the ledgers hold every cost, line by line", Blocks: []Block{Paragraph{Role: Lead,
		Text: "Every figure of this report" + aside(t.butAfterTax()) + " is one of these lines, a sum of them, or a stated function of such sums. Each line is rounded once; each column adds up to its total."}}}
	for i := range t.Alternatives {
		table := t.ledgerTable(i)
		s.Blocks = append(s.Blocks, Fold{
			ID: table.ID + "-fold", Summary: fmt.Sprintf("Ledger B%d: “%s”, %s", i+1, t.name(i), Plural(len(t.Alternatives[i].Ledger), "line")),
			Blocks: []Block{table},
		})
	}
	return s
}

// ledgerTable writes a ledger, with a heading wherever another system's lines
// begin.
func (t *teller) ledgerTable(i int) Table {
	table := Table{
		ID:      fmt.Sprintf("ledger-%d", i+1),
		Caption: fmt.Sprintf("Costs of “%s”, %s; the total present value is the life-cycle cost", t.name(i), t.study.About.Currency),
		Columns: []Column{number("Year"), words("Item"), words("Category"), words("Kind"),
			number("At base-date prices"), number("Escalated amount"), number("Present value")},
		PageOnly: true,
	}
	var sums [3]decimal.Decimal
	system := -1
	for _, line := range t.Alternatives[i].Ledger {
		if line.System != system {
			system = line.System
			table.Rows = append(table.Rows, Row{Role: Group, Cells: []Cell{text(""), text(t.system(system)), text(""), text(""), text(""), text(""), text("")}})
		}
		table.Rows = append(table.Rows, plainRow(
			Cell{Kind: YearCell, Number: line.Time.Decimal()}, text(line.Item),
			text(categoryText(line.Category)), text(kindText(line.Kind)), money(line.Base), money(line.Amount), money(line.PV)))
		sums[0], sums[1], sums[2] = sums[0].Add(line.Base), sums[1].Add(line.Amount), sums[2].Add(line.PV)
	}
	table.Rows = append(table.Rows, totalRow(text(""), text("Total"),
		text(""), text(""), money(sums[0]), money(sums[1]), money(sums[2])))
	return table
}

func categoryText(c lcc.Category) string {
	if c == lcc.NoCategory {
		return "–"
	}
	return c.String()
}

func kindText(k lcc.Kind) string {
	return map[lcc.Kind]string{
		lcc.FirstCost: "first cost", lcc.Replacement: "replacement", lcc.Recoat: "recoat", lcc.Removal: "removal",
		lcc.Annual: "annual", lcc.Periodic: "periodic", lcc.ResidualValue: "residual value",
	}[k]
}
