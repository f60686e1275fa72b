package scenarios

import (
	"errors"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Limits on what a study takes of time and memory, whatever its lists are like.
const (
	maxInputs = 5_000  // numbers that may be estimated or moved
	maxLines  = 50_000 // of the ledgers of all alternatives, every input at its likely value
)

// weigh refuses a study that is sound and too large to be computed and shown.
// What cannot be derived has been refused before.
func (r *reader) weigh(at place) {
	if n := len(r.study.Inputs); n > maxInputs {
		r.fail(at, "alternatives", tooManyInputs(n, maxInputs))
		return
	}
	if m, too := tooLong(r.study, r.study.Likely()); too {
		r.fail(at, "alternatives", m)
	}
}

// tooLong tells whether the ledgers are longer than they may be. Where they
// cannot be written at all, it is not for this to say so.
func tooLong(s *lcc.Study, v lcc.Vector) (m message, too bool) {
	n, err := s.Lines(v)
	if err != nil || n <= maxLines {
		return m, false
	}
	return tooManyLines(n, maxLines), true
}

// Weigh refuses a roof of many, which was evaluated, when its own values at some
// inputs make its ledgers longer than those of a study file may be; given tells
// which values it has.
func Weigh(s *lcc.Study, refs []lcc.Ref, values []decimal.Decimal, given []bool) error {
	if s.MostLines() <= maxLines { // spares nearly every roof the count
		return nil
	}
	v := s.Likely()
	for i, own := range given {
		if own {
			v[refs[i]] = values[i]
		}
	}
	if m, too := tooLong(s, v); too {
		return errors.New(m.what)
	}
	return nil
}
