package scenarios

import (
	"fmt"
	"strings"

	"roofyears/lcc"
)

// The wording on estimates and on what moves with them; see voice.go.

func listForNumber(expected string) message {
	return message{what: "found a list", expected: expected, hint: hintRange}
}

func noForm() message {
	return message{what: "an estimate without a number", expected: "value, or low, likely and high, or weibull, normal or lognormal"}
}

func severalForms(a, b string) message {
	m := message{what: fmt.Sprintf("an estimate with both %s and %s", a, b), expected: "one of: value; low, likely and high; weibull; normal; lognormal"}
	if a == "value" && b == "low" {
		m.hint = "call the value likely"
	}
	return m
}

func distributionWithout(form string) message {
	return message{what: "distribution stands beside " + form, hint: "distribution says how low, likely and high are spread; leave it out here"}
}

func notInOrder() message {
	return message{what: "low, likely and high are not in that order", expected: "low at most likely, and likely at most high"}
}

func noWidth() message {
	return message{what: "low and high are the same", hint: "write the number alone"}
}

func unknownDistribution(text string) message {
	m := message{what: "the distribution " + quote(text) + " is unknown", expected: "one of: triangular, pert, uniform"}
	switch text {
	case "weibull":
		m.hint = "write weibull: {mean: 22, shape: 4} in place of low, likely and high"
	case "normal", "lognormal":
		m.hint = "write " + text + ": {mean: 22, sd: 4} in place of low, likely and high"
	default:
		m.hint = didYouMean(nearest(strings.ToLower(text), []string{"triangular", "pert", "uniform"}))
	}
	return m
}

func shapeNotHere(name string, k measure) message {
	m := message{what: name + " cannot spread what stands here"}
	switch {
	case len(k.shapes) == 0:
		m.expected, m.hint = "an estimate that ends somewhere", hintRange
	case k.unit == lcc.Rate:
		m.expected, m.hint = "normal for a rate", "write normal: {mean: 3%, sd: 1%}, or low, likely and high"
	case name == "normal":
		m.what = "a normal distribution could draw a negative number"
		m.expected, m.hint = "a spread above 0", "write lognormal or weibull, or low, likely and high"
	}
	return m
}

func wrongSpread(name, found, wanted string) message {
	return message{what: fmt.Sprintf("%s has no %s", name, found), expected: "mean and " + wanted}
}

func meanNotPositive(name string) message {
	return message{what: "the mean of " + name + " is not greater than 0", expected: "a mean greater than 0: this distribution draws nothing below"}
}

func unitsDiffer(text, first string) message {
	return message{what: fmt.Sprintf("%s has another unit than %s in the same estimate", quote(text), quote(first)), hint: "write all numbers of an estimate in one unit"}
}

// What moves_with can be wrong about.

func movesWithoutDraws() message {
	return message{what: "a plain value does not move with another", hint: "give it a range or a distribution, or leave moves_with out"}
}

func noSuchInput(path, near string) message {
	return message{
		what:     fmt.Sprintf("there is no input %s", quote(path)),
		expected: "the path of another estimate, such as study.escalation.construction", hint: didYouMean(near),
	}
}

func movesWithCertain(path string) message {
	return message{what: fmt.Sprintf("%s is a plain value, which does not move", quote(path)), hint: "give that one a range or a distribution, or leave moves_with out"}
}

func movesInCircle() message {
	return message{what: "it moves, over others, with itself", expected: "a chain of moves_with that ends at an estimate drawn alone"}
}
