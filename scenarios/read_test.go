package scenarios

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

func good(t *testing.T, name string) *File {
	t.Helper()
	f, diagnostics := read(t, filepath.Join(testdata, "good", name))
	require.NotNil(t, f, told(diagnostics))
	return f
}

// input finds an input of a study by its path.
func input(t *testing.T, s *lcc.Study, path string) lcc.Input {
	t.Helper()
	ref := s.Find(path)
	require.NotEqual(t, lcc.NoRef, ref, path)
	return s.Inputs[ref]
}

func TestWhatTheStudySaysOfItself(t *testing.T) {
	s := good(t, "forms.yaml").Study
	assert.Equal(t, lcc.About{
		Title: "Forms: every one", PreparedFor: "42", PreparedBy: "One text in two lines",
		BaseDate: "2028-02-29", Currency: "JPY", Digits: 0, AreaUnit: "m2",
	}, s.About)
	assert.Equal(t, 30, s.Period)
	assert.Equal(t, lcc.MidYear, s.Timing)
	assert.Equal(t, lcc.Nominal, s.Basis)
	assert.Equal(t, "study.discount_rate", s.Inputs[s.Rate].Path)
	assert.Equal(t, "study.inflation", s.Inputs[s.Inflation].Path)
	assert.Equal(t, "roof.area", s.Inputs[s.Area].Path)
}

// Each line is path, what it is of and label, unit, unit text, shape, low, likely, high, spread
// and source, exactly as they come to the study.
func TestEstimatesAreExact(t *testing.T) {
	s := good(t, "forms.yaml").Study
	for _, want := range []struct {
		path, label string
		unit        lcc.Unit
		unitText    string
		shape       lcc.Shape
		numbers     string // low likely high spread
		source      string
	}{
		{"study.discount_rate", "Discount rate", lcc.Rate, "", lcc.Normal, "0 0.03 0 0.005", "Treasury"},
		{"study.inflation", "General inflation", lcc.Rate, "", lcc.Fixed, "0 0.02 0 0", ""},
		{"study.escalation.construction", "Escalation of construction", lcc.Rate, "", lcc.Uniform, "-0.01 0.025 0.04 0", ""},
		{"study.escalation.fees[3]", "Escalation of fees, year 3", lcc.Rate, "", lcc.Fixed, "0 0.03 0 0", ""},
		{"study.escalation.fees[30]", "Escalation of fees, year 30", lcc.Rate, "", lcc.Fixed, "0 0.999 0 0", "Guess"},
		{"roof.area", "Plan area of the roof", lcc.Area, "m2", lcc.Triangular, "4400 4500.5 4600 0", "Tape"},
		{"roof.quantities.seam_length", "Seam length", lcc.Length, "m", lcc.Fixed, "0 1234.5 0 0", ""},
		{"roof.quantities.wet_area", "Wet area", lcc.Count, "m2", lcc.Fixed, "0 0 0 0", ""},
		{"roof.quantities.drains", "Drains", lcc.Count, "", lcc.Fixed, "0 14 0 0", ""},
		{"roof.quantities.skylights", "Skylights", lcc.Count, "", lcc.Lognormal, "0 8 0 2", ""},
		{"systems.old.life", "Old roof | Years left", lcc.Years, "", lcc.PERT, "1 2.5 4 0", ""},
		{"systems.old.annual_costs[1].amount", "Old roof | Patching, amount", lcc.Money, "", lcc.Fixed, "0 1000 0 0", "Work orders"},
		{"systems.old.annual_costs[1].growth", "Old roof | Patching, growth a year", lcc.Rate, "", lcc.Fixed, "0 0 0 0", ""},
		{"systems.old.annual_costs[2].amount", "Old roof | Watch, amount", lcc.Money, "", lcc.Lognormal, "0 500 0 50", "Own"},
		{"systems.old.removal[1].amount", "Old roof | Scrap, amount", lcc.Money, "", lcc.Fixed, "0 -2400.25 0 0", ""},
		{"systems.roof_over_it.life", "Roof over | Service life", lcc.Years, "", lcc.Weibull, "0 22 0 4", ""},
		{"systems.roof_over_it.first_costs[1].unit_price", "Roof over | Laps, unit price", lcc.Price, "per m", lcc.Fixed, "0 0.1000000000000000055511151231257827 0 0", ""},
		{"systems.roof_over_it.first_costs[2].unit_price", "Roof over | Drains, unit price", lcc.Price, "", lcc.Triangular, "100 150 200 0", ""},
		{"systems.roof_over_it.recoat.life", "Roof over | Service life of a recoat", lcc.Years, "", lcc.Lognormal, "0 9 0 2", ""},
		{"systems.roof_over_it.recoat.costs[1].unit_price", "Roof over | Recoat: Recoat, unit price", lcc.Price, "per m2", lcc.Fixed, "0 30 0 0", ""},
		{"systems.roof_over_it.residual", "Roof over | Residual value", lcc.Money, "", lcc.Normal, "0 5000 0 100", ""},
		{"systems.last.life", "Last | Service life", lcc.Years, "", lcc.Fixed, "0 0.5 0 0", "Guess"},
	} {
		in := input(t, s, want.path)
		label := in.Label
		if in.Of != "" {
			label = in.Of + " | " + label
		}
		assert.Equal(t, want.label, label)
		assert.Equal(t, want.unit, in.Unit, want.path)
		assert.Equal(t, want.unitText, in.UnitText, want.path)
		assert.Equal(t, want.shape, in.Shape, want.path)
		assert.Equal(t, want.source, in.Source, want.path)
		numbers := strings.Fields(want.numbers)
		for i, got := range []decimal.Decimal{in.Low, in.Likely, in.High, in.Spread} {
			assert.Equal(t, numbers[i], got.String(), want.path)
		}
	}
}

