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

// when is a part that is said under a condition only.
func (s saying) when(condition string, holds bool) saying {
	out := saying{fmt.Sprintf(`IF(%s,%s,"")`, condition, s.formula), ""}
	if holds {
		out.text = s.text
	}
	return out
}

// percent is a rate in per cent, with no more decimals than it needs, four at
// most: as report.Percent.
func (b *book) percent(formula string, value decimal.Decimal) saying {
	places := "4"
	for k := 3; k >= 0; k-- {
		places = fmt.Sprintf("IF(ROUND(100*%s,%d)=ROUND(100*%s,4),%d,%s)", formula, k, formula, k, places)
	}
	return saying{fmt.Sprintf(`FIXED(100*%s,%s,TRUE)&"%%"`, formula, places), value.Shift(2).Round(4).String() + "%"}
}

// rateText is the discount rate as the answer's sheet writes it.
func (b *book) rateText() saying {
	return saying{b.answer.at(b.rateRow(), 2), b.percent(b.rate(), b.r.Rate).text}
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

// among is the cell of an alternative in a row that has one for each of them.
// Gnumeric finds nothing in a range of one cell.
func (b *book) among(s *sheet, row int, place string) string {
	if len(b.ledgers) == 1 {
		return s.at(row, 2)
	}
	return fmt.Sprintf("INDEX(%s,1,%s)", s.line(row, 2, 1+len(b.ledgers)), place)
}
