package report

// RoofCell is a cell of a row of the table, for any writer.
type RoofCell struct {
	Kind  RoofCellKind
	Text  string // of RoofText, RoofCarried and RoofWord
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
)

// AppendCells appends the cells of a row, in the order of Heads.
func (t *Roofs) AppendCells(to []RoofCell, r *Roof) []RoofCell {
	to = append(to, RoofCell{Kind: RoofText, Text: r.ID}, RoofCell{Kind: RoofText, Text: r.Name})
	for _, cell := range r.Free {
		to = append(to, RoofCell{Kind: RoofCarried, Text: cell})
	}
	for i, c := range r.Costs {
		var saving RoofCell
		if saved, has := t.saved(r, i); has {
			saving = RoofCell{Kind: RoofAmount, Minor: saved}
		}
		to = append(to, RoofCell{Kind: RoofAmount, Minor: c.LCC}, RoofCell{Kind: RoofAmount, Minor: c.First}, saving, RoofCell{Kind: RoofWord, Text: t.stands(r, i)})
	}
	var lowest, next, margin, tie RoofCell
	if r.Answer.Lowest >= 0 {
		lowest = RoofCell{Kind: RoofName, Minor: int64(r.Answer.Lowest)}
	}
	if r.Answer.RunnerUp >= 0 {
		next, margin = RoofCell{Kind: RoofName, Minor: int64(r.Answer.RunnerUp)}, RoofCell{Kind: RoofAmount, Minor: r.Answer.Margin}
		tie = RoofCell{Kind: RoofWord, Text: yesNo(r.Answer.Tie)}
	}
	return append(to, lowest, next, margin, tie, RoofCell{Kind: RoofWord, Text: t.study.About.Currency})
}
