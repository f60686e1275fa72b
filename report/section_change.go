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
	if t.Answer.Lowest < 0 {
		s.Blocks = append(s.Blocks, Paragraph{Text: "Every alternative is ruled out: there is no answer that could change."})
		return s
	}
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

// inputName names an input in a sentence; a comma ends it where it has one
// inside.
func (t *teller) inputName(in lcc.Ref) string {
	input := &t.study.Inputs[in]
	label := lowerFirst(input.Label)
	if input.Of == "" {
		if strings.Contains(label, ",") {
			label += ","
		}
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

// precise is shown with the digits that tell a small price from another.
func (t *teller) precise(in lcc.Ref, v decimal.Decimal) string {
	input := &t.study.Inputs[in]
	if input.Unit != lcc.Price || v.Abs().GreaterThanOrEqual(one) {
		return t.shown(in, v)
	}
	short := decimal.RequireFromString(v.Round(t.cur.Digits + 2).String()) // no trailing zeros
	return trimmedMoney(t.cur, short) + " " + unitText(input)
}

var one = decimal.NewFromInt(1)

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
			"None %s (%d) changes the answer anywhere between the limits looked at: amounts and quantities from nothing to ten times what is stated, lives from one year to the study period or twice what is stated, rates from -5%% to 15%%, the discount rate from %s to %s.", rest, idle,
			Percent(t.RateRange[0], 2), Percent(t.RateRange[1], 2))})
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

// inRange tells whether an end of a stretch lies within the range that the
// study states.
func (t *teller) inRange(h *lcc.Hold) bool {
	in := &t.study.Inputs[h.In]
	if !in.Shape.HasRange() {
		return false
	}
	for _, s := range h.Within {
		for _, tie := range []*lcc.Tie{s.FromTie, s.ToTie} {
			if tie != nil && tie.At.GreaterThanOrEqual(in.Low) && tie.At.LessThan(in.High) {
				return true
			}
		}
	}
	return false
}

// holdSentence says for which values of an input an alternative is the lowest,
// or, against some rivals only, cheaper than they are.
func (t *teller) holdSentence(h *lcc.Hold, alternative int) string {
	name, least := t.inputName(h.In), t.least(h)
	if len(h.Within) == 0 {
		return fmt.Sprintf("“%s” is not %s for any value of %s from %s to %s.", t.name(alternative), least,
			trimComma(name), t.shown(h.In, h.Low), t.shown(h.In, h.High))
	}
	verb := "would be " + least + " if"
	var stretches []string
	var near *lcc.Interval
	for i := range h.Within {
		s := &h.Within[i]
		stretches = append(stretches, t.stretch(h.In, s))
		if t.inStretch(h.In, s) {
			near, verb = s, "stays "+least+" as long as"
		}
	}
	if near == nil && len(h.Within) == 1 {
		near = &h.Within[0]
	}
	text := fmt.Sprintf("“%s” %s %s is %s (it is %s).", t.name(alternative), verb, name, strings.Join(stretches, ", or "), t.precise(h.In, t.Inputs[h.In]))
	if near != nil {
		text += t.beyond(h.In, near, alternative)
	}
	if t.inRange(h) {
		text += " This lies within the range that the study states."
	}
	return text
}

// least says what an alternative is where it costs least: the lowest of all,
// or cheaper than the rivals it is compared with.
func (t *teller) least(h *lcc.Hold) string {
	if len(h.Rivals) == 0 || len(h.Rivals) >= len(t.eligible())-1 {
		return "the lowest"
	}
	var names []string
	for _, rival := range h.Rivals {
		names = append(names, "“"+t.name(rival)+"”")
	}
	return "cheaper than " + listed(names)
}

