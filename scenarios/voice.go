package scenarios

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/contrast"
)

// This file owns the wording of every diagnostic: lower case, no full stop,
// the thing first, user text quoted, numbers with their unit and limit. The
// labels of inputs and settings are in labels.go, and what is said about
// surveys and take-offs is in voice_survey.go.

// message is the wording of a diagnostic.
type message struct {
	what     string // what was found
	expected string // completes "expected …"
	hint     string // what to write, whole
}

// What may stand at a place, completing "expected …".
const (
	expectRate         = "a rate over -50% and at most 1000%, such as 3% or 0.03"
	expectAmount       = "an amount of money from -10^15 to 10^15, such as 9500 or -2400 for a credit"
	expectPrice        = "a price from -10^15 to 10^15, such as 4.20"
	expectYears        = "a number of years over 0 and at most 1000, such as 12"
	expectArea         = "an area over 0 and at most 10^12 with its unit, such as 48000 ft2 or 4500 m2"
	expectQuantity     = "a quantity from 0 to 10^12, such as 9600 ft, 850 m2 or, in pieces, 14"
	expectShape        = "a shape from 0.3 to 1000, such as 4"
	expectCorrelation  = "a correlation from -1 to 1, such as 0.6"
	expectResidual     = "prorated, none or an amount of money"
	expectText         = "text in one line"
	expectBoolean      = "true or false"
	expectList         = "a list"
	expectQuantities   = "names with quantities, such as seam_length: 9600 ft"
	expectSystems      = "keys with systems, such as tear_off: {name: …, life: …}"
	expectAlternatives = "a list of alternatives, such as - {name: …, start: …}"
)

// quote shows user text: in quotes, at most 60 characters, controls escaped.
func quote(text string) string {
	const most = 60
	if len(text) > most {
		runes := []rune(text[:min(len(text), 4*most+4)])
		if len(runes) > most {
			text = string(runes[:most]) + "…"
		}
	}
	return strconv.Quote(text)
}

// some lists names, at most a dozen.
func some(names []string) string {
	const most = 12
	quoted := make([]string, 0, most)
	for _, name := range names[:min(len(names), most)] {
		if name != "" {
			quoted = append(quoted, clip(name))
		}
	}
	if len(names) > most {
		quoted = append(quoted, fmt.Sprintf("… (%d in all)", len(names)))
	}
	return strings.Join(quoted, ", ")
}

// clip shows a name without quotes.
func clip(name string) string { q := quote(name); return q[1 : len(q)-1] }

func didYouMean(meant string) string {
	if meant == "" {
		return ""
	}
	return "did you mean " + quote(meant) + "?"
}

func percent(r decimal.Decimal) string { return r.Shift(2).String() + "%" }

// The file as a whole.

const isDirectory = "it is a directory, not a study file"

func tooLarge() message {
	return message{what: fmt.Sprintf("the file is larger than %d MiB, the most that is read", MaxSize>>20)}
}

func otherEncoding() message {
	return message{what: "the file is UTF-16 or UTF-32, not UTF-8 text", hint: "save it as UTF-8"}
}

func notUTF8(b byte) message {
	return message{what: fmt.Sprintf("not UTF-8 text: the byte 0x%02X", b), hint: "save the file as UTF-8"}
}

func unwantedCharacter(c rune) message {
	return message{what: fmt.Sprintf("not UTF-8 text as a study file has it: the character U+%04X", c), hint: "delete the character"}
}

func emptyFile() message {
	return message{what: "the file is empty", hint: "start one with `roofyears new FILE`"}
}

func notStudy(s shape) message {
	return message{what: "the file is " + s.words() + ", not a study", expected: "keys, the first of them roofyears: " + Format}
}

func missingFormat() message {
	return message{what: `the key "roofyears" is missing`, hint: "begin the file with roofyears: " + Format}
}

func otherFormat(s shape, text string) message {
	found := "the format version is " + s.words()
	if s == scalar {
		found = "the format version is " + quote(text)
	}
	return message{what: found, expected: "roofyears: " + Format + ": this program reads format " + Format}
}

