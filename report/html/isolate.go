package html

import (
	"regexp"
	"strings"
)

// quoted is a name of the study as the sentences of a document have it.
var quoted = regexp.MustCompile(`“[^“”]*”`)

// isolated puts names that are written from right to left between isolates
// (Unicode Standard Annex #9, 2.4), so that they cannot turn the figures that
// follow them: “NAME” (7.7%) would else be shown with the figure inside the
// name. Other text stays as it is.
func isolated(s string) string {
	if !strings.ContainsFunc(s, rightToLeft) {
		return s
	}
	return quoted.ReplaceAllStringFunc(s, func(name string) string {
		if !strings.ContainsFunc(name, rightToLeft) {
			return name
		}
		return "\u2068" + name + "\u2069"
	})
}

// rightToLeft tells the marks, and the blocks of letters, that turn text: those
// where DerivedBidiClass.txt of the Unicode Character Database has R or AL by
// default. The boot script knows those of the basic plane.
func rightToLeft(r rune) bool {
	return r >= 0x590 && r <= 0x8ff || r == 0x200f || r >= 0xfb1d && r <= 0xfdff || r >= 0xfe70 && r <= 0xfeff ||
		r >= 0x10800 && r <= 0x10fff || r >= 0x1e800 && r <= 0x1efff
}
