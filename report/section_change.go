package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/vary"
)

// Change is what would change the answer of a study.
type Change struct {
	Swings []vary.Swing
	Holds  []lcc.Hold // of the answer against all its rivals, by input
	Map    *vary.Map  // nil when there are no two inputs to move
}

// changeSection asks what would change the answer.
func (t *teller) changeSection(c *Change) Section {
	s := Section{ID: "what-would-change-it", Heading: "What would change the answer"}
	if t.Answer.RunnerUp < 0 {
		s.Blocks = append(s.Blocks, Paragraph{Text: "There is no second alternative to choose, so nothing can change the answer."})
		return s
	}
	s.Blocks = append(s.Blocks, t.holdBlocks(c.Holds, t.Answer.Lowest)...)
	s.Blocks = append(s.Blocks, t.swingBlocks(c.Swings)...)
	if c.Map != nil {
		s.Blocks = append(s.Blocks, t.mapBlocks(c.Map)...)
	}
	return s
}

// inputName names an input in a sentence.
func (t *teller) inputName(in lcc.Ref) string {
	input := &t.study.Inputs[in]
	label := strings.ToLower(input.Label[:1]) + input.Label[1:]
	if input.Of == "" {
		return "the " + label
	}
	return fmt.Sprintf("“%s”, %s,", input.Of, label)
}

// inputTitle names an input in a table.
func (t *teller) inputTitle(in lcc.Ref) string {
	input := &t.study.Inputs[in]
	if input.Of == "" {
		return input.Label
	}
	return input.Of + ": " + input.Label
}

// shown writes a value of an input with its unit, to the digits that make
// sense: cents of a price, a hundredth of a per cent, a tenth of a year.
func (t *teller) shown(in lcc.Ref, v decimal.Decimal) string {
	input := &t.study.Inputs[in]
	switch input.Unit {
	case lcc.Rate:
		return Percent(v, 2)
	case lcc.Years:
		return yearsText(v.Round(1))
	case lcc.Money:
		return t.cur.Amount(v.Round(t.cur.Digits))
	case lcc.Price:
		return t.cur.Amount(v.Round(t.cur.Digits)) + " " + unitText(input)
	}
	return t.inputValue(input, v.Round(0))
}

// holdBlocks tell how far each input may move before another alternative is
// cheaper.
func (t *teller) holdBlocks(holds []lcc.Hold, alternative int) []Block {
	list, idle := List{}, 0
	for _, h := range t.nearestFirst(holds) {
		if h.Always() {
			idle++
			continue
		}
		list.Items = append(list.Items, t.holdSentence(h, alternative))
	}
	lead := "One input is moved at a time, the others held: how far could it go before another alternative is cheaper? The nearest come first."
	blocks := []Block{Paragraph{Role: Lead, Text: lead}}
	if len(list.Items) > 0 {
		blocks = append(blocks, list)
	}
	if idle > 0 {
		rest := "of the other inputs"
		if len(list.Items) == 0 {
			rest = "of the inputs"
		}
		blocks = append(blocks, Paragraph{Text: fmt.Sprintf(
			"None %s (%d) changes the answer anywhere between the limits looked at: amounts and quantities from nothing to ten times what is stated, lives from one year to the study period or twice what is stated, rates from -5%% to 15%%.", rest, idle)})
	}
	return blocks
}

// nearestFirst orders inputs by how little they would have to move, as a part
// of what the study says; rates by the plain difference.
func (t *teller) nearestFirst(holds []lcc.Hold) []*lcc.Hold {
	out := make([]*lcc.Hold, len(holds))
	for i := range holds {
		out[i] = &holds[i]
	}
	slices.SortStableFunc(out, func(a, b *lcc.Hold) int { return cmp.Compare(t.nearestTie(a), t.nearestTie(b)) })
	return out
}

func (t *teller) nearestTie(h *lcc.Hold) float64 {
	now := t.Inputs[h.In].InexactFloat64()
	nearest := math.Inf(1)
	for _, s := range h.Within {
		for _, tie := range []*lcc.Tie{s.FromTie, s.ToTie} {
			if tie == nil {
				continue
			}
			distance := math.Abs(tie.At.InexactFloat64() - now)
			if t.study.Inputs[h.In].Unit != lcc.Rate && now != 0 {
				distance /= math.Abs(now)
			}
			nearest = math.Min(nearest, distance)
		}
	}
	return nearest
}

// inRange tells whether a tie lies within the range that the study states.
func (t *teller) inRange(h *lcc.Hold) bool {
	in := &t.study.Inputs[h.In]
	if !in.Shape.HasRange() {
		return false
	}
	for _, tie := range h.Ties {
		if tie.At.GreaterThanOrEqual(in.Low) && tie.At.LessThan(in.High) {
			return true
		}
	}
	return false
}

