package workbook

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

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

// bound is what an input may be: over or from the least value, to the most.
type bound struct {
	least, most decimal.Decimal
	open        bool // the least value itself is outside
	text        string
}

// condition is the formula of a cell that is within bounds.
func (l bound) condition(cell string) string {
	over := ">="
	if l.open {
		over = ">"
	}
	return fmt.Sprintf("AND(ISNUMBER(%s),%s%s%s,%s<=%s)", cell, cell, over, l.least, cell, l.most)
}

// unlimited is far beyond every amount.
var unlimited = decimal.New(1, 14)

// bounds is what the engine takes for an input; see lcc.Study.EvaluateAt.
func (b *book) bounds(ref lcc.Ref) bound {
	in := &b.s.Inputs[ref]
	divides, rest := b.divides(ref)
	switch {
	case in.Unit == lcc.Rate:
		return bound{lcc.MinRate, lcc.MaxRate, true, "a rate is over -50% and up to 1000%"}
	case in.Unit == lcc.Years:
		return bound{decimal.Zero, lcc.MaxLife, true, fmt.Sprintf("a life is over 0 and up to %s years", lcc.MaxLife)}
	case in.Unit == lcc.Area || divides:
		return bound{decimal.Zero, unlimited, true, "it is greater than 0"}
	case rest:
		return bound{decimal.Zero, decimal.New(999999, -6), false, "it is from 0 to under 1"}
	case in.Unit == lcc.Money || in.Unit == lcc.Price:
		return bound{unlimited.Neg(), unlimited, false, "it is a number"}
	}
	return bound{decimal.Zero, unlimited, false, "it is 0 or more"}
}

// divides tells whether something is divided by an input, or by what an input
// leaves of 1.
func (b *book) divides(ref lcc.Ref) (divides, rest bool) {
	for _, d := range b.s.Derived {
		for _, term := range d.Terms {
			for _, f := range term.Factors {
				divides = divides || f.Of == ref && f.How == lcc.Over
				rest = rest || f.Of == ref && f.How == lcc.OverRest
			}
		}
	}
	return divides, rest
}

// kept is what a check says that finds nothing.
const kept = "kept"

// inputCheck tells a value that the engine would refuse.
func (b *book) inputCheck(row int, ref lcc.Ref) cell {
	lim := b.bounds(ref)
	return calc(fmt.Sprintf("IFERROR(IF(%s,%s,%s),%s)", lim.condition(here(row, inValue)), literal(kept), literal(lim.text), literal(lim.text)),
		kept, style{words, note})
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

// layWorkings shows how inputs follow from others, a row for each product.
func (b *book) layWorkings() {
	if b.working == nil {
		return
	}
	s := b.working
	s.widths = []float64{96, 18, 16}
	s.landscape, s.frozen, s.repeat = true, [2]int{3, 0}, 3
	s.row(1, label("Workings: inputs that follow from others", title))
	s.head(3, []string{"What", "Value", "Unit"}, 1, 3)
	row := 4
	for i := range b.s.Derived {
		row = b.layWorking(row, &b.s.Derived[i])
	}
}

// layWorking writes one working and gives the row after it.
func (b *book) layWorking(row int, d *lcc.Derivation) int {
	s, in := b.working, &b.s.Inputs[d.In]
	name := in.Label
	if in.Of != "" {
		name += " (" + in.Of + ")"
	}
	s.row(row, beside(name, event), label("", event), beside(b.words.Unit(d.In), event))
	first := row + 1
	for _, term := range d.Terms {
		row++
		text, formula := b.term(term)
		s.row(row, beside(text, wrapped), calc(formula, b.product(term), style{}))
		s.grow(row, linesOf(text, s.widths[0]))
	}
	row++
	all, how := fmt.Sprintf("SUM(%s:%s)", here(first, 2), here(row-1, 2)), "Sum"
	if d.Pack.IsPositive() {
		pack := plainNumber(d.Pack)
		all, how = wholeUp(all+"/"+pack)+"*"+pack, fmt.Sprintf("Sum, rounded up to whole packs of %s", d.Pack)
	}
	if in.Unit != lcc.Money && in.Unit != lcc.Price {
		all = "MAX(0," + all + ")"
	}
	s.row(row, beside(how, wrapped), calc(all, b.r.Inputs[d.In], style{inputForm(in), total}))
	b.derived[d.In] = s.at(row, 2)
	return row + 2
}

// plainNumber is a constant within a formula, in the digits that a
// spreadsheet keeps.
func plainNumber(d decimal.Decimal) string {
	if over := d.NumDigits() - 17; over > 0 {
		d = d.Round(-d.Exponent() - int32(over))
	}
	return d.String()
}

// term is a product in words and as a formula.
func (b *book) term(t lcc.Term) (text, formula string) {
	words, symbols := []string{}, []string{}
	text, formula = "", ""
	if !t.Coefficient.Equal(one) || len(t.Factors) == 0 {
		words, symbols = append(words, t.Coefficient.Round(10).String()), append(symbols, plainNumber(t.Coefficient))
	}
	for _, f := range t.Factors {
		word, symbol := lowerLabel(&b.s.Inputs[f.Of]), b.inputs[f.Of]
		if f.How >= lcc.Rest {
			word, symbol = "(1 − "+word+")", "(1-"+symbol+")"
		}
		if f.How == lcc.Over || f.How == lcc.OverRest {
			if len(words) == 0 {
				words, symbols = []string{"1"}, []string{"1"}
			}
			text, formula = text+" ÷ "+word, formula+"/"+symbol
			continue
		}
		words, symbols = append(words, word), append(symbols, symbol)
	}
	return strings.Join(words, " × ") + text, strings.Join(symbols, "*") + formula
}

func lowerLabel(in *lcc.Input) string { return "[" + in.Label + "]" }

var one = decimal.New(1, 0)

// product is the value of a term.
func (b *book) product(t lcc.Term) decimal.Decimal {
	out := t.Coefficient
	for _, f := range t.Factors {
		x := b.r.Inputs[f.Of]
		if f.How >= lcc.Rest {
			x = one.Sub(x)
		}
		if f.How == lcc.Times || f.How == lcc.Rest {
			out = out.Mul(x)
		} else {
			out = out.DivRound(x, 40)
		}
	}
	return out
}
