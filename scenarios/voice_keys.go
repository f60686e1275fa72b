package scenarios

import (
	"fmt"
	"strings"
)

// The wording on keys, text and words; see voice.go.

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

func missingKey(key, about string) message {
	return message{what: "the key " + quote(key) + " is missing", expected: key + ": " + about}
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
	return message{what: fmt.Sprintf("%d entries, at most %d are read", n, most), hint: "leave some out"}
}

func badName(key string) message {
	return message{what: quote(key) + " cannot be a key here", expected: "a lower-case letter, then up to 63 lower-case letters, digits and underscores"}
}

// Text and words.

func emptyText() message { return message{what: "the text is empty", expected: expectText} }

func textTooLong(most int) message {
	return message{what: fmt.Sprintf("the text is longer than %d characters, the most that is read", most), hint: "shorten it"}
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
