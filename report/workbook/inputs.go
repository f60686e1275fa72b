package workbook

import (
	"fmt"

	"roofyears/lcc"
	"roofyears/report"
)

// The columns of the inputs.
const (
	inLabel = iota + 1
	inOf
	inValue
	inUnit
	inRange
	inMoves
	inSource
	inCheck
	inName
	inPath
)

// firstInput is the row of the first input.
const firstInput = 6

// nameInputs gives every input its cell and its name.
func (b *book) nameInputs() {
	for i := range b.s.Inputs {
		b.inputs = append(b.inputs, b.name(b.s.Inputs[i].Path, b.input.at(firstInput+i, inValue)))
	}
	b.rounding = b.name("rounding_nudge", b.notes.at(nudgeRow, 2))
}

// layInputs lists every number of the study file that was estimated, and what
// follows from them.
func (b *book) layInputs() {
	s := b.input
	s.widths = []float64{36, 24, 15, 13, 22, 22, 32, 14, 40, 40}
	s.landscape, s.frozen, s.repeat = true, [2]int{firstInput - 1, 1}, firstInput-1
	s.row(1, label("Inputs", title))
	s.text(2, inSource, label("Change a number in a coloured cell, and every other sheet follows. Every input has a name, by which formulas call it.", wrapped))
	s.text(3, inSource, label("An input of “amounts” moves amounts only. One of “years of work” moves the years of recoats and replacements as well: they are laid out on the sheets of the alternatives, and where another life would need other years, a check there and on the sheet “"+b.answer.name+"” turns red.", wrapped))
	s.head(firstInput-1, []string{"Input", "Of", "Value", "Unit", "Range", "What it moves", "Source", "Check", "Name of the cell", "Place in the study file"},
		inLabel, inOf, inUnit, inRange, inMoves, inSource, inCheck, inName, inPath)
	years := b.movesYears()
	for i := range b.s.Inputs {
		b.layInput(firstInput+i, lcc.Ref(i), years[lcc.Ref(i)])
	}
	b.layChecks()
	b.laySettings()
}

// layInput writes the row of an input.
func (b *book) layInput(row int, ref lcc.Ref, years bool) {
	s, in := b.input, &b.s.Inputs[ref]
	value, moves := data(b.r.Inputs[ref], style{inputForm(in), input}), "amounts"
	if years {
		moves = "years of work, and amounts"
	}
	source := in.Source
	if source == "" {
		source = report.TextNoSource
	}
	if where, ok := b.derived[ref]; ok {
		value = calc(where, b.r.Inputs[ref], style{inputForm(in), plain})
		moves = "follows from others: see “" + b.working.name + "”"
	} else {
		s.limits = append(s.limits, limit{row, inValue, b.bounds(ref)})
	}
	s.row(row, beside(in.Label, wrapped), beside(in.Of, wrapped), value, beside(b.words.Unit(ref), plain), beside(b.words.Range(ref), wrapped),
		beside(moves, wrapped), beside(source, wrapped), b.inputCheck(row, ref), beside(b.inputs[ref], note), beside(in.Path, note))
	for col, text := range map[int]string{inLabel: in.Label, inOf: in.Of, inRange: b.words.Range(ref), inSource: source, inPath: in.Path, inName: b.inputs[ref], inMoves: moves} {
		s.grow(row, linesOf(text, s.widths[col-1]))
	}
}

// inputForm is how an input is written.
func inputForm(in *lcc.Input) form {
	switch {
	case in.Unit == lcc.Rate, in.UnitText == "%":
		return rate
	case in.Unit == lcc.Money, in.Unit == lcc.Price:
		return price
	}
	return general
}

// movesYears are the inputs that lives are, or follow from.
func (b *book) movesYears() map[lcc.Ref]bool {
	out := map[lcc.Ref]bool{}
	for i := range b.r.Alternatives {
		for _, p := range b.r.Alternatives[i].Spells {
			life := b.s.LifeAt(p.Slot)
			out[life] = true
			for _, from := range b.s.FollowsFrom(life) {
				out[from] = true
			}
		}
	}
	return out
}

// layChecks counts the inputs that are out of bounds.
func (b *book) layChecks() {
	last := firstInput + len(b.s.Inputs) - 1
	checks := b.input.column(firstInput, last, inCheck)
	b.checks.inputs = b.input.at(4, inCheck)
	b.input.put(4, inSource, beside("Every check of an input", note))
	b.input.put(4, inCheck, calc(fmt.Sprintf("IF(COUNTIF(%s,%s)=%d,%s,%s)", checks, literal(kept), len(b.s.Inputs), literal(kept), literal("see below")), kept, style{words, verdict}))
	b.input.alert(area{4, inCheck, 4, inCheck}, here(4, inCheck)+"<>"+literal(kept))
	b.input.alert(area{firstInput, inCheck, last, inCheck}, here(firstInput, inCheck)+"<>"+literal(kept))
}

// alert paints an area red while a condition on its first cell holds.
func (s *sheet) alert(over area, condition string) {
	s.alerts = append(s.alerts, alert{over, condition})
}

// laySettings lists what is no estimate, and does not change in the workbook.
func (b *book) laySettings() {
	s := b.input
	row := s.next() + 1
	s.row(row, label("Settings of the study, which this workbook keeps as they are", heading))
	for _, fact := range b.words.Settings() {
		row++
		s.row(row, label(fact.Label, wrapped), label(fact.Text, plain))
		s.grow(row, linesOf(fact.Label, s.widths[0]))
	}
}
