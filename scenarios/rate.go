package scenarios

import (
	"errors"

	"github.com/shopspring/decimal"
)

// ParseRate reads a rate as study files write it, 3% or 0.03, as a fraction.
// The error says what was found, what was expected and what to write.
func ParseRate(text string) (decimal.Decimal, error) {
	n, m, ok := rate.read(text, false)
	if ok {
		return n.value, nil
	}
	said := m.what
	if m.expected != "" {
		said += ", expected " + m.expected
	}
	if m.hint != "" {
		said += ": " + m.hint
	}
	return decimal.Decimal{}, errors.New(said)
}
