package report

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"

	"roofyears/lcc/risk"
)

// riskSection says how sure the answer is: what the alternatives cost when
// every uncertain input is drawn from its range.
func (t *teller) riskSection(r *risk.Result) Section {
	s := Section{ID: "how-sure", Heading: t.riskHeading(r)}
	if len(r.Influences) == 0 {
		s.Blocks = append(s.Blocks, Paragraph{Text: "No input of the study has a range or a distribution, so nothing can be said about how sure the answer is. Give low and high values to what is not certain."})
		return s
	}
	s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: t.riskLead(r)})
	s.Blocks = append(s.Blocks, t.chanceBlocks(r)...)
	s.Blocks = append(s.Blocks, t.costBlocks(r)...)
	s.Blocks = append(s.Blocks, t.pairBlocks(r)...)
	s.Blocks = append(s.Blocks, t.knowingBlocks(r)...)
	return s
}

// riskLead says what was done, and the chance that the answer is right.
func (t *teller) riskLead(r *risk.Result) string {
	times := grouped(fmt.Sprint(r.Trials)) + " times"
	if r.Trials == 1 {
		times = "once"
	}
	text := fmt.Sprintf("Every input that has a range was drawn from it, together, %s (seed %d); in each such future all alternatives were computed. Each installation of a roof draws a service life of its own.",
		times, r.Seed)
	if r.Trials < fewTrials {
		text += littleTold
	}
	if r.Chosen < 0 {
		return text + " No alternative is eligible, so none is named the cheapest."
	}
	if r.Rival < 0 {
		return text + fmt.Sprintf(" “%s” is the only one that could be chosen.", t.name(r.Chosen))
	}
	chosen := r.Alternatives[r.Chosen]
	text += fmt.Sprintf(" “%s” costs least on average, and is the cheapest in %s of these futures.", t.name(r.Chosen), chance(chosen.Cheapest))
	for i, a := range r.Alternatives {
		if a.Cheapest > max(chosen.Cheapest, 0.5) {
			text += fmt.Sprintf(" Most often, in %s of them, it is “%s” that is the cheapest: “%s” loses by little and wins by much.", chance(a.Cheapest), t.name(i), t.name(r.Chosen))
		}
	}
	if r.Chosen != t.Answer.Lowest {
		text += fmt.Sprintf(" That differs from the plain study, whose likely values favour “%s”: the ranges lean to one side, and this deserves a look.", t.name(t.Answer.Lowest))
	}
	return text
}

// chance writes a share of futures in per cent, never 0 or 100 % unless it is.
func chance(p float64) string {
	switch {
	case p > 0 && p < 0.0005:
		return "less than 0.1%"
	case p < 1 && p >= 0.9995:
		return "more than 99.9%"
	}
	return Percent(decimal.NewFromFloat(p), 1)
}

func share(p float64) decimal.Decimal { return decimal.NewFromFloat(p).Round(4) }

// chanceCell is a chance in a table, with a word where its digits would say
// never or always and it is not.
func chanceCell(p float64) Cell {
	switch {
	case p > 0 && p < 0.00005:
		return text("under 0.01%")
	case p < 1 && p >= 0.99995:
		return text("over 99.99%")
	}
	return rate(share(p))
}

// rough is an amount of a simulation: whole units of the currency, no cents.
func rough(v float64) Cell { return Cell{Kind: RoughCell, Number: decimal.NewFromFloat(v).Round(0)} }

func (t *teller) roughAmount(v float64) string {
	return Currency{Code: t.cur.Code}.Amount(decimal.NewFromFloat(v).Round(0))
}

