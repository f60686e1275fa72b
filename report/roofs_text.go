package report

import (
	"encoding/json"
	"strings"
)

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
