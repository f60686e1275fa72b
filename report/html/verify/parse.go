package verify

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"

	markup "golang.org/x/net/html"
)

// reading is the reading of one page, as a browser reads it, but without what
// a browser changes when it saves one.
type reading struct {
	live  map[string]bool // charts that a browser has drawn in the page to be compared
	drawn []string        // the charts whose pictures this page has
}

// parse reads a whole page.
func (r *reading) parse(page []byte) (*node, error) {
	doc, err := markup.Parse(bytes.NewReader(page))
	if err != nil {
		return nil, fmt.Errorf("it cannot be read as a page: %w", err)
	}
	root := &node{tag: "page"}
	r.children(root, doc)
	root.seal()
	return root, nil
}

// children reads what is in an element.
func (r *reading) children(to *node, from *markup.Node) {
	for c := from.FirstChild; c != nil; c = c.NextSibling {
		if k := r.node(to, c); k != nil {
			to.kids = append(to.kids, k)
		}
	}
	if to.tag == "head" {
		oneEncoding(to)
	}
}

// node reads an element or a text; nil when there is nothing to compare.
func (r *reading) node(up *node, from *markup.Node) *node {
	n := &node{up: up}
	switch from.Type {
	case markup.TextNode:
		if n.text = visible(up.tag, from.Data); n.text == "" {
			return nil
		}
	case markup.ElementNode:
		if isDrawing(up, from) {
			r.drawn = append(r.drawn, up.attr("data-chart"))
			return nil
		}
		n.tag = from.Data
		if from.Namespace != "" && from.Data != from.Namespace {
			n.tag = from.Namespace + ":" + from.Data
		}
		n.attrs = attributes(from)
		r.children(n, from)
		if r.live[n.attr("data-chart")] {
			drawnOver(n)
		}
	default: // comments and the document type are not shown
		return nil
	}
	n.seal()
	return n
}

// visible is a text with its white space as a reader sees it. No-break spaces
// are no white space here: they are part of what is written.
func visible(within, text string) string {
	if within == "script" || within == "style" {
		return text
	}
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\n\f\r", r) }), " ")
}

// attributes are those of an element that a page comes with, by name.
func attributes(from *markup.Node) []attribute {
	var out []attribute
	for _, a := range from.Attr {
		name := a.Key
		if a.Namespace != "" {
			name = a.Namespace + ":" + a.Key
		}
		if value, kept := asWritten(from, name, a.Val); kept {
			out = append(out, attribute{name, value})
		}
	}
	slices.SortStableFunc(out, func(a, b attribute) int { return cmp.Compare(a.name, b.name) })
	return out
}
