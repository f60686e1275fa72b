package report

// Build makes the document of a study. It fails only when the study cannot be
// evaluated at the discount rates of its rate curve.
func Build(in Study) (*Document, error) {
	t := tell(in)
	costs, err := t.costSection()
	if err != nil {
		return nil, err
	}
	compare := t.compareSection()
	compare.Blocks = append(append(compare.Blocks, t.taxPointer()...), t.partsFigure())
	sections := append([]Section{t.answerSection(), compare}, t.noteSections()...)
	sections = append(sections, t.eventsSection(), costs)
	sections = append(sections, t.taxSections()...)
	sections = append(sections, t.takeOffSection()...)
	sections = append(sections, t.coolRoofSections()...)
	if in.Change != nil {
		sections = append(sections, t.changeSection(in.Change))
	}
	sections = append(sections, t.whatIfSection()...)
	if in.Risk != nil {
		sections = append(sections, t.riskSection(in.Risk))
	}
	sections = append(sections, t.rulesSections()...)
	sections = append(sections, t.unknownSection(), t.nextSection(), t.assumptionsSection(), t.methodSection(), cautionsSection(t.opinionCaution(), t.butAfterTax()),
		t.numbersSection())
	sections = append(append(append(sections, t.ledgerSection()), t.taxDetails()...), t.ruleDetails()...)
	doc := t.document(sections...)
	doc.Proof, doc.Paper = in.proof(), in.Options.Paper
	doc.Letterhead, doc.Logo = t.letterhead(), t.logo()
	return doc, nil
}

func (t *teller) document(sections ...Section) *Document {
	return &Document{Title: t.study.About.Title, Currency: t.cur, Facts: t.facts(), Version: t.Study.Version, Sections: sections}
}

// Brief makes what the terminal shows: the answer, the alternatives side by
// side, what happens when, the crossovers, and what may be done.
func Brief(in Study) *Document {
	t := tell(in)
	events := t.eventsSection()
	events.Blocks = []Block{t.eventsTable()}
	crossovers := Section{ID: "crossovers", Heading: "Where alternatives cost the same", Blocks: []Block{Paragraph{Role: Lead, Text: t.curveLead()}}}
	if len(t.Crossovers) > 0 {
		crossovers.Blocks = append(crossovers.Blocks, t.crossoverTable())
	}
	sections := append([]Section{t.answerSection(), t.compareSection()}, t.noteSections()...)
	sections = append(append(sections, events, crossovers), t.taxBrief()...)
	doc := t.document(append(sections, t.rulesSections()...)...)
	doc.Letterhead = t.letterhead()
	return doc
}

// facts say who asks, who answers, as of when, at which rate and of which roof.
func (t *teller) facts() []Fact {
	return append(t.aboutFacts(),
		Fact{"Discount rate", Percent(t.Rate, 4) + " " + t.study.Basis.String()},
		Fact{"Roof", trimmed(t.Area, 6) + " " + t.areaUnit() + " in plan"})
}

// aboutFacts say who asks, who answers, and as of when.
func (t *teller) aboutFacts() []Fact {
	about := t.study.About
	var out []Fact
	add := func(label, text string) {
		if text != "" {
			out = append(out, Fact{label, text})
		}
	}
	add("Prepared for", about.PreparedFor)
	add("Prepared by", about.PreparedBy)
	add("Prepared on", about.PreparedOn)
	add("Prices valid until", about.ValidUntil)
	add("Base date", about.BaseDate)
	add("Study period", Plural(t.study.Period, "year"))
	return out
}

// Check makes what the check command shows: every input with its range and
// source, by its place in the file.
func Check(in Study) *Document {
	t := tell(in)
	table := t.inputTable()
	table.Columns = append([]Column{{Head: "Place in the file", Unbroken: true}}, table.Columns...)
	rows, next := t.inputRows(), 0
	for i := range table.Rows {
		place := ""
		if table.Rows[i].Role != Group {
			place = t.study.Inputs[rows[next].first].Path
			next++
		}
		table.Rows[i].Cells = append([]Cell{text(place)}, table.Rows[i].Cells...)
	}
	return t.document(append([]Section{{ID: "inputs", Heading: "What the figures rest on", Blocks: []Block{
		Paragraph{Role: Lead, Text: t.sourcesLead()}, table, t.settingTable(),
	}}}, t.taxCheck()...)...)
}
