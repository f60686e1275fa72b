package scenarios

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// The files voice*.go own the wording of every diagnostic, one for each
// subject: lower case, no full stop, the thing first, user text quoted, numbers
// with their unit and limit. What is general is here. The labels of inputs and
// settings are in labels.go.

// message is the wording of a diagnostic.
type message struct {
	what     string // what was found
	expected string // completes "expected …"
	hint     string // what to write, whole
}

// What may stand at a place, completing "expected …".
const (
	expectRate         = "a rate over -50% and at most 1000%, such as 3% or 0.03"
	expectAmount       = "an amount of money from -10^15 to 10^15, such as 9500 or -2400 for a credit"
	expectPrice        = "a price from -10^15 to 10^15, such as 4.20"
	expectYears        = "a number of years over 0 and at most 1000, such as 12"
	expectArea         = "an area over 0 and at most 10^12 with its unit, such as 48000 ft2 or 4500 m2"
	expectQuantity     = "a quantity from 0 to 10^12, such as 9600 ft, 850 m2 or, in pieces, 14"
	expectShape        = "a shape from 0.3 to 1000, such as 4"
	expectCorrelation  = "a correlation from -1 to 1, such as 0.6"
	expectResidual     = "prorated, none or an amount of money"
	expectText         = "text in one line"
	expectBoolean      = "true or false"
	expectList         = "a list"
	expectQuantities   = "names with quantities, such as seam_length: 9600 ft"
	expectSystems      = "keys with systems, such as tear_off: {name: …, life: …}"
	expectAlternatives = "a list of alternatives, such as - {name: …, start: …}"
)

// quote shows user text: in quotes, at most 60 characters, controls escaped.
func quote(text string) string {
	const most = 60
	if len(text) > most {
		runes := []rune(text[:min(len(text), 4*most+4)])
		if len(runes) > most {
			text = string(runes[:most]) + "…"
		}
	}
	return strconv.Quote(text)
}

// some lists names without quotes, at most a dozen; an empty one is left out.
func some(names []string) string { return joined(names, clip) }

// Quoted lists user texts, at most a dozen: "a", "b".
func Quoted(texts []string) string { return joined(texts, quote) }

// There tells what there is, where something else was asked for.
func There(texts []string) string {
	switch len(texts) {
	case 0:
		return "there is none"
	case 1:
		return "there is " + Quoted(texts)
	}
	return "there are " + Quoted(texts)
}

// joined puts commas between texts that are shown in some way, at most a dozen.
func joined(texts []string, show func(string) string) string {
	const most = 12
	shown := make([]string, 0, most+1)
	for _, text := range texts[:min(len(texts), most)] {
		if said := show(text); said != "" {
			shown = append(shown, said)
		}
	}
	if len(texts) > most {
		shown = append(shown, fmt.Sprintf("… (%d in all)", len(texts)))
	}
	return strings.Join(shown, ", ")
}

// clip shows a name without quotes.
func clip(name string) string { q := quote(name); return q[1 : len(q)-1] }

func didYouMean(meant string) string {
	if meant == "" {
		return ""
	}
	return "did you mean " + quote(meant) + "?"
}

func percent(r decimal.Decimal) string { return r.Shift(2).String() + "%" }
