package report

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Roofs are the results of many roofs of one study, or of several in one money,
// a row for each. Rows are appended to bytes, so that a table may be larger
// than memory.
type Roofs struct {
	studies   []*lcc.Study
	templates []string // names of the studies; nil when no column tells them
	free      []string
	bases     []int    // of each study; −1 when it has none
	heads     []string // of the columns after the free ones

	plan    []int // calendar years of the plan; nil without one
	chances bool

	// Alternatives by name, in the order in which the studies have them, and
	// the places of those of each study among them.
	alternatives []string
	places       [][]int

	// Names of alternatives as they stand in a row, as JSON and as CSV.
	names, cells []string
}

// Roof is the result of one roof.
type Roof struct {
	ID, Name string
	Free     []string   // carried through
	Template int        // which of the studies it is laid on
	Study    *lcc.Study // whose verdicts are those of this roof
	Costs    []lcc.RoofCost
	Answer   lcc.RoofAnswer
	Plan     *RoofPlan       // nil when there is no plan
	Chances  []float64       // of each alternative to be the cheapest; nil without a simulation
	Area     decimal.Decimal // in plan, in the study's unit of area
	Link     string          // relative address of the roof's own page; "" when it has none
}

// RoofColumns say what a table of roofs has besides its results.
type RoofColumns struct {
	Templates []string // names of the studies; nil when no column tells them
	Free      []string // heads of the columns that are carried through
	Plan      []int    // calendar years of a plan; nil when none is made
	Chances   bool     // a simulation tells each alternative's chance of being the cheapest
}

// NewRoofs prepares the table of some studies, at least one. It fails when a
// column that is carried through has the head of a column of the results, and
// when the studies do not add up: when currency, base date, period, timing or
// rate basis differ.
func NewRoofs(studies []*lcc.Study, c RoofColumns) (*Roofs, error) {
	t := &Roofs{studies: studies, templates: c.Templates, free: c.Free, plan: c.Plan, chances: c.Chances}
	for i, study := range studies {
		if differs := otherMoney(studies[0], study); differs != "" {
			return nil, fmt.Errorf("the template %q has another %s than the first one, so that roofs of both do not add up", c.Templates[i], differs)
		}
		t.bases = append(t.bases, study.BaseCase())
		t.places = append(t.places, t.placesOf(study))
	}
	for _, name := range t.alternatives {
		t.names = append(t.names, jsonText(name))
		t.cells = append(t.cells, csvText(name))
		t.heads = append(t.heads, name+": life_cycle_cost", name+": first_cost", name+": net_savings", name+": standing")
	}
	t.heads = append(t.heads, "lowest", "runner_up", "margin", "tie", "sir")
	t.heads = append(append(append(t.heads, t.chanceHeads()...), t.planHeads()...), "currency")
	for _, head := range c.Free {
		if slices.Contains(t.heads, head) {
			return nil, fmt.Errorf("the column %q has the head of a result; give it another one", head)
		}
	}
	return t, nil
}

// placesOf finds the alternatives of a study among all, and adds new ones.
func (t *Roofs) placesOf(study *lcc.Study) []int {
	var out []int
	for i := range study.Alternatives {
		name := study.Alternatives[i].Name
		at := slices.Index(t.alternatives, name)
		if at < 0 {
			at, t.alternatives = len(t.alternatives), append(t.alternatives, name)
		}
		out = append(out, at)
	}
	return out
}

// otherMoney names what keeps the sums of two studies from adding up; "" when
// nothing does.
func otherMoney(a, b *lcc.Study) string {
	switch {
	case a.About.Currency != b.About.Currency:
		return "currency"
	case a.About.BaseDate != b.About.BaseDate:
		return "base date"
	case a.Period != b.Period:
		return "study period"
	case a.Timing != b.Timing:
		return "timing"
	case a.Basis != b.Basis:
		return "rate basis"
	}
	return ""
}

// Heads are the heads of the columns, one for each cell of a row.
func (t *Roofs) Heads() []string {
	first := []string{"id", "name", "template"}
	return slices.Concat(first[:t.before()], t.free, t.heads)
}

// before is how many columns stand before those that are carried through.
func (t *Roofs) before() int {
	if t.templates == nil {
		return 2
	}
	return 3
}

