package verify

import "fmt"

// comparison collects the differences of two pages.
type comparison struct {
	found []Difference // the first of them
	total int          // all of them
}

// maxNamed is how many differences are named; the others are counted.
const maxNamed = 1000

func (c *comparison) add(n *node, what string) {
	if c.total++; len(c.found) < maxNamed {
		c.found = append(c.found, Difference{placeOf(n), what})
	}
}

// node compares what the study gives with what stands in its place. Nodes
// with one digest are equal; all others leave a difference.
func (c *comparison) node(want, got *node) {
	if want.sum == got.sum {
		return
	}
	before := c.total
	switch {
	case want.tag != got.tag:
		c.add(want, fmt.Sprintf("the page has %s, the study gives %s", kind(got), kind(want)))
	case want.tag == "":
		c.add(want, says(got.text, want.text))
	case isData(want) && isData(got):
		c.data(want, got)
	default:
		c.attributes(want, got)
		c.children(want, got)
	}
	if c.total == before { // never: but no difference may be lost
		c.add(want, "the page is not what the study gives")
	}
}

// attributes compares the attributes of two elements, both by name.
func (c *comparison) attributes(want, got *node) {
	for _, name := range names(want, got) {
		w, g := values(want, name), values(got, name)
		if w == g {
			continue
		}
		n := &node{tag: "@" + name, up: want}
		c.add(n, says(g, w))
	}
}

// names are the names of the attributes of either element, each once.
func names(a, b *node) []string {
	var out []string
	seen := map[string]bool{}
	for _, n := range []*node{a, b} {
		for _, x := range n.attrs {
			if !seen[x.name] {
				seen[x.name] = true
				out = append(out, x.name)
			}
		}
	}
	return out
}

// values are the values an element has under a name, which may be said twice.
func values(n *node, name string) string {
	out, times := "", 0
	for _, a := range n.attrs {
		if a.name == name {
			if times++; times > 1 {
				out += " and "
			}
			out += a.value
		}
	}
	if times == 0 {
		return "(none)"
	}
	return out
}

// children compares what is in two elements.
func (c *comparison) children(want, got *node) {
	pairs := align(want.kids, got.kids)
	moved := movedAway(pairs)
	for _, p := range pairs {
		switch {
		case p.got == nil && moved[p.want.sum]:
			c.add(p.want, "it stands in another place than the study gives it")
		case p.got == nil:
			c.add(p.want, "the study gives "+content(p.want)+", the page has nothing there")
		case p.want == nil && moved[p.got.sum]: // told where it is missing
		case p.want == nil:
			c.add(p.got, "the page has "+content(p.got)+", the study gives nothing there")
		default:
			c.node(p.want, p.got)
		}
	}
}

// content says what is in a node that the other page lacks.
func content(n *node) string {
	if text := n.allText(); text != "" {
		return brief(text)
	}
	return kind(n)
}

// kind says what a node is.
func kind(n *node) string {
	if n.tag == "" {
		return "the text " + brief(n.text)
	}
	return "an element " + quoted(n.tag)
}
