package scenarios

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// The wording on findings and on what rules ask of a system; see voice.go.

const (
	expectWholeShare = "a share from 0% to 100%, such as 34% or 0.34"
	expectWetLimit   = "a share over 0% and at most 100%, such as 25% or 0.25"
	expectLoad       = "a load per area from -1000 to 1000 with its unit, such as 2.8 psf or 0.13 kN/m2"
	expectReserve    = "a load per area from 0 to 1000 with its unit, such as 6 psf or 0.3 kN/m2"
	expectPeel       = "a force per width from 0 to 1000 with its unit, such as 2.4 lb/in or 0.42 N/mm"
	expectTests      = "a list of tests, such as - {coating: silicone, least: 2.4 lb/in, places: 3}"
)

// workDecides stands for the rules where the work is none that they know.
const workDecides = "the kind of work decides which rules apply"

// fromItem is the source of a finding about the study itself.
func fromItem(item string) string { return "cost item “" + item + "”" }

func statedTwice(key string) message {
	return message{what: quote(key) + " is stated twice: here and by the survey", hint: "leave it out here, or there"}
}

func noGrade() message {
	return message{what: "rust without a share", expected: "light, scaled or perforated, such as perforated: 2%; what is left out is not known"}
}

func rustOverAll(sum decimal.Decimal) message {
	return message{what: fmt.Sprintf("light, scaled and perforated are %s together", percent(sum)), expected: "100% of the metal at most"}
}

func noSuchItem(name string, names []string, meant string) message {
	return message{what: "no first cost of this system is named " + quote(name), expected: "one of: " + some(names), hint: didYouMean(meant)}
}

func upgradedAndWaived() message {
	return message{what: "insulation_waived stands beside insulation_upgraded_by", hint: "insulation that is priced is not waived: leave one out"}
}

func noReason(text string) message {
	return message{what: quote(text) + " is no reason", expected: "why insulation is not upgraded, such as the section of the code that waives it; leave insulation_waived out where nothing does"}
}

func plannedUnjudged() message {
	return message{what: "eligibility without findings: no rule is put to this study", hint: "state what was found on the roof under findings, or findings: {} if nothing is known yet"}
}