func moreErrors(n int) string {
	return fmt.Sprintf("%d more errors are not shown", n)
}

// words names the shape of a node.
func (s shape) words() string {
	return [...]string{"text", "a group of keys", "a list", "nothing", "nothing"}[s]
}

// YAML.

func secondDocument() message {
	return message{what: "a second document begins here", expected: "one study in a file", hint: "delete the line of --- or ..., or move what follows to a file of its own"}
}

func notYAML(finding string) message {
	return message{what: "not readable as YAML: " + finding}
}

// syntaxMessage words what the YAML library found; useOpened tells that the
// place where the construct begins is the better one.
func syntaxMessage(finding string, found place, at rune) (m message, useOpened bool) {
	before := fmt.Sprintf("line %d, column %d", found.line, found.col)
	switch {
	case strings.Contains(finding, "expected ',' or ']'"):
		return message{what: "a list in brackets is not closed, or lacks a comma, before " + before, hint: "write [first, second]"}, true
	case strings.Contains(finding, "expected ',' or '}'"):
		return message{what: "keys in braces are not closed, or lack a comma, before " + before, hint: "write {key: value, key: value}"}, true
	case strings.Contains(finding, "could not find expected ':'"):
		return message{what: "a line that is neither a key with a colon nor an entry of a list", hint: "write key: value, or - entry with a space after the hyphen"}, true
	case strings.Contains(finding, "mapping values are not allowed"):
		return message{what: "a colon cannot stand here", hint: "check the indentation and the colon of the line above, and quote text that holds a colon and a space"}, false
	case strings.Contains(finding, "cannot start any token") && at == '\t':
		return message{what: "a tab cannot indent", hint: "indent with spaces"}, false
	case strings.Contains(finding, "cannot start any token"):
		return message{what: "text cannot begin with " + quote(string(at)), hint: "put the text in quotes"}, false
	case strings.Contains(finding, "unexpected end of stream"):
		return message{what: "text in quotes is not closed"}, true
	case strings.Contains(finding, "exceeded max depth"):
		return message{what: fmt.Sprintf("nested deeper than %d levels, the most that is read", maxDepth)}, false
	case strings.Contains(finding, "unknown anchor"):
		return message{what: "an alias with no anchor of its name before it", hint: "quote text that begins with *"}, false
	case strings.Contains(finding, "expected node content"):
		return message{what: "a bracket, brace or comma where a value should stand"}, false
	case strings.Contains(finding, "expected key"), strings.Contains(finding, "expected '-' indicator"):
		return message{what: "the indentation does not match the lines above", hint: "indent keys of one group by the same number of spaces"}, false
	}
	return notYAML(finding), false
}

func tagged(tag string) message {
	return message{what: "the tag " + quote(tag) + " is not read", hint: "leave the tag out; quote text that begins with !"}
}

func keyNotText() message {
	return message{what: "a key that is not plain text"}
}

func mergeKey() message {
	return message{what: "the merge key << is not read", hint: "write the keys out, or repeat a whole value with an alias"}
}

func duplicateKey(key string, line int) message {
	return message{what: fmt.Sprintf("the key %s stands here for the second time, after line %d", quote(key), line)}
}

func nestedAlias(name string) message {
	return message{what: "the alias " + quote("*"+name) + " repeats something that holds an alias itself", hint: "write it out"}
}

func aliasesTooLong(most int) message {
	return message{what: fmt.Sprintf("aliases repeat more than %d values, the most that is read", most)}
}

// Keys.

// Our own keys and words are listed in full.

func expectKeys(known []string) string { return "keys: " + strings.Join(known, ", ") }

func unknownKey(key, where string, known []string, meant, home string) message {
	m := message{what: fmt.Sprintf("the key %s is unknown %s", quote(key), where), hint: didYouMean(meant)}
	switch {
	case home != "":
		m.hint = quote(key) + " belongs " + home
	case meant == "":
		m.expected = expectOneOf(known)
	}
	return m
}