// holdSentence says for which values of an input an alternative is the lowest.
func (t *teller) holdSentence(h *lcc.Hold, alternative int) string {
	name, now := t.inputName(h.In), t.shown(h.In, t.Inputs[h.In])
	if len(h.Within) == 0 {
		return fmt.Sprintf("“%s” is not the lowest for any value of %s from %s to %s.", t.name(alternative),
			trimComma(name), t.shown(h.In, h.Low), t.shown(h.In, h.High))
	}
	var stretches, beyond []string
	for i := range h.Within {
		s := &h.Within[i]
		stretches = append(stretches, t.stretch(h.In, s))
		// Who is cheaper past the ends of the stretch that the study is in.
		around := len(h.Within) == 1 || s.From.LessThanOrEqual(t.Inputs[h.In]) && t.Inputs[h.In].LessThanOrEqual(s.To)
		for _, tie := range []*lcc.Tie{s.FromTie, s.ToTie} {
			if around && tie != nil {
				beyond = append(beyond, t.beyond(h.In, tie, tie == s.ToTie, alternative))
			}
		}
	}
	if t.inRange(h) {
		beyond = append(beyond, "This lies within the range that the study states.")
	}
	return fmt.Sprintf("“%s” stays the lowest as long as %s is %s (it is %s). %s",
		t.name(alternative), name, strings.Join(stretches, ", or "), now, strings.Join(beyond, " "))
}

// stretch writes where an alternative is the lowest. A life of just the value
// at a step belongs to the side below it.
func (t *teller) stretch(in lcc.Ref, s *lcc.Interval) string {
	switch {
	case s.FromTie == nil:
		return "at most " + t.shown(in, s.To)
	case s.ToTie == nil && s.FromTie.Step:
		return "more than " + t.shown(in, s.From)
	case s.ToTie == nil:
		return "at least " + t.shown(in, s.From)
	}
	return fmt.Sprintf("between %s and %s", t.shown(in, s.From), t.shown(in, s.To))
}

// beyond says who is cheaper past a tie. At a step it tells both sides.
func (t *teller) beyond(in lcc.Ref, tie *lcc.Tie, above bool, alternative int) string {
	rival := tie.A + tie.B - alternative
	if !tie.Step {
		side := "Below"
		if above {
			side = "Above"
		}
		return fmt.Sprintf("%s that, “%s” is cheaper.", side, t.name(rival))
	}
	gap := func(life decimal.Decimal, gap decimal.Decimal) string {
		cheaper := tie.A
		if gap.IsPositive() {
			cheaper = tie.B
		}
		return fmt.Sprintf("at %s “%s” is cheaper by %s", t.shown(in, life), t.name(cheaper), t.cur.Amount(gap.Abs()))
	}
	return fmt.Sprintf("Work falls at whole years, so this is a step: %s than “%s”, %s.",
		gap(tie.At, tie.GapAt), t.name(t.other(tie, tie.GapAt)), gap(tie.At.Add(decimal.NewFromInt(1)), tie.GapNext))
}

// other is the dearer of the two alternatives of a tie.
func (t *teller) other(tie *lcc.Tie, gap decimal.Decimal) int {
	if gap.IsPositive() {
		return tie.A
	}
	return tie.B
}

// swingBlocks show how far each uncertain input moves the margin.
func (t *teller) swingBlocks(swings []vary.Swing) []Block {
	if len(swings) == 0 {
		return []Block{Paragraph{Text: "No input of the study has a range, so none can be moved over it: give low and high values to what is not certain."}}
	}
	answer, rival := t.name(t.Answer.Lowest), t.name(t.Answer.RunnerUp)
	lead := fmt.Sprintf("Each input that has a range is moved to its low and its high value, one at a time. The plain margin is %s: what “%s” costs less than “%s”. %s",
		t.cur.Amount(t.Answer.Margin), answer, rival, t.flipText(swings))
	fig := Figure{
		ID: "swings", Kind: Swing, Title: "How far each input moves the margin",
		Summary: "Bar chart of the change of the margin at the low and the high value of each input, the widest first.",
		X:       Axis{Kind: TextCell}, Y: Axis{Title: "Change of the margin, " + t.study.About.Currency, Kind: MoneyCell},
		Series: []Series{{Name: "at the low value"}, {Name: "at the high value"}},
		Marks:  []Mark{{Label: "no margin left", X: t.Answer.Margin.Neg()}}, Table: "swings-table",
	}
	table := Table{ID: "swings-table", Caption: fmt.Sprintf("Margin of “%s” against “%s” at the ends of each input's range, %s", answer, rival, t.study.About.Currency),
		Columns: []Column{words("Input"), number("Low"), number("Margin there"), number("High"), number("Margin there"), number("Change at low"), number("Change at high"), words("Then the lowest")}}
	for i, s := range swings {
		low, high := t.end(s.In, s.Low), t.end(s.In, s.High)
		table.Rows = append(table.Rows, plainRow(text(t.inputTitle(s.In)), text(t.shown(s.In, s.Low.Value)), low, text(t.shown(s.In, s.High.Value)), high,
			t.changed(s.Low), t.changed(s.High), text(t.flipped(s))))
		if s.Width.IsZero() || i >= mostSwings {
			continue
		}
		fig.X.Categories = append(fig.X.Categories, t.inputTitle(s.In))
		fig.Series[0].Values = append(fig.Series[0].Values, t.changed(s.Low).Number)
		fig.Series[1].Values = append(fig.Series[1].Values, t.changed(s.High).Number)
	}
	blocks := []Block{Paragraph{Role: Lead, Text: lead}}
	if len(fig.X.Categories) > 0 {
		blocks = append(blocks, fig)
	}
	return append(blocks, table)
}

