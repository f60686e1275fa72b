package scenarios

import "fmt"

// The wording on what a template says of a table of roofs; see voice.go.

const (
	expectBudget  = "an amount of 0 or more, such as 1500000"
	expectYearly  = "a mapping of years to numbers, such as {2027: 1500000, 2028-2031: 1200000}"
	expectColumns = "a mapping of heads to what they stand for, such as {Roof size: roof.area}"
	hintOneNumber = "write one number: a cell has no range"
)

func notYears(text string) message {
	return message{what: quote(text) + " is no year", expected: "a year as 2027, or several on end as 2027-2031"}
}

func yearTwice(year int) message {
	return message{what: fmt.Sprintf("%d stands there twice", year), hint: "state each year once, alone or in a span"}
}
