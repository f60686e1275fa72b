package lcc

import (
	"slices"

	"github.com/shopspring/decimal"
)

// Interval is a stretch of an input's values in which an alternative costs
// least. An end that is no end of the range looked at is a tie with a rival.
type Interval struct {
	From, To       decimal.Decimal
	FromTie, ToTie *Tie // nil at an end of the range
}

// Hold says for which values of one input an alternative costs least of
// itself and some rivals, the other inputs held.
type Hold struct {
	In        Ref
	Low, High decimal.Decimal // the range looked at
	Ties      []Tie           // at which a rival passes the alternative, or the reverse, in order
	Within    []Interval      // in order; none where it never costs least
}

// Always tells whether the alternative costs least in the whole range.
func (h *Hold) Always() bool {
	return len(h.Within) == 1 && h.Within[0].FromTie == nil && h.Within[0].ToTie == nil
}

// Hold finds where an alternative costs least of itself and its rivals as an
// input goes from low to high.
func (r *Result) Hold(in Ref, alternative int, rivals []int, low, high decimal.Decimal) (Hold, error) {
	h := Hold{In: in, Low: low, High: high}
	for _, rival := range rivals {
		ties, err := r.Ties(in, min(alternative, rival), max(alternative, rival), low, high)
		if err != nil {
			return h, err
		}
		for _, tie := range ties {
			if tie.Crosses() {
				h.Ties = append(h.Ties, tie)
			}
		}
	}
	slices.SortStableFunc(h.Ties, func(x, y Tie) int { return x.At.Cmp(y.At) })
	h.within(r, alternative, rivals)
	return h, nil
}

// within finds the stretches by the rivals that are cheaper: known at the
// result's own value, and changed by one at every tie.
func (h *Hold) within(r *Result, alternative int, rivals []int) {
	cheaper := map[int]bool{}
	for _, rival := range rivals {
		cheaper[rival] = r.Difference(rival, alternative).IsNegative()
	}
	for i := len(h.Ties) - 1; i >= 0; i-- { // back from the result's own value to Low
		if tie := &h.Ties[i]; tie.At.LessThan(r.Inputs[h.In]) {
			cheaper[tie.A+tie.B-alternative] = tie.Below != alternative
		}
	}
	least := func() bool {
		for _, is := range cheaper {
			if is {
				return false
			}
		}
		return true
	}
	var open *Interval
	if least() {
		open = &Interval{From: h.Low}
	}
	for i := range h.Ties {
		tie := &h.Ties[i]
		cheaper[tie.A+tie.B-alternative] = tie.Above != alternative
		switch now := least(); {
		case open != nil && !now:
			open.To, open.ToTie = tie.At, tie
			h.Within = append(h.Within, *open)
			open = nil
		case open == nil && now:
			open = &Interval{From: tie.At, FromTie: tie}
		}
	}
	if open != nil {
		open.To = h.High
		h.Within = append(h.Within, *open)
	}
}
