package report

import (
	"fmt"
	"slices"

	"roofyears/lcc"
)

// Roofs are the results of many roofs of one study, a row for each. Rows are
// appended to bytes, so that a table may be larger than memory.
type Roofs struct {
	study *lcc.Study
	free  []string
	base  int
	heads []string // of the columns after the free ones

	// In a row as they stand there: names as JSON and as CSV.
	names, cells []string
}

// Roof is the result of one roof.
type Roof struct {
	ID, Name string
	Free     []string   // carried through
	Study    *lcc.Study // whose verdicts are those of this roof
	Costs    []lcc.RoofCost
	Answer   lcc.RoofAnswer
}

// NewRoofs prepares the table of a study, with these columns carried through.
// It fails when one of them has the head of a column of the results.
func NewRoofs(study *lcc.Study, free []string) (*Roofs, error) {
	t := &Roofs{study: study, free: free, base: study.BaseCase()}
	for i := range study.Alternatives {
		name := study.Alternatives[i].Name
		t.names = append(t.names, jsonText(name))
		t.cells = append(t.cells, csvText(name))
		t.heads = append(t.heads, name+": life_cycle_cost", name+": first_cost", name+": net_savings", name+": standing")
	}
	t.heads = append(t.heads, "lowest", "runner_up", "margin", "tie", "currency")
	for _, head := range free {
		if slices.Contains(t.heads, head) {
			return nil, fmt.Errorf("the column %q has the head of a result; give it another one", head)
		}
	}
	return t, nil
}

// Heads are the heads of the columns, one for each cell of a row.
func (t *Roofs) Heads() []string {
	return slices.Concat([]string{"id", "name"}, t.free, t.heads)
}

// Columns is how many cells a row has.
func (t *Roofs) Columns() int { return 2 + len(t.free) + len(t.heads) }

// AmountColumn is the place among Heads of the life-cycle cost of an
// alternative; its first cost and its net savings follow.
func (t *Roofs) AmountColumn(alternative int) int { return 2 + len(t.free) + 4*alternative }

// LowestColumn is the place among Heads of the alternative that is lowest.
func (t *Roofs) LowestColumn() int { return t.AmountColumn(len(t.names)) }

// About gives the names of the alternatives, the currency and its digits.
func (t *Roofs) About() (alternatives []string, currency string, digits int) {
	for i := range t.study.Alternatives {
		alternatives = append(alternatives, t.study.Alternatives[i].Name)
	}
	return alternatives, t.study.About.Currency, int(t.study.About.Digits)
}

// AppendHead appends the head of the table as CSV, with a byte order mark, as
// WriteTakeOffCSV does.
func (t *Roofs) AppendHead(b []byte) []byte {
	b = append(b, "\ufeff"...)
	for i, head := range t.Heads() {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, csvText(head)...)
	}
	return append(b, '\n')
}

// AppendCSV appends a row of cells. Amounts have the digits of the currency and
// a decimal point. Texts are harmless as those of WriteTakeOffCSV are; what is
// carried through and is a plain number, a negative one too, stays one.
func (t *Roofs) AppendCSV(b []byte, row []RoofCell) []byte {
	for i := range row {
		if i > 0 {
			b = append(b, ',')
		}
		switch c := &row[i]; c.Kind {
		case RoofText:
			b = append(b, csvText(c.Text)...)
		case RoofCarried:
			if isNumber(c.Text) {
				b = append(b, c.Text...)
			} else {
				b = append(b, csvText(c.Text)...)
			}
		case RoofWord:
			b = append(b, c.Text...)
		case RoofName:
			b = append(b, t.cells[c.Minor]...)
		case RoofAmount:
			b = t.appendMinor(b, c.Minor)
		}
	}
	return append(b, '\n')
}

// AppendJSON appends a row as a JSON object in a line.
func (t *Roofs) AppendJSON(b []byte, r *Roof) []byte {
	b = append(append(append(b, `{"id":`...), jsonText(r.ID)...), `,"name":`...)
	b = append(append(b, jsonText(r.Name)...), `,"carried":{`...)
	for i, cell := range r.Free {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(append(b, jsonText(t.free[i])...), ':'), jsonText(cell)...)
	}
	b = append(append(append(b, `},"currency":"`...), t.study.About.Currency...), `","alternatives":[`...)
	for i, c := range r.Costs {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(append(b, `{"name":`...), t.names[i]...), `,"life_cycle_cost":`...)
		b = t.appendMinor(b, c.LCC)
		b = t.appendMinor(append(b, `,"first_cost":`...), c.First)
		b = append(b, `,"net_savings":`...)
		if saved, has := t.saved(r, i); has {
			b = t.appendMinor(b, saved)
		} else {
			b = append(b, "null"...)
		}
		b = append(append(append(b, `,"standing":"`...), t.stands(r, i)...), `"}`...)
	}
	b = append(append(b, `],"lowest":`...), t.nameOrNull(r.Answer.Lowest)...)
	b = append(append(b, `,"runner_up":`...), t.nameOrNull(r.Answer.RunnerUp)...)
	if r.Answer.RunnerUp < 0 {
		return append(b, `,"margin":null,"tie":null}`+"\n"...)
	}
	b = t.appendMinor(append(b, `,"margin":`...), r.Answer.Margin)
	return append(append(append(b, `,"tie":`...), trueFalse(r.Answer.Tie)...), "}\n"...)
}

// saved is what an alternative saves against the base case, which itself has
// no such figure.
func (t *Roofs) saved(r *Roof, i int) (int64, bool) {
	if !t.Saves(i) {
		return 0, false
	}
	return r.Costs[t.base].LCC - r.Costs[i].LCC, true
}

func (t *Roofs) stands(r *Roof, i int) string {
	a := &r.Study.Alternatives[i]
	if len(a.Checks) == 0 {
		return standsOf(a, 0, false)
	}
	return standsOf(a, len(a.Missing()), false)
}

func (t *Roofs) nameOrNull(i int) string {
	if i < 0 {
		return "null"
	}
	return t.names[i]
}

// appendMinor appends an amount in minor units with the currency's digits.
func (t *Roofs) appendMinor(b []byte, minor int64) []byte {
	return appendMinor(b, minor, int(t.study.About.Digits))
}

func appendMinor(b []byte, minor int64, digits int) []byte {
	if minor < 0 {
		b, minor = append(b, '-'), -minor
	}
	var text [24]byte // the digits, from the end
	n := len(text)
	for place := 0; minor > 0 || place <= digits; place++ {
		if place == digits && digits > 0 {
			n--
			text[n] = '.'
		}
		n--
		text[n] = byte('0' + minor%10)
		minor /= 10
	}
	return append(b, text[n:]...)
}
