package verify

import (
	"fmt"
	"strings"

	"roofyears/report/html"
)

// placeOf says where a node stands, in words of the page and not of its code:
// table "compare", row "Energy", column "Restore".
func placeOf(n *node) string {
	if name, is := strings.CutPrefix(n.tag, "@"); is {
		if isData(n.up) && n.up.attr(name) == "" {
			return placeOf(n.up) + ", " + name
		}
		return placeOf(n.up) + ", attribute " + quoted(name)
	}
	if n.tag == "" && n.up != nil {
		n = n.up
	}
	if place := headPlace(n); place != "" {
		return place
	}
	if t := n.above(tagged("table")); t != nil { // its id is unique
		return strings.Join(append([]string{part(t)}, cellPlace(t, n)...), ", ")
	}
	parts := partsAround(n)
	if name := own(n); name != "" {
		parts = append(parts, name)
	}
	return strings.Join(parts, ", ")
}

// partsAround names the parts of the page that a node stands in.
func partsAround(n *node) []string {
	var parts []string
	for up := n; up != nil; up = up.up {
		if name := part(up); name != "" {
			parts = append([]string{name}, parts...)
		}
		if up.tag == "section" {
			break
		}
	}
	return parts
}

// part names a large part of a page; "" for other elements.
func part(n *node) string {
	switch n.tag {
	case "section":
		return "section " + quoted(n.attr("id"))
	case "div":
		if n.attr("id") == html.LetterheadID {
			return "letterhead"
		}
	case "header":
		return "head of the page"
	case "footer":
		return "foot of the page"
	case "head":
		return "what the page says of itself"
	case "figure":
		return "chart " + quoted(strings.TrimPrefix(n.attr("id"), "fig-"))
	case "details":
		return "fold " + quoted(n.attr("id"))
	case "table":
		return "table " + quoted(n.attr("id"))
	}
	return ""
}

// nouns are what readers call elements.
var nouns = map[string]string{
	"p": "paragraph", "li": "item", "ul": "list", "ol": "list", "h1": "heading", "h2": "heading", "h3": "heading", "summary": "its heading",
	"dt": "fact", "dd": "fact", "dl": "facts", "figcaption": "caption", "a": "link", "button": "button", "img": "picture",
	"svg": "drawing", "svg:text": "text of the drawing", "svg:title": "name in the drawing", "svg:g": "group of the drawing",
	"svg:rect": "bar of the drawing", "svg:line": "line of the drawing", "svg:path": "line of the drawing",
}

// own names an element among those around it; "" for a part of the page.
func own(n *node) string {
	if part(n) != "" {
		return ""
	}
	noun, known := nouns[n.tag]
	switch {
	case !known:
		noun = "element " + quoted(strings.TrimPrefix(n.tag, "svg:"))
	case n.tag == "dd":
		return noun + " " + quoted(factLabel(n))
	}
	if id := n.attr("id"); id != "" {
		return noun + " " + quoted(id)
	}
	if n.place() > 1 {
		return fmt.Sprintf("%s %d", noun, n.place())
	}
	return noun
}

// factLabel is the label of a fact at the head of the page.
func factLabel(dd *node) string {
	label := ""
	for _, k := range dd.up.kids {
		if k == dd {
			break
		}
		if k.tag == "dt" {
			label = k.allText()
		}
	}
	return label
}
