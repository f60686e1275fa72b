package lcc

import (
	"errors"
	"fmt"

	"github.com/shopspring/decimal"
)

// Check tells everything that would keep a study from being evaluated at any
// vector: a place that does not exist, a number of years that is not one. A
// study that scenarios has read passes; it guards studies made in code.
func (s *Study) Check() error {
	var errs []error
	bad := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	if s.Period < 1 || s.Period > MaxPeriod {
		bad("study period %d is outside 1 to %d years", s.Period, MaxPeriod)
	}
	if s.Basis == Nominal && s.Inflation == NoRef {
		bad("a nominal study states its inflation")
	}
	if len(s.Alternatives) == 0 {
		bad("the study has no alternatives")
	}
	s.checkRefs(bad)
	s.checkDraws(bad)
	s.checkDerived(bad)
	for i := range s.Systems {
		s.checkSystem(&s.Systems[i], bad)
	}
	bases := 0
	for _, a := range s.Alternatives {
		if a.BaseCase {
			bases++
		}
		if a.Start < 0 || a.Start >= len(s.Systems) {
			bad("alternative %q starts with a system that is not there", a.Name)
		}
		if w := a.Wait; w != nil && (w.On < 0 || w.On >= len(s.Systems) || w.Years < 0 || w.Years >= s.Period) {
			bad("alternative %q waits on a system that is not there, or not for 0 to %d years", a.Name, s.Period-1)
		}
	}
	if bases > 1 {
		bad("%d alternatives are base cases; at most one may be", bases)
	}
	return errors.Join(errs...)
}

// checkRefs looks at the references that stand in the study itself.
func (s *Study) checkRefs(bad func(string, ...any)) {
	if !s.has(s.Rate) || !s.has(s.Area) || s.Inflation != NoRef && !s.has(s.Inflation) {
		bad("the discount rate, the inflation or the area is not among the inputs")
	}
	for c, series := range s.Escalation {
		if n := len(series); n > 1 && n != s.Period {
			bad("escalation of %s has %d rates for a study period of %d years", Category(c), n, s.Period)
		}
		for _, r := range series {
			if !s.has(r) {
				bad("an escalation rate of %s is not among the inputs", Category(c))
			}
		}
	}
}

func (s *Study) has(r Ref) bool { return r >= 0 && int(r) < len(s.Inputs) }

func (s *Study) checkSystem(y *System, bad func(string, ...any)) {
	if !s.has(y.Life) || y.Then < 0 || y.Then >= len(s.Systems) {
		bad("system %q has no life, or is followed by a system that is not there", y.Key)
	}
	if y.Residual.Mode == FixedAmount && !s.has(y.Residual.Amount) {
		bad("system %q: the residual amount is not among the inputs", y.Key)
	}
	if r := y.Recoat; r != nil {
		if r.AtMost < 1 || !s.has(r.Life) {
			bad("system %q: a recoat is allowed once or more, and has a life", y.Key)
		}
		s.checkItems(y, r.Costs, bad)
	}
	for _, items := range [][]Item{y.First, y.Annual, y.Periodic, y.Removal} {
		s.checkItems(y, items, bad)
	}
	for _, it := range y.Periodic {
		if it.Every < 1 || it.Every > maxEvery {
			bad("system %q, item %q: comes every 1 to %d years", y.Key, it.Name, maxEvery)
		}
	}
}

// maxEvery is the longest interval of a periodic cost in years. Any interval
// of the study period or longer never falls due.
const maxEvery = 1000

func (s *Study) checkItems(y *System, items []Item, bad func(string, ...any)) {
	for _, it := range items {
		if !s.has(it.Price) || it.Quantity != NoRef && !s.has(it.Quantity) || it.Growth != NoRef && !s.has(it.Growth) {
			bad("system %q, item %q: a price, quantity or growth is not among the inputs", y.Key, it.Name)
		}
		if it.Category >= NumCategories {
			bad("system %q, item %q: there is no such cost category", y.Key, it.Name)
		}
	}
}

