package eligibility

// Known is a finding that may be missing. The zero value is "not known", which
// is neither yes nor no, and no number either.
type Known[T any] struct {
	value  T
	source string
	known  bool
}

// Found is a finding with where it comes from, such as "roof survey
// 2026-06-18"; the source may be "" when none is given.
func Found[T any](value T, source string) Known[T] {
	return Known[T]{value: value, source: source, known: true}
}

// Get gives the finding, and whether there is one; without one the value is
// the zero value and means nothing.
func (k Known[T]) Get() (T, bool) { return k.value, k.known }

// IsKnown tells whether there is a finding.
func (k Known[T]) IsKnown() bool { return k.known }

// Source is where the finding comes from; "" when it is not known or has none.
func (k Known[T]) Source() string { return k.source }

// yes tells whether it is known to be so.
func yes(k Known[bool]) bool { return k.known && k.value }

// no tells whether it is known not to be so.
func no(k Known[bool]) bool { return k.known && !k.value }
