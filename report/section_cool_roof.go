package report

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/coolroof"
)

// coolRoofSections tell of every reflective surface.
func (t *teller) coolRoofSections() []Section {
	var out []Section
	for i := range t.CoolRoofs {
		c, id := &t.CoolRoofs[i], "cool-roof"
		if i > 0 {
			id += fmt.Sprintf("-%d", i+1)
		}
		blocks := []Block{Paragraph{Role: Lead, Text: t.coolRoofLead(c)}, t.coolRoofTable(c, id+"-working")}
		if i == 0 {
			blocks = append(blocks, Paragraph{Role: Lead, Text: "How it is computed:"}, List{Items: c.Method},
				Paragraph{Role: Lead, Text: "What it does not cover:"}, List{Items: c.Limits})
		} else {
			blocks = append(blocks, Paragraph{Text: "It is computed in the same way as the one before, and has the same limits."})
		}
		out = append(out, Section{ID: id, Heading: t.coolRoofHeading(c), Blocks: blocks})
	}
	return out
}

// exactly writes what the study uses of an input; of a quantity that was
// converted from other units, six digits.
func (t *teller) exactly(r lcc.Ref) string {
	v := t.Inputs[r]
	if in := &t.study.Inputs[r]; in.Unit != lcc.Count && in.Unit != lcc.Area {
		return t.inputValue(in, v)
	}
	return t.inputValue(&t.study.Inputs[r], v.Round(t.places(r, 6)))
}

// yearly is a yearly cost as it is charged at base-date prices; 0 where there
// is none.
func (t *teller) yearly(r lcc.Ref) decimal.Decimal {
	if r == lcc.NoRef {
		return decimal.Zero
	}
	return t.Inputs[r].Round(t.cur.Digits)
}

// coolRoofHeading says what a reflective surface saves and costs in a year.
func (t *teller) coolRoofHeading(c *coolroof.Working) string {
	what := "A reflective surface"
	if len(t.CoolRoofs) > 1 {
		what = fmt.Sprintf("The reflective surface of “%s”", t.system(c.System))
	}
	saved, lost := t.yearly(c.Saved).Neg(), t.yearly(c.Lost)
	cooling, heating := t.cur.Amount(saved), t.cur.Amount(lost)
	switch {
	case saved.IsZero() && lost.IsZero():
		return what + " changes nothing on the energy bills"
	case lost.IsZero():
		return fmt.Sprintf("%s saves %s of cooling a year and costs no heating", what, cooling)
	case saved.IsZero():
		return fmt.Sprintf("%s saves no cooling and costs %s of heating a year", what, heating)
	case lost.Equal(saved):
		return fmt.Sprintf("%s saves %s of cooling a year and costs as much in heating", what, cooling)
	case lost.GreaterThan(saved):
		return fmt.Sprintf("%s costs %s of heating a year, more than the %s of cooling that it saves", what, heating, cooling)
	}
	return fmt.Sprintf("%s saves %s of cooling a year and costs %s of heating", what, cooling, heating)
}

// coolRoofLead says where the figures stand in the study.
func (t *teller) coolRoofLead(c *coolroof.Working) string {
	net, result := t.yearly(c.Saved).Add(t.yearly(c.Lost)), "the two cancel out"
	switch {
	case net.IsNegative():
		result = "together a credit of " + t.cur.Amount(net.Neg())
	case net.IsPositive():
		result = "together a cost of " + t.cur.Amount(net)
	}
	switch {
	case c.Saved == lcc.NoRef && c.Lost == lcc.NoRef:
		return fmt.Sprintf("This is the surface of “%s”. The building is neither cooled nor heated.", t.system(c.System))
	case c.Saved == lcc.NoRef:
		result = "the building is not cooled"
	case c.Lost == lcc.NoRef:
		result = "the building is not heated"
	}
	return fmt.Sprintf("This is the surface of “%s”. What it saves and costs in a year, at base-date prices and soiled from the first year on, is charged in every year of its life among the costs of energy: %s.", t.system(c.System), result)
}

// coolRoofTable is the working, step by step.
func (t *teller) coolRoofTable(c *coolroof.Working, id string) Table {
	table := Table{ID: id, Caption: fmt.Sprintf("What the reflective surface of “%s” does in a year, at base-date prices", t.system(c.System)),
		Columns: []Column{words("Step"), number("Value")}}
	add := func(label, value string) { table.Rows = append(table.Rows, plainRow(text(label), text(value))) }
	group := func(title string, steps []coolroof.Step) {
		table.Rows = append(table.Rows, Row{Role: Group, Cells: []Cell{text(title), text("")}})
		for _, s := range steps {
			add(s.Label, strings.TrimSpace(trimmed(s.Value, s.Places)+" "+unitSign(s.Unit)))
		}
	}
	group("What the effect follows from", nil)
	for _, r := range c.Inputs {
		add(t.study.Inputs[r].Label, t.exactly(r))
	}
	group("The surface", c.Surface)
	if c.Saved != lcc.NoRef {
		group("While cooling is called for", c.Cooling)
		table.Rows = append(table.Rows, totalRow(text("Yearly cost: cooling saved"), text(t.cur.Amount(t.yearly(c.Saved)))))
	}
	if c.Lost != lcc.NoRef {
		group("While heating is called for", c.Heating)
		table.Rows = append(table.Rows, totalRow(text("Yearly cost: heating lost"), text(t.cur.Amount(t.yearly(c.Lost)))))
	}
	return table
}
