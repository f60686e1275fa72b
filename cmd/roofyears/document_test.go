package main

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/scenarios"
)

// documentOf builds the document of an example.
func documentOf(t *testing.T, example string) *report.Document {
	t.Helper()
	study, err := commands{}.study(examplePrefix + example)
	require.NoError(t, err)
	study.Change, err = change(study.Result)
	require.NoError(t, err)
	study.Risk, err = risk.Run(study.Result.Study, risk.Options{Trials: 5000, Seed: 1})
	require.NoError(t, err)
	doc, err := report.Build(study)
	require.NoError(t, err)
	return doc
}

// gather collects the figures and tables of blocks, folded ones too.
func gather(blocks []report.Block, figures *[]report.Figure, tables map[string]report.Table) {
	for _, b := range blocks {
		switch b := b.(type) {
		case report.Figure:
			*figures = append(*figures, b)
		case report.Table:
			tables[b.ID] = b
		case report.Fold:
			gather(b.Blocks, figures, tables)
		}
	}
}

// gathered gives the charts and the tables, by identifier, of a document.
func gathered(doc *report.Document) ([]report.Figure, map[string]report.Table) {
	var figures []report.Figure
	tables := map[string]report.Table{}
	for _, s := range doc.Sections {
		gather(s.Blocks, &figures, tables)
	}
	return figures, tables
}

func TestEveryChartHasATableWithTheSameNumbers(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		figures, tables := gathered(documentOf(t, example))
		require.Len(t, figures, 12)
		for _, f := range figures {
			table, found := tables[f.Table]
			require.True(t, found, "%s: no table %q", f.ID, f.Table)
			for _, s := range f.Series {
				assert.True(t, holds(table, s), "%s: the table has other numbers than %q", f.ID, s.Name)
			}
		}
	}
}

// headOf names the column or the row that a series stands in where the two
// have not the same name.
var headOf = map[string]string{
	"at the low value": "Change at low", "at the high value": "Change at high",
	"First cost": "First cost, at the start", "Later work": "Later work: recoats, replacements, removal",
	"Upkeep and running costs": "Upkeep and other running costs", "Residual value": "Residual value at the end",
}

// holds tells whether the values of a series are a column of the table, or
// the row that bears the series' name.
func holds(table report.Table, s report.Series) bool {
	for i, c := range table.Columns {
		if (c.Head == s.Name || c.Head == headOf[s.Name]) && same(s.Values, func(j int) report.Cell { return table.Rows[j].Cells[i] }, len(table.Rows)) {
			return true
		}
	}
	for _, r := range table.Rows {
		if (r.Cells[0].Text == s.Name || r.Cells[0].Text == headOf[s.Name]) && same(s.Values, func(j int) report.Cell { return r.Cells[j+1] }, len(r.Cells)-1) {
			return true
		}
	}
	return false
}

func same(values []decimal.Decimal, cell func(int) report.Cell, n int) bool {
	if len(values) > n {
		return false
	}
	for j, v := range values {
		if !cell(j).Number.Equal(v) {
			return false
		}
	}
	return true
}

// The columns of the comparison add up to the life-cycle cost as printed.
func TestComparisonFoots(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		_, tables := gathered(documentOf(t, example))
		compare := tables["compare"]
		for col := 1; col < len(compare.Columns); col++ {
			sum := decimal.Zero
			for _, r := range compare.Rows {
				if r.Role == report.Total {
					assert.True(t, sum.Equal(r.Cells[col].Number), "%s: %s", example, compare.Columns[col].Head)
					break
				}
				sum = sum.Add(r.Cells[col].Number)
			}
		}
	}
}
