package report

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/coolroof"
)

// coolStudy is a study of a roof with a reflective surface whose two yearly
// costs are as given; "" is a season that there is not.
func coolStudy(t *testing.T, saved, lost string) (*teller, *coolroof.Working) {
	t.Helper()
	in := studyOf(t, 3, choice{name: "Coat", work: lcc.WorkRestore, first: 1000})
	s := in.Result.Study
	cost := func(amount string) lcc.Ref {
		if amount == "" {
			return lcc.NoRef
		}
		ref := s.Add(lcc.Input{Label: "A cost", Of: "Coat", Unit: lcc.Money, Likely: decimal.RequireFromString(amount)})
		s.Systems[0].Annual = append(s.Systems[0].Annual, lcc.Item{Name: "cost", Category: lcc.Energy, Price: ref, Quantity: lcc.NoRef, Growth: lcc.NoRef})
		return ref
	}
	c := coolroof.Working{Saved: cost(saved), Lost: cost(lost), Inputs: []lcc.Ref{s.Area}, Surface: []coolroof.Step{{Label: "Change of reflectance", Value: decimal.New(41, -2), Unit: "", Places: 4}},
		Cooling: []coolroof.Step{{Label: "Heat kept out", Value: decimal.New(12345678, -1), Unit: "kWh", Places: 0}}, Heating: []coolroof.Step{{Label: "Sun no longer absorbed", Value: decimal.New(5, 1), Unit: "kWh/m2", Places: 1}},
		Method: []string{"A way."}, Limits: []string{"A limit."}}
	r, err := s.Evaluate()
	require.NoError(t, err)
	in.Result, in.CoolRoofs = r, []coolroof.Working{c}
	return tell(in), &in.CoolRoofs[0]
}

// Each of these was read aloud.
func TestCoolRoofSentences(t *testing.T) {
	for _, c := range []struct{ name, saved, lost, heading, lead string }{
		{"a saving", "-4210.004", "380.5", "A reflective surface saves $4,210.00 of cooling a year and costs $380.50 of heating", "together a credit of $3,829.50."},
		{"a net cost", "-100", "380", "A reflective surface costs $380.00 of heating a year, more than the $100.00 of cooling that it saves", "together a cost of $280.00."},
		{"as much", "-100.001", "99.999", "A reflective surface saves $100.00 of cooling a year and costs as much in heating", "the two cancel out."},
		{"nothing", "-0.004", "0", "A reflective surface changes nothing on the energy bills", "the two cancel out."},
		{"heating for nothing", "-100", "0", "A reflective surface saves $100.00 of cooling a year and costs no heating", "together a credit of $100.00."},
		{"never heated", "-100", "", "A reflective surface saves $100.00 of cooling a year and costs no heating", "the building is not heated."},
		{"never cooled", "", "100", "A reflective surface saves no cooling and costs $100.00 of heating a year", "the building is not cooled."},
	} {
		teller, roof := coolStudy(t, c.saved, c.lost)
		assert.Equal(t, c.heading, teller.coolRoofHeading(roof), c.name)
		assert.Equal(t, "This is the surface of “Coat”. What it saves and costs in a year, at base-date prices and soiled from the first year on, is charged in every year of its life among the costs of energy: "+c.lead,
			teller.coolRoofLead(roof), c.name)
	}
}

func TestTwoCoolRoofsHaveSectionsOfTheirOwn(t *testing.T) {
	teller, roof := coolStudy(t, "-100", "")
	teller.CoolRoofs = []coolroof.Working{*roof, *roof}
	sections := teller.coolRoofSections()
	require.Len(t, sections, 2)
	assert.Equal(t, []string{"cool-roof", "cool-roof-2"}, []string{sections[0].ID, sections[1].ID})
	assert.Equal(t, "The reflective surface of “Coat” saves $100.00 of cooling a year and costs no heating", sections[1].Heading)
	assert.NotEqual(t, sections[0].Blocks[1].(Table).ID, sections[1].Blocks[1].(Table).ID)
}

func TestCoolRoofTable(t *testing.T) {
	teller, roof := coolStudy(t, "-100.255", "3")
	var rows [][2]string
	for _, row := range teller.coolRoofTable(roof, "x").Rows {
		rows = append(rows, [2]string{row.Cells[0].Text, row.Cells[1].Text})
	}
	assert.Equal(t, [][2]string{
		{"What the effect follows from", ""}, {"", "1,000"},
		{"The surface", ""}, {"Change of reflectance", "0.41"},
		{"While cooling is called for", ""}, {"Heat kept out", "1,234,568 kWh"}, {"Yearly cost: cooling saved", "-$100.26"},
		{"While heating is called for", ""}, {"Sun no longer absorbed", "50 kWh/m²"}, {"Yearly cost: heating lost", "$3.00"},
	}, rows)
}

// A quantity that the energy bills follow from is no slider of first costs:
// the page's script does not work out what follows.
func TestWhatFeedsACoolRoofIsNoSlider(t *testing.T) {
	in := studyOf(t, 3, choice{name: "Coat", work: lcc.WorkRestore, first: 1000})
	s := in.Result.Study
	per := s.Add(lcc.Input{Label: "Over offices", Unit: lcc.Count, Shape: lcc.Triangular, Low: one, Likely: decimal.NewFromInt(2), High: decimal.NewFromInt(3)})
	s.Systems[0].First[0].Quantity = per
	r, err := s.Evaluate()
	require.NoError(t, err)
	in.Result = r
	assert.Equal(t, []lcc.Ref{per}, tell(in).ownInputs(0))
	cost := s.Add(lcc.Input{Unit: lcc.Money})
	s.Derived = []lcc.Derivation{{In: cost, Terms: []lcc.Term{{Coefficient: one, Factors: []lcc.Factor{{Of: per}}}}}}
	in.Result, err = s.Evaluate()
	require.NoError(t, err)
	assert.Empty(t, tell(in).ownInputs(0))
}
