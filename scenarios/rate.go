package scenarios

import (
	"errors"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// ParseRate reads a rate as study files write it, 3% or 0.03, as a fraction.
// The error says what was found, what was expected and what to write.
func ParseRate(text string) (decimal.Decimal, error) { return parseAs(text, rate) }

// ParseValue reads a value of an input as study files write it, but without a
// unit: it has the unit that the input has. The error says what was found and
// what was expected.
func ParseValue(text string, in lcc.Input) (decimal.Decimal, error) {
	k := measure{low: mostMoney.Neg(), high: mostMoney, units: noUnit, unit: in.Unit, expected: "a plain number, such as 12"}
	switch {
	case in.Unit == lcc.Rate:
		k = rate
	case in.UnitText == percentText:
		k = shareOf
	}
	return parseAs(text, k)
}

func parseAs(text string, k measure) (decimal.Decimal, error) {
	n, m, ok := k.read(text, false)
	if ok {
		return n.value, nil
	}
	return decimal.Decimal{}, m.asError()
}

// asError is a message in one line, for what is not read from a file.
func (m message) asError() error {
	said := m.what
	if m.expected != "" {
		said += ", expected " + m.expected
	}
	if m.hint != "" {
		said += ": " + m.hint
	}
	return errors.New(said)
}

// Nearest is the name most like a mistyped one; "" when none is much like it.
func Nearest(text string, names []string) string { return nearest(text, names) }