func commaInNumber(key string) message {
	return message{what: fmt.Sprintf("in braces a comma begins a new key, here %s", quote(key)), hint: "write a large number without commas, as 48000 or 48_000"}
}

func colonForgotten(key, word string) message {
	return message{what: fmt.Sprintf("%s has no colon", quote(key)), hint: "write " + word + ": and a value; quote text that holds a comma"}
}

const hintQuoteComma = "quote text that holds a comma: in braces a comma begins a new key"

func missingKey(key string) message {
	return message{what: "the key " + quote(key) + " is missing"}
}

func missingValue() message { return message{what: "a value is missing"} }

func missingValueOf(expected string) message {
	return message{what: "a value is missing", expected: expected}
}

func wrongShape(s shape, text, expected string) message {
	if s == scalar {
		return message{what: "found " + quote(text), expected: expected}
	}
	return message{what: "found " + s.words(), expected: expected}
}

func tooMany(n, most int) message {
	return message{what: fmt.Sprintf("%d entries, at most %d are read", n, most)}
}

func badName(key string) message {
	return message{what: quote(key) + " cannot be a key here", expected: "a lower-case letter, then up to 63 lower-case letters, digits and underscores"}
}

// Text and words.

func emptyText() message { return message{what: "the text is empty", expected: expectText} }

func textTooLong(most int) message {
	return message{what: fmt.Sprintf("the text is longer than %d characters, the most that is read", most)}
}

func severalLines() message {
	return message{what: "the text has several lines", expected: expectText, hint: "write >- before a long text to join its lines"}
}

func hiddenCharacter(c rune) message {
	return message{what: fmt.Sprintf("the text holds the invisible character U+%04X", c), hint: "delete the character"}
}

func expectOneOf(words []string) string { return "one of: " + strings.Join(words, ", ") }

func notOneOf(text string, words []string, meant string) message {
	return message{what: quote(text) + " is not known here", expected: expectOneOf(words), hint: didYouMean(meant)}
}

func notBoolean(text string) message {
	m := message{what: quote(text) + " is not true or false", expected: expectBoolean}
	switch strings.ToLower(text) {
	case "yes", "on", "y", "true":
		m.hint = "write true, without quotes"
	case "no", "off", "n", "false":
		m.hint = "write false, without quotes"
	}
	return m
}

func notDate(text string) message {
	return message{what: quote(text) + " is not a day of the calendar", expected: "a date as 2026-10-01: year, month, day"}
}

func validBefore(text string) message {
	return message{what: quote(text) + " is over before the study begins", expected: "a day on or after base_date and prepared_on"}
}

func unknownCurrency(code string, known func(string) bool) message {
	m := message{what: "the currency " + quote(code) + " is unknown", expected: "a code of ISO 4217, such as USD or EUR"}
	if upper := strings.ToUpper(code); known(upper) {
		m.hint = didYouMean(upper)
	}
	return m
}

// Numbers.

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

func hintThousands(text string) string {
	number := text[:len(text)-len(strings.TrimLeft(text, "+-0123456789,."))]
	return fmt.Sprintf("write %s or %s, without commas", strings.ReplaceAll(number, ",", ""), strings.ReplaceAll(number, ",", "_"))
}

func hintDecimalComma(text string) string {
	return fmt.Sprintf("write %s, with a decimal point", clip(strings.ReplaceAll(text, ",", ".")))
}

func notNumber(text string) message {
	return message{what: quote(text) + " is not a number", hint: numberHint(text)}
}

func leadingZero(text string) message {
	return message{what: quote(text) + " begins with a zero", hint: "write " + clip(strings.TrimLeft(text, "+0")) + ": octal numbers are not read"}
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
		} else if m.hint == "" {
			m.hint = "write the number alone"
		}
	case known:
		m.what = fmt.Sprintf("%s has the unit %s", quote(text), quote(unit))
	default:
		m.what = fmt.Sprintf("%s has the unknown unit %s", quote(text), quote(unit))
		if m.hint = numberHint(text); similar && slices.Contains(k.units, like) {
			m.hint = didYouMean(like)
		}
	}
	return m
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

