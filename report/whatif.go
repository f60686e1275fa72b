package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// WhatIf is what a page needs to compute the comparison again at other inputs,
// and the inputs that its reader may move. It is data for a script: figures
// are whole minor units and values exact decimals, both as text.
type WhatIf struct {
	Study    Structure           `json:"study"`
	Money    MoneyForm           `json:"money"`
	TieShare decimal.Decimal     `json:"tie_share"` // see lcc.TieShare
	Lowest   *int                `json:"lowest"`    // of the study itself; nil when none is eligible
	Figures  []WhatIfFigure      `json:"figures"`   // the rows, in order
	Own      []map[string]string `json:"own"`       // what the ledger gives, by alternative and figure
	Standing WhatIfStanding      `json:"standing"`
	Groups   []SliderGroup       `json:"groups"`
	Still    []string            `json:"still"` // what cannot be moved, in sentences
}

// WhatIfFigure names a figure of an alternative. The base case has no savings.
type WhatIfFigure struct {
	Key   string `json:"key"`
	Label string `json:"label"`
	Total bool   `json:"total,omitempty"` // a sum of those above
}

// WhatIfStanding are the words that say whether an alternative may be chosen,
// by alternative.
type WhatIfStanding struct {
	Label    string   `json:"label"`
	Lowest   []string `json:"lowest"`  // where it is the lowest
	Other    []string `json:"other"`   // where it is not
	Unshown  []string `json:"unshown"` // the sentence on what is open; "" when nothing is
	BaseCase string   `json:"base_case"`
}

// SliderGroup holds the sliders of one system, or that of the discount rate.
type SliderGroup struct {
	Title   string   `json:"title"`
	Moves   string   `json:"moves"` // which alternatives, as a sentence
	Sliders []Slider `json:"sliders"`
}

// Slider moves some inputs together from position to position, in order.
type Slider struct {
	Label     string           `json:"label"`
	Notes     []string         `json:"notes,omitempty"`
	Inputs    []lcc.Ref        `json:"inputs"`
	Positions []SliderPosition `json:"positions"`
	Start     int              `json:"start"` // the position of the study's own values
}

// SliderPosition is one setting: a value for each of the slider's inputs.
type SliderPosition struct {
	Values []decimal.Decimal `json:"values"`
	Text   string            `json:"text"`
}

// whatIfSection lets the reader move what has a stated range; none when
// nothing has.
func (t *teller) whatIfSection() []Section {
	w := t.whatIf()
	if len(w.Groups) == 0 {
		return nil
	}
	return []Section{{ID: "what-if", Heading: "What if?", Live: true, Blocks: []Block{
		Paragraph{Role: Lead, Text: "Move a slider over the range that the study states, and this page compares the alternatives again, line by line as the ledgers do. What it shows here are trials: the study's own figures are those of the other sections, and only these are printed."},
		w,
	}}}
}

func (t *teller) whatIf() WhatIf {
	w := WhatIf{
		Study: structureOf(t.study, t.Inputs), Money: t.cur.Form(), TieShare: lcc.TieShare, Figures: t.whatIfFigures(),
		Standing: WhatIfStanding{Label: standing, BaseCase: isBaseCase},
	}
	if t.Answer.Lowest >= 0 {
		w.Lowest = &t.Answer.Lowest
	}
	for i := range t.Alternatives {
		w.Own = append(w.Own, t.ownFigures(&t.Alternatives[i]))
		w.Standing.Lowest = append(w.Standing.Lowest, t.standsText(i, true))
		w.Standing.Other = append(w.Standing.Other, t.standsText(i, false))
		w.Standing.Unshown = append(w.Standing.Unshown, t.unshownSentence(i))
	}
	w.Groups, w.Still = t.sliderGroups()
	return w
}

func (t *teller) whatIfFigures() []WhatIfFigure {
	var out []WhatIfFigure
	for _, part := range parts() {
		out = append(out, WhatIfFigure{Key: part.key, Label: part.label})
	}
	out = append(out, WhatIfFigure{"lcc", lccLabel, true}, WhatIfFigure{Key: "worth", Label: worthLabel})
	if t.study.BaseCase() >= 0 {
		out = append(out, WhatIfFigure{Key: "savings", Label: savingsLabel})
	}
	return out
}

