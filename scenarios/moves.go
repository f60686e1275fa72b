package scenarios

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// following is an estimate that says which other one its draws follow.
type following struct {
	ref  lcc.Ref // of the estimate itself
	path string  // of the other, as written
	at   place   // where it is written
	rank decimal.Decimal
}

// movesKeys are the keys of what an estimate moves with.
var movesKeys = []string{"moves_with", "rank_correlation"}

// correlation is a rank correlation.
var correlation = measure{
	expected: expectCorrelation, low: decimal.NewFromInt(-1), high: decimal.NewFromInt(1), units: noUnit, unit: lcc.Count,
}

// moves reads moves_with and rank_correlation, which go together and need a
// distribution.
func (e *estimating) moves(s *section, form string) bool {
	switch {
	case !s.has("moves_with") && !s.has("rank_correlation"):
		return true
	case form == "value":
		e.fail(s.at, s.path, movesWithoutDraws())
		return false
	}
	to := s.need("moves_with")
	path := s.line("moves_with")
	n := s.need("rank_correlation")
	if to == nil || n == nil || path == "" {
		return false
	}
	rank, ok := (&estimating{reader: e.reader, measure: correlation}).number(n, s.path+".rank_correlation", false)
	e.follows = &following{path: path, at: to.place, rank: rank}
	return ok
}

// resolveMoves finds the inputs that others move with, by their paths.
func (r *reader) resolveMoves() {
	if r.failed() {
		return // what is not read cannot be found
	}
	for _, f := range r.follows {
		in := &r.study.Inputs[f.ref]
		to := r.study.Find(f.path)
		switch {
		case to == lcc.NoRef:
			r.fail(f.at, in.Path+".moves_with", noSuchInput(f.path, nearest(f.path, r.inputPaths())))
		case r.study.Inputs[to].Shape == lcc.Fixed:
			r.fail(f.at, in.Path+".moves_with", movesWithCertain(f.path))
		default:
			in.Moves = &lcc.Moves{With: to, Rank: f.rank}
		}
	}
	for _, f := range r.follows {
		if r.circular(f.ref) {
			r.fail(f.at, r.study.Inputs[f.ref].Path+".moves_with", movesInCircle())
		}
	}
}

func (r *reader) inputPaths() []string {
	paths := make([]string, len(r.study.Inputs))
	for i := range paths {
		paths[i] = r.study.Inputs[i].Path
	}
	return paths
}

// circular tells whether an input moves, over others, with itself.
func (r *reader) circular(ref lcc.Ref) bool {
	at := ref
	for range r.study.Inputs {
		moves := r.study.Inputs[at].Moves
		if moves == nil {
			return false
		}
		if at = moves.With; at == ref {
			return true
		}
	}
	return false
}