// Estimates.

func listForNumber(expected string) message {
	return message{what: "found a list", expected: expected, hint: hintRange}
}

func noForm() message {
	return message{what: "an estimate without a number", expected: "value, or low, likely and high, or weibull, normal or lognormal"}
}

func severalForms(a, b string) message {
	m := message{what: fmt.Sprintf("an estimate with both %s and %s", a, b), expected: "one of: value; low, likely and high; weibull; normal; lognormal"}
	if a == "value" && b == "low" {
		m.hint = "call the value likely"
	}
	return m
}

func distributionWithout(form string) message {
	return message{what: "distribution stands beside " + form, hint: "distribution says how low, likely and high are spread; leave it out here"}
}

func notInOrder() message {
	return message{what: "low, likely and high are not in that order"}
}

func noWidth() message {
	return message{what: "low and high are the same", hint: "write the number alone"}
}

func unknownDistribution(text string) message {
	m := message{what: "the distribution " + quote(text) + " is unknown", expected: "one of: triangular, pert, uniform"}
	switch text {
	case "weibull":
		m.hint = "write weibull: {mean: 22, shape: 4} in place of low, likely and high"
	case "normal", "lognormal":
		m.hint = "write " + text + ": {mean: 22, sd: 4} in place of low, likely and high"
	default:
		m.hint = didYouMean(nearest(strings.ToLower(text), []string{"triangular", "pert", "uniform"}))
	}
	return m
}

func shapeNotHere(name string, k measure) message {
	m := message{what: name + " cannot spread what stands here"}
	switch {
	case len(k.shapes) == 0:
		m.expected, m.hint = "an estimate that ends somewhere", hintRange
	case k.unit == lcc.Rate:
		m.expected, m.hint = "normal for a rate", "write normal: {mean: 3%, sd: 1%}, or low, likely and high"
	case len(k.shapes) == 0:
		m.expected = "a number, or low, likely and high"
	case name == "normal":
		m.what = "a normal distribution could draw a negative number"
		m.expected, m.hint = "a spread above 0", "write lognormal or weibull, or low, likely and high"
	}
	return m
}

func wrongSpread(name, found, wanted string) message {
	return message{what: fmt.Sprintf("%s has no %s", name, found), expected: "mean and " + wanted}
}

func meanNotPositive(name string) message {
	return message{what: "the mean of " + name + " is not greater than 0"}
}

func unitsDiffer(text, first string) message {
	return message{what: fmt.Sprintf("%s has another unit than %s in the same estimate", quote(text), quote(first))}
}

// The study.

func inflationMissing() message {
	return message{what: `the key "inflation" is missing`, hint: "a nominal study states general inflation, as inflation: 2.3%"}
}

func escalationLength(found, period int) message {
	return message{what: fmt.Sprintf("%d rates for a study period of %d years", found, period), expected: "one rate, or a list of one rate for each year"}
}

func areaReserved() message {
	return message{what: `"area" is the plan area of the roof and cannot be a quantity`, hint: "choose another name"}
}

// Systems and items.

func noSystems() message { return message{what: "no system is defined", expected: expectSystems} }

func noSuchSystem(name string, names []string, meant string) message {
	return message{what: "no system has the key " + quote(name), expected: "one of: " + some(names), hint: didYouMean(meant)}
}

func endlessChain(keys []string) message {
	const most = 6
	var shown []string
	for _, key := range keys[:min(len(keys), most)] {
		shown = append(shown, clip(key))
	}
	switch {
	case len(keys) > most+1:
		shown = append(shown, "…", clip(keys[0]))
	case len(keys) == most+1:
		shown = append(shown, clip(keys[0]))
	}
	return message{
		what:     "a chain without end: " + strings.Join(shown, " → "),
		expected: "a chain that comes to a system without then, which is replaced by itself",
		hint:     "if a system returns later on, describe that round as a system of its own, with another key",
	}
}

