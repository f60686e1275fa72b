package scenarios

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// The wording on the study, its systems, items and alternatives; see voice.go.

func inflationMissing() message {
	return message{what: `the key "inflation" is missing`, hint: "a nominal study states general inflation, as inflation: 2.3%"}
}

func escalationLength(found, period int) message {
	return message{what: fmt.Sprintf("%d rates for a study period of %d years", found, period), expected: "one rate, or a list of one rate for each year"}
}

func areaReserved() message {
	return message{what: `"area" is the plan area of the roof and cannot be a quantity`, hint: "choose another name"}
}

// Systems and items.

func noSystems() message { return message{what: "no system is defined", expected: expectSystems} }

func noSuchSystem(name string, names []string, meant string) message {
	return message{what: "no system has the key " + quote(name), expected: "one of: " + some(names), hint: didYouMean(meant)}
}

func endlessChain(keys []string) message {
	const most = 6
	var shown []string
	for _, key := range keys[:min(len(keys), most)] {
		shown = append(shown, clip(key))
	}
	switch {
	case len(keys) > most+1:
		shown = append(shown, "…", clip(keys[0]))
	case len(keys) == most+1:
		shown = append(shown, clip(keys[0]))
	}
	return message{
		what:     "a chain without end: " + strings.Join(shown, " → "),
		expected: "a chain that comes to a system without then, which is replaced by itself",
		hint:     "if a system returns later on, describe that round as a system of its own, with another key",
	}
}

func notResidual(text, meant string) message {
	return message{what: quote(text) + " is not known here", expected: expectResidual, hint: didYouMean(meant)}
}

func noRecoatCosts() message {
	return message{what: "a recoat without costs", expected: "one cost item or more"}
}

func amountAndPrice() message {
	return message{what: "a cost item with both amount and unit_price", expected: "one of them"}
}

func amountPer() message {
	return message{what: "per stands beside amount", hint: "write unit_price for a price per unit, or leave per out"}
}

func noPrice() message {
	return message{what: "a cost item without a price", expected: "amount, or unit_price with per"}
}

func perMissing() message {
	return message{what: "unit_price without per", expected: "per: area, or per: a quantity of roof.quantities or of the survey"}
}

func noSuchQuantity(name string, names []string, meant string) message {
	return message{what: "the roof has no quantity " + quote(name), expected: "one of: " + some(names), hint: didYouMean(meant)}
}

func growthElsewhere(key string) message {
	return message{what: key + " stands in a cost that is paid once", hint: "growth with age applies to annual and periodic costs"}
}

func ageWithoutGrowth() message {
	return message{what: "age_from without growth", hint: "age_from says from when growth counts; leave it out here"}
}

func everyElsewhere() message {
	return message{what: "every stands outside periodic_costs", hint: "move the item to periodic_costs, or leave every out"}
}

// Alternatives.

func noAlternatives() message {
	return message{what: "no alternative is given", expected: expectAlternatives}
}

func sameName(name string, line int) message {
	return message{what: fmt.Sprintf("%s is the name of the alternative at line %d too", quote(name), line), expected: "a name of its own"}
}

func secondBaseCase(line int) message {
	return message{what: fmt.Sprintf("a second base case, after the one at line %d", line), expected: "one base case at most"}
}

const hintSumCosts = "add small costs up into one, or leave out what is not compared"

func tooManyInputs(n, most int) message {
	return message{what: fmt.Sprintf("the study has %d inputs, at most %d are read", n, most), hint: hintSumCosts}
}

func tooManyLines(n, most int) message {
	return message{what: fmt.Sprintf("the ledgers of the alternatives have %d lines together, at most %d are computed", n, most), hint: hintSumCosts}
}

func waitTooLong(years int, system string, life decimal.Decimal) message {
	return message{what: fmt.Sprintf("a wait of %d years is longer than the life of %s, %s years", years, clip(system), life), expected: "a wait within the life of what is kept"}
}

func waitForWhatIsThere(key string) message {
	return message{
		what: fmt.Sprintf("the system %s is in place already: nothing is awaited", quote(key)),
		hint: "start it without a wait, or wait for the system that replaces it",
	}
}
