package scenarios

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// decode takes off a UTF-8 byte order mark and checks that the rest is text
// that YAML and an editor see alike. It tells the first place that is not.
func decode(text []byte) (clean string, at place, m message, ok bool) {
	start := place{line: 1, col: 1}
	if len(text) > MaxSize {
		return "", start, tooLarge(), false
	}
	for _, mark := range []string{"\xff\xfe", "\xfe\xff", "\x00\x00\xfe\xff"} {
		if bytes.HasPrefix(text, []byte(mark)) {
			return "", start, otherEncoding(), false
		}
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	at = start
	for i := 0; i < len(text); {
		c, size := utf8.DecodeRune(text[i:])
		switch {
		case c == utf8.RuneError && size == 1:
			return "", at, notUTF8(text[i]), false
		case unwanted(c):
			return "", at, unwantedCharacter(c), false
		}
		at.col++
		if c == '\n' || c == '\r' && !bytes.HasPrefix(text[i+size:], []byte("\n")) {
			at = place{line: at.line + 1, col: 1}
		}
		i += size
	}
	return string(text), place{}, message{}, true
}

// unwanted tells characters that YAML forbids, and those that end a line for
// YAML but not for an editor, so that line numbers would differ.
func unwanted(c rune) bool {
	switch c {
	case '\t', '\n', '\r':
		return false
	case '\u2028', '\u2029', '\ufeff', '\ufffe', '\uffff':
		return true
	}
	return unicode.IsControl(c)
}

// hidden tells characters that have no business in one line of text: controls,
// line ends, and those that turn the direction of what follows.
func hidden(c rune) bool {
	return unicode.IsControl(c) || c == '\u2028' || c == '\u2029' ||
		c >= '\u202a' && c <= '\u202e' || c >= '\u2066' && c <= '\u2069'
}