func TestEveryInputHasItsOwnPathAndALabel(t *testing.T) {
	for _, name := range []string{"forms.yaml", "aliases.yaml", "json.yaml", "check-50000.yaml"} {
		s := good(t, name).Study
		for i, in := range s.Inputs {
			assert.Equal(t, lcc.Ref(i), s.Find(in.Path), in.Path)
			assert.NotEmpty(t, in.Label, in.Path)
		}
	}
}

func TestSystems(t *testing.T) {
	s := good(t, "forms.yaml").Study
	require.Len(t, s.Systems, 4)
	old, over, last, lastly := s.Systems[0], s.Systems[1], s.Systems[2], s.Systems[3]

	assert.Equal(t, lcc.WorkExisting, old.Work)
	assert.Equal(t, lcc.WorkRecover, over.Work)
	assert.Equal(t, lcc.WorkTearOff, last.Work)
	assert.Equal(t, lcc.WorkOther, lastly.Work)
	assert.True(t, old.InPlace)
	assert.False(t, over.InPlace)
	assert.Equal(t, []int{1, 2, 2, 3}, []int{old.Then, over.Then, last.Then, lastly.Then})

	patching, watch := old.Annual[0], old.Annual[1]
	assert.Equal(t, lcc.Maintenance, patching.Category)
	assert.Equal(t, lcc.NoRef, patching.Quantity)
	assert.False(t, patching.KeepsAge)
	assert.Equal(t, "Work orders", patching.Source)
	assert.Equal(t, lcc.Fees, watch.Category)
	assert.True(t, watch.KeepsAge)
	assert.Equal(t, lcc.Disposal, old.Removal[0].Category)
	assert.Equal(t, lcc.NoRef, old.Removal[0].Growth)

	assert.Equal(t, lcc.Construction, over.First[0].Category)
	assert.Equal(t, s.Find("roof.quantities.seam_length"), over.First[0].Quantity)
	assert.Equal(t, lcc.Other, over.First[1].Category)
	assert.Equal(t, 4, over.Periodic[0].Every)
	assert.Equal(t, 3, over.Recoat.AtMost)
	assert.Equal(t, s.Area, over.Recoat.Costs[0].Quantity)
	assert.Nil(t, last.Recoat)

	assert.Equal(t, lcc.Prorated, old.Residual.Mode)
	assert.Equal(t, lcc.Residual{Mode: lcc.FixedAmount, Amount: s.Find("systems.roof_over_it.residual")}, over.Residual)
	assert.Equal(t, lcc.NoResidual, last.Residual.Mode)
	assert.Equal(t, lcc.Prorated, lastly.Residual.Mode)
}

