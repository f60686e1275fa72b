package scenarios

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"roofyears/lcc"
)

// Labels name inputs and settings in words, for tables.

const (
	labelDiscount  = "Discount rate"
	labelInflation = "General inflation"
	labelPeriod    = "Study period, years"
	labelArea      = "Plan area of the roof"
)

func labelEscalation(c lcc.Category) string { return "Escalation of " + c.String() }

func labelYear(label string, year int) string { return fmt.Sprintf("%s, year %d", label, year) }

// labelQuantity makes words of a key: seam_length is Seam length.
func labelQuantity(key string) string {
	words := strings.ReplaceAll(key, "_", " ")
	first, size := utf8.DecodeRuneInString(words)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + words[size:]
}

func labelLife(system string, inPlace bool) string {
	if inPlace {
		return system + ": years left"
	}
	return system + ": service life"
}

// labelRecoat names the recoat of a system where a system's name could stand.
func labelRecoat(system string) string { return system + ", recoat" }

func labelRecoatLife(system string) string { return labelRecoat(system) + ": service life" }
func labelAtMost(system string) string     { return system + ": recoats at most" }
func labelResidual(system string) string   { return system + ": residual value" }
func labelWait(alternative string) string  { return alternative + ": wait, years" }

func labelAmount(system, item string) string { return system + ": " + item + ", amount" }
func labelGrowth(system, item string) string { return system + ": " + item + ", growth a year" }
func labelEvery(system, item string) string  { return system + ": " + item + ", years between" }

func labelPrice(system, item, unit string) string {
	if unit == "" {
		return system + ": " + item + ", price each"
	}
	return system + ": " + item + ", price " + perUnit(unit)
}

// perUnit is the unit text of a price: "per ft2"; "" for pieces.
func perUnit(unit string) string {
	if unit == "" {
		return ""
	}
	return "per " + unit
}
