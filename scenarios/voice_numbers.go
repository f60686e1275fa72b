package scenarios

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// The wording on numbers and their units; see voice.go.

const (
	hintDecimalPoint = "write a decimal point and no commas, as 1234.56"
	hintNoSpaces     = "write the number without spaces or apostrophes, as 48000 or 48_000"
	hintNoCurrency   = "leave the currency out: study.currency gives it"
	hintNoRadix      = "write the number in ordinary digits"
	hintFinite       = "write a finite number"
	hintNoColon      = "write a decimal number: parts of sixty are not read"
	hintNoBoolean    = "true and false belong to in_place and base_case"
	hintMinus        = "write a minus as a hyphen, as -2400"
	hintRange        = "write an estimate as {low: …, likely: …, high: …}"
	hintZeroBefore   = "write a zero before the point, as 0.5"
	hintNoDotAtEnd   = "write digits after the point, or no point"
	hintUnderscore   = "write single underscores between digits, as 48_000"
)

// hintThousands says the number without its commas, with the unit that it had.
func hintThousands(text string) string {
	rest := strings.TrimLeft(text, "+-0123456789,.")
	number, unit := text[:len(text)-len(rest)], strings.TrimSpace(rest)
	if like, similar := unitsLike[unit]; similar {
		unit = like
	}
	switch _, known := unitNames[unit]; {
	case unit == "", unit == "%":
	case known:
		unit = " " + unit
	default:
		unit = ""
	}
	return fmt.Sprintf("write %s%s or %s%s, without commas",
		strings.ReplaceAll(number, ",", ""), unit, strings.ReplaceAll(number, ",", "_"), unit)
}

// hintCurrency says that the currency stands elsewhere, and how a number with commas is written.
func hintCurrency(text string) string {
	number := strings.TrimSpace(strings.TrimFunc(text, func(c rune) bool { return unicode.Is(unicode.Sc, c) || unicode.IsLetter(c) || unicode.IsSpace(c) }))
	if !thousands.MatchString(number) {
		return hintNoCurrency
	}
	return hintNoCurrency + "; " + hintThousands(number)
}

func hintDecimalComma(text string) string {
	return fmt.Sprintf("write %s, with a decimal point", clip(strings.ReplaceAll(text, ",", ".")))
}

func notNumber(text string) message {
	return message{what: quote(text) + " is not a number", hint: numberHint(text)}
}

func leadingZero(text string) message {
	sign, digits := "", strings.TrimPrefix(text, "+")
	if strings.HasPrefix(digits, "-") {
		sign, digits = "-", digits[1:]
	}
	if digits = strings.TrimLeft(digits, "0"); digits == "" || digits[0] < '0' || digits[0] > '9' {
		digits = "0" + digits
	}
	return message{what: quote(text) + " begins with a zero", hint: "write " + clip(sign+digits) + ": octal numbers are not read"}
}

func tooManyDigits(text string) message {
	return message{what: fmt.Sprintf("%s has more than %d significant digits, the most that is read", quote(text), maxDigits)}
}

func exponentTooLarge(text string) message {
	return message{what: fmt.Sprintf("%s has an exponent outside -%d to %d", quote(text), maxExponent, maxExponent)}
}

func noPercentHere(text, expected string) message {
	return message{what: quote(text) + " has a percent sign", expected: expected}
}

func percentForgotten(text string, value decimal.Decimal, expected string) message {
	return message{what: fmt.Sprintf("%s has no percent sign: it would be %s", quote(text), percent(value)), expected: expected, hint: "did you mean " + clip(strings.TrimSpace(text)) + "%?"}
}

func outOfRange(text string, k measure) message {
	return message{what: quote(text) + " is out of range", expected: k.expected}
}

func notPositive(text string) message {
	return message{what: quote(text) + " is not greater than 0", expected: "a standard deviation greater than 0"}
}

// unitMistake words a unit that is missing, unknown or not for here.
func unitMistake(text, unit string, k measure) message {
	m := message{expected: k.expected}
	like, similar := unitsLike[unit]
	_, known := unitNames[unit]
	switch {
	case unit == "":
		m.what = quote(text) + " has no unit"
	case len(k.units) == 1 && k.units[0] == "":
		m.what = fmt.Sprintf("%s has %s after the number", quote(text), quote(unit))
		m.hint = numberHint(text)
		if m.hint == "" && isCurrency(unit) {
			m.hint = hintNoCurrency
		} else if number, is := inPercent(text, unit); is && (k.share || k.unit == lcc.Rate) {
			m.hint = "write " + number + "%"
		} else if m.hint == "" {
			m.hint = "write the number alone"
		}
	case known:
		m.what = fmt.Sprintf("%s has the unit %s", quote(text), quote(unit))
	default:
		m.what = fmt.Sprintf("%s has the unknown unit %s", quote(text), quote(unit))
		if m.hint = numberHint(text); similar && slices.Contains(k.units, like) {
			m.hint = didYouMean(like)
		} else if slices.Contains(squares, unit) && slices.Contains(k.units, "ft2") {
			m.hint = hintSquares(text)
		}
	}
	return m
}

// percentWords are how people write a percent sign.
var percentWords = []string{"percent", "per cent", "pct", "pct.", "%"}

// inPercent is the number before a word for per cent.
func inPercent(text, unit string) (string, bool) {
	if !slices.Contains(percentWords, strings.ToLower(unit)) {
		return "", false
	}
	return clip(strings.TrimRight(strings.TrimSuffix(strings.TrimSpace(text), unit), " %")), true
}

// squares are words for the roofer's unit of 100 ft2.
var squares = []string{"sq", "sqs", "square", "squares", "SQ"}

func hintSquares(text string) string {
	number, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	n, err := decimal.NewFromString(strings.TrimRight(number, "sqSQuare"))
	if err != nil {
		return "a roofing square is 100 ft2"
	}
	return fmt.Sprintf("a roofing square is 100 ft2: write %s ft2", clip(n.Shift(2).String()))
}

func isCurrency(unit string) bool {
	return len(unit) == 3 && strings.ToUpper(unit) == unit ||
		strings.ContainsFunc(unit, func(c rune) bool { return unicode.Is(unicode.Sc, c) })
}

func expectWhole(low, high int) string {
	return fmt.Sprintf("a whole number from %d to %d", low, high)
}

func notWhole(text, expected string) message {
	return message{what: quote(text) + " is not a whole number", expected: expected}
}

func notBetween(text, expected string) message {
	return message{what: quote(text) + " is out of range", expected: expected}
}

func noUnitHere(text string, value decimal.Decimal, expected string) message {
	m := message{what: quote(text) + " is more than a number", expected: expected}
	if value.IsInteger() && value.NumDigits() < 6 {
		m.hint = "write " + value.String()
	}
	return m
}