// inStretch tells whether the study's own value lies in a stretch. A life of
// just the value at a step belongs to the side below it.
func (t *teller) inStretch(in lcc.Ref, s *lcc.Interval) bool {
	now := t.Inputs[in]
	if s.FromTie != nil && s.FromTie.Step && now.Equal(s.From) {
		return false
	}
	return now.GreaterThanOrEqual(s.From) && now.LessThanOrEqual(s.To)
}

// stretch writes where an alternative is the lowest. A life of just the value
// at a step belongs to the side below it.
func (t *teller) stretch(in lcc.Ref, s *lcc.Interval) string {
	from, to := t.precise(in, s.From), t.precise(in, s.To)
	switch {
	case s.FromTie == nil:
		return "at most " + to
	case s.ToTie == nil && s.FromTie.Step:
		return "more than " + from
	case s.ToTie == nil:
		return "at least " + from
	case s.FromTie.Step:
		return fmt.Sprintf("more than %s and at most %s", from, to)
	}
	return fmt.Sprintf("between %s and %s", from, to)
}

// beyond says who is cheaper past the ends of a stretch. At a step it tells
// both sides.
func (t *teller) beyond(in lcc.Ref, s *lcc.Interval, alternative int) string {
	text, steps := "", 0
	for _, tie := range []*lcc.Tie{s.FromTie, s.ToTie} {
		switch {
		case tie == nil:
		case tie.Step:
			if steps++; steps == 1 {
				text += " Work falls at whole years, so this is a step: "
			} else {
				text += " And "
			}
			text += t.stepText(in, tie, tie == s.ToTie, alternative) + "."
		case tie == s.ToTie:
			text += fmt.Sprintf(" Above that, “%s” is cheaper.", t.name(tie.A+tie.B-alternative))
		default:
			text += fmt.Sprintf(" Below that, “%s” is cheaper.", t.name(tie.A+tie.B-alternative))
		}
	}
	return text
}

// stepText tells the costs on either side of a step; above says that the
// alternative is the lowest below it.
func (t *teller) stepText(in lcc.Ref, tie *lcc.Tie, above bool, alternative int) string {
	text := fmt.Sprintf("at %s %s", t.shown(in, tie.At), t.gapText(tie, tie.GapAt, true))
	past := alternative // who is cheaper just past the step
	if above {
		past = tie.A + tie.B - alternative
	}
	if tie.GapNext.IsZero() || t.cheaperBy(tie, tie.GapNext) != past {
		// Taken back within the year: the year's end tells the other side.
		text += fmt.Sprintf(", just past it “%s” is cheaper", t.name(past))
	}
	return text + fmt.Sprintf(", at %s %s", t.shown(in, tie.At.Add(decimal.NewFromInt(1))), t.gapText(tie, tie.GapNext, false))
}

// gapText says who is cheaper by how much; than whom, when asked.
func (t *teller) gapText(tie *lcc.Tie, gap decimal.Decimal, than bool) string {
	if gap.IsZero() {
		return "the two cost the same"
	}
	cheaper := t.cheaperBy(tie, gap)
	text := fmt.Sprintf("“%s” is cheaper by %s", t.name(cheaper), t.cur.Amount(gap.Abs()))
	if than {
		text += fmt.Sprintf(" than “%s”", t.name(tie.A+tie.B-cheaper))
	}
	return text
}

// cheaperBy is the cheaper of a tie's alternatives, given what A costs more.
func (t *teller) cheaperBy(tie *lcc.Tie, gap decimal.Decimal) int {
	if gap.IsPositive() {
		return tie.B
	}
	return tie.A
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
		quantiles := ""
		if s.Quantiles {
			quantiles = "the distribution has no ends: 5% of it lie below the low value, 5% above the high one"
		}
		low, high := t.end(s.In, s.Low), t.end(s.In, s.High)
		table.Rows = append(table.Rows, plainRow(text(t.inputTitle(s.In)).noted(quantiles), text(t.shown(s.In, s.Low.Value)), low, text(t.shown(s.In, s.High.Value)), high,
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
