package verify

import (
	"slices"
	"strings"

	markup "golang.org/x/net/html"

	"roofyears/report/html"
)

// A browser that saves a page writes what it has made of it. This file says
// which of those changes are no difference; a script of the page that changes
// more of it needs its line here.

// asWritten gives an attribute as the program writes it, or says that it is a
// browser's or a script's own.
func asWritten(n *markup.Node, name, value string) (string, bool) {
	switch {
	case n.Data == "details" && (name == "open" || name == "data-opened"), // opened by the reader, or for paper
		hasWord(n, "class", "plot") && (name == "style" || name == "_echarts_instance_"), // the place of a chart
		n.Data == "button" && name == "hidden" && valueOf(n, "id") == html.SaveID:        // shown by its script
		return "", false
	case name == "class" && hasWord(n, "class", "plot"):
		return without(value, "live")
	case name == "class" && n.Data == "html":
		return without(value, "printing")
	case name == "href" && n.Data == "a":
		return inPage(value), true
	}
	return value, true
}

// without takes a word that a script adds out of a class; a class without
// words is none.
func without(class, word string) (string, bool) {
	words := slices.DeleteFunc(strings.Fields(class), func(w string) bool { return w == word })
	return strings.Join(words, " "), len(words) > 0
}

// inPage is a link within the page as it was written: a browser may save it
// with the name of the file before it.
func inPage(href string) string {
	if at := strings.LastIndexByte(href, '#'); at > 0 && strings.HasPrefix(href, "file:") {
		return href[at:]
	}
	return href
}

// oneEncoding makes the two ways to say UTF-8 one: browsers write the other.
func oneEncoding(head *node) {
	said := false
	head.kids = slices.DeleteFunc(head.kids, func(n *node) bool {
		old := strings.EqualFold(n.attr("http-equiv"), "content-type") &&
			strings.EqualFold(strings.ReplaceAll(n.attr("content"), " ", ""), "text/html;charset=utf-8")
		is := n.tag == "meta" && (old || strings.EqualFold(n.attr("charset"), "utf-8"))
		said = said || is
		return is
	})
	if said {
		n := &node{tag: "meta", attrs: []attribute{{"charset", "utf-8"}}, up: head}
		n.seal()
		head.kids = slices.Insert(head.kids, 0, n)
	}
}

// drawingTags are the elements of a picture that the chart library draws.
var drawingTags = []string{"svg", "g", "path", "text", "tspan", "rect", "circle", "ellipse", "line", "polyline", "polygon",
	"defs", "clipPath", "pattern", "linearGradient", "radialGradient", "stop", "style", "image"}

// isDrawing tells a picture that the chart library has drawn in its place:
// a box with a picture and nothing else, alone in its place. What the picture
// shows is not compared; the style sheet keeps it within that place.
func isDrawing(up *node, n *markup.Node) bool {
	if !up.is("plot") || n.Data != "div" || n.FirstChild == nil || hasNeighbour(n) || !onlyStyled(n) {
		return false
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Data != "svg" || !drawingOnly(c) {
			return false
		}
	}
	return true
}

// hasNeighbour tells whether another element stands beside an element.
func hasNeighbour(n *markup.Node) bool {
	for c := n.Parent.FirstChild; c != nil; c = c.NextSibling {
		if c != n && c.Type == markup.ElementNode {
			return true
		}
	}
	return false
}

// onlyStyled tells whether an element has no attribute but a style, which the
// page's policy leaves without effect.
func onlyStyled(n *markup.Node) bool {
	return !slices.ContainsFunc(n.Attr, func(a markup.Attribute) bool { return a.Key != "style" })
}

// drawingOnly tells whether nothing but a picture is in an element.
func drawingOnly(n *markup.Node) bool {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == markup.ElementNode && !(slices.Contains(drawingTags, c.Data) && drawingOnly(c)) {
			return false
		}
	}
	return true
}

// drawnOver makes the place of a chart what the script of the page leaves of
// it when it has drawn the chart.
func drawnOver(plot *node) {
	plot.kids = slices.DeleteFunc(plot.kids, isStill)
	plot.attrs = slices.DeleteFunc(plot.attrs, func(a attribute) bool { return a.name == "tabindex" })
}

// isStill tells the picture of a chart that a page comes with.
func isStill(n *node) bool { return n.is("static") && strings.HasPrefix(n.tag, "svg") }

// valueOf is the value of an attribute; "" when it has none.
func valueOf(n *markup.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func hasWord(n *markup.Node, name, word string) bool {
	return slices.Contains(strings.Fields(valueOf(n, name)), word)
}
