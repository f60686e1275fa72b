package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/units"
)

// A table of roofs says what differs from roof to roof in a study file: a cell
// of it is read as the file would read the number.

// Settable tells whether an input is written in the file, so that a cell can
// stand for it. The error says what it follows from.
func (f *File) Settable(in lcc.Ref) error {
	if _, written := f.kinds[in]; written {
		return nil
	}
	source := f.Study.Inputs[in].Source
	if !f.Study.IsDerived(in) || !strings.HasPrefix(source, "follows from") {
		source = "is not written in the file; write it there first"
	}
	return errors.New(source)
}

// Cell reads the cells of one input.
type Cell struct {
	k       kind
	own     string // the unit of the input
	another bool   // the file writes the input in another unit than the study has it in
	// Limits in float64. What is nearest to a number beyond a limit is not
	// within them, since rounding keeps the order; what is nearest to a limit
	// itself is left to decimals.
	low, high float64
}

// Cell prepares to read the cells of an input, which is Settable.
func (f *File) Cell(in lcc.Ref) *Cell {
	c := &Cell{k: f.kinds[in], own: f.Study.Inputs[in].UnitText}
	c.another = c.k.written != "" && c.k.written != c.own
	c.low, c.high = c.k.low.InexactFloat64(), c.k.high.InexactFloat64()
	if c.k.unit == lcc.Rate || c.k.share { // 3 stands for 300 %, which is written so
		c.low, c.high = max(c.low, -1), min(c.high, 1)
	}
	if !slices.Contains(c.k.units, "") {
		c.k.units = append([]string{""}, c.k.units...)
	}
	return c
}

// Parse reads the value as the file would: with the same limits and units.
// Without a unit it has the one in which the file writes the input; it is
// converted exactly to that of the study. The error says what was found, what
// was expected and what to write.
func (c *Cell) Parse(text string) (decimal.Decimal, error) {
	if v, near, short := shortNumber(text); short && near > c.low && near < c.high {
		if c.another {
			v, _ = c.inStudy(v, c.k.written) // as the file's own number was
		}
		return v, nil
	}
	n, m, ok := c.k.read(text, false)
	if !ok {
		if m.hint == hintRange { // which a cell has no room for
			m.hint = hintOneNumber
		}
		return decimal.Zero, m.asError()
	}
	if n.unit == "" {
		n.unit = c.k.written
	}
	v, ok := c.inStudy(n.value, n.unit)
	if !ok {
		return decimal.Zero, otherUnit(text, n.unit, c.own).asError()
	}
	return v, nil
}

// inStudy brings a number from a unit that the file may write it in to that of
// the study; not ok when it measures something else. "" is the study's own.
func (c *Cell) inStudy(x decimal.Decimal, from string) (decimal.Decimal, bool) {
	may := func(k measure) bool { return slices.Contains(k.units, from) && slices.Contains(k.units, c.own) }
	switch {
	case from == "" || from == c.own:
		return x, true
	case may(sunshine), may(conductance):
		return otherOfTwo(x, from), true
	case may(heatingPrice):
		return heatPriceIn(x, from == "per therm"), true
	case strings.HasSuffix(from, "/gal") || strings.HasSuffix(from, "/L"): // the file may write no other that does not fit
		return convert(x, from, c.own), true
	}
	v, err := units.Of(x, units.Unit(from)).To(units.Unit(c.own))
	return v.Number, err == nil
}

func otherUnit(text, unit, own string) message {
	m := message{what: fmt.Sprintf("%s has the unit %s", quote(text), quote(unit)), expected: "a plain number"}
	if own != "" {
		m.expected = "a number in " + own
	}
	return m
}

// maxShort is how many characters a number may have that is read the short
// way: its digits fit an int64.
const maxShort = 15

// shortNumber reads a plain number of a few digits, the usual cell, and the
// float64 nearest to it; parseNumber reads all others, and says what is wrong
// with them.
func shortNumber(text string) (v decimal.Decimal, near float64, ok bool) {
	digits, negative := strings.CutPrefix(text, "-")
	if digits == "" || len(digits) > maxShort || len(digits) > 1 && digits[0] == '0' && digits[1] != '.' {
		return decimal.Zero, 0, false
	}
	coefficient, point := int64(0), -1
	for i := range len(digits) {
		switch c := digits[i]; {
		case c >= '0' && c <= '9':
			coefficient = 10*coefficient + int64(c-'0')
		case c == '.' && point < 0 && i > 0 && i < len(digits)-1:
			point = i
		default:
			return decimal.Zero, 0, false
		}
	}
	if negative {
		coefficient = -coefficient
	}
	if point < 0 {
		return decimal.NewFromInt(coefficient), float64(coefficient), true
	}
	places := len(digits) - 1 - point
	return decimal.New(coefficient, -int32(places)), float64(coefficient) / tens[places], true
}

// tens are the powers of ten, all of them float64: a quotient of two of its
// numbers is the one nearest to the true quotient.
var tens = func() (out [maxShort + 1]float64) {
	out[0] = 1
	for i := range maxShort {
		out[i+1] = 10 * out[i]
	}
	return out
}()
