package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// NoneEligible is the answer of a study that rules every alternative out.
const NoneEligible = "No alternative of this study is eligible: each one is ruled out, so there is no answer to give. The figures are shown for information only."

// AnswerText is the answer in plain sentences: the cheapest eligible
// alternative, by how much, at which rate and over which period, and between
// which discount rates it stays so.
func AnswerText(in Study) string {
	t := tell(in)
	return strings.Join(t.answerSentences(), " ")
}

func (t *teller) answerSentences() []string {
	a := t.Answer
	switch {
	case a.Lowest < 0:
		return []string{NoneEligible}
	case a.RunnerUp < 0:
		return slices.Concat([]string{t.onlyOne()}, t.unshownSentences(), t.cheaperButRuledOut())
	case a.Tie && t.sameEverywhere():
		return slices.Concat([]string{t.tieSentence(), "They cost the same at every discount rate."}, t.unshownSentences(), t.cheaperButRuledOut())
	}
	var out []string
	if a.Tie {
		out = append(append(out, t.tieSentence()), t.unshownSentences()...)
		out = append(out, t.rangeSentence("“"+t.name(a.Lowest)+"”"))
	} else {
		out = append(append(out, t.lowestSentence()), t.unshownSentences()...)
		it := "It"
		if t.isDoingNothing(a.Lowest) && !t.recoats(a.Lowest) {
			out = append(out, "On these figures, no work on the roof pays for itself yet.")
			it = "“" + t.name(a.Lowest) + "”" // of two sentences ago
		}
		out = append(out, t.rangeSentence(it))
	}
	if a.Unbacked != a.Lowest {
		out = append(out, t.unbackedSentence())
	}
	return append(out, t.cheaperButRuledOut()...)
}

// answers are the lowest alternative and those that tie with it.
func (t *teller) answers() []int {
	var out []int
	for _, i := range t.study.Eligible() {
		if i == t.Answer.Lowest || t.Answer.Tie && i == t.Answer.RunnerUp || t.Difference(i, t.Answer.Lowest).IsZero() {
			out = append(out, i)
		}
	}
	return out
}

