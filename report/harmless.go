package report

import (
	"regexp"
	"strings"
)

// A text, and what a spreadsheet may cut out of it, that begins as a formula
// does.
var (
	formula    = regexp.MustCompile(`^ *[=+\-@\t\r\n＝＋－＠]`)
	formulaCut = regexp.MustCompile(`([;\t\r\n])( *[=+\-@＝＋－＠])`)
)

// harmless keeps a spreadsheet from running a text.
func harmless(s string) string {
	if plainlyHarmless(s) {
		return s
	}
	s = formulaCut.ReplaceAllString(s, "$1'$2")
	if formula.MatchString(s) {
		return "'" + s
	}
	return s
}

// plainlyHarmless tells the usual text, which begins with a letter or a digit
// and has nothing that could cut it, without a pattern.
func plainlyHarmless(s string) bool {
	if s == "" {
		return true
	}
	c := s[0]
	begins := c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= '0' && c <= '9'
	return begins && !strings.ContainsAny(s, ";\t\r\n")
}
