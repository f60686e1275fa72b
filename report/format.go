package report

import (
	"strings"

	"github.com/bojanz/currency"
	"github.com/shopspring/decimal"
)

// Currency formats amounts of one currency. Amounts come rounded from the
// ledger; formatting changes no digit.
type Currency struct {
	Code   string // ISO 4217
	Digits int32  // of the minor unit
}

// formatter writes English: 1,234,567.90.
func (c Currency) formatter(display currency.Display) *currency.Formatter {
	f := currency.NewFormatter(currency.NewLocale("en"))
	f.CurrencyDisplay = display
	f.MinDigits, f.MaxDigits = uint8(c.Digits), uint8(c.Digits)
	return f
}

func (c Currency) format(d decimal.Decimal, display currency.Display) string {
	amount, err := currency.NewAmount(d.StringFixed(c.Digits), c.Code)
	if err != nil || d.NumDigits()+int(max(0, d.Exponent())) > longest {
		// A currency that the library does not know, or a number too long for it.
		text := trimmedTo(d, c.Digits)
		if display == currency.DisplaySymbol {
			text = strings.TrimSpace(c.Code) + " " + text
		}
		return text
	}
	text := c.formatter(display).Format(amount)
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(text)
}

// longest is how many digits the currency library formats.
const longest = 30

// Amount writes an amount with the currency's sign, for sentences: $1,234.50.
func (c Currency) Amount(d decimal.Decimal) string { return c.format(d, currency.DisplaySymbol) }

// Plain writes an amount without the currency, for tables whose head or
// caption names it: 1,234.50.
func (c Currency) Plain(d decimal.Decimal) string {
	return strings.TrimSpace(c.format(d, currency.DisplayNone))
}

// Sign is the currency's sign as sentences show it: $.
func (c Currency) Sign() string {
	sign, ok := currency.GetSymbol(c.Code, currency.NewLocale("en"))
	if !ok {
		return c.Code + " "
	}
	return sign
}

// MoneyForm is how amounts look, for those who write them without the currency
// library: digits in groups of three, after a point as many as Digits, between
// the texts for what is not negative and for what is.
type MoneyForm struct {
	Digits   int32     `json:"digits"`
	Positive [2]string `json:"positive"` // in sentences: "$", ""
	Negative [2]string `json:"negative"` // in sentences: "-$", ""
	Minus    string    `json:"minus"`    // in tables, before what is negative
}

// Form gives the looks of the currency's amounts.
func (c Currency) Form() MoneyForm {
	around := func(text string) [2]string {
		before, after, _ := strings.Cut(text, c.Plain(one))
		return [2]string{before, after}
	}
	return MoneyForm{c.Digits, around(c.Amount(one)), around(c.Amount(one.Neg())), around(c.Plain(one.Neg()))[0]}
}

// Percent writes a fraction in per cent with at most the given number of
// decimals, without trailing zeros: 3%, 8.41%.
func Percent(r decimal.Decimal, decimals int32) string {
	return trimmed(r.Shift(2), decimals) + "%"
}

// trimmed writes a number with at most so many decimals, grouped, without
// trailing zeros.
func trimmed(d decimal.Decimal, decimals int32) string {
	text := d.Round(decimals).String() // no trailing zeros
	whole, fraction, found := strings.Cut(text, ".")
	whole = grouped(whole)
	if !found {
		return whole
	}
	return whole + "." + fraction
}

// grouped puts commas into a whole number.
func grouped(digits string) string {
	sign := ""
	if strings.HasPrefix(digits, "-") {
		sign, digits = "-", digits[1:]
	}
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return sign + digits
}

// Show writes a cell as all writers show it.
func (c Cell) Show(cur Currency) string {
	if c.State != "" {
		return c.State
	}
	switch c.Kind {
	case MoneyCell:
		return cur.Plain(c.Number)
	case RoughCell:
		return grouped(c.Number.StringFixed(0))
	case RateCell:
		return Percent(c.Number, 4)
	case RatioCell:
		return trimmedTo(c.Number, 4)
	case YearCell, CountCell:
		return trimmed(c.Number, 1)
	case QuantityCell:
		return strings.TrimSpace(trimmed(c.Number, c.Digits) + " " + c.Unit)
	}
	return c.Text
}

// trimmedTo writes a number with exactly so many decimals, grouped.
func trimmedTo(d decimal.Decimal, decimals int32) string {
	whole, fraction, found := strings.Cut(d.StringFixed(decimals), ".")
	if !found {
		return grouped(whole)
	}
	return grouped(whole) + "." + fraction
}

// NoteMark marks a note under a table, counted from 0: a to z, then aa, ab and
// so on.
func NoteMark(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return NoteMark(i/26-1) + NoteMark(i%26)
}

func text(s string) Cell              { return Cell{Text: s} }
func money(d decimal.Decimal) Cell    { return Cell{Kind: MoneyCell, Number: d} }
func rate(d decimal.Decimal) Cell     { return Cell{Kind: RateCell, Number: d} }
func year(y int) Cell                 { return Cell{Kind: YearCell, Number: decimal.NewFromInt(int64(y))} }
func state(word, note string) Cell    { return Cell{State: word, Note: note} }
func (c Cell) noted(note string) Cell { c.Note = note; return c }
func number(head string) Column       { return Column{Head: head, Numeric: true} }
func words(head string) Column        { return Column{Head: head} }
func plainRow(cells ...Cell) Row      { return Row{Cells: cells} }
func totalRow(cells ...Cell) Row      { return Row{Role: Total, Cells: cells} }

// Plural writes a count with its noun: 1 year, 12 years.
func Plural(n int, noun string) string {
	text := grouped(decimal.NewFromInt(int64(n)).String()) + " " + noun
	if n != 1 {
		text += "s"
	}
	return text
}

// listed joins words as a sentence does: a, b and c.
func listed(items []string) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	return strings.Join(items[:len(items)-1], ", ") + " and " + items[len(items)-1]
}
