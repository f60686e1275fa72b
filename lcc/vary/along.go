package vary

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Range is where an input moves: from From to To, in steps. Step is greater
// than 0.
type Range struct {
	In             lcc.Ref
	From, To, Step decimal.Decimal
}

// MaxPoints is how many points a range may have.
const MaxPoints = 10_000

// values lists the points of a range. Its end is one, whatever the step.
func (g Range) values() ([]decimal.Decimal, error) {
	if !g.Step.IsPositive() || g.From.GreaterThanOrEqual(g.To) {
		return nil, fmt.Errorf("a range runs from a lower to a higher value, in steps greater than 0")
	}
	// A step may be a rounded fraction of the range: what is left at its end
	// is no step of its own.
	end := g.To.Sub(g.Step.Shift(-6))
	if n := end.Sub(g.From).Div(g.Step); n.GreaterThan(decimal.NewFromInt(MaxPoints - 1)) {
		return nil, fmt.Errorf("the range has more than %d points", MaxPoints)
	}
	var out []decimal.Decimal
	for x := g.From; x.LessThan(end); x = x.Add(g.Step) {
		out = append(out, x)
	}
	return append(out, g.To), nil
}

// Point is one place of a sweep. Where the study cannot be evaluated, Problem
// says why and there are no costs.
type Point struct {
	Value   decimal.Decimal
	LCC     []decimal.Decimal // by alternative
	Lowest  int               // of the eligible ones; −1 when there is none
	Problem string
}

// Sweep is a study along a range of one input.
type Sweep struct {
	Range
	Points []Point
	Ties   []lcc.Tie // of any two alternatives, all there are in the range, in order
}

// Along moves one input. A value at which the study cannot be evaluated is a
// Point with its Problem; it fails for a range without steps, or with too many.
func Along(r *lcc.Result, g Range) (*Sweep, error) {
	values, err := g.values()
	if err != nil {
		return nil, err
	}
	w, err := r.Sweeper()
	if err != nil {
		return nil, err
	}
	s := &Sweep{Range: g}
	among := r.Study.Eligible()
	for _, x := range values {
		p, err := at(w, g.In, x, among)
		if err != nil {
			return nil, err
		}
		s.Points = append(s.Points, p)
	}
	s.Ties, err = ties(r, g)
	return s, err
}

// at evaluates one point. Only a failure of the evaluation itself is an error.
func at(w *lcc.Sweeper, in lcc.Ref, x decimal.Decimal, among []int) (Point, error) {
	p := Point{Value: x, Lowest: -1}
	if err := w.Set(in, x); err != nil {
		p.Problem = err.Error()
		return p, nil
	}
	var err error
	p.LCC, err = w.Costs()
	p.Lowest = lowest(p.LCC, among)
	return p, err
}

func ties(r *lcc.Result, g Range) ([]lcc.Tie, error) {
	search, err := r.TieSearch()
	if err != nil {
		return nil, err
	}
	var out []lcc.Tie
	for a := range r.Alternatives {
		for b := a + 1; b < len(r.Alternatives); b++ {
			found, err := search.Ties(g.In, a, b, g.From, g.To)
			if err != nil {
				return nil, err
			}
			out = append(out, found...)
		}
	}
	slices.SortStableFunc(out, func(x, y lcc.Tie) int { return x.At.Cmp(y.At) })
	return out, nil
}

// Map is a study over ranges of two inputs.
type Map struct {
	X, Y   Range
	Points [][]Point // by step of Y, then of X; Value is that of X
	Ys     []decimal.Decimal
}

// MaxCells is how many points a map may have.
const MaxCells = 40_000

// Across moves two inputs against each other. It fails as Along does, for twice
// the same input, and when there are more than MaxCells points.
func Across(r *lcc.Result, x, y Range) (*Map, error) {
	if x.In == y.In {
		return nil, fmt.Errorf("a map needs two different inputs")
	}
	xs, err := x.values()
	if err != nil {
		return nil, err
	}
	ys, err := y.values()
	if err != nil {
		return nil, err
	}
	if len(xs)*len(ys) > MaxCells {
		return nil, fmt.Errorf("the map has %d points, more than %d", len(xs)*len(ys), MaxCells)
	}
	m := &Map{X: x, Y: y, Ys: ys}
	among := r.Study.Eligible()
	for _, yv := range ys {
		// From the plain study each time: a value that was refused leaves the
		// sweeper at the one before.
		w, err := r.Sweeper()
		if err != nil {
			return nil, err
		}
		problem := w.Set(y.In, yv)
		row := make([]Point, len(xs))
		for i, xv := range xs {
			if problem != nil {
				row[i] = Point{Value: xv, Lowest: -1, Problem: problem.Error()}
			} else if row[i], err = at(w, x.In, xv, among); err != nil {
				return nil, err
			}
		}
		m.Points = append(m.Points, row)
	}
	return m, nil
}
