package scenarios

// place is where something stands in a file: line and column, both from 1,
// columns counted in characters. Zero is no place.
type place struct{ line, col int }

// shape is what a node is.
type shape uint8

const (
	scalar  shape = iota
	mapping       // keys and values
	list          // values
	null          // no value
	broken        // already told as an error: whoever meets it says nothing
)

// node is a value in a file. A node that an alias repeats is shared, so nodes
// are not changed once the file is parsed.
type node struct {
	shape shape
	place
	text   string  // scalar: the raw text, without quotes
	plain  bool    // scalar: written without quotes
	braces bool    // mapping: written as {…}
	joined int     // scalar: commas in a text in braces; see continues
	keys   []*node // mapping: scalars, each once
	values []*node // mapping: one for each key; list: its entries
}
