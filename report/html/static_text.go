package html

import (
	"strings"
	"unicode"
)

// mostLetters is the length to which a text is cut before it is measured, so
// that letters without width cannot fill the page.
const mostLetters = 300

// textWidth estimates the width of text in letters of a size, on the safe
// side of the common sans-serif faces.
func textWidth(s string, size float64) float64 {
	sum := 0.0
	for _, r := range s {
		sum += letterShare(r)
	}
	return float64(sum * size * 1.04)
}

// textBox estimates the place that a text takes.
func textBox(x, y float64, at anchor, class, s string) box {
	size := nameLetter
	if class == "" {
		size = tickLetter
	}
	width := textWidth(s, size)
	switch at {
	case atMiddle:
		x -= float64(width / 2)
	case atEnd:
		x -= width
	}
	return box{x, y - float64(0.8*size), x + width, y + float64(0.25*size)}
}

// letterShare is the width of a letter as a share of its size.
func letterShare(r rune) float64 {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case r >= 0x1100:
		if r < 0x2e80 { // punctuation and signs; most of them narrow
			return narrowShare(r)
		}
		return 1
	case strings.ContainsRune(" .,:;!|'/\\ijlftI()[]-", r):
		return 0.3
	case strings.ContainsRune("W@", r):
		return 1
	case strings.ContainsRune("mwM%&", r):
		return 0.88
	case unicode.IsUpper(r):
		return 0.7
	}
	return 0.56
}

func narrowShare(r rune) float64 {
	switch r {
	case '“', '”':
		return 0.36
	case '‘', '’':
		return 0.25
	case '–':
		return 0.56
	}
	return 1
}

// oneLine makes white space and control characters single spaces and cuts
// text that no place could hold.
func oneLine(s string) string {
	letters := []rune(strings.ToValidUTF8(s, "\ufffd"))
	cut := len(letters) > mostLetters
	if cut {
		letters = letters[:mostLetters]
	}
	for i, r := range letters {
		if unicode.IsControl(r) {
			letters[i] = ' '
		}
	}
	out := strings.Join(strings.Fields(string(letters)), " ")
	if cut {
		out += "…"
	}
	return out
}

// shortened cuts text to a width, with an ellipsis where something is lost.
func shortened(s string, width, size float64) string {
	s = oneLine(s)
	if textWidth(s, size) <= width {
		return s
	}
	return strings.TrimRight(fitting(s, width-textWidth("…", size), size), " ") + "…"
}

// fitting gives the beginning of a text that fits a width.
func fitting(s string, width, size float64) string {
	for i, r := range s {
		if width -= textWidth(string(r), size); width < 0 {
			return s[:i]
		}
	}
	return s
}

// wrapped breaks text at spaces into at most so many lines of a width; a word
// that is wider is broken anywhere, and the last line is shortened.
func wrapped(s string, width float64, lines int, size float64) []string {
	var out []string
	for rest := oneLine(s); rest != ""; {
		if len(out) == lines-1 {
			return append(out, shortened(rest, width, size))
		}
		line := fitting(rest, width, size)
		if line == "" { // a place too narrow for a letter
			return append(out, "…")
		}
		if cut := strings.LastIndex(line, " "); len(line) < len(rest) && rest[len(line)] != ' ' && cut > 0 {
			line = line[:cut]
		}
		out = append(out, line)
		rest = strings.TrimLeft(rest[len(line):], " ")
	}
	return out
}
