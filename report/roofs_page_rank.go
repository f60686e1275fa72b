package report

import (
	"cmp"
	"slices"

	"roofyears/lcc"
)

// rankedRoof is a roof with its places among the others. Roofs that are equal
// share a place, and the next one counts them all.
type rankedRoof struct {
	*Roof
	saved   int64 // by the lowest alternative against the base case, in minor units
	saves   bool  // false where there is no such figure
	rank    int   // by net savings, from 1; 0 without a figure
	sir     lcc.Measure
	sirRank int // by SIR, from 1; 0 where it is not defined
}

// rank puts the roofs in order: by net savings, the largest first; then those
// whose lowest alternative is the base case, those of studies without one, and
// those on which nothing may be chosen. Equal ones keep the order of the table.
func (t *roofsTeller) rank() []rankedRoof {
	out := make([]rankedRoof, len(t.Rows))
	for i, r := range t.Rows {
		out[i] = rankedRoof{Roof: r, sir: t.Roofs.sir(r)}
		if r.Answer.Lowest >= 0 {
			out[i].saved, out[i].saves = t.Roofs.saved(r, r.Answer.Lowest)
		}
	}
	places(out, func(r *rankedRoof) *int { return &r.sirRank },
		func(r *rankedRoof) bool { return r.sir.Defined() },
		func(a, b *rankedRoof) int { return b.sir.Value.Cmp(a.sir.Value) })
	places(out, func(r *rankedRoof) *int { return &r.rank },
		func(r *rankedRoof) bool { return r.saves },
		func(a, b *rankedRoof) int { return cmp.Compare(b.saved, a.saved) })
	slices.SortStableFunc(out, func(a, b rankedRoof) int {
		if by := cmp.Compare(t.standing(&a), t.standing(&b)); by != 0 {
			return by
		}
		return cmp.Compare(a.rank, b.rank)
	})
	return out
}

// places gives those that have a figure their place, from 1.
func places(roofs []rankedRoof, place func(*rankedRoof) *int, has func(*rankedRoof) bool, order func(a, b *rankedRoof) int) {
	var those []*rankedRoof
	for i := range roofs {
		if has(&roofs[i]) {
			those = append(those, &roofs[i])
		}
	}
	slices.SortStableFunc(those, order)
	for i, r := range those {
		*place(r) = i + 1
		if i > 0 && order(those[i-1], r) == 0 {
			*place(r) = *place(those[i-1])
		}
	}
}

// How a roof's lowest alternative stands to its base case.
const (
	savesSomething = iota // it is compared with it
	keepsBase             // it is the base case
	withoutBase           // there is no base case
	nothingToDo           // nothing may be chosen
)

func (t *roofsTeller) standing(r *rankedRoof) int {
	switch {
	case r.Answer.Lowest < 0:
		return nothingToDo
	case r.saves:
		return savesSomething
	case t.Roofs.bases[r.Template] >= 0:
		return keepsBase
	}
	return withoutBase
}

// count counts the roofs of which something holds.
func (t *roofsTeller) count(holds func(*rankedRoof) bool) int {
	n := 0
	for i := range t.ranked {
		if holds(&t.ranked[i]) {
			n++
		}
	}
	return n
}

// standings counts the roofs of each standing.
func (t *roofsTeller) standings() (out [nothingToDo + 1]int) {
	for i := range t.ranked {
		out[t.standing(&t.ranked[i])]++
	}
	return out
}
