package verify

import (
	"crypto/sha256"
	"slices"
	"strconv"
	"strings"
)

// node is an element of a page, or a text when it has no tag. White space is
// that of a reader: runs of it are one space, none at the ends. Only scripts
// and style sheets keep theirs.
type node struct {
	tag   string
	attrs []attribute // by name
	text  string
	kids  []*node
	up    *node
	sum   [sha256.Size]byte // digest of all of it: equal just when the nodes are
}

type attribute struct{ name, value string }

// seal computes the digest of a node whose children are sealed.
func (n *node) seal() {
	var b []byte
	put := func(s string) { // with its length, so that no two nodes are written alike
		b = append(strconv.AppendInt(b, int64(len(s)), 10), ' ')
		b = append(b, s...)
	}
	put(n.tag)
	put(n.text)
	b = append(strconv.AppendInt(b, int64(len(n.attrs)), 10), ' ')
	for _, a := range n.attrs {
		put(a.name)
		put(a.value)
	}
	for _, k := range n.kids {
		b = append(b, k.sum[:]...)
	}
	n.sum = sha256.Sum256(b)
}

// attr is the value of an attribute; "" when it has none.
func (n *node) attr(name string) string {
	for _, a := range n.attrs {
		if a.name == name {
			return a.value
		}
	}
	return ""
}

// is tells whether an element has a class.
func (n *node) is(class string) bool {
	return slices.Contains(strings.Fields(n.attr("class")), class)
}

// ownText is the text that stands directly in an element.
func (n *node) ownText() string {
	var b strings.Builder
	for _, k := range n.kids {
		b.WriteString(k.text)
	}
	return b.String()
}

// allText is the text in an element as a reader sees it.
func (n *node) allText() string {
	if n.tag == "" {
		return n.text
	}
	var parts []string
	for _, k := range n.kids {
		if t := k.allText(); t != "" {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, " ")
}

// find gives the first element, in the order of the page, that a test holds for.
func (n *node) find(holds func(*node) bool) *node {
	if n.tag != "" && holds(n) {
		return n
	}
	for _, k := range n.kids {
		if found := k.find(holds); found != nil {
			return found
		}
	}
	return nil
}

// above is the nearest element around a node, or itself, that a test holds for.
func (n *node) above(holds func(*node) bool) *node {
	for ; n != nil; n = n.up {
		if holds(n) {
			return n
		}
	}
	return nil
}

// tagged tests for one of some tags.
func tagged(tags ...string) func(*node) bool {
	return func(n *node) bool { return slices.Contains(tags, n.tag) }
}

// place is where an element stands among those of its tag beside it, from 1.
func (n *node) place() int {
	if n.up == nil {
		return 1
	}
	count := 0
	for _, k := range n.up.kids {
		if k.tag == n.tag {
			count++
		}
		if k == n {
			break
		}
	}
	return count
}
