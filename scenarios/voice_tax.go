package scenarios

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// The wording on tax; see voice.go.

const (
	expectTaxRate     = "a rate of tax from 0% to 95%, such as 25%"
	expectTaxAmount   = "an amount of money over 0 and at most 10^15, such as 84000"
	expectTaxLimit    = "an amount of money from 0 to 10^15, such as 250000"
	expectTaxDiscount = derivedWord + ", or a rate over -50% and at most 1000%, such as 4.2%"
	expectTreatment   = "a treatment, such as expensed, macrs_39_year or {straight_line: 15}"
)

func taxRateTooHigh(rate decimal.Decimal) message {
	return message{what: fmt.Sprintf("federal and state tax together take %s", percent(rate)), expected: expectTaxRate}
}

func notTaxDiscount(text string) message {
	return message{what: quote(text) + " is not a rate", expected: expectTaxDiscount, hint: didYouMean(nearest(text, []string{derivedWord}))}
}

func noTaxDiscount(err error) message {
	return message{what: err.Error(), hint: "check study.discount_rate, study.inflation and tax.rate, from which it follows"}
}

func taxWithoutInflation() message {
	return message{
		what: "tax in a real study without general inflation: depreciation is fixed in money of the day",
		hint: "state study.inflation, as inflation: 2.3%",
	}
}

func noTreatment(item, list, system string) message {
	return message{
		what: fmt.Sprintf("the cost %s has no tax treatment, and none is assumed", quote(item)),
		hint: fmt.Sprintf("write %s beside it, %s under tax.systems.%s, or %s under tax.treatments", keyTreatment, list, clip(system), list),
	}
}

func treatmentUnclear() message {
	return message{what: "a tax treatment is not one of its two forms", expected: "{straight_line: 15} or {immediate_then: macrs_39_year}"}
}

func restNotDepreciated() message {
	return message{what: "what is over the limit is not depreciated", expected: "a way to depreciate it, such as macrs_39_year or {straight_line: 15}"}
}

func fateMissing(key string) message {
	when := map[string]string{"torn_off": "a roof is torn off", "at_end": "the study ends"}[key]
	return message{
		what:     fmt.Sprintf("the key %s is missing: what is depreciated may have basis left when %s", quote(key), when),
		expected: key + ": " + labelKept + " or " + key + ": " + labelWritten,
	}
}

func tearOffsMissing() message {
	return message{what: "no system is named that takes off what is on the roof", expected: "tear_offs with keys of systems, such as tear_offs: [tear_off]"}
}

func tearOffsUnused() message {
	return message{what: "tear_offs says when basis is written off, but it is not", hint: "write torn_off: " + labelWritten + ", or leave tear_offs out"}
}

func untaxedThoughWrittenOff() message {
	return message{
		what: "basis is written off at the end, but the residual value is not taxed",
		hint: "write residual_value: taxed, so that the gain over the basis is taxed; or at_end: " + labelKept,
	}
}

func limitMissing() message {
	return message{what: `the key "immediate_limit" is missing: a cost is deducted at once up to a limit`, hint: "state what is left of the limit for this roof, as immediate_limit: 250000"}
}

func limitUnused() message {
	return message{what: "immediate_limit limits no cost", hint: "write {immediate_then: macrs_39_year} as the treatment of a cost, or leave the limit out"}
}

// Warnings.

func treatedUntaxed() message {
	return message{what: "costs state tax treatments, but the file has no tax section: nothing is computed after tax"}
}

func expensedThoughWrittenOff(system string) message {
	return message{what: fmt.Sprintf("the basis of what %s takes off is written off, but its own construction is expensed: who writes the old roof off usually has to capitalise the new one", quote(system))}
}
