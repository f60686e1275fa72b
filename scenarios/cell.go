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

// ParseCell reads the value of an input, which is Settable, as the file would:
// with the same limits and units. Without a unit it has the unit of the input,
// and with another one of the same kind it is converted exactly. The error
// says what was found, what was expected and what to write.
func (f *File) ParseCell(in lcc.Ref, text string) (decimal.Decimal, error) {
	k := f.kinds[in]
	if v, short := shortNumber(text); short && k.within(v) && (k.unit != lcc.Rate && !k.share || v.Abs().LessThan(unity)) {
		return v, nil
	}
	if !slices.Contains(k.units, "") {
		k.units = append([]string{""}, k.units...)
	}
	n, m, ok := k.read(text, false)
	if !ok {
		return decimal.Zero, m.asError()
	}
	own := f.Study.Inputs[in].UnitText
	if n.unit == "" || n.unit == own {
		return n.value, nil
	}
	v, err := units.Of(n.value, units.Unit(n.unit)).To(units.Unit(own))
	if err != nil {
		return decimal.Zero, otherUnit(text, n.unit, own).asError()
	}
	return v.Number, nil
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

// shortNumber reads a plain number of a few digits, the usual cell; parseNumber
// reads all others, and says what is wrong with them.
func shortNumber(text string) (decimal.Decimal, bool) {
	digits, negative := strings.CutPrefix(text, "-")
	if digits == "" || len(digits) > maxShort || len(digits) > 1 && digits[0] == '0' && digits[1] != '.' {
		return decimal.Zero, false
	}
	coefficient, point := int64(0), -1
	for i := range len(digits) {
		switch c := digits[i]; {
		case c >= '0' && c <= '9':
			coefficient = 10*coefficient + int64(c-'0')
		case c == '.' && point < 0 && i > 0 && i < len(digits)-1:
			point = i
		default:
			return decimal.Zero, false
		}
	}
	if negative {
		coefficient = -coefficient
	}
	if point < 0 {
		return decimal.NewFromInt(coefficient), true
	}
	return decimal.New(coefficient, int32(point+1-len(digits))), true
}
