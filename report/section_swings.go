package report

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/vary"
)

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
			quantiles = quantileNote
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

// quantileNote says what the ends of a distribution without ends are.
const quantileNote = "the distribution has no ends: 5% of it lie below the low value, 5% above the high one"

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
		return t.price(v)
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
