package scenarios

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/shopspring/decimal"
)

// Limits of a number's text. They keep exact arithmetic cheap, and no price,
// rate or quantity of a roof comes near them.
const (
	maxDigits   = 40 // significant digits
	maxExponent = 30
	maxNumber   = 100 // characters
)

// number is what a number's text says.
type number struct {
	value   decimal.Decimal // with a percent sign: already in hundredths
	percent bool
	unit    string // what follows the number, as written
}

var numberPattern = regexp.MustCompile(
	`^([+-]?)([0-9]+(?:_[0-9]+)*)(?:\.([0-9]+(?:_[0-9]+)*))?(?:[eE]([+-]?[0-9]+))?(\s*)(.*)$`)

// parseNumber reads a number exactly, from the text alone.
func parseNumber(text string) (number, message, bool) {
	text = strings.TrimSpace(text)
	if text == "" {
		return number{}, missingValue(), false
	}
	parts := numberPattern.FindStringSubmatch(text)
	if parts == nil || oddTail(parts[6], parts[5] != "") {
		return number{}, notNumber(text), false
	}
	sign, whole, fraction, exponent := parts[1], plainDigits(parts[2]), plainDigits(parts[3]), parts[4]
	if len(whole) > 1 && whole[0] == '0' {
		return number{}, leadingZero(text), false
	}
	n := number{unit: parts[6]}
	if strings.HasPrefix(n.unit, "%") {
		n.percent, n.unit = true, strings.TrimSpace(n.unit[1:])
	}
	literal := sign + whole
	if fraction != "" {
		literal += "." + fraction
	}
	digits := strings.TrimLeft(whole+fraction, "0")
	if len(digits) > maxDigits || len(literal) > maxNumber {
		return number{}, tooManyDigits(text), false
	}
	var err error
	if n.value, err = decimal.NewFromString(literal); err != nil {
		return number{}, notNumber(text), false
	}
	shift, ok := exponentOf(exponent)
	if !ok {
		return number{}, exponentTooLarge(text), false
	}
	if n.percent {
		shift -= 2
	}
	n.value = n.value.Shift(shift)
	return n, message{}, true
}

func plainDigits(s string) string { return strings.ReplaceAll(s, "_", "") }

// exponentOf reads the digits after e; an exponent out of range is not ok.
func exponentOf(s string) (int32, bool) {
	sign, digits := int32(1), strings.TrimPrefix(s, "+")
	if rest, negative := strings.CutPrefix(digits, "-"); negative {
		sign, digits = -1, rest
	}
	value := int32(0)
	for _, c := range digits {
		if value = 10*value + c - '0'; value > maxExponent {
			return 0, false
		}
	}
	return sign * value, true
}

// oddTail tells whether what follows the digits makes the whole no number,
// rather than being a unit: 48,000 and 1:30 and 0x1F and 5-7 and 48 000.
func oddTail(tail string, spaced bool) bool {
	if tail == "" || tail[0] == '%' {
		return false
	}
	first, _ := utf8.DecodeRuneInString(tail)
	return !unicode.IsLetter(first) || !spaced && radixTail.MatchString(tail)
}

var radixTail = regexp.MustCompile(`^(?:[xX][0-9a-fA-F]+|[oObB][0-9]+)$`)

// thousands looks like a number with commas between its thousands.
var thousands = regexp.MustCompile(`^[+-]?[0-9]{1,3}(,[0-9]{3})+(\.[0-9]+)?(\s|%|[a-z]|$)`)

// numberHints are mistakes that are known by their looks, the first match
// counting.
var numberHints = []struct {
	looks *regexp.Regexp
	hint  func(text string) string
}{
	{thousands, hintThousands},
	{regexp.MustCompile(`^[+-]?[0-9]{1,3}(\.[0-9]{3})+,[0-9]+`), fixedHint(hintDecimalPoint)},
	{regexp.MustCompile(`^[+-]?[0-9]*,[0-9]+(\s|%|[a-z]|$)`), hintDecimalComma},
	{regexp.MustCompile(`^[+-]?[0-9]{1,3}([\s\x{a0}\x{202f}'’][0-9]{3})+`), fixedHint(hintNoSpaces)},
	{regexp.MustCompile(`^[+-]?\s*(\p{Sc}|[A-Z]{3}\s*[0-9])|^[0-9._,]+\s*\p{Sc}`), hintCurrency},
	{regexp.MustCompile(`^[+-]?0[xXoObB]`), fixedHint(hintNoRadix)},
	{regexp.MustCompile(`(?i)^[+-]?\.?(inf|infinity|nan)$`), fixedHint(hintFinite)},
	{regexp.MustCompile(`^[0-9]+:[0-9]`), fixedHint(hintNoColon)},
	{regexp.MustCompile(`(?i)^(yes|no|true|false|on|off)$`), fixedHint(hintNoBoolean)},
	{regexp.MustCompile(`^[\x{2212}\x{2013}\x{2014}]\s*[0-9.]`), fixedHint(hintMinus)},
	{regexp.MustCompile(`^[0-9.]+%?\s*(-|–|—|to|\.\.)\s*[0-9.]+`), fixedHint(hintRange)},
	{regexp.MustCompile(`^[+-]?\.[0-9]`), fixedHint(hintZeroBefore)},
	{regexp.MustCompile(`^[+-]?[0-9]+\.(\D|$)`), fixedHint(hintNoDotAtEnd)},
	{regexp.MustCompile(`^(~|≈|<|>|about|approx|ca)`), fixedHint(hintRange)},
	{regexp.MustCompile(`_`), fixedHint(hintUnderscore)},
}

func fixedHint(s string) func(string) string { return func(string) string { return s } }

// numberHint says what to write instead; "" when nobody can know.
func numberHint(text string) string {
	for _, h := range numberHints {
		if len(text) <= maxNumber && h.looks.MatchString(text) {
			return h.hint(text)
		}
	}
	return ""
}