// mostSwings is how many bars the figure shows.
const mostSwings = 12

func (t *teller) end(in lcc.Ref, e vary.End) Cell {
	if e.Problem != "" {
		return state("not possible", e.Problem)
	}
	return money(e.Margin)
}

func (t *teller) changed(e vary.End) Cell {
	if e.Problem != "" {
		return state("–", "")
	}
	return money(e.Margin.Sub(t.Answer.Margin))
}

// flipped names who is the lowest where the answer changes.
func (t *teller) flipped(s vary.Swing) string {
	if !s.Flips {
		return t.name(t.Answer.Lowest)
	}
	var out []string
	for _, e := range []struct {
		at string
		vary.End
	}{{"at low", s.Low}, {"at high", s.High}} {
		if e.Problem == "" && e.Lowest != t.Answer.Lowest {
			out = append(out, fmt.Sprintf("%s: “%s”", e.at, t.name(e.Lowest)))
		}
	}
	return "changes; " + listed(out)
}

func (t *teller) flipText(swings []vary.Swing) string {
	n := 0
	for _, s := range swings {
		if s.Flips {
			n++
		}
	}
	switch n {
	case 0:
		return "At none of these ends does the answer change."
	case 1:
		return "One of them changes the answer at an end."
	}
	return fmt.Sprintf("%d of them change the answer at an end.", n)
}

// mapBlocks show who is the lowest as two inputs move.
func (t *teller) mapBlocks(m *vary.Map) []Block {
	if only, same := sameAll(m); same {
		return []Block{Paragraph{Text: fmt.Sprintf("Moved together, %s from %s to %s and %s from %s to %s, “%s” is the lowest throughout.",
			t.bare(m.X.In), t.shown(m.X.In, m.X.From), t.shown(m.X.In, m.X.To), t.bare(m.Y.In), t.shown(m.Y.In, m.Y.From), t.shown(m.Y.In, m.Y.To), t.name(only))}}
	}
	table := Table{ID: "map", Map: true, Caption: fmt.Sprintf("The lowest alternative as two inputs move: %s from left to right, %s from row to row",
		t.bare(m.X.In), t.bare(m.Y.In)), Columns: []Column{words("")}}
	for _, p := range m.Points[0] {
		table.Columns = append(table.Columns, number(t.short(m.X.In, p.Value)))
	}
	for i, points := range m.Points {
		row := plainRow(text(t.shown(m.Y.In, m.Ys[i])))
		for _, p := range points {
			cell := state("–", p.Problem)
			if p.Problem == "" && p.Lowest >= 0 {
				cell = Cell{Text: letter(p.Lowest), Hue: p.Lowest + 1}
			}
			row.Cells = append(row.Cells, cell)
		}
		table.Rows = append(table.Rows, row)
	}
	var key []string
	for i := range t.Alternatives {
		key = append(key, fmt.Sprintf("%s “%s”", letter(i), t.name(i)))
	}
	return []Block{table, Paragraph{Text: "Key: " + strings.Join(key, ", ") + "."}}
}

// sameAll tells whether one alternative is the lowest in a whole map.
func sameAll(m *vary.Map) (only int, same bool) {
	only = m.Points[0][0].Lowest
	for _, points := range m.Points {
		for _, p := range points {
			if p.Lowest != only || p.Lowest < 0 {
				return -1, false
			}
		}
	}
	return only, true
}

// short writes a value for a narrow column, without what it is per.
func (t *teller) short(in lcc.Ref, v decimal.Decimal) string {
	if t.study.Inputs[in].Unit == lcc.Price {
		return t.cur.Amount(v.Round(t.cur.Digits))
	}
	return t.shown(in, v)
}

// letter stands for an alternative in a map: A to Z, then A1 and so on.
func letter(i int) string {
	text := string(rune('A' + i%26))
	if i >= 26 {
		text += fmt.Sprint(i / 26)
	}
	return text
}
