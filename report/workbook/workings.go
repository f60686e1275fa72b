package workbook

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

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