// unshownSentences warn of an answer that is not shown to be allowed.
func (t *teller) unshownSentences() []string {
	var out []string
	for _, i := range t.answers() {
		if text := t.unshownSentence(i); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// unbackedSentence warns of an answer that rests on residual values.
func (t *teller) unbackedSentence() string {
	a := t.Answer
	return fmt.Sprintf("This rests on what is left of the roofs at the end of the study: without residual values “%s” would be the lowest, by %s.",
		t.name(a.Unbacked), t.cur.Amount(a.UnbackedMargin))
}

// sameEverywhere tells whether the answer and its runner-up cost the same at
// every discount rate, so that there is nothing between them.
func (t *teller) sameEverywhere() bool {
	a := t.Answer
	if !a.Margin.IsZero() || !t.Alternatives[a.Lowest].First.Equal(t.Alternatives[a.RunnerUp].First) {
		return false
	}
	for _, c := range t.Crossovers {
		if c.Between(a.Lowest, a.RunnerUp) {
			return false
		}
	}
	return true
}

// onlyOne speaks of the one alternative that is eligible.
func (t *teller) onlyOne() string {
	a := t.Answer
	lead := fmt.Sprintf("“%s” is the only alternative of this study", t.name(a.Lowest))
	if len(t.Alternatives) > 1 {
		lead = fmt.Sprintf("“%s” is the only alternative that is not ruled out", t.name(a.Lowest))
	}
	return fmt.Sprintf("%s: it costs %s %s. There is nothing to compare it with.", lead, t.lccOf(a.Lowest), t.termsOf())
}

// lccOf is a life-cycle cost in words.
func (t *teller) lccOf(i int) string { return t.cur.Amount(t.Alternatives[i].LCC) }

// termsOf is the period and the rate in words.
func (t *teller) termsOf() string {
	return fmt.Sprintf("over %s at a %s discount rate of %s",
		Plural(t.study.Period, "year"), t.study.Basis, Percent(t.Rate, 4))
}

// lowestSentence names the answer, and its margin against the next best and
// against tearing off (or, where tearing off is the answer, against restoring).
func (t *teller) lowestSentence() string {
	a := t.Answer
	text := fmt.Sprintf("“%s” has the lowest life-cycle cost, %s %s: %s less than the next best, “%s”%s",
		t.name(a.Lowest), t.lccOf(a.Lowest), t.termsOf(),
		t.cur.Amount(a.Margin), t.name(a.RunnerUp), t.shareOf(a.Margin, a.RunnerUp))
	if i := t.yardstick(); i >= 0 {
		gap := t.Difference(i, a.Lowest)
		text += fmt.Sprintf(", and %s less than “%s”%s", t.cur.Amount(gap), t.name(i), t.shareOf(gap, i))
	}
	return text + "."
}

// tieSentence speaks of a margin that is smaller than estimates are good for.
func (t *teller) tieSentence() string {
	a := t.Answer
	if a.Margin.IsZero() {
		return fmt.Sprintf("%s tie to the last digit: each has a life-cycle cost of %s %s%s.",
			listed(t.tied()), t.lccOf(a.Lowest), t.termsOf(), t.yardstickClause())
	}
	return fmt.Sprintf("For practical purposes “%s” and “%s” tie: “%s” has the lowest life-cycle cost, %s %s, but only %s (%s) less than the other, closer than the estimates behind it%s.",
		t.name(a.Lowest), t.name(a.RunnerUp), t.name(a.Lowest), t.lccOf(a.Lowest), t.termsOf(),
		t.cur.Amount(a.Margin), t.share(a.Margin, a.RunnerUp), t.yardstickClause())
}

// tied lists the eligible alternatives that cost just what the answer costs.
func (t *teller) tied() []string {
	var out []string
	for _, i := range t.study.Eligible() {
		if t.Difference(i, t.Answer.Lowest).IsZero() {
			out = append(out, "“"+t.name(i)+"”")
		}
	}
	return out
}

// nearly lists the answer and the eligible alternatives that cost as much, for
// practical purposes.
func (t *teller) nearly() []string {
	lowest := t.Answer.Lowest
	out := []string{"“" + t.name(lowest) + "”"}
	for _, i := range t.study.Eligible() {
		if i != lowest && lcc.IsTie(t.Difference(i, lowest), t.Alternatives[lowest].LCC) {
			out = append(out, "“"+t.name(i)+"”")
		}
	}
	return out
}

// yardstickClause adds the margin against tearing off to a tie.
func (t *teller) yardstickClause() string {
	i := t.yardstick()
	if i < 0 || t.Difference(i, t.Answer.Lowest).IsZero() {
		return ""
	}
	return fmt.Sprintf("; “%s” costs %s more", t.name(i), t.cur.Amount(t.Difference(i, t.Answer.Lowest)))
}

// yardstick is the alternative, besides the runner-up, that an owner asks
// about: tearing off, or restoring where tearing off is the answer. −1 when
// it is the runner-up, or not there.
func (t *teller) yardstick() int {
	work := lcc.WorkTearOff
	if t.startsWith(t.Answer.Lowest) == lcc.WorkTearOff {
		work = lcc.WorkRestore
	}
	if t.startsWith(t.Answer.RunnerUp) == work {
		return -1
	}
	return t.cheapestWith(work, t.Answer.Lowest)
}

// shareOf is a margin in per cent of what the dearer alternative costs, in
// brackets; "" where that has no meaning.
func (t *teller) shareOf(margin decimal.Decimal, of int) string {
	if !t.Alternatives[of].LCC.IsPositive() || margin.GreaterThan(t.Alternatives[of].LCC) {
		return "" // a share of a gain, or of more than the whole, says nothing
	}
	return " (" + t.share(margin, of) + ")"
}

func (t *teller) share(margin decimal.Decimal, of int) string {
	cost := t.Alternatives[of].LCC.Abs()
	if cost.IsZero() {
		return "no share of a cost of nothing"
	}
	share := margin.DivRound(cost, 6)
	if share.LessThan(decimal.New(5, -4)) {
		return "less than 0.1%"
	}
	return Percent(share, 1)
}

// isDoingNothing tells whether an alternative keeps the roof that is there.
func (t *teller) isDoingNothing(i int) bool {
	a := t.Alternatives[i].Alternative
	return a.Wait == nil && t.study.Systems[a.Start].InPlace
}

// recoats tells whether an alternative recoats what it starts with.
func (t *teller) recoats(i int) bool { return t.Alternatives[i].Spells[0].End == lcc.ToRecoat }

// rangeSentence says for which discount rates the answer holds; `it` is its
// subject.
func (t *teller) rangeSentence(it string) string {
	return t.stretchSentence(it) + t.againSentence()
}

func (t *teller) stretchSentence(it string) string {
	from, to := t.Answer.From, t.Answer.To
	low, high := Percent(from.Rate, 2), Percent(to.Rate, 2)
	switch {
	case from.Rival < 0 && to.Rival < 0:
		return fmt.Sprintf("%s stays the lowest at every discount rate from %s to %s.", it, low, high)
	case from.Rival < 0:
		return fmt.Sprintf("%s stays the lowest at every discount rate from %s up to %s; above that, “%s” is cheaper.", it, low, high, t.name(to.Rival))
	case to.Rival < 0:
		return fmt.Sprintf("%s stays the lowest at every discount rate from %s up to %s, the highest looked at; below %s, “%s” is cheaper.", it, low, high, low, t.name(from.Rival))
	case from.Rival == to.Rival:
		return fmt.Sprintf("%s stays the lowest at discount rates from %s to %s; below and above that, “%s” is cheaper.", it, low, high, t.name(to.Rival))
	}
	return fmt.Sprintf("%s stays the lowest at discount rates from %s to %s; below that “%s” is cheaper, above it “%s”.", it, low, high, t.name(from.Rival), t.name(to.Rival))
}

// againSentence tells of further stretches of rates.
func (t *teller) againSentence() string {
	if len(t.Answer.Again) == 0 {
		return ""
	}
	var stretches []string
	for _, s := range t.Answer.Again {
		stretches = append(stretches, fmt.Sprintf("from %s to %s", Percent(s.From, 2), Percent(s.To, 2)))
	}
	return fmt.Sprintf(" It is the lowest again %s.", listed(stretches))
}

// cheaperButRuledOut names what would cost less but may not be chosen.
func (t *teller) cheaperButRuledOut() []string {
	var out []string
	for i := range t.Alternatives {
		if t.Alternatives[i].Alternative.RuledOut != nil && t.Difference(i, t.Answer.Lowest).IsNegative() {
			out = append(out, fmt.Sprintf("“%s” would cost %s less, but is ruled out: %s.",
				t.name(i), t.cur.Amount(t.Difference(t.Answer.Lowest, i)), t.ruledOutBy(i)))
		}
	}
	return out
}

// ruledOutBy says in short what rules an alternative out.
func (t *teller) ruledOutBy(i int) string {
	ruling := t.Alternatives[i].Alternative.RuledOut
	return fmt.Sprintf("%s (%s)%s", ruling.Finding, ruling.Rule, furtherText(len(ruling.Further)))
}

// furtherText counts the rulings that are not told.
func furtherText(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "; one more rule stands against it"
	}
	return fmt.Sprintf("; %s stand against it", counted(n, "more rule"))
}