func notResidual(text, meant string) message {
	return message{what: quote(text) + " is not known here", expected: expectResidual, hint: didYouMean(meant)}
}

func noRecoatCosts() message {
	return message{what: "a recoat without costs", expected: "one cost item or more"}
}

func amountAndPrice() message {
	return message{what: "a cost item with both amount and unit_price", expected: "one of them"}
}

func amountPer() message {
	return message{what: "per stands beside amount", hint: "write unit_price for a price per unit, or leave per out"}
}

func noPrice() message {
	return message{what: "a cost item without a price", expected: "amount, or unit_price with per"}
}

func perMissing() message {
	return message{what: "unit_price without per", expected: "per: area, or per: a quantity of roof.quantities or of the survey"}
}

func noSuchQuantity(name string, names []string, meant string) message {
	return message{what: "the roof has no quantity " + quote(name), expected: "one of: " + some(names), hint: didYouMean(meant)}
}

func growthElsewhere(key string) message {
	return message{what: key + " stands in a cost that is paid once", hint: "growth with age applies to annual and periodic costs"}
}

func ageWithoutGrowth() message {
	return message{what: "age_from without growth", hint: "age_from says from when growth counts; leave it out here"}
}

func everyElsewhere() message {
	return message{what: "every stands outside periodic_costs", hint: "move the item to periodic_costs, or leave every out"}
}

// Alternatives.

func noAlternatives() message {
	return message{what: "no alternative is given", expected: expectAlternatives}
}

func sameName(name string, line int) message {
	return message{what: fmt.Sprintf("%s is the name of the alternative at line %d too", quote(name), line), expected: "a name of its own"}
}

func secondBaseCase(line int) message {
	return message{what: fmt.Sprintf("a second base case, after the one at line %d", line), expected: "one base case at most"}
}

func waitTooLong(years int, system string, life decimal.Decimal) message {
	return message{what: fmt.Sprintf("a wait of %d years is longer than the life of %s, %s years", years, clip(system), life)}
}

// Warnings.

func textWithComma(text string) message {
	return message{what: "text in braces with a comma, read as " + quote(text), hint: "put it in quotes: other readers of YAML end it at the comma"}
}

func discountHigh(d, limit decimal.Decimal) message {
	return message{what: fmt.Sprintf("a discount rate of %s is over %s: costs after a few years hardly count", percent(d), percent(limit))}
}

func discountNegative(d decimal.Decimal) message {
	return message{what: fmt.Sprintf("a discount rate of %s is negative: later costs weigh more than those of today", percent(d))}
}

func discountAboveReal(d decimal.Decimal) message {
	return message{what: fmt.Sprintf("a real discount rate of %s: 10 CFR 436.14 caps the real rate at 10%%; does it include inflation?", percent(d))}
}

func escalationWithInflation(e, inflation decimal.Decimal) message {
	return message{what: fmt.Sprintf("a real rate of %s is not below general inflation, %s: it may include general inflation", percent(e), percent(inflation))}
}

func escalationHigh(e, limit decimal.Decimal) message {
	return message{what: fmt.Sprintf("a real rate of %s is over %s: it may include general inflation", percent(e), percent(limit))}
}

func mixedUnits(unit, area string) message {
	return message{what: fmt.Sprintf("%s in a study whose area is in %s: metric and foot units are mixed", unit, area)}
}

func lifeLong(life, limit decimal.Decimal) message {
	return message{what: fmt.Sprintf("a life of %s years is longer than %s years", life, limit)}
}

func keptForEver() message {
	return message{what: "no system follows the one in place: it is replaced by itself for ever, at no cost"}
}

func restoredForEver(key string) message {
	return message{what: fmt.Sprintf("no system follows %s: it is replaced by itself for ever", clip(key))}
}

