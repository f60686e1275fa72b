package report

// RoofCell is a cell of a row of the table, for any writer.
type RoofCell struct {
	Kind  RoofCellKind
	Text  string // of RoofText, RoofCarried, RoofWord and RoofNumber
	Minor int64  // of RoofAmount, in minor units; of RoofName the place of an alternative
}

// RoofCellKind is what a cell of a row holds.
type RoofCellKind int

// The kinds of cells.
const (
	RoofNone    RoofCellKind = iota // nothing
	RoofText                        // a text of the table of roofs
	RoofCarried                     // a text of it that may be a number
	RoofWord                        // a word of ours, which needs no care
	RoofName                        // the name of an alternative
	RoofAmount                      // money
	RoofNumber                      // a plain number that is no money, as Text
)

// AppendCells appends the cells of a row, in the order of Heads.
func (t *Roofs) AppendCells(to []RoofCell, r *Roof) []RoofCell {
	to = append(to, RoofCell{Kind: RoofText, Text: r.ID}, RoofCell{Kind: RoofText, Text: r.Name})
	if t.templates != nil {
		to = append(to, RoofCell{Kind: RoofText, Text: t.templates[r.Template]})
	}
	for _, cell := range r.Free {
		to = append(to, RoofCell{Kind: RoofCarried, Text: cell})
	}
	for at := range t.alternatives {
		to = t.appendAlternative(to, r, at)
	}
	lowest, next, margin, tie, ratios := RoofCell{}, RoofCell{}, RoofCell{}, RoofCell{}, RoofCell{}
	if r.Answer.Lowest >= 0 {
		lowest = t.nameCell(r, r.Answer.Lowest)
	}
	if r.Answer.RunnerUp >= 0 {
		next, margin = t.nameCell(r, r.Answer.RunnerUp), RoofCell{Kind: RoofAmount, Minor: r.Answer.Margin}
		tie = RoofCell{Kind: RoofWord, Text: yesNo(r.Answer.Tie)}
	}
	if sir := t.sir(r); sir.Defined() {
		ratios = RoofCell{Kind: RoofNumber, Text: string(ratio(sir.Value))}
	}
	to = append(to, lowest, next, margin, tie, ratios)
	return append(t.appendPlan(t.appendChances(to, r), r), RoofCell{Kind: RoofWord, Text: t.currency()})
}

// appendAlternative appends the cells of an alternative; they hold nothing when
// the roof's study has none of the name.
func (t *Roofs) appendAlternative(to []RoofCell, r *Roof, at int) []RoofCell {
	i := t.own(r, at)
	if i < 0 {
		return append(to, RoofCell{}, RoofCell{}, RoofCell{}, RoofCell{})
	}
	var saving RoofCell
	if saved, has := t.saved(r, i); has {
		saving = RoofCell{Kind: RoofAmount, Minor: saved}
	}
	c := r.Costs[i]
	return append(to, RoofCell{Kind: RoofAmount, Minor: c.LCC}, RoofCell{Kind: RoofAmount, Minor: c.First}, saving, RoofCell{Kind: RoofWord, Text: t.stands(r, i)})
}

// nameCell names an alternative of the roof's study.
func (t *Roofs) nameCell(r *Roof, i int) RoofCell {
	return RoofCell{Kind: RoofName, Minor: int64(t.places[r.Template][i])}
}
