package report

import (
	"fmt"
	"math/big"
	"strings"
)

// rankingHeading is over the table of all roofs.
func (t *roofsTeller) rankingHeading() string {
	stand := t.standings()
	switch {
	case len(t.ranked) == 0:
		return "There are no roofs to rank"
	case stand[savesSomething]+stand[keepsBase] == 0:
		return "Without a base case there are no savings to rank the roofs by"
	case stand[savesSomething] == 0 || t.ranked[0].saved <= 0:
		return "No roof saves anything against its base case"
	case stand[savesSomething] == 1:
		return fmt.Sprintf("“%s” is the one roof that saves against its base case", called(t.ranked[0].Roof))
	case t.ranked[len(t.ranked)-1].rank == 1:
		return upperFirst(allOf(len(t.ranked), "roof")) + " save the same, to the last digit"
	case t.ranked[1].rank == 1:
		return fmt.Sprintf("Of %s, %s save most, the same to the last digit", counted(len(t.ranked), "roof"), few(t.count(func(r *rankedRoof) bool { return r.rank == 1 })))
	}
	text := fmt.Sprintf("“%s” saves most", called(t.ranked[0].Roof))
	if n := t.half(); n > 1 {
		text += fmt.Sprintf(", and the first %s bring half of all net savings", counted(n, "roof"))
	}
	return text
}

// half is how many roofs of the ranking bring half of the net savings of all
// that save.
func (t *roofsTeller) half() int {
	var all, some big.Int
	for i := range t.ranked {
		if saved := t.ranked[i].saved; saved > 0 {
			all.Add(&all, big.NewInt(saved))
		}
	}
	for i := range t.ranked {
		some.Add(&some, big.NewInt(2*t.ranked[i].saved))
		if some.Cmp(&all) >= 0 {
			return i + 1
		}
	}
	return len(t.ranked)
}

func (t *roofsTeller) rankingSection() Section {
	s := Section{ID: "ranking", Heading: t.rankingHeading()}
	if len(t.ranked) == 0 {
		return s
	}
	lead := "Net savings are those of a roof’s lowest alternative against its base case; the margin is what it costs less than the next best. "
	if t.saveable() {
		lead += "The savings-to-investment ratio (SIR) ranks roofs where money does not reach for all; it says nothing of which alternative a roof should have. "
	}
	lead += "The table stands in the order of net savings; what is picked out of it on a screen changes nothing on paper."
	if late := t.unprinted(); len(late) > 0 {
		lead += fmt.Sprintf(" On paper there is no room for %s of the roofs’ table.", listed(late))
	}
	s.Blocks = append(s.Blocks, Paragraph{Role: Lead, Text: lead}, t.rankingTable())
	return s
}

// rankingTable has a row for each roof, and the sums of all below.
func (t *roofsTeller) rankingTable() Table {
	table := Table{ID: "roofs", Caption: fmt.Sprintf("All roofs, %s, %s; %s", t.cur.Code, t.termsOf(), moneyText(t.study.Basis)), Sift: &Sift{Noun: "roof", Find: t.findText()}}
	columns := t.rankColumns()
	total := totalRow()
	for i, c := range columns {
		table.Columns, total.Cells = append(table.Columns, c.Column), append(total.Cells, c.total)
		for _, is := range []struct {
			so bool
			to *[]int
		}{{c.search, &table.Sift.Search}, {c.choose, &table.Sift.Choose}, {c.tell, &table.Sift.Tell}} {
			if is.so {
				*is.to = append(*is.to, i)
			}
		}
	}
	for i := range t.ranked {
		row := Row{Cells: make([]Cell, 0, len(columns))}
		for _, c := range columns {
			row.Cells = append(row.Cells, c.cell(&t.ranked[i]))
		}
		table.Rows = append(table.Rows, row)
	}
	table.Rows = append(table.Rows, total)
	return table
}

// findText says where a reader may find a text.
func (t *roofsTeller) findText() string {
	in := []string{"id"}
	if t.named() {
		in = []string{"name", "id"}
	}
	switch free := t.Roofs.free; {
	case len(free) > 3:
		in = append(in, "what is carried through")
	default:
		for _, head := range free {
			in = append(in, oneLine(head))
		}
	}
	return "Find a roof by " + strings.Join(in, ", ")
}