func TestWorkIsTakenFromTheKey(t *testing.T) {
	for key, want := range map[string]lcc.Work{
		"tear_off": lcc.WorkTearOff, "replacement": lcc.WorkTearOff, "tearoff_two": lcc.WorkTearOff,
		"restoration": lcc.WorkRestore, "silicone_coating": lcc.WorkRestore,
		"recover": lcc.WorkRecover, "roof_over": lcc.WorkRecover, "overlay": lcc.WorkRecover,
		"new_roof": lcc.WorkOther,
	} {
		assert.Equal(t, want, (&section{}).work(&lcc.System{Key: key}), key)
	}
	assert.Equal(t, lcc.WorkExisting, (&section{}).work(&lcc.System{Key: "restoration", InPlace: true}))
}

func TestAlternatives(t *testing.T) {
	s := good(t, "forms.yaml").Study
	assert.Equal(t, []lcc.Alternative{
		{Name: "Keep", Start: 0},
		{Name: "Over", Start: 1, Wait: &lcc.Wait{On: 0, Years: 0}, BaseCase: true},
		{Name: "Later", Start: 2, Wait: &lcc.Wait{On: 0, Years: 1}, RuledOut: &lcc.Ruling{Rule: "Code", Finding: "Two layers", Source: "Survey"}},
		{Name: "Last", Start: 3},
	}, s.Alternatives)
}

func TestStructureListsWholeNumbersThatAreNotEstimates(t *testing.T) {
	assert.Equal(t, []Setting{
		{Path: "study.period", Label: "Study period, years", Value: "30"},
		{Path: "systems.roof_over_it.periodic_costs[1].every", Label: "Roof over: Survey, years between", Value: "4"},
		{Path: "systems.roof_over_it.recoat.at_most", Label: "Roof over: recoats at most", Value: "3"},
		{Path: "alternatives[2].wait.years", Label: "Over: wait, years", Value: "0"},
		{Path: "alternatives[3].wait.years", Label: "Later: wait, years", Value: "1"},
	}, good(t, "forms.yaml").Structure)
}

func TestAnAliasRepeatsAsIfWrittenOut(t *testing.T) {
	s := good(t, "aliases.yaml").Study
	for _, system := range s.Systems {
		require.Len(t, system.Annual, 1)
		assert.Equal(t, "Care", system.Annual[0].Name)
	}
	assert.NotEqual(t, s.Systems[0].Annual[0].Price, s.Systems[1].Annual[0].Price)
	assert.Equal(t, "700", input(t, s, "systems.new.annual_costs[1].amount").Likely.String())
}

func TestJSONIsRead(t *testing.T) {
	s := good(t, "json.yaml").Study
	assert.Equal(t, "12.5", input(t, s, "systems.new.first_costs[1].unit_price").Likely.String())
	assert.Equal(t, "Roof, all of it", s.Systems[1].First[0].Name)
}

func TestDefaults(t *testing.T) {
	s := good(t, "check-50000.yaml").Study
	assert.Equal(t, lcc.EndOfYear, s.Timing)
	assert.Equal(t, lcc.NoRef, s.Inflation)
	assert.Equal(t, int32(2), s.About.Digits)
	assert.Empty(t, s.Escalation[lcc.Fees])
	assert.Len(t, s.Escalation[lcc.Construction], 1)
	assert.Equal(t, lcc.WorkRestore, s.Systems[1].Work)
}

// A text in braces with a comma is read whole, and told as a warning.
func TestTextInBracesWithComma(t *testing.T) {
	f, diagnostics := read(t, filepath.Join(testdata, "odd", "text-with-comma.yaml"))
	require.NotNil(t, f, told(diagnostics))
	first := f.Study.Systems[1].First
	assert.Equal(t, "Clean, treat rust and re-fasten", first[0].Name)
	assert.Equal(t, "Base and finish coat, one day apart, both by spray", first[2].Name)
	assert.Equal(t, "2.2", f.Study.Inputs[first[2].Price].Likely.String())
}
