package report

import "fmt"

// behind puts the tables of a chart's numbers into the appendix and names them
// on the chart.
func (t *teller) behind(fig Figure, tables []Table) Figure {
	fig.TableName, fig.TablePlace = t.number(fig.Title, tables), "in the appendix"
	return fig
}

// number puts the tables of what is titled so into the appendix and gives
// their name there.
func (t *teller) number(title string, tables []Table) (name string) {
	name = fmt.Sprintf("table A%d", len(t.numbers)+1)
	f := Fold{ID: tables[0].ID + "-fold", Summary: upperFirst(name) + ": " + title}
	for _, table := range tables {
		f.Blocks = append(f.Blocks, table)
	}
	t.numbers = append(t.numbers, f)
	return name
}

// numbersSection holds the numbers of the charts, folded.
func (t *teller) numbersSection() Section {
	s := Section{ID: "numbers", Appendix: true, Heading: "Appendix A: every chart has its numbers", Blocks: []Block{
		Paragraph{Role: Lead, Text: "The charts of this report show these numbers and no others."}}}
	for _, f := range t.numbers {
		s.Blocks = append(s.Blocks, f)
	}
	return s
}
