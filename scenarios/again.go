package scenarios

import (
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Weighed tells whether the reader looks at an input besides for arithmetic: at
// shares that may not be more than the whole, at a film that may not be worn,
// at a finding that a rule asks for. A file with another value there has to be
// read again, see With.
func (f *File) Weighed(in lcc.Ref) bool {
	path := f.Study.Inputs[in].Path
	switch {
	case strings.HasPrefix(path, "survey."), strings.Contains(path, ".from_film."), strings.Contains(path, ".cool_roof."):
		return true
	case strings.HasPrefix(path, "takeoff."):
		return strings.HasSuffix(path, ".film")
	case in == f.Study.Area:
		return slices.ContainsFunc(f.Study.Inputs, func(i lcc.Input) bool { return strings.HasPrefix(i.Path, "survey.") })
	}
	return false
}

// With reads the file again, with these numbers in place of what it says at
// inputs that are Settable: verdicts of rules and refusals are those of a file
// that is written so. It gives nil when a diagnostic is an error; places are
// those of the file as it is.
func (f *File) With(values map[lcc.Ref]decimal.Decimal) (*File, []Diagnostic) {
	root := f.root
	for in, v := range values {
		root = replaced(root, steps(f.Study.Inputs[in].Path), f.written(in, v))
	}
	r := newReader(f.Source)
	r.open = nil // no row has a logo
	return r.file(f.Source, root)
}

// written is a number as the file would have it at an input.
func (f *File) written(in lcc.Ref, v decimal.Decimal) string {
	k := f.kinds[in]
	// A number that was converted may have more digits than a file may.
	if beyond := int32(v.NumDigits()) - maxDigits; beyond > 0 {
		v = v.Round(-v.Exponent() - beyond)
	}
	switch own := f.Study.Inputs[in].UnitText; {
	case k.unit == lcc.Rate || k.share:
		return v.Shift(2).String() + "%"
	case len(k.units) == 1 && k.units[0] == "":
		return v.String()
	default:
		return strings.TrimSpace(v.String() + " " + own)
	}
}

// steps takes a path apart: keys, and entries of lists as numbers from 1.
func steps(path string) []string {
	return strings.FieldsFunc(path, func(c rune) bool { return c == '.' || c == '[' || c == ']' })
}

// replaced is a node with another scalar at a path; what does not lie on the
// path is shared.
func replaced(n *node, path []string, text string) *node {
	if len(path) == 0 {
		return &node{shape: scalar, place: n.place, text: text, plain: true}
	}
	at := -1
	switch n.shape {
	case mapping:
		at = slices.IndexFunc(n.keys, func(key *node) bool { return key.text == path[0] })
	case list:
		i, err := strconv.Atoi(path[0])
		if at = i - 1; err != nil || at >= len(n.values) {
			at = -1
		}
	}
	if at < 0 {
		return n
	}
	out := *n
	out.values = slices.Clone(n.values)
	out.values[at] = replaced(n.values[at], path[1:], text)
	return &out
}
