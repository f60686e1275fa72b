package html

import (
	"fmt"
	"strings"

	"roofyears/report"
)

// pageStyle is the style sheet of a page: the one all pages share, and what
// the paper asks for. The title stands in the margin of every printed sheet.
func pageStyle(doc *report.Document) string {
	var size string
	switch {
	case doc.Paper.Known() && doc.Wide:
		size = "size: " + string(doc.Paper) + " landscape; "
	case doc.Paper.Known():
		size = "size: " + string(doc.Paper) + "; "
	case doc.Wide:
		size = "size: landscape; "
	}
	return styleSheet + letterheadStyle(doc.Letterhead) + fmt.Sprintf("\n@page { %s@top-left { content: \"%s\"; font: 8.5pt Arial, \"Liberation Sans\", sans-serif; color: #55606a; } }\n@page :first { @top-left { content: none; } }\n",
		size, styleText(marginTitle(doc.Title)))
}

// longestMargin is how much of a title fits into the margin of a sheet.
const longestMargin = 90

func marginTitle(title string) string {
	runes := []rune(title)
	if len(runes) <= longestMargin {
		return title
	}
	return string(runes[:longestMargin-1]) + "…"
}

// styleText writes text for a string of a style sheet: every character but
// letters, digits and spaces by its number, so that none can end the string
// or the sheet.
func styleText(s string) string {
	var b strings.Builder
	for _, r := range s {
		if r == ' ' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			b.WriteRune(r)
			continue
		}
		fmt.Fprintf(&b, "\\%06x ", r) // the space ends the number
	}
	return b.String()
}