// ownFigures are an alternative's figures in minor units.
func (t *teller) ownFigures(o *lcc.Outcome) map[string]string {
	minor := func(d decimal.Decimal) string { return d.Shift(t.cur.Digits).String() }
	out := map[string]string{"lcc": minor(o.LCC), "worth": minor(o.AnnualWorth)}
	for _, part := range parts() {
		out[part.key] = minor(part.of(o))
	}
	if o.AgainstBase != nil {
		out["savings"] = minor(o.AgainstBase.NetSavings)
	}
	return out
}

// sliderGroups are the discount rate's slider and those of every system that
// an alternative starts with, each once, in the order of the alternatives.
// still says what stays as it is for want of a range.
func (t *teller) sliderGroups() (groups []SliderGroup, still []string) {
	still = []string{} // a list for the script, if an empty one
	if s, found := t.rateSlider(); found {
		groups = append(groups, SliderGroup{"Discount rate", "It moves every alternative.", []Slider{s}})
	} else {
		still = append(still, fmt.Sprintf("No range is stated for the discount rate, so it stays at %s.", Percent(t.Rate, 4)))
	}
	var bare []string
	seen := map[int]bool{}
	shortest := t.shortestLives()
	for i := range t.Alternatives {
		system := t.Alternatives[i].Alternative.Start
		if seen[system] {
			continue
		}
		seen[system] = true
		sliders, lacks := t.systemSliders(system)
		if len(sliders) > 0 {
			groups = append(groups, SliderGroup{t.system(system), t.movesText(shortest, system), sliders})
		}
		bare = append(bare, lacks...)
	}
	if len(bare) > 0 {
		still = append(still, fmt.Sprintf("No range of its own is stated for %s: what has none, or is shared with other costs, stays as the study has it.", listed(bare)))
	}
	return groups, still
}

// systemSliders are those of one system, and what has none.
func (t *teller) systemSliders(system int) (sliders []Slider, lacks []string) {
	y := &t.study.Systems[system]
	if !y.InPlace && len(y.First) > 0 { // what is in place has no first costs
		if s, found := t.firstCostSlider(system); found {
			sliders = append(sliders, s)
		} else {
			lacks = append(lacks, fmt.Sprintf("the first cost of “%s”", y.Name))
		}
	}
	if lives := t.lifeSliders(y); len(lives) > 0 {
		sliders = append(sliders, lives...)
	} else {
		lacks = append(lacks, fmt.Sprintf("the service life of “%s”", y.Name))
	}
	return sliders, lacks
}

// shortestLives is the study's vector with every life that a slider moves at
// its least: there the chains reach furthest.
func (t *teller) shortestLives() lcc.Vector {
	v := append(lcc.Vector(nil), t.Inputs...)
	for i := range t.Alternatives {
		y := &t.study.Systems[t.Alternatives[i].Alternative.Start]
		for _, s := range t.lifeSliders(y) {
			t.shorten(v, y.Life, s)
		}
	}
	return t.filled(v)
}

// shorten moves a slider to the end at which a life is shorter.
func (t *teller) shorten(v lcc.Vector, life lcc.Ref, s Slider) {
	low, high := s.Positions[0].Values[0], s.Positions[len(s.Positions)-1].Values[0]
	v[s.Inputs[0]] = high
	long := t.filled(v)[life]
	v[s.Inputs[0]] = low
	if long.LessThan(t.filled(v)[life]) {
		v[s.Inputs[0]] = high
	}
}

// filled is a vector with what follows from it; as it is where nothing can.
func (t *teller) filled(v lcc.Vector) lcc.Vector {
	out, err := t.study.Filled(v)
	if err != nil {
		return v
	}
	return out
}

// movesText names the alternatives whose chain can reach a system.
func (t *teller) movesText(shortest lcc.Vector, system int) string {
	var names []string
	for i := range t.Alternatives {
		if t.study.Reached(shortest, i)[system] {
			names = append(names, "“"+t.name(i)+"”")
		}
	}
	if len(names) == len(t.Alternatives) && len(names) > 1 {
		return "It can move every alternative."
	}
	return "It can move " + listed(names) + "."
}
