package verify

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// isData tells whether an element holds data for a script.
func isData(n *node) bool { return n.tag == "script" && n.attr("type") == "application/json" }

// data compares two blocks of data value by value. Blocks that mean the same
// must be written the same too.
func (c *comparison) data(want, got *node) {
	before := c.total
	c.attributes(want, got)
	w, errW := decode(want.ownText())
	g, errG := decode(got.ownText())
	switch {
	case want.ownText() == got.ownText():
	case errW != nil || errG != nil:
		c.add(want, says(got.ownText(), want.ownText()))
	default:
		c.value(want, "", w, g)
		if c.total == before {
			c.add(want, "the same values are written in another way: "+says(got.ownText(), want.ownText()))
		}
	}
}

// decode reads one JSON value; numbers keep their digits.
func decode(text string) (any, error) {
	dec := json.NewDecoder(strings.NewReader(text))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		return nil, err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("more than one value")
	}
	return v, nil
}

// value compares two values at a path.
func (c *comparison) value(n *node, path string, want, got any) {
	switch w := want.(type) {
	case map[string]any:
		if g, ok := got.(map[string]any); ok {
			c.object(n, path, w, g)
			return
		}
	case []any:
		if g, ok := got.([]any); ok {
			c.array(n, path, w, g)
			return
		}
	default:
		if same(want, got) {
			return
		}
	}
	c.addData(n, path, says(written(got), written(want)))
}

func (c *comparison) object(n *node, path string, want, got map[string]any) {
	all := maps.Clone(want)
	maps.Copy(all, got)
	for _, key := range slices.Sorted(maps.Keys(all)) {
		w, inWant := want[key]
		g, inGot := got[key]
		at := strings.TrimPrefix(path+"."+key, ".")
		c.entry(n, at, w, g, inWant, inGot)
	}
}

func (c *comparison) array(n *node, path string, want, got []any) {
	for i := range max(len(want), len(got)) {
		var w, g any
		if i < len(want) {
			w = want[i]
		}
		if i < len(got) {
			g = got[i]
		}
		c.entry(n, fmt.Sprintf("%s[%d]", path, i), w, g, i < len(want), i < len(got))
	}
}

// entry compares an entry that one of two values may lack.
func (c *comparison) entry(n *node, path string, want, got any, inWant, inGot bool) {
	if inWant && inGot {
		c.value(n, path, want, got)
		return
	}
	what := "the page has " + brief(written(got)) + ", the study gives nothing there"
	if inWant {
		what = "the study gives " + brief(written(want)) + ", the page has nothing there"
	}
	c.addData(n, path, what)
}

func (c *comparison) addData(n *node, path, what string) {
	c.add(&node{tag: "@" + path, up: n}, what)
}

// same compares two values that hold no others.
func same(a, b any) bool {
	switch b.(type) {
	case map[string]any, []any:
		return false
	}
	return a == b
}

// written is a value as the page has it; a text without its quotes.
func written(v any) string {
	if s, ok := v.(string); ok {
		return s
	}
	b, err := json.Marshal(v)
	if err != nil {
		return fmt.Sprint(v)
	}
	return string(b)
}
