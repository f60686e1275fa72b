package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"roofyears/lcc"
)

// story tells in one sentence what happens to the roof under an alternative.
func (t *teller) story(i int) string {
	var steps []string
	before := -1
	spells := t.Alternatives[i].Spells
	for n := 0; n < len(spells); n++ {
		p := spells[n]
		if p.From == p.Until { // a wait of no years
			continue
		}
		step := t.opening(p, before)
		before = p.System
		recoats := []int{}
		for n+1 < len(spells) && spells[n+1].Begin == lcc.Recoated {
			n++
			recoats = append(recoats, spells[n].From)
		}
		steps = append(steps, step+t.recoated(recoats))
	}
	return fmt.Sprintf("“%s”: %s. %s", t.name(i), strings.Join(steps, "; "), t.ending(i))
}

// opening says how a spell starts: what is there stays, or a system comes in
// a year; before is the system that it follows.
func (t *teller) opening(p lcc.Spell, before int) string {
	if p.Begin == lcc.Kept {
		if p.End == lcc.AtHorizon {
			return "what is there now stays to the end of the study"
		}
		if p.End == lcc.ToRecoat {
			return "what is there now stays"
		}
		return fmt.Sprintf("what is there now stays until year %d%s", p.Until, t.inCalendar(p.Until))
	}
	what := lowerFirst(t.system(p.System))
	switch {
	case p.From == 0:
		return what + " now"
	case p.System == before:
		what = "the same again"
	}
	return fmt.Sprintf("%s in year %d%s", what, p.From, t.inCalendar(p.From))
}

func (t *teller) inCalendar(year int) string {
	if t.baseYear() == 0 {
		return ""
	}
	return " (" + t.calendar(year) + ")"
}

func (t *teller) recoated(years []int) string {
	if len(years) == 0 {
		return ""
	}
	var told []string
	for _, y := range years {
		told = append(told, fmt.Sprintf("%d%s", y, t.inCalendar(y)))
	}
	if len(years) == 1 {
		return ", recoated in year " + told[0]
	}
	return ", recoated in years " + listed(told)
}

// ending says how old the roof is at the end of the study.
func (t *teller) ending(i int) string {
	spells := t.Alternatives[i].Spells
	last := spells[len(spells)-1]
	what := "installed"
	switch last.Begin {
	case lcc.Kept:
		return "No work is done within the study period."
	case lcc.Recoated:
		what = "recoated"
	}
	age := t.study.Period - last.From
	return fmt.Sprintf("At the end of the study the roof was last %s %s before.", what, Plural(age, "year"))
}

// lowerFirst begins a label small. What has a capital, a digit or a hyphen
// next, as HVAC or R-value, stays as it is.
func lowerFirst(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[size:]); size == 0 || size < len(s) && !unicode.IsLower(next) && next != ' ' {
		return s
	}
	return string(unicode.ToLower(first)) + s[size:]
}

// cashItems say what each alternative asks for at the start, and in its
// dearest later year.
func (t *teller) cashItems() []string {
	var out []string
	for i := range t.Alternatives {
		first := "nothing"
		if !t.Alternatives[i].First.IsZero() {
			first = t.cur.Amount(t.Alternatives[i].First)
		}
		paid := t.PaidIn(i)
		most := 0
		for y := 1; y < len(paid); y++ {
			if most == 0 || paid[y].GreaterThan(paid[most]) {
				most = y
			}
		}
		item := fmt.Sprintf("“%s” asks for %s at the start", t.name(i), first)
		if paid[most].IsPositive() {
			item += fmt.Sprintf("; its dearest later year is year %d%s, with %s to pay", most, t.inCalendar(most), t.cur.Amount(paid[most]))
		}
		out = append(out, item+".")
	}
	return out
}