func firstCostsInPlace() message {
	return message{what: "first costs of a system in place are paid only when it is installed again"}
}

func noFirstCosts() message {
	return message{what: "no first costs: it is installed for nothing"}
}

func oneAlternative() message {
	return message{what: "only one alternative: there is nothing to compare it with"}
}

func noBaseCase() message {
	return message{what: "no alternative is the base case: savings and payback against it stay undefined"}
}

func waitNotInPlace(key string) message {
	return message{what: fmt.Sprintf("the wait keeps %s, which is not in place at time 0", clip(key))}
}

func waitOverLow(years int, key string, low decimal.Decimal) message {
	return message{what: fmt.Sprintf("a wait of %d years is longer than the low life of %s, %s years", years, clip(key), low)}
}

func unusedSystem() message {
	return message{what: "no alternative comes to this system"}
}

func unusedQuantity() message {
	return message{what: "no cost item is priced by this quantity"}
}

// What moves_with can be wrong about.

func movesWithoutDraws() message {
	return message{what: "a plain value does not move with another", hint: "give it a range or a distribution, or leave moves_with out"}
}

func noSuchInput(path, near string) message {
	return message{
		what:     fmt.Sprintf("there is no input %s", quote(path)),
		expected: "the path of another estimate, such as study.escalation.construction", hint: didYouMean(near),
	}
}

func movesWithCertain(path string) message {
	return message{what: fmt.Sprintf("%s is a plain value, which does not move", quote(path)), hint: "give that one a range or a distribution, or leave moves_with out"}
}

func movesInCircle() message {
	return message{what: "it moves, over others, with itself", expected: "a chain of moves_with that ends at an estimate drawn alone"}
}

func waitForWhatIsThere(key string) message {
	return message{
		what: fmt.Sprintf("the system %s is in place already: nothing is awaited", quote(key)),
		hint: "start it without a wait, or wait for the system that replaces it",
	}
}

// The letterhead.

const (
	expectBudget  = "an amount of 0 or more, such as 1500000"
	expectYearly  = "a mapping of years to numbers, such as {2027: 1500000, 2028-2031: 1200000}"
	expectColumns = "a mapping of heads to what they stand for, such as {Roof size: roof.area}"
	expectColour  = `a colour of six hexadecimal digits in quotes, such as "#1b4d7e"`
	expectLogo    = "a PNG or JPEG file in the folder of the study or below, such as logo.png"
	expectNote    = "a paragraph of text, or a list of paragraphs"
	noFolder      = "standard input has no folder"
	notOrdinary   = "no ordinary file"
)

func notColour(text string) message {
	return message{what: quote(text) + " is not a colour", expected: expectColour}
}

// tooPale never shows a ratio as high as the limit that it is below.
func tooPale(text string, ratio float64) message {
	return message{
		what:     fmt.Sprintf("%s is too pale to read: its contrast with white paper is %.2f:1", quote(text), math.Floor(ratio*100)/100),
		expected: fmt.Sprintf("a contrast of at least %g:1", contrast.Least), hint: "take a darker shade",
	}
}

func logoElsewhere(name string) message {
	return message{what: "the path " + quote(name) + " leaves the folder of the study", expected: expectLogo}
}

func logoUnread(name string, err error) message {
	m := message{what: fmt.Sprintf("the file %s cannot be read: %v", quote(name), reason(err)), expected: expectLogo}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		m.what = "there is no file " + quote(name) + " beside the study"
	case errors.Is(err, errNoFolder):
		m.expected, m.hint = "", "name the study file, or give the logo with --logo FILE"
	}
	return m
}

func logoEmpty() message {
	return message{what: "the logo is an empty file", expected: expectPicture()}
}

func logoTooLarge() message {
	return message{what: fmt.Sprintf("the logo is larger than %d KiB, the most that is read", MaxLogo>>10), hint: "save it with fewer pixels or colours"}
}