// chanceBlocks show how often each alternative is the cheapest.
func (t *teller) chanceBlocks(r *risk.Result) []Block {
	fig := Figure{
		ID: "chances", Kind: Stacked, Title: "Chance of being the cheapest",
		Summary: "Bar chart of the share of futures in which each alternative is the cheapest.",
		X:       Axis{Kind: TextCell, Categories: t.names()}, Y: Axis{Title: "Share of futures", Kind: RateCell},
		Series: []Series{{Name: "Chance of being the cheapest"}}, Table: "chances-table",
	}
	table := Table{ID: "chances-table", Caption: "Life-cycle cost over all futures, " + t.study.About.Currency,
		Columns: []Column{words("Alternative"), number("Mean"), number("Standard deviation"), number("5% are below"), number("Half are below"), number("95% are below"),
			number("Chance of being the cheapest"), number("Its standard error"), number("Expected regret")}}
	for i, a := range r.Alternatives {
		fig.Series[0].Values = append(fig.Series[0].Values, share(a.Cheapest))
		row := plainRow(text(t.name(i)), rough(a.Mean), rough(a.SD), rough(a.P5), rough(a.P50), rough(a.P95))
		if t.Alternatives[i].Alternative.Eligible() {
			row.Cells = append(row.Cells, chanceCell(a.Cheapest), rate(share(a.CheapestError)), rough(a.Regret))
		} else {
			row.Cells = append(row.Cells, state("ruled out", ""), state("–", ""), state("–", ""))
		}
		table.Rows = append(table.Rows, row)
	}
	return []Block{fig, table, Paragraph{Text: "Expected regret: what choosing an alternative costs, on average, above the one that turns out to be the cheapest."}}
}

// costBlocks show the distribution of each alternative's cost.
func (t *teller) costBlocks(r *risk.Result) []Block {
	fig := Figure{
		ID: "cost-spread", Kind: Lines, Title: "What each alternative may cost",
		Summary: "Line chart of how the futures are spread over life-cycle costs, a line for each alternative.",
		X:       Axis{Title: "Life-cycle cost, " + t.study.About.Currency, Kind: RoughCell},
		Y:       Axis{Title: "Share of futures in a cell", Kind: RateCell}, Table: "cost-spread-table",
	}
	cells := t.cells(&r.Curve)
	fig.X.Values = cells
	for i, name := range t.names() {
		fig.Series = append(fig.Series, Series{Name: name, Values: shares(r.Curve.Counts[i], r.Trials)})
	}
	tables := t.bySet("cost-spread-table", "Share of futures by life-cycle cost (middle of each cell), "+t.study.About.Currency,
		[]Column{number("Life-cycle cost")}, len(cells), func(i int, set []int) Row {
			row := plainRow(Cell{Kind: RoughCell, Number: cells[i]})
			for _, a := range set {
				row.Cells = append(row.Cells, rate(fig.Series[a].Values[i]))
			}
			return row
		})
	return []Block{t.behind(fig, tables)}
}

// cells gives the middle of each cell of a histogram.
func (t *teller) cells(h *risk.Histogram) []decimal.Decimal {
	out := make([]decimal.Decimal, len(h.Counts[0]))
	for i := range out {
		out[i] = decimal.NewFromFloat(h.From + float64((float64(i)+0.5)*h.Width)).Round(0)
	}
	return out
}

func shares(counts []int, trials int) []decimal.Decimal {
	out := make([]decimal.Decimal, len(counts))
	for i, n := range counts {
		out[i] = share(float64(n) / float64(trials))
	}
	return out
}

// pairBlocks show the difference of every two alternatives, and draw that of
// the chosen one and its rival.
func (t *teller) pairBlocks(r *risk.Result) []Block {
	table := Table{ID: "pairs", Caption: "Cost of the first alternative less that of the second, over all futures, " + t.study.About.Currency,
		Columns: []Column{words("First"), words("Second"), number("Mean"), number("5% are below"), number("Half are below"), number("95% are below"), number("Chance that the first costs less")}}
	var blocks []Block
	for _, p := range r.Pairs {
		table.Rows = append(table.Rows, plainRow(text(t.name(p.A)), text(t.name(p.B)), rough(p.Mean), rough(p.P5), rough(p.P50), rough(p.P95), chanceCell(p.Less)))
		if p.A == min(r.Chosen, r.Rival) && p.B == max(r.Chosen, r.Rival) {
			blocks = t.differenceBlocks(&p, r.Trials)
		}
	}
	if len(table.Rows) > 0 {
		blocks = append(blocks, table)
	}
	return blocks
}

