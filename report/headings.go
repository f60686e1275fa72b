package report

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/risk"
	"roofyears/lcc/vary"
)

// A heading is a sentence that tells what its section finds, so that a reader
// who reads nothing else is told the truth.

// counted writes a small number as a word and a noun in its number.
func counted(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return few(n) + " " + noun
}

// allOf writes all of some things as a sentence does: both roofs, all three roofs.
func allOf(n int, noun string) string {
	switch n {
	case 1:
		return "the " + noun
	case 2:
		return "both " + noun + "s"
	}
	return "all " + counted(n, noun)
}

// few writes a small number as a word.
func few(n int) string {
	words := [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	if n < 0 || n >= len(words) {
		return grouped(decimal.NewFromInt(int64(n)).String())
	}
	return words[n]
}

// upperFirst begins a sentence.
func upperFirst(s string) string {
	_, size := utf8.DecodeRuneInString(s)
	return strings.ToUpper(s[:size]) + s[size:]
}

// compareHeading is over the table of the alternatives side by side.
func (t *teller) compareHeading() string {
	a := t.Answer
	switch {
	case a.Lowest < 0:
		return "None of the alternatives may be chosen"
	case len(t.Alternatives) == 1:
		return "There is one alternative, and nothing beside it"
	case a.RunnerUp < 0:
		return fmt.Sprintf("Side by side, only “%s” may be chosen", t.name(a.Lowest))
	case a.Margin.IsZero():
		return fmt.Sprintf("Side by side, %s cost the same", listed(t.tied()))
	case a.Tie:
		return fmt.Sprintf("Side by side, “%s” and “%s” are too close to call", t.name(a.Lowest), t.name(a.RunnerUp))
	}
	return fmt.Sprintf("Side by side, “%s” costs least", t.name(a.Lowest))
}

// eventsHeading is over what happens to the roof.
func (t *teller) eventsHeading() string {
	if t.Answer.Lowest < 0 {
		return "Each choice means other work on this roof"
	}
	name, years := t.name(t.Answer.Lowest), []string{}
	for _, e := range t.Alternatives[t.Answer.Lowest].Interventions {
		years = append(years, t.calendar(e.Year))
	}
	switch n := len(years); {
	case n == 0:
		return fmt.Sprintf("“%s” means no work on the roof within the study period", name)
	case n > mostYears:
		return fmt.Sprintf("“%s” means work on the roof %d times in %s, first in %s", name, n, Plural(t.study.Period, "year"), years[0])
	}
	return fmt.Sprintf("“%s” means work on the roof in %s", name, listed(years))
}

// mostYears is how many years a heading lists.
const mostYears = 5

// costHeading is over what is paid when.
func (t *teller) costHeading() string {
	if t.Answer.Lowest < 0 {
		return fmt.Sprintf("What each alternative costs at the start, and over %s", Plural(t.study.Period, "year"))
	}
	o := &t.Alternatives[t.Answer.Lowest]
	first := "nothing"
	switch {
	case o.First.IsNegative():
		first = "less than nothing"
	case o.First.IsPositive():
		first = t.cur.Amount(o.First)
	}
	return fmt.Sprintf("“%s” costs %s at the start, and %s over %s", t.name(t.Answer.Lowest), first, t.cur.Amount(o.LCC), Plural(t.study.Period, "year"))
}

// changeHeading is over what would change the answer.
func (t *teller) changeHeading(swings []vary.Swing, holds []lcc.Hold) string {
	flips, inside := 0, 0
	for _, s := range swings {
		if s.Flips {
			flips++
		}
	}
	for _, h := range holds {
		if t.inRange(&h) {
			inside++
		}
	}
	switch {
	case t.Answer.Lowest < 0 || t.Answer.RunnerUp < 0:
		return "Nothing can change the answer while there is one choice at most"
	case len(swings) == 0:
		return "How far each input may move before the answer changes"
	case flips == 0 && inside == 0:
		return "No input changes the answer at an end of its range"
	case flips == 0 && inside == 1:
		return "One input changes the answer within its range, though not at an end of it"
	case flips == 0:
		return upperFirst(counted(inside, "input")) + " change the answer within their range, though not at an end of it"
	case flips == 1:
		return "One input changes the answer at an end of its range"
	}
	return upperFirst(counted(flips, "input")) + " change the answer at an end of their range"
}

// riskHeading is over the simulation.
func (t *teller) riskHeading(r *risk.Result) string {
	switch {
	case len(r.Influences) == 0:
		return "How sure the answer is cannot be said without ranges"
	case r.Chosen < 0 || r.Rival < 0:
		return "What the alternatives may cost when all that is uncertain moves together"
	}
	return fmt.Sprintf("“%s” is the cheapest in %s of the simulated futures", t.name(r.Chosen), chance(r.Alternatives[r.Chosen].Cheapest))
}

// unknownHeading is over what the study leaves open.
func unknownHeading(things int) string {
	return fmt.Sprintf("This study leaves %s open", counted(things, "thing"))
}

// nextHeading is over the next steps.
func (t *teller) nextHeading() string {
	a := t.Answer
	switch {
	case a.Lowest < 0:
		return "The owner should not choose on these figures"
	case a.RunnerUp < 0:
		return "The owner should price another choice before deciding"
	case a.Tie:
		return "The owner should let something else than cost decide"
	case t.isDoingNothing(a.Lowest):
		return "The owner should keep the roof up, and look again"
	case len(t.missing(a.Lowest)) > 0:
		return fmt.Sprintf("The owner should have %s settled before signing", counted(len(t.missing(a.Lowest)), "open finding"))
	case t.judged():
		return "The owner should have a licensed designer confirm the findings before signing"
	}
	switch t.startsWith(a.Lowest) {
	case lcc.WorkRestore:
		return "The owner should have the roof surveyed before signing"
	case lcc.WorkRecover:
		return "The owner should have layers, water and structure checked before signing"
	case lcc.WorkTearOff:
		return "The owner should have code, deck and asbestos settled before signing"
	}
	return "The owner should settle what is open before signing"
}

// inputsHeading is over the inputs and their sources.
func (t *teller) inputsHeading() string {
	sourced, total := t.sourced()
	switch {
	case total == sourced:
		return "All inputs behind these figures have a source"
	case sourced == 0:
		return "None of the inputs behind these figures has a source"
	case sourced == 1:
		return fmt.Sprintf("One of the %d inputs behind these figures has a source", total)
	}
	return fmt.Sprintf("%d of the %d inputs behind these figures have a source", sourced, total)
}

// presentValueText says what a present value is, in the study's own terms.
func (t *teller) presentValueText() string {
	end := ""
	if t.baseYear() != 0 {
		end = " (" + t.calendar(t.study.Period) + ")"
	}
	text := fmt.Sprintf("Amounts are present values: what would have to be set aside at the start, growing by %s a year, to pay for everything up to year %d%s.", Percent(t.Rate, 4), t.study.Period, end)
	switch {
	case t.Rate.IsZero():
		text = fmt.Sprintf("Amounts are plain sums up to year %d%s: at a discount rate of 0%%, later money counts in full.", t.study.Period, end)
	case t.Rate.Cmp(decimal.Zero) < 0:
		text = fmt.Sprintf("Amounts are present values up to year %d%s: at a discount rate of %s, later money counts for more than money now.", t.study.Period, end, Percent(t.Rate, 4))
	}
	return text + " What is left of the roof at the end is deducted. Lower is better."
}
