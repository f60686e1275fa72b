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
	Rivals    []int           // indices of the rivals
	Low, High decimal.Decimal // the range looked at: what was asked, to where the study is refused
	LowEdge   Edge            // of Low
	HighEdge  Edge            // of High
	Ties      []Tie           // at which a rival passes the alternative, or the reverse, in order
	Within    []Interval      // in order; none where it never costs least
}

// Always tells whether the alternative costs least in the whole range.
func (h *Hold) Always() bool {
	return len(h.Within) == 1 && h.Within[0].FromTie == nil && h.Within[0].ToTie == nil
}

// Hold does one search; see TieSearch.Hold.
func (r *Result) Hold(in Ref, alternative int, rivals []int, low, high decimal.Decimal) (Hold, error) {
	t, err := r.TieSearch()
	if err != nil {
		return Hold{}, err
	}
	return t.Hold(in, alternative, rivals, low, high)
}

// Hold finds where an alternative costs least of itself and its rivals as an
// input goes from low to high. It fails where Ties does.
func (t *TieSearch) Hold(in Ref, alternative int, rivals []int, low, high decimal.Decimal) (Hold, error) {
	r := t.r
	h := Hold{In: in, Rivals: rivals, Low: low, High: high}
	for _, rival := range rivals {
		ties, err := t.Ties(in, min(alternative, rival), max(alternative, rival), low, high)
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
	p := t.probe(in, alternative, alternative)
	defer p.leave()
	middle := h.look(p)
	h.within(alternative, rivals, func(rival int) bool {
		if in == r.Study.Rate { // by the ledgers, as the ties of rates are
			return r.difference(alternative, rival).at(middle) > 0
		}
		p.b = rival
		return p.clear(p.at(middle)) > 0
	})
	return h, nil
}

// look cuts the range to where the study is not refused, and gives a value in
// the middle of it.
func (h *Hold) look(p probe) float64 {
	e := p.limits(h.Low.InexactFloat64(), h.High.InexactFloat64())
	if e.from > e.to { // refused everywhere
		return e.from
	}
	if h.LowEdge = e.low; e.low != Asked {
		h.Low = decimal.NewFromFloat(e.from).Round(tiePlaces)
	}
	if h.HighEdge = e.high; e.high != Asked {
		h.High = decimal.NewFromFloat(e.to).Round(tiePlaces)
	}
	return (e.from + e.to) / 2
}

// within finds the stretches by the rivals that are cheaper: those of the
// first ties, or, of a rival that has none, as dearer tells for the whole
// range; every tie changes one.
func (h *Hold) within(alternative int, rivals []int, dearer func(rival int) bool) {
	cheaper := map[int]bool{}
	for _, rival := range rivals {
		first := slices.IndexFunc(h.Ties, func(t Tie) bool { return t.A == rival || t.B == rival })
		if first < 0 {
			cheaper[rival] = dearer(rival)
		} else {
			cheaper[rival] = h.Ties[first].Below != alternative
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
