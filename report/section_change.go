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
	s := Section{ID: "what-would-change-it", Heading: t.changeHeading(c.Swings, c.Holds)}
	if t.Answer.Lowest < 0 {
		s.Blocks = append(s.Blocks, Paragraph{Text: "Every alternative is ruled out: there is no answer that could change."})
		return s
	}
	if t.Answer.RunnerUp < 0 {
		s.Blocks = append(s.Blocks, Paragraph{Text: "There is no second alternative to choose, so nothing can change the answer."})
		return s
	}
	s.Blocks = append(s.Blocks, t.holdBlocks(c.Holds, t.Answer.Lowest, mostHolds)...)
	s.Blocks = append(s.Blocks, t.swingBlocks(c.Swings)...)
	if c.Map != nil {
		s.Blocks = append(s.Blocks, t.mapBlocks(c.Map)...)
	}
	return s
}

// mostHolds is how many inputs a report tells break-even values of; the
// command for them tells all.
const mostHolds = 10

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
// sense: cents of a price and more of a small one, a hundredth of a per cent or of a mil, a tenth of a
// year, three digits of another quantity that is no whole number.
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
		return t.price(v) + " " + unitText(input)
	}
	switch input.UnitText {
	case "%":
		return Percent(v, visible(v.Shift(2), 2))
	case "mil", "ft/gal", "m/L", "ft2/gal", "m2/L", "pieces/gal", "pieces/L":
		return t.inputValue(input, v.Round(visible(v, 2)))
	}
	return t.inputValue(input, v.Round(visible(v, t.places(in, 3))))
}

// visible is how many decimals a number is shown with: so many, or where they
// would show 0 for what is not 0, two digits of it, to 6 decimals at most.
func visible(v decimal.Decimal, places int32) int32 {
	if v.IsZero() || !v.Round(places).IsZero() {
		return places
	}
	return min(6, 2-v.Exponent()-int32(v.NumDigits()))
}

// places is how many decimals show an input to so many digits; 0 where it is a
// whole number.
func (t *teller) places(in lcc.Ref, digits int32) int32 {
	v := t.Inputs[in]
	if v.IsInteger() {
		return 0
	}
	return max(0, digits-int32(v.NumDigits())-v.Exponent())
}

// price writes a unit price: to the currency's digits, and a small one, of less
// than a hundred of the least coin, to two more, or to three digits in all.
func (t *teller) price(v decimal.Decimal) string {
	places := t.cur.Digits
	if v.Abs().LessThan(decimal.New(100, -places)) {
		places = max(places+2, 3-int32(v.NumDigits())-v.Exponent())
	}
	return trimmedMoney(t.cur, decimal.RequireFromString(v.Round(places).String())) // no trailing zeros
}

var one = decimal.NewFromInt(1)

// holdBlocks tell how far each input may move before another alternative is
// cheaper.
func (t *teller) holdBlocks(holds []lcc.Hold, alternative, most int) []Block {
	list, idle, further := List{}, 0, 0
	for _, h := range t.nearestFirst(holds) {
		if h.Always() {
			idle++
			continue
		}
		if len(list.Items) == most {
			further++
			continue
		}
		list.Items = append(list.Items, t.holdSentence(h, alternative))
	}
	lead := "One input is moved at a time, the others held: how far could it go before another alternative is cheaper? The nearest come first."
	blocks := []Block{Paragraph{Role: Lead, Text: lead}}
	if len(list.Items) > 0 {
		blocks = append(blocks, list)
	}
	if further > 0 {
		blocks = append(blocks, Paragraph{Text: fmt.Sprintf("%s could change the answer too, but would have to move further still; the command “roofyears break-even” tells how far.",
			upperFirst(counted(further, "further input")))})
	}
	if idle > 0 {
		rest := "of the other inputs"
		if len(list.Items) == 0 {
			rest = "of the inputs"
		}
		blocks = append(blocks, Paragraph{Text: fmt.Sprintf(
			"None %s (%d) changes the answer anywhere between the limits looked at: amounts and quantities from nothing to ten times what is stated%s, lives from one year to the study period or twice what is stated, rates from -5%% to 15%%, the discount rate from %s to %s.", rest, idle, t.dividesText(),
			Percent(t.RateRange[0], 2), Percent(t.RateRange[1], 2))})
	}
	return blocks
}

// dividesText says where the limits of an input that divides are.
func (t *teller) dividesText() string {
	for i := range t.study.Inputs {
		if how := t.study.Enters(lcc.Ref(i)); how == lcc.Over || how == lcc.OverRest {
			return " (no lower than a hundredth where one divides, as the solids of a paint do)"
		}
	}
	return ""
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
		stretches = append(stretches, t.stretch(h, s))
		if t.inStretch(h.In, s) {
			near, verb = s, "stays "+least+" as long as"
		}
	}
	if near == nil && len(h.Within) == 1 {
		near = &h.Within[0]
	}
	text := fmt.Sprintf("“%s” %s %s is %s (it is %s).", t.name(alternative), verb, name, strings.Join(stretches, ", or "), t.shown(h.In, t.Inputs[h.In]))
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
	if len(h.Rivals) == 0 || len(h.Rivals) >= len(t.study.Eligible())-1 {
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
func (t *teller) stretch(h *lcc.Hold, s *lcc.Interval) string {
	from, to := t.shown(h.In, s.From), t.shown(h.In, s.To)
	if s.FromTie != nil && s.ToTie != nil && !s.FromTie.Step {
		return fmt.Sprintf("between %s and %s", from, to)
	}
	var ends []string
	switch {
	case s.FromTie == nil && h.LowEdge == lcc.Asked:
	case s.FromTie == nil && h.LowEdge == lcc.Beyond, s.FromTie != nil && s.FromTie.Step:
		ends = append(ends, "more than "+from)
	default:
		ends = append(ends, "at least "+from)
	}
	switch {
	case s.ToTie == nil && h.HighEdge == lcc.Asked:
	case s.ToTie == nil && h.HighEdge == lcc.Beyond:
		ends = append(ends, "less than "+to)
	default:
		ends = append(ends, "at most "+to)
	}
	return strings.Join(ends, " and ")
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
				text += stepLead(tie)
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

// stepLead says why there is a step.
func stepLead(tie *lcc.Tie) string {
	if tie.Near {
		return " Material is bought in whole packs and work falls at whole years, so this is a step: "
	}
	return " Work falls at whole years, so this is a step: "
}

// stepText tells the costs on either side of a step; above says that the
// alternative is the lowest below it.
func (t *teller) stepText(in lcc.Ref, tie *lcc.Tie, above bool, alternative int) string {
	if tie.Near {
		return fmt.Sprintf("just below it %s, just above it %s", t.gapText(tie, tie.GapAt, true), t.gapText(tie, tie.GapNext, false))
	}
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
