package verify

import (
	"fmt"
	"strings"
	"unicode"
)

// Difference is a place where a page is not what its study gives.
type Difference struct {
	Place string // table "compare", row "Energy", column "Restore"
	What  string // the page says "1.20", the study gives "1.30"
}

// String gives the place and what is different there.
func (d Difference) String() string { return d.Place + ": " + d.What }

// shown is the longest text that a difference shows whole, in characters.
const shown = 64

// says tells two texts apart.
func says(page, study string) string {
	page, study = excerpts(page, study)
	return fmt.Sprintf("the page says %s, the study gives %s", page, study)
}

// excerpts cuts two texts to where they first differ, and quotes them.
func excerpts(a, b string) (string, string) {
	x, y := []rune(a), []rune(b)
	if len(x) <= shown && len(y) <= shown {
		return quoted(a), quoted(b)
	}
	at := 0
	for at < len(x) && at < len(y) && x[at] == y[at] {
		at++
	}
	return quoted(around(x, at)), quoted(around(y, at))
}

// around is the text near a place, from the beginning of a word.
func around(x []rune, at int) string {
	from, to := max(0, at-shown/2), min(len(x), at+shown/2)
	for from > 0 && from < at && x[from-1] != ' ' {
		from++
	}
	if from == at {
		from = max(0, at-shown/2)
	}
	out := string(x[from:to])
	if from > 0 {
		out = "…" + out
	}
	if to < len(x) {
		out += "…"
	}
	return out
}

// quoted quotes a text of the page, and shows what is invisible in it.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		if unicode.IsPrint(r) {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\u{%04x}`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// brief quotes the beginning of a text.
func brief(s string) string {
	if x := []rune(s); len(x) > shown {
		return quoted(string(x[:shown]) + "…")
	}
	return quoted(s)
}
