package report

import (
	"encoding/json"
	"strings"
	"unicode"
)

// oneLine is a text of a table of roofs as a page shows it: what controls a
// terminal or turns the direction of text, which the reader of a study file
// refuses, is replaced.
func oneLine(s string) string {
	return strings.TrimSpace(strings.Map(func(c rune) rune {
		switch {
		case c == '\t' || c == '\n' || c == '\r':
			return ' '
		case unicode.IsControl(c), c == '\u2028', c == '\u2029', c >= '\u202a' && c <= '\u202e', c >= '\u2066' && c <= '\u2069':
			return '\ufffd'
		}
		return c
	}, strings.ToValidUTF8(s, "\ufffd")))
}

// isNumber tells a plain number with a point, which no spreadsheet runs.
func isNumber(s string) bool {
	digits, point := strings.TrimPrefix(s, "-"), false
	for i, c := range digits {
		switch {
		case c >= '0' && c <= '9':
		case c == '.' && !point && i > 0 && i < len(digits)-1:
			point = true
		default:
			return false
		}
	}
	return digits != ""
}

// csvText is a harmless text as a cell of CSV.
func csvText(s string) string {
	s = harmless(s)
	if !strings.ContainsAny(s, "\",\r\n") && !strings.HasPrefix(s, " ") {
		return s
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}

func jsonText(s string) string {
	text, err := json.Marshal(s)
	if err != nil {
		panic(err) // a string has a JSON text
	}
	return string(text)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func trueFalse(b bool) string {
	if b {
		return "true"
	}
	return "false"
}
