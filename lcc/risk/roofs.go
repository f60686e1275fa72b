package risk

import (
	"fmt"
	"hash/fnv"
	"slices"

	"roofyears/lcc"
)

// Roofs simulates one study for many roofs that differ in some inputs. In one
// trial all roofs share the draws of what is common to them, such as rates and
// the level of prices, and each has draws of its own of what is local, such as
// lives and quantities. It is not changed by its workers.
type Roofs struct {
	study   *lcc.Study
	refs    []lcc.Ref
	options RoofsOptions
	sampler *sampler // of the study itself
	common  []bool   // by uncertain input
	column  []int    // of an uncertain input among refs; −1 when no roof has its own value
	shared  []int    // common uncertain inputs that are no lives
	sharing []lcc.Ref
	base    int // index of the base case; −1 when there is none
}

// RoofsOptions say how many roofs are simulated.
type RoofsOptions struct {
	Trials int    // 1 to MaxRoofsTrials
	Seed   uint64 // the same seed gives the same result
	// Common lists the inputs whose draws all roofs share; nil is
	// CommonInputs. Inputs that are certain do not count.
	Common []lcc.Ref
	// Choices is how many sets of choices are summed up: in each, every roof
	// has one alternative. 0 is none.
	Choices int
}

// MaxRoofsTrials bounds the trials of many roofs. A worker keeps 16 bytes for
// each trial and each alternative, and 32 for each trial and set of choices.
const MaxRoofsTrials = 1_000_000

// Roof is one roof among many.
type Roof struct {
	// Key tells the local draws of a roof from those of others: see RoofKey.
	// At 0 they are those of Run.
	Key uint64
	// Values has a place for each of the inputs that differ; where Given is
	// false the input keeps what the study says, range included. A given value
	// is certain.
	Values lcc.Vector
	Given  []bool
	// Eligible tells of each alternative whether it may be chosen; nil is what
	// the study says.
	Eligible []bool
	// Choices is the alternative of this roof in each set of choices, as the
	// answer at likely values or a plan says; −1 leaves the roof out of the set.
	Choices []int
}

// RoofKey is a key made of what tells a roof from others. It is never 0.
func RoofKey(id string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(id))
	return max(1, h.Sum64())
}

// RoofRisk is what one roof's alternatives may cost.
type RoofRisk struct {
	Mean     []float64 // life-cycle cost by alternative, in units of currency, unrounded
	Cheapest []float64 // chance of being the cheapest eligible one, ties shared; 0 when ruled out
	// Err tells why the roof was not simulated, and is in no total: what the
	// plain study refuses, or an amount over lcc.MaxMinor in some trial.
	Err error
}

// CommonInputs lists the inputs that roofs of one owner have in common: the
// discount rate, inflation, escalation and unit prices. What moves with an
// input that is local is itself local.
func CommonInputs(s *lcc.Study) []lcc.Ref {
	var out []lcc.Ref
	for i := range s.Inputs {
		if r := lcc.Ref(i); ofAll(s, r) && local(s, r, ofAll) == lcc.NoRef {
			out = append(out, r)
		}
	}
	return out
}

// ofAll tells what holds for a whole study, and prices of a unit.
func ofAll(s *lcc.Study, r lcc.Ref) bool {
	if s.Inputs[r].Unit == lcc.Price || r == s.Rate || r == s.Inflation {
		return true
	}
	return slices.ContainsFunc(s.Escalation[:], func(series lcc.Series) bool { return slices.Contains(series, r) })
}

// local finds what an input's draws follow that is not common; NoRef when
// there is nothing.
func local(s *lcc.Study, r lcc.Ref, common func(*lcc.Study, lcc.Ref) bool) lcc.Ref {
	for moves := s.Inputs[r].Moves; moves != nil; moves = s.Inputs[r].Moves {
		if r = moves.With; distributionOf(&s.Inputs[r]) == nil {
			return lcc.NoRef // moves with a plain value: drawn alone
		}
		if !common(s, r) {
			return r
		}
	}
	return lcc.NoRef
}

// NewRoofs prepares the simulation of a study for roofs that differ in these
// inputs. It fails when the study is unsound, an input is derived from others,
// the number of trials is out of range, or a common input moves with a local one.
func NewRoofs(s *lcc.Study, refs []lcc.Ref, o RoofsOptions) (*Roofs, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if o.Trials < 1 || o.Trials > MaxRoofsTrials {
		return nil, fmt.Errorf("%d trials are outside 1 to %d", o.Trials, MaxRoofsTrials)
	}
	if _, err := s.Roofs(refs); err != nil {
		return nil, err
	}
	if o.Common == nil {
		o.Common = CommonInputs(s)
	}
	common := func(_ *lcc.Study, r lcc.Ref) bool { return slices.Contains(o.Common, r) }
	for _, r := range o.Common {
		if with := local(s, r, common); with != lcc.NoRef && distributionOf(&s.Inputs[r]) != nil {
			return nil, fmt.Errorf("%s is common to all roofs and moves with %s, which is not", s.Inputs[r].Path, s.Inputs[with].Path)
		}
	}
	r := &Roofs{study: s, refs: slices.Clone(refs), options: o, sampler: newSampler(s, o.Seed), base: s.BaseCase()}
	for i := range r.sampler.inputs {
		u := &r.sampler.inputs[i]
		r.common = append(r.common, common(s, u.ref))
		r.column = append(r.column, slices.Index(refs, u.ref))
		if r.common[i] && !u.life {
			r.shared, r.sharing = append(r.shared, i), append(r.sharing, u.ref)
		}
	}
	return r, nil
}

// series is how many sums are kept of a trial: of every alternative; of every
// set of choices, its cost and that of the base case.
func (r *Roofs) series() int { return len(r.study.Alternatives) + 2*r.options.Choices }

// check tells what is wrong with how a roof is given.
func (r *Roofs) check(f *Roof) error {
	n := len(r.study.Alternatives)
	if len(f.Values) != len(r.refs) || len(f.Given) != len(r.refs) || len(f.Choices) != r.options.Choices ||
		f.Eligible != nil && len(f.Eligible) != n {
		return fmt.Errorf("the roof has %d values for %d inputs, %d choices for %d, or not a mark for each alternative",
			len(f.Values), len(r.refs), len(f.Choices), r.options.Choices)
	}
	for _, a := range f.Choices {
		if a < -1 || a >= n {
			return fmt.Errorf("the choice %d is outside the %d alternatives", a, n)
		}
	}
	return nil
}
