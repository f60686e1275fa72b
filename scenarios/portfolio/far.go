package portfolio

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// FarFactor is how many times the template's price, life or rate a cell may
// be, or how many times less, before it is told. A slip of a unit or of the
// decimal point, as cents for dollars, is a factor of 10 to 100; a table may
// well spread prices ten to one. The bound is our own, and changes no figure.
const FarFactor = 20

// FarCells are the cells of a column that are far from the template's value.
type FarCells struct {
	Count int
	Line  int    // of the first
	Text  string // that stands there
}

// Far has the far cells of each of [Columns.Inputs]; nil is none.
type Far []FarCells

// Far counts the cells of a roof that was read which are far from what its
// template says, into a place for each of Inputs.
func (c *Columns) Far(roof *Roof, row Row, to Far) {
	l := &c.Lays[roof.Template]
	for i, in := range l.Refs {
		if !roof.Given[i] || !isFar(l.File.Study, in, roof.Values[i]) {
			continue
		}
		at := slices.Index(c.inputs, l.refs[i])
		if to[at].Count++; to[at].Count == 1 {
			to[at].Line, to[at].Text = row.Line, row.Cells[l.refs[i]]
		}
	}
}

// isFar tells of prices, lives and rates; areas, quantities and amounts differ
// with the size of a roof. Zero, and what has another sign, is no slip of a
// unit; nor is a short life of the roof that is there, whose years run out.
func isFar(s *lcc.Study, in lcc.Ref, value decimal.Decimal) bool {
	likely := s.Inputs[in].Likely
	switch s.Inputs[in].Unit {
	case lcc.Price, lcc.Years, lcc.Rate:
		return likely.IsPositive() && value.GreaterThan(likely.Mul(farFactor)) ||
			value.IsPositive() && value.Mul(farFactor).LessThan(likely) && !isYearsLeft(s, in)
	}
	return false
}

// isYearsLeft tells whether an input is the life of a roof that is there.
func isYearsLeft(s *lcc.Study, in lcc.Ref) bool {
	return slices.ContainsFunc(s.Systems, func(y lcc.System) bool { return y.InPlace && y.Life == in })
}

var farFactor = decimal.NewFromInt(FarFactor)

// Join adds what later rows have.
func (f *Far) Join(later Far) {
	if *f == nil {
		*f = make(Far, len(later))
	}
	for i, cells := range later {
		to := &(*f)[i]
		if to.Count == 0 {
			to.Line, to.Text = cells.Line, cells.Text
		}
		to.Count += cells.Count
	}
}