func notPicture() message {
	return message{what: "the logo is not a PNG or JPEG picture", expected: expectPicture()}
}

func logoDamaged(err error) message {
	return message{what: fmt.Sprintf("the logo is damaged: %v", err), expected: expectPicture()}
}

func logoSize(width, height int) message {
	return message{what: fmt.Sprintf("the logo has %d x %d pixels", width, height), expected: expectPicture()}
}

func expectPicture() string {
	return fmt.Sprintf("a PNG or JPEG picture of %d to %d pixels each way", LeastPixel, MostPixel)
}

// The cool roof.

const (
	expectFraction    = "a fraction from 0 to 1, such as 0.65"
	expectEmittance   = "an emittance over 0.1 and at most 1, such as 0.90"
	expectSun         = "the sun on a level surface, with its unit, such as 900 kWh/m2 or 285000 Btu/ft2"
	expectConductance = "a number over 0 and at most 200 with its unit, such as 0.35 W/m2K or 0.06 Btu/h·ft2·F"
	expectPerformance = "a ratio over 0 and at most 20, such as 3.2"
	expectSEER        = "a rating over 0 and at most 68, in Btu a watt-hour, such as 13"
	expectDegreeDays  = "degree-days of a year from 0 to 100000, without a unit, such as 1800"
	expectPowerPrice  = "a price from 0 to 10^9 with what it is per, such as 0.14 per kWh"
	expectHeatPrice   = "a price from 0 to 10^9 with what it is per, such as 1.10 per therm or 0.09 per kWh"
)

func coolRoofInPlace() message {
	return message{what: "cool_roof stands in a system that is in place", hint: "move it to the system that brings the new surface"}
}

func coolRoofTwice(item string) message {
	return message{what: "an annual cost is called " + quote(item) + ", as the one that cool_roof computes", hint: "leave out one of the two"}
}

func noSuchCoolRoof(name string, names []string) message {
	m := message{what: "no system further up has the key " + quote(name) + " and a cool_roof"}
	if len(names) > 0 {
		m.expected, m.hint = "one of: "+some(names), didYouMean(nearest(name, names))
	}
	return m
}

func coolRoofPer(unit, area string) message {
	found := "the quantity is in pieces"
	if unit != "" {
		found = "the quantity is in " + unit
	}
	return message{what: found, expected: "an area in " + area + ", as the roof's own"}
}

func degreeDaysAlone(key string) message {
	return message{what: key + " without sun_year", hint: "degree-days share out the sun of a year; leave them out beside sun_cooling and sun_heating"}
}

func sunTwice(key string) message {
	return message{what: key + " stands beside sun_year", expected: "sun_cooling and sun_heating, or sun_year with degree-days"}
}

func noSun() message {
	return message{what: "no sun shines on the roof in either season", hint: "leave cool_roof out: it changes nothing"}
}

func noDegreeDays() message {
	return message{what: "no degree-days in either season", hint: "leave cool_roof out: it changes nothing"}
}

func copAndSEER() message {
	return message{what: "both cop and seer", expected: "one of them"}
}

func noCOP() message {
	return message{what: "cooling without its efficiency", expected: "cop or seer", hint: "for a building that is never cooled, write sun_cooling: 0 kWh/m2"}
}

func agedAboveNew(aged, fresh decimal.Decimal) message {
	return message{what: fmt.Sprintf("a reflectance of %s once soiled is over %s when new", aged, fresh), hint: "a light surface soils and gets darker"}
}

func darkerSurface(aged, now decimal.Decimal) message {
	return message{
		what: fmt.Sprintf("the new surface reflects %s once soiled, less than %s of the roof as it is", aged, now),
		hint: "this is no cool roof: state what it does to the energy bills as an annual cost, or leave it out",
	}
}

func notYears(text string) message {
	return message{what: quote(text) + " is no year", expected: "a year as 2027, or several on end as 2027-2031"}
}

func yearTwice(year int) message {
	return message{what: fmt.Sprintf("%d stands there twice", year)}
}
