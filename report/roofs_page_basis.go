package report

import (
	"fmt"
)

// basisHeading is over what the figures rest on.
func (t *roofsTeller) basisHeading() string {
	templates := "one template"
	if n := len(t.Roofs.studies); n > 1 {
		templates = counted(n, "template")
	}
	return fmt.Sprintf("The figures rest on %s and %s of a table", templates, counted(len(t.Rows)+t.Rejected, "row"))
}

// basisSection says what the figures rest on.
func (t *roofsTeller) basisSection() Section {
	lead := fmt.Sprintf("The rows are those of “%s”. What a row leaves open is as its template has it; what it says instead is its own. A column that is no input of the template is carried through: no figure depends on it, and nothing has checked it.", t.Table)
	s := Section{ID: "inputs", Heading: t.basisHeading(), Blocks: []Block{Paragraph{Role: Lead, Text: lead}, t.templateTable()}}
	if len(t.Empty) > 0 {
		s.Blocks = append(s.Blocks, t.emptyTable())
	}
	return s
}

// templateTable has a row for each study that roofs are laid on.
func (t *roofsTeller) templateTable() Table {
	table := Table{ID: "templates", Caption: "The templates: what holds where a row says nothing else",
		Columns: []Column{words("File"), words("Title"), number("Roofs"), words("Base case"), number("Discount rate")}}
	names := t.Roofs.templates != nil
	if names {
		table.Columns = append(table.Columns, words("Named in the table"))
	}
	used := make([]int, len(t.Roofs.studies))
	for _, r := range t.Rows {
		used[r.Template]++
	}
	for i, study := range t.Roofs.studies {
		base := state("none", "")
		if at := t.Roofs.bases[i]; at >= 0 {
			base = text(study.Alternatives[at].Name)
		}
		row := plainRow(text(oneLine(t.Templates[i])), text(study.About.Title), count(used[i]), base, rate(study.Inputs[study.Rate].Likely))
		if names {
			row.Cells = append(row.Cells, t.templateName(i))
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

func (t *roofsTeller) templateName(i int) Cell {
	if name := t.Roofs.templates[i]; name != "" {
		return text(oneLine(name))
	}
	return state("where none is named", "")
}

// emptyTable tells how many rows leave an input to the template.
func (t *roofsTeller) emptyTable() Table {
	table := Table{ID: "empty-cells", Caption: "Empty cells, where the template’s value holds",
		Columns: []Column{words("Column"), number("Empty cells"), number("Of rows")}}
	for _, e := range t.Empty {
		table.Rows = append(table.Rows, plainRow(text(oneLine(e.Head)), count(e.Count), count(len(t.Rows))))
	}
	return table
}

// methodSection says how the figures come about, and what ranks roofs.
func (t *roofsTeller) methodSection() Section {
	rate := "here " + Percent(t.study.Inputs[t.study.Rate].Likely, 4) + " a year"
	if t.rateDiffers() {
		rate = "here each roof’s own"
	}
	items := append(chainTexts(t.study.Period),
		discountText(fmt.Sprintf("%s (%s)", rate, t.study.Basis), t.study.Basis), timingText(t.study.Timing), lccText, "Residual value: "+residualText(t.Roofs.studies...))
	if t.saveable() {
		items = append(items,
			"Net savings: the life-cycle cost of the base case less that of the alternative. The roof that saves most comes first.",
			"Savings-to-investment ratio (SIR): what the alternative saves in running costs for each unit of what it asks for in investment beyond the base case, in present values. It ranks roofs, which are independent of each other, where money does not reach for all; it never ranks the alternatives of one roof.")
	}
	if t.Plan != nil {
		items = append(items,
			"The plan chooses for each roof an alternative and the year in which it starts, so that the life-cycle cost of all roofs together is least while the works of each year stay within its limit. A roof that waits costs until then what keeping it costs. Works are installations, recoats and removals, those too that the end of an old roof forces; annual and periodic costs are not paid from these budgets.",
			"What one more unit of a limit saves holds for small changes; plans of whole roofs move in steps around it.")
	}
	items = append(items, tieText(), exactText)
	return Section{ID: "method", Heading: methodHeading, Blocks: []Block{List{Items: items}, Paragraph{Text: termsText}}}
}

// saveable tells whether some template has a base case.
func (t *roofsTeller) saveable() bool {
	for _, base := range t.Roofs.bases {
		if base >= 0 {
			return true
		}
	}
	return false
}

// pagesSection says where the figures can be proved, as this page carries no
// study.
func (t *roofsTeller) pagesSection() Section {
	linked := t.count(func(r *rankedRoof) bool { return r.Link != "" })
	text := "This page carries no study, so it cannot prove its figures by itself. Those of a roof are what “roofyears compare” gives for the roof’s own study, to the last digit, and the sums are sums of them."
	heading := "This page carries no study"
	if linked > 0 {
		heading = "Each roof’s own page can prove its figures"
		text += " Where a roof’s name is a link, it leads to the roof’s own page beside this one: that page carries the study, and “roofyears verify” computes it again."
	}
	return Section{ID: ManyID, Heading: heading, Blocks: []Block{Paragraph{Text: text}}}
}
