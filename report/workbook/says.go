package workbook

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// saying is a part of a sentence: a formula that gives a text, and the text.
type saying struct{ formula, text string }

// longestLiteral is how many characters a text within a formula may have.
const longestLiteral = 255

// says is a fixed text.
func (b *book) says(text string) saying {
	var parts []string
	for rest := text; ; {
		part := cut(rest, longestLiteral)
		parts = append(parts, literal(part))
		if rest = rest[len(part):]; rest == "" {
			break
		}
	}
	return saying{strings.Join(parts, "&"), text}
}

// and joins two parts.
func (s saying) and(next ...saying) saying {
	for _, n := range next {
		s = saying{s.formula + "&" + n.formula, s.text + n.text}
	}
	return s
}

// percent is a rate in per cent.
func (b *book) percent(formula string, value decimal.Decimal) saying {
	return saying{fmt.Sprintf(`ROUND(%s*100,4)&"%%"`, formula), value.Shift(2).Round(4).String() + "%"}
}

// amount is an amount with the currency's sign. The spreadsheet's own FIXED
// writes it as the reader's country does.
func (b *book) amount(formula string, value decimal.Decimal) saying {
	looks := b.cur.Form()
	around := func(k int) string {
		if looks.Positive[k] == looks.Negative[k] {
			return literal(looks.Positive[k])
		}
		return fmt.Sprintf("IF(%s<0,%s,%s)", formula, literal(looks.Negative[k]), literal(looks.Positive[k]))
	}
	out := fmt.Sprintf("%s&FIXED(ABS(%s),%d)", around(0), formula, b.cur.Digits)
	if looks.Positive[1] != "" || looks.Negative[1] != "" {
		out += "&" + around(1)
	}
	return saying{out, b.cur.Amount(value)}
}

// named is the name of the alternative at a place that a cell holds.
func (b *book) namedAt(place string, i int) saying {
	heads := b.measure.line(measureHead, 2, 1+len(b.ledgers))
	return saying{fmt.Sprintf("INDEX(%s,1,%s)", heads, place), b.alternative(i)}
}
