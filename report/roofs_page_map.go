package report

import "fmt"

// mapHeading is over the map of first cost against net savings.
func (t *roofsTeller) mapHeading() string {
	all := t.count(func(r *rankedRoof) bool { return r.saves })
	n := t.count(func(r *rankedRoof) bool {
		return r.saves && r.saved > first(r)
	})
	switch {
	case n == 0:
		return "No roof saves more than it costs at the start"
	case n == 1 && len(t.ranked) == 1:
		return "The roof saves more than it costs at the start"
	case n == all && n > 1:
		return upperFirst(allOf(n, "roof")) + " save more than they cost at the start"
	case n == 1 && all == 1:
		return "The one roof that saves does so by more than it costs at the start"
	case n == 1:
		return fmt.Sprintf("One roof of %s saves more than it costs at the start", few(all))
	}
	return fmt.Sprintf("%s of %s save more than they cost at the start", upperFirst(few(n)), counted(all, "roof"))
}

// mapSections hold the map of first cost against net savings; none where no
// roof has net savings.
func (t *roofsTeller) mapSections() []Section {
	fig := Figure{
		ID: "savings-map", Kind: Points, Title: "What a roof’s lowest alternative costs at the start, and what it saves",
		Summary: t.mapSummary(),
		X:       Axis{Title: "First cost, " + t.cur.Code, Kind: MoneyCell}, Y: Axis{Title: "Net savings against the base case, " + t.cur.Code, Kind: MoneyCell},
		Table: "ranking", TableName: "the table of all roofs",
	}
	series := make([]Series, len(t.Roofs.alternatives))
	for i := range t.ranked {
		r := &t.ranked[i]
		if !r.saves {
			continue
		}
		s := &series[t.Roofs.places[r.Template][r.Answer.Lowest]]
		s.X, s.Values, s.Labels = append(s.X, t.minor(first(r))), append(s.Values, t.minor(r.saved)), append(s.Labels, called(r.Roof))
	}
	for i, s := range series {
		if len(s.Values) > 0 {
			s.Name, s.Hue = t.Roofs.alternatives[i], i+1
			fig.Series = append(fig.Series, s)
		}
	}
	if len(fig.Series) == 0 {
		return nil
	}
	lead := "A point is a roof, at the first cost and the net savings of its lowest alternative. The higher a point, the more the roof saves; the further left, the less money it asks for now."
	switch n := t.standings()[keepsBase]; {
	case n == 1:
		lead += " One roof, on which the base case is the lowest, saves nothing against it and is not on the map."
	case n > 1:
		lead += fmt.Sprintf(" %s, on which the base case is the lowest, save nothing against it and are not on the map.", upperFirst(counted(n, "roof")))
	}
	return []Section{{ID: "map", Heading: t.mapHeading(), Blocks: []Block{Paragraph{Role: Lead, Text: lead}, fig}}}
}

// mapSummary tells the map to who does not see it.
func (t *roofsTeller) mapSummary() string {
	text := "Scatter chart of first cost and net savings, a point for each roof whose lowest alternative is compared with the base case."
	if len(t.ranked) == 0 || !t.ranked[0].saves {
		return text
	}
	best := &t.ranked[0]
	var dearest *rankedRoof
	for i := range t.ranked {
		if r := &t.ranked[i]; r.saves && (dearest == nil || first(r) > first(dearest)) {
			dearest = r
		}
	}
	at := func(r *rankedRoof) string {
		return fmt.Sprintf("“%s”, with a first cost of %s and net savings of %s", called(r.Roof), t.amount(first(r)), t.amount(r.saved))
	}
	return text + fmt.Sprintf(" The highest point is %s; the one furthest to the right is %s.", at(best), at(dearest))
}

// first is the first cost of a roof's lowest alternative, in minor units.
func first(r *rankedRoof) int64 { return r.Costs[r.Answer.Lowest].First }
