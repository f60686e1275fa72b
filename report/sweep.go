package report

import (
	"fmt"
	"slices"

	"roofyears/lcc"
	"roofyears/lcc/vary"
)

// AlongDocument shows a sweep of one input.
func AlongDocument(in Study, s *vary.Sweep) *Document {
	t := tell(in)
	section := Section{ID: "sweep", Heading: fmt.Sprintf("As %s moves from %s to %s", t.inputName(s.In), t.shown(s.In, s.From), t.shown(s.In, s.To))}
	section.Blocks = append(section.Blocks, Paragraph{Role: Lead, Text: t.tiesText(s)})
	if len(s.Ties) > 0 {
		section.Blocks = append(section.Blocks, t.tieTable(s))
	}
	for n, set := range t.columnSets() {
		table := Table{ID: setID("sweep", n), Caption: "Life-cycle cost, " + t.study.About.Currency, Columns: []Column{number(t.study.Inputs[s.In].Label)}}
		for _, a := range set {
			table.Columns = append(table.Columns, number(t.name(a)))
		}
		table.Columns = append(table.Columns, words("Lowest"))
		for _, p := range s.Points {
			table.Rows = append(table.Rows, t.pointRow(s.In, p, set))
		}
		section.Blocks = append(section.Blocks, table)
	}
	return t.document(section)
}

// bare names an input in a heading.
func (t *teller) bare(in lcc.Ref) string { return trimComma(t.inputName(in)) }

func trimComma(s string) string {
	if n := len(s); n > 0 && s[n-1] == ',' {
		return s[:n-1]
	}
	return s
}

func (t *teller) pointRow(in lcc.Ref, p vary.Point, set []int) Row {
	row := plainRow(text(t.fine(in, p)))
	for _, a := range set {
		if p.Problem != "" {
			row.Cells = append(row.Cells, state("not possible", p.Problem))
			continue
		}
		row.Cells = append(row.Cells, money(p.LCC[a]))
	}
	if p.Lowest < 0 {
		return Row{Cells: append(row.Cells, state("–", ""))}
	}
	return Row{Cells: append(row.Cells, text(t.name(p.Lowest)))}
}

// fine writes a point's value with the digits it has.
func (t *teller) fine(in lcc.Ref, p vary.Point) string {
	return t.inputValue(&t.study.Inputs[in], p.Value)
}

func (t *teller) tiesText(s *vary.Sweep) string {
	if len(s.Ties) == 0 {
		return "No two alternatives pass each other in this range."
	}
	return fmt.Sprintf("In this range there %s at which two alternatives cost the same or pass each other:", isAre(len(s.Ties), "value"))
}

func isAre(n int, noun string) string {
	if n == 1 {
		return "is one " + noun
	}
	return "are " + Plural(n, noun)
}

func (t *teller) tieTable(s *vary.Sweep) Table {
	table := Table{ID: "ties", Caption: "Where alternatives pass each other", Columns: []Column{number(t.study.Inputs[s.In].Label), words("Cheaper below it"), words("Cheaper above it"), words("How")}}
	for _, tie := range s.Ties {
		how := "they meet"
		switch {
		case tie.Step:
			how = "in a step: work falls at whole years"
		case !tie.Crosses():
			how = fmt.Sprintf("“%s” ties there only", t.name(tie.A+tie.B-tie.Below))
		}
		table.Rows = append(table.Rows, plainRow(text(t.tieValue(s.In, tie)), text(t.name(tie.Below)), text(t.name(tie.Above)), text(how)))
	}
	return table
}

// tieValue writes a break-even value with more digits than a sentence has.
func (t *teller) tieValue(in lcc.Ref, tie lcc.Tie) string {
	places := int32(4)
	if t.study.Inputs[in].Unit == lcc.Rate {
		places = 6
	}
	return t.inputValue(&t.study.Inputs[in], tie.At.Round(places))
}

// MapDocument shows a map of two inputs.
func MapDocument(in Study, m *vary.Map) *Document {
	t := tell(in)
	return t.document(Section{ID: "map", Heading: "Who is the lowest", Blocks: t.mapBlocks(m)})
}

// SwingsDocument shows the swing of every input.
func SwingsDocument(in Study, swings []vary.Swing) *Document {
	t := tell(in)
	s := Section{ID: "swings", Heading: "How far each input moves the margin"}
	if t.Answer.RunnerUp < 0 {
		s.Blocks = []Block{Paragraph{Text: "There is no second alternative to choose, so there is no margin."}}
	} else {
		s.Blocks = t.swingBlocks(swings)
	}
	return t.document(s)
}

// HoldsDocument tells for which values of each input an alternative is the
// lowest against rivals.
func HoldsDocument(in Study, alternative int, holds []lcc.Hold) *Document {
	t := tell(in)
	least, head := "the lowest", "Lowest for"
	if len(holds) > 0 {
		least = t.least(&holds[0])
	}
	if least != "the lowest" {
		head = "Cheaper for"
	}
	table := Table{ID: "holds", Caption: fmt.Sprintf("Values for which “%s” is %s", t.name(alternative), least),
		Columns: []Column{words("Input"), number("In the study"), number("Looked at from"), number("to"), words(head)}}
	for i := range holds {
		h := &holds[i]
		table.Rows = append(table.Rows, plainRow(text(t.inputTitle(h.In)), text(t.shown(h.In, t.Inputs[h.In])), text(t.shown(h.In, h.Low)), text(t.shown(h.In, h.High)), text(t.holdText(h))))
	}
	heading := fmt.Sprintf("How far can each input move before “%s” is no longer %s", t.name(alternative), least)
	if len(holds) > 0 && t.isBeaten(alternative, holds[0].Rivals) {
		heading = fmt.Sprintf("For which values of an input “%s” would be %s", t.name(alternative), least)
	}
	return t.document(Section{ID: "break-even", Heading: heading,
		Blocks: append(t.holdBlocks(holds, alternative, len(holds)), table)})
}

// isBeaten tells whether one of some rivals costs less.
func (t *teller) isBeaten(alternative int, rivals []int) bool {
	return slices.ContainsFunc(rivals, func(rival int) bool { return t.Difference(alternative, rival).IsPositive() })
}

func (t *teller) holdText(h *lcc.Hold) string {
	switch {
	case h.Always():
		return fmt.Sprintf("any: no break-even between %s and %s", t.shown(h.In, h.Low), t.shown(h.In, h.High))
	case len(h.Within) == 0:
		return "none"
	}
	out := ""
	for i := range h.Within {
		if i > 0 {
			out += ", or "
		}
		out += t.stretch(h, &h.Within[i])
	}
	return out
}