func (t *teller) differenceBlocks(p *risk.Pair, trials int) []Block {
	fig := Figure{
		ID: "difference", Kind: Lines, Title: fmt.Sprintf("“%s” less “%s”", t.name(p.A), t.name(p.B)),
		Summary: "Line chart of how the futures are spread over the difference of two alternatives' costs, with zero marked.",
		X:       Axis{Title: fmt.Sprintf("Cost of “%s” less cost of “%s”, %s", t.name(p.A), t.name(p.B), t.study.About.Currency), Kind: RoughCell, Values: t.cells(&p.Histogram)},
		Y:       Axis{Title: "Share of futures in a cell", Kind: RateCell},
		Series:  []Series{{Name: "share of futures", Values: shares(p.Counts[0], trials)}},
		Table:   "difference-table",
	}
	if first, last := fig.X.Values[0], fig.X.Values[len(fig.X.Values)-1]; first.IsNegative() && last.IsPositive() {
		fig.Marks = []Mark{{Label: "equal", X: decimal.Zero}}
	}
	table := Table{ID: "difference-table", Caption: "Share of futures by difference (middle of each cell), " + t.study.About.Currency,
		Columns: []Column{number("Difference"), number("share of futures")}, PageOnly: true}
	for i, v := range fig.X.Values {
		table.Rows = append(table.Rows, plainRow(Cell{Kind: RoughCell, Number: v}, rate(fig.Series[0].Values[i])))
	}
	return []Block{t.behind(fig, []Table{table})}
}

// knowingBlocks say what contributes to the spread and what it would be worth
// to know.
func (t *teller) knowingBlocks(r *risk.Result) []Block {
	if r.Rival < 0 {
		return nil
	}
	table := Table{ID: "knowing", Caption: fmt.Sprintf("What each uncertain input contributes to the spread, and what knowing it before choosing would be worth, %s", t.study.About.Currency),
		Columns: []Column{words("Input"), number("Share of the spread of the difference"), number("Share of the spread of “" + t.name(r.Chosen) + "”"), number("Worth of knowing it alone")}}
	best := risk.Influence{}
	for _, f := range r.Influences {
		table.Rows = append(table.Rows, plainRow(text(t.inputTitle(f.Ref)), rate(share(f.Margin)), rate(share(f.Costs[r.Chosen])), rough(f.Knowing)))
		if f.Knowing > best.Knowing {
			best = f
		}
	}
	var blocks []Block
	if text := t.spreadText(r); text != "" {
		blocks = append(blocks, Paragraph{Role: Lead, Text: text})
	}
	return append(blocks,
		Paragraph{Role: Lead, Text: t.knowingText(r, best)}, table,
		Paragraph{Text: fmt.Sprintf("The shares are of the variance that an input explains alone; the difference is that of “%s” and “%s”. What all inputs explain together may be more than the sum. Of a service life, the life of the first installation is meant.", t.name(r.Chosen), t.name(r.Rival))})
}

// spreadText names the input that contributes most to the spread of the
// difference; "" when none contributes.
func (t *teller) spreadText(r *risk.Result) string {
	most := r.Influences[0] // they stand by their share
	if most.Margin < 0.00005 {
		return ""
	}
	return fmt.Sprintf("What contributes most to the spread of the difference is %s: alone it explains %s.",
		trimComma(t.inputName(most.Ref)), Percent(share(most.Margin), 1))
}

// fewTrials is how many futures it takes before a chance and the worth of
// knowing are spoken of as known: with a thousand, the standard error of a chance
// is 1.6 hundredths at most. The bound is our own.
const fewTrials = 1000

// littleTold follows a chance of fewer.
const littleTold = " So few futures tell little about a chance."

// knowingText says whether finding out more before deciding pays.
func (t *teller) knowingText(r *risk.Result, best risk.Influence) string {
	// Under a ten-thousandth of the cost the worth is nothing but noise.
	least := 1e-4 * math.Abs(r.Alternatives[r.Chosen].Mean)
	if r.Trials < fewTrials {
		few := Plural(r.Trials, "future") + " are too few"
		if r.Trials == 1 {
			few = "1 future is too little"
		}
		return few + " to tell what it would be worth to know more before choosing: draw at least " + grouped(fmt.Sprint(fewTrials)) + "."
	}
	all := fmt.Sprintf("Knowing every uncertain input before choosing would be worth %s on average", t.roughAmount(r.KnowingAll))
	switch {
	case r.KnowingAll <= least:
		return all + ": next to nothing, since the choice would hardly ever change. More surveys and tests before deciding would not pay, as far as costs go."
	case best.Knowing <= least:
		return all + ": no survey or test can be worth more than that. No single input changes the choice, so knowing one alone is worth next to nothing."
	}
	return fmt.Sprintf("%s: no survey or test can be worth more than that. The most valuable to know alone is %s: that would be worth %s.",
		all, trimComma(t.inputName(best.Ref)), t.roughAmount(best.Knowing))
}