// MaxLife is the longest service life in years; any life past the study
// period differs from another in its residual value only.
var MaxLife = decimal.NewFromInt(longestLife)

const longestLife = 1_000_000

// checkVector tells what is out of range in a vector.
func (s *Study) checkVector(v Vector) error {
	if len(v) != len(s.Inputs) {
		return fmt.Errorf("the vector has %d values for %d inputs", len(v), len(s.Inputs))
	}
	for i := range v {
		if err := s.Inputs[i].checkValue(v[i]); err != nil {
			return err
		}
	}
	return nil
}

// checkValue tells a value that is out of the input's range.
func (in *Input) checkValue(v decimal.Decimal) error {
	switch in.Unit {
	case Rate:
		if err := CheckRate(v); err != nil {
			return fmt.Errorf("%s: %w", in.Path, err)
		}
	case Years:
		if !v.IsPositive() || v.GreaterThan(MaxLife) {
			return fmt.Errorf("%s: %s is outside the range from over 0 to %s years", in.Path, v, MaxLife)
		}
	case Area:
		if !v.IsPositive() {
			return fmt.Errorf("%s: %s is not greater than 0", in.Path, v)
		}
	}
	return nil
}

// checkWaits tells the first alternative that waits too long; see checkWait.
func (s *Study) checkWaits(v Vector) error {
	for i := range s.Alternatives {
		if err := s.checkWait(i, v); err != nil {
			return err
		}
	}
	return nil
}

// checkWait tells whether an alternative waits longer than the life of the
// roof it waits on.
func (s *Study) checkWait(alternative int, v Vector) error {
	if s.lastsOut(alternative, v) {
		return nil
	}
	a := &s.Alternatives[alternative]
	life := v[s.Systems[a.Wait.On].Life]
	return fmt.Errorf("alternative %q waits %d years on %q, which lasts %s", a.Name, a.Wait.Years, s.Systems[a.Wait.On].Key, life.RoundDown(4))
}

// lastsOut tells whether the roof that an alternative waits on lasts as long
// as the wait.
func (s *Study) lastsOut(alternative int, v Vector) bool {
	w := s.Alternatives[alternative].Wait
	return w == nil || v[s.Systems[w.On].Life].GreaterThanOrEqual(decimal.NewFromInt(int64(w.Years)))
}

// The shapes of a Weibull distribution: under the least one, a tenth of the
// roofs would fail within days and a tenth stand for centuries.
var (
	MinWeibullShape = decimal.New(3, -1)
	MaxWeibullShape = decimal.NewFromInt(1000)
)

// checkDraws looks at what a simulation would draw.
func (s *Study) checkDraws(bad func(string, ...any)) {
	for i := range s.Inputs {
		in := &s.Inputs[i]
		if in.Shape == Weibull && (in.Spread.LessThan(MinWeibullShape) || in.Spread.GreaterThan(MaxWeibullShape)) {
			bad("%s: the shape of a Weibull distribution is %s, outside %s to %s", in.Path, in.Spread, MinWeibullShape, MaxWeibullShape)
		}
		if in.Moves == nil {
			continue
		}
		if !s.has(in.Moves.With) || in.Moves.Rank.Abs().GreaterThan(one) {
			bad("%s: moves with an input that is not there, or not with a correlation from -1 to 1", in.Path)
			continue
		}
		if s.circular(Ref(i)) {
			bad("%s: moves, over others, with itself", in.Path)
		}
	}
}

// circular tells whether following what an input moves with leads back to it,
// or into a circle.
func (s *Study) circular(at Ref) bool {
	for range s.Inputs {
		moves := s.Inputs[at].Moves
		if moves == nil || !s.has(moves.With) {
			return false
		}
		at = moves.With
	}
	return true
}