// Columns is how many cells a row has.
func (t *Roofs) Columns() int { return t.before() + len(t.free) + len(t.heads) }

// AmountColumn is the place among Heads of the life-cycle cost of an
// alternative; its first cost and its net savings follow.
func (t *Roofs) AmountColumn(alternative int) int { return t.before() + len(t.free) + 4*alternative }

// LowestColumn is the place among Heads of the alternative that is lowest.
func (t *Roofs) LowestColumn() int { return t.AmountColumn(len(t.names)) }

// About gives the names of the alternatives, the currency and its digits.
func (t *Roofs) About() (alternatives []string, currency string, digits int) {
	return t.alternatives, t.currency(), int(t.digits())
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
		case RoofWord, RoofNumber:
			b = append(b, c.Text...)
		case RoofName:
			b = append(b, t.cells[c.Minor]...)
		case RoofAmount:
			b = t.appendMinor(b, c.Minor)
		}
	}
	return append(b, '\n')
}

// own is the place of an alternative in the roof's own study; −1 when that has
// none of the name.
func (t *Roofs) own(r *Roof, at int) int {
	places := t.places[r.Template]
	if at < len(places) && places[at] == at {
		return at
	}
	return slices.Index(places, at)
}

// AppendJSON appends a row as a JSON object in a line.
func (t *Roofs) AppendJSON(b []byte, r *Roof) []byte {
	b = append(append(append(b, `{"id":`...), jsonText(r.ID)...), `,"name":`...)
	b = append(b, jsonText(r.Name)...)
	if t.templates != nil {
		b = append(append(b, `,"template":`...), jsonText(t.templates[r.Template])...)
	}
	b = append(b, `,"carried":{`...)
	for i, cell := range r.Free {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(append(b, jsonText(t.free[i])...), ':'), jsonText(cell)...)
	}
	b = append(append(append(b, `},"currency":"`...), t.currency()...), `","alternatives":[`...)
	for i, c := range r.Costs {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(append(b, `{"name":`...), t.names[t.places[r.Template][i]]...), `,"life_cycle_cost":`...)
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
	b = append(append(b, `],"lowest":`...), t.nameOrNull(r, r.Answer.Lowest)...)
	b = append(append(b, `,"runner_up":`...), t.nameOrNull(r, r.Answer.RunnerUp)...)
	if r.Answer.RunnerUp < 0 {
		b = append(b, `,"margin":null,"tie":null`...)
	} else {
		b = t.appendMinor(append(b, `,"margin":`...), r.Answer.Margin)
		b = append(append(b, `,"tie":`...), trueFalse(r.Answer.Tie)...)
	}
	b = append(b, `,"sir":`...)
	if sir := t.sir(r); sir.Defined() {
		b = append(b, ratio(sir.Value)...)
	} else {
		b = append(b, "null"...)
	}
	return append(t.appendPlanJSON(t.appendChancesJSON(b, r), r), "}\n"...)
}

// saved is what an alternative saves against the base case, which itself has
// no such figure.
func (t *Roofs) saved(r *Roof, i int) (int64, bool) {
	base := t.bases[r.Template]
	if base < 0 || base == i {
		return 0, false
	}
	return r.Costs[base].LCC - r.Costs[i].LCC, true
}

// sir is the savings-to-investment ratio of the lowest alternative, by which
// roofs, and never the alternatives of one roof, are ranked.
func (t *Roofs) sir(r *Roof) lcc.Measure {
	if r.Answer.Lowest < 0 {
		return lcc.Measure{Reason: "no alternative may be chosen"}
	}
	return r.Study.RoofSIR(r.Costs, r.Answer.Lowest)
}

func (t *Roofs) stands(r *Roof, i int) string {
	a := &r.Study.Alternatives[i]
	if len(a.Checks) == 0 {
		return standsOf(a, 0, false)
	}
	return standsOf(a, len(a.Missing()), false)
}

func (t *Roofs) nameOrNull(r *Roof, i int) string {
	if i < 0 {
		return "null"
	}
	return t.names[t.places[r.Template][i]]
}

func (t *Roofs) currency() string { return t.studies[0].About.Currency }

// appendMinor appends an amount in minor units with the currency's digits.
func (t *Roofs) appendMinor(b []byte, minor int64) []byte {
	return appendMinor(b, minor, int(t.digits()))
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
