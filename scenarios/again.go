package scenarios

import (
	"errors"
	"maps"
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

// Finding tells whether a path is that of a finding, a text or a number of the
// findings section that rules are put to. The error says why a cell cannot
// stand for it: the file has no such section, or it is a list.
func (f *File) Finding(path string) (bool, error) {
	if !slices.Contains(f.FindingPaths(), path) {
		return false, nil
	}
	if f.root == nil || !slices.ContainsFunc(f.root.keys, func(key *node) bool { return key.text == inTheFile }) {
		return true, errors.New("is a finding, but the template has no findings, so that no rule is put to it; write the section there first")
	}
	return true, nil
}

// inTheFile is the key of the findings section.
const inTheFile = "findings"

// FindingPaths are the paths of all findings that are one text or number.
func (f *File) FindingPaths() []string {
	var out []string
	for _, key := range findingKeys {
		switch path := inTheFile + "." + key; key {
		case "adhesion_tests": // a list
		case "wet_limit": // what else is said of it stays
			out = append(out, path+".share")
		case "rust":
			for _, grade := range rustShareKeys[:3] {
				out = append(out, path+"."+grade)
			}
		default:
			out = append(out, path)
		}
	}
	return out
}

// FindingIsNumber tells whether the finding of a path is a number with a
// decimal mark, and no word.
func FindingIsNumber(path string) bool {
	switch key := strings.TrimPrefix(path, inTheFile+"."); key {
	case "wet_share", "wet_limit.share", "ponding_share", "load_reserve":
		return true
	default:
		return strings.HasPrefix(key, "rust.")
	}
}

// With reads the file again, with these numbers in place of what it says at
// inputs that are Settable, and these texts at paths of findings: verdicts of
// rules and refusals are those of a file that is written so. It gives nil when
// a diagnostic is an error; places are those of the file as it is.
func (f *File) With(values map[lcc.Ref]decimal.Decimal, findings map[string]string) (*File, []Diagnostic) {
	r := newReader(f.Source)
	r.open = nil // no row has a logo
	return r.file(f.Source, f.with(values, findings))
}

// with is what the file says, with other numbers and texts in it. What is given
// a number is certain, so that nothing moves with it any more.
func (f *File) with(values map[lcc.Ref]decimal.Decimal, findings map[string]string) *node {
	root := f.root
	for i := range f.Study.Inputs {
		in := &f.Study.Inputs[i]
		if in.Moves == nil {
			continue
		}
		_, certain := values[in.Moves.With]
		if _, own := values[lcc.Ref(i)]; certain && !own {
			root = without(root, steps(in.Path), movesKeys)
		}
	}
	for in, v := range values {
		root = replaced(root, steps(f.Study.Inputs[in].Path), f.written(in, v))
	}
	for _, path := range slices.Sorted(maps.Keys(findings)) { // in one order, as keys may be new
		root = replaced(root, steps(path), findings[path])
	}
	return root
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

// without is a node with some keys left out of the mapping at a path; what does
// not lie on the path is shared.
func without(n *node, path, keys []string) *node {
	out := *n
	if len(path) > 0 {
		at := n.child(path[0])
		if at < 0 {
			return n
		}
		out.values = slices.Clone(n.values)
		out.values[at] = without(n.values[at], path[1:], keys)
		return &out
	}
	out.keys, out.values = nil, nil
	for i, key := range n.keys {
		if !slices.Contains(keys, key.text) {
			out.keys, out.values = append(out.keys, key), append(out.values, n.values[i])
		}
	}
	return &out
}

// child is the place of a key, or of an entry counted from 1; −1 when there is
// none.
func (n *node) child(step string) int {
	switch n.shape {
	case mapping:
		return slices.IndexFunc(n.keys, func(key *node) bool { return key.text == step })
	case list:
		if i, err := strconv.Atoi(step); err == nil && i <= len(n.values) {
			return i - 1
		}
	}
	return -1
}

// replaced is a node with another scalar at a path, of whose keys the last may
// be new; what does not lie on the path is shared.
func replaced(n *node, path []string, text string) *node {
	if len(path) == 0 {
		return &node{shape: scalar, place: n.place, text: text, plain: true}
	}
	at := n.child(path[0])
	out := *n
	if at < 0 {
		out.shape = mapping // what stands there says nothing of the parts
		if n.shape != mapping {
			out.keys, out.values = nil, nil
		}
		out.keys = append(slices.Clip(out.keys), &node{place: n.place, text: path[0], plain: true})
		out.values = append(slices.Clip(out.values), replaced(&node{place: n.place}, path[1:], text))
		return &out
	}
	out.values = slices.Clone(n.values)
	out.values[at] = replaced(n.values[at], path[1:], text)
	return &out
}
