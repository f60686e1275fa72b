package scenarios

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"
)

// This file and own.go alone know the YAML library. They take raw text from it,
// never a number: see number.go.

const (
	maxDepth   = 100     // levels of nesting
	maxAliased = 100_000 // nodes that the aliases of one file repeat
	maxJoined  = 20      // commas in a text in braces without quotes
)

// parser turns YAML nodes into nodes of our own.
type parser struct {
	fail    func(place, message)
	anchors map[*yaml.Node]*node // what an alias may repeat
	sizes   map[*yaml.Node]int   // nodes in it; 0 when it holds an alias
	aliased int
}

// parse gives the tree of a text; nil when it is not one YAML document.
func parse(text string, fail func(place, message)) *node {
	first, err := load(text)
	switch {
	case errors.Is(err, io.EOF):
		fail(place{1, 1}, emptyFile())
		return nil
	case err != nil:
		at, m := syntaxError(err, text)
		fail(at, m)
		return nil
	}
	p := parser{fail: fail, anchors: map[*yaml.Node]*node{}, sizes: map[*yaml.Node]int{}}
	return p.node(first.Content[0])
}

// errSecond is told at the line of a second document.
type errSecond struct{ line int }

func (errSecond) Error() string { return "second document" }

// load reads the only document. The library is young, so a panic inside it is
// caught here and told as text that cannot be read.
func load(text string) (doc *yaml.Node, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%v", p)
		}
	}()
	l, err := yaml.NewLoader(strings.NewReader(text), yaml.WithV4Defaults(),
		yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(maxDepth))))
	if err != nil {
		return nil, err
	}
	var first, second yaml.Node
	if err := l.Load(&first); err != nil {
		return nil, err
	}
	switch err := l.Load(&second); {
	case err == nil:
		return nil, errSecond{second.Line}
	case !errors.Is(err, io.EOF):
		return nil, err
	}
	return &first, nil
}

// syntaxError puts the library's finding into our words, at the better of the
// two places it knows.
func syntaxError(err error, text string) (place, message) {
	var second errSecond
	if errors.As(err, &second) {
		return place{second.line, 1}, secondDocument()
	}
	var e *yaml.LoadError
	if !errors.As(err, &e) {
		return place{1, 1}, notYAML(err.Error())
	}
	found, opened := place{e.Mark.Line, e.Mark.Column}, place{e.ContextMark.Line, e.ContextMark.Column}
	m, useOpened := syntaxMessage(e.Message, found, characterAt(text, found))
	if opened.line > 0 && (useOpened || found.line > strings.Count(text, "\n")) {
		return opened, m
	}
	return found, m
}

// characterAt is the character at a place; 0 where there is none.
func characterAt(text string, at place) rune {
	lines := splitLines(text)
	if at.line < 1 || at.line > len(lines) {
		return 0
	}
	for i, c := range []rune(lines[at.line-1]) {
		if i == at.col-1 {
			return c
		}
	}
	return 0
}

// node converts a node and everything in it.
func (p *parser) node(y *yaml.Node) *node {
	n := &node{place: place{y.Line, y.Column}}
	if y.Style&yaml.TaggedStyle != 0 {
		p.fail(n.place, tagged(y.Tag))
		n.shape = broken
		return n
	}
	switch y.Kind {
	case yaml.AliasNode:
		return p.alias(y)
	case yaml.MappingNode:
		n.shape, n.braces = mapping, y.Style&yaml.FlowStyle != 0
		p.mapping(n, y)
	case yaml.SequenceNode:
		n.shape = list
		for _, entry := range y.Content {
			n.values = append(n.values, p.node(entry))
		}
	default:
		n.text = y.Value
		n.plain = y.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0
		if n.plain && y.ShortTag() == "!!null" {
			n.shape = null
		}
	}
	if y.Anchor != "" {
		p.anchors[y] = n
	}
	return n
}

// mapping converts keys and values, and tells keys that cannot stand.
func (p *parser) mapping(n *node, y *yaml.Node) {
	first := map[string]place{}
	var open *node // plain text in braces, which a comma may have cut
	for i := 0; i+1 < len(y.Content); i += 2 {
		k := y.Content[i]
		at := place{k.Line, k.Column}
		if open != nil && open.joined < maxJoined && continues(k, y.Content[i+1]) {
			open.text += ", " + k.Value
			open.joined++
			continue
		}
		value := p.node(y.Content[i+1])
		open = nil
		switch before, twice := first[k.Value]; {
		case k.Kind != yaml.ScalarNode || k.Style&yaml.TaggedStyle != 0:
			p.fail(at, keyNotText())
		case k.ShortTag() == "!!merge":
			p.fail(at, mergeKey())
		case twice:
			p.fail(at, duplicateKey(k.Value, before.line))
		default:
			first[k.Value] = at
			n.keys = append(n.keys, &node{place: at, text: k.Value, plain: true})
			n.values = append(n.values, value)
			if n.braces && value.shape == scalar && plain(y.Content[i+1]) {
				open = value
			}
		}
	}
}

// plain tells a scalar without quotes, tag or anchor.
func plain(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && y.Style == 0 && y.Anchor == ""
}

// continues tells whether an entry in braces goes on with the text before it,
// as people write {item: Clean, treat rust, amount: 5}. YAML sees a key
// without colon and value. It is text when several words stand there and the
// first of them is no key of ours, so that no forgotten colon is swallowed;
// the value it goes on with must be plain text too. It is told as a warning.
func continues(key, value *yaml.Node) bool {
	word, _, several := strings.Cut(key.Value, " ")
	return plain(key) && plain(value) && several && !expectedInBraces(word) &&
		value.Value == "" && value.Line == key.Line && value.Column == key.Column+utf8.RuneCountInString(key.Value)
}

// expectedInBraces tells a key that is written in braces beside plain text.
// Those of a letterhead, of findings, a survey and a take-off are words that texts go on
// with, as in {item: Clean, rust primer, amount: 5}.
func expectedInBraces(word string) bool {
	if word == "tax" { // at the top of the file only; elsewhere a word of costs
		return false
	}
	home := homeOf(word)
	first := slices.IndexFunc(homes, func(h sectionHome) bool { return h.where == underLetterhead })
	return home != "" && !slices.ContainsFunc(homes[first:], func(h sectionHome) bool { return h.where == home })
}

// alias gives what an alias repeats. Aliases inside repeated content are
// refused, and what all aliases repeat is limited: so reading stays linear.
func (p *parser) alias(y *yaml.Node) *node {
	at := place{y.Line, y.Column}
	size, known := p.sizes[y.Alias]
	if !known {
		size = measureNode(y.Alias)
		p.sizes[y.Alias] = size
	}
	target := p.anchors[y.Alias]
	if size == 0 || target == nil {
		p.fail(at, nestedAlias(y.Value))
		return &node{place: at, shape: broken}
	}
	over := p.aliased > maxAliased
	p.aliased += size
	if p.aliased > maxAliased {
		if !over {
			p.fail(at, aliasesTooLong(maxAliased))
		}
		return &node{place: at, shape: broken}
	}
	return target
}

// measureNode counts the nodes of a tree; 0 when it holds an alias.
func measureNode(y *yaml.Node) int {
	if y.Kind == yaml.AliasNode {
		return 0
	}
	size := 1
	for _, child := range y.Content {
		s := measureNode(child)
		if s == 0 {
			return 0
		}
		size += s
	}
	return size
}
