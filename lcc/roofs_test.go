package lcc

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// columns are some inputs of a study, as the columns of a table of roofs.
func columns(s *Study, d dice) []Ref {
	var refs []Ref
	for i := range s.Inputs {
		if !s.IsDerived(Ref(i)) && d.upTo(2) == 0 {
			refs = append(refs, Ref(i))
		}
	}
	return refs
}

// Every figure of a roof among many is that of its own evaluation, whatever
// roof came before it, and what one refuses the other refuses.
func TestRoofsAreTheLedgerAtEachRoof(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		refs := columns(s, d)
		w, err := s.Roofs(refs)
		if err != nil {
			t.Fatalf("%v", err)
		}
		for range 6 {
			v, values, given := s.Likely(), make([]decimal.Decimal, len(refs)), make([]bool, len(refs))
			for i, r := range refs {
				factor := decimal.New(int64(70+d.upTo(60)), -2)
				if given[i] = d.upTo(3) > 0; given[i] {
					values[i] = v[r].Mul(factor)
					v[r] = values[i]
				}
			}
			sameAsEvaluated(t, s, w, v, values, given)
		}
	})
}

func sameAsEvaluated(t *rapid.T, s *Study, w *Roofs, v Vector, values []decimal.Decimal, given []bool) {
	costs := make([]RoofCost, len(s.Alternatives))
	err := w.Costs(values, given, costs)
	own, ownErr := s.EvaluateAt(v)
	if (err == nil) != (ownErr == nil) {
		t.Fatalf("among many: %v, on its own: %v", err, ownErr)
	}
	if err != nil {
		return
	}
	for i, a := range own.Alternatives {
		if minor := a.LCC.Shift(s.About.Digits); !minor.Equal(decimal.NewFromInt(costs[i].LCC)) {
			t.Fatalf("alternative %d costs %d among many, %s on its own", i, costs[i].LCC, minor)
		}
		if minor := a.First.Shift(s.About.Digits); !minor.Equal(decimal.NewFromInt(costs[i].First)) {
			t.Fatalf("alternative %d costs %d at first among many, %s on its own", i, costs[i].First, minor)
		}
	}
	for i, a := range own.Alternatives {
		if a.AgainstBase == nil {
			continue
		}
		if got, want := s.RoofSIR(costs, i), a.AgainstBase.SIR; got.Reason != want.Reason || !got.Value.Equal(want.Value) {
			t.Fatalf("alternative %d has the ratio %v among many, %v on its own", i, got, want)
		}
	}
	got, want := s.RoofAnswer(costs), own.Answer
	margin := decimal.New(got.Margin, -s.About.Digits)
	if got.Lowest != want.Lowest || got.RunnerUp != want.RunnerUp || !margin.Equal(want.Margin) || got.Tie != want.Tie {
		t.Fatalf("answer %+v among many, %+v on its own", got, want)
	}
}

func TestRoofsRefuseWhatIsTooLarge(t *testing.T) {
	s := halfCentStudy("1")
	var refs []Ref
	for i := range s.Inputs {
		if s.Inputs[i].Likely.Equal(decimal.NewFromInt(1)) && s.Inputs[i].Unit == Money {
			refs = append(refs, Ref(i))
		}
	}
	require.Len(t, refs, 1)
	w, err := s.Roofs(refs)
	require.NoError(t, err)
	out := make([]RoofCost, 1)
	most := decimal.New(MaxMinor, -2)
	require.NoError(t, w.Costs([]decimal.Decimal{most}, []bool{true}, out))
	assert.Equal(t, int64(MaxMinor), out[0].LCC)
	for _, more := range []decimal.Decimal{most.Add(dec("0.01")), most.Neg().Sub(dec("0.01")), dec("1e30")} {
		assert.ErrorContains(t, w.Costs([]decimal.Decimal{more}, []bool{true}, out), "costs over 90071992547409.92 USD")
	}
	require.NoError(t, w.Costs([]decimal.Decimal{dec("0.125")}, []bool{true}, out), "half a cent: the ledger is asked")
	assert.Equal(t, RoofCost{13, 13, 0}, out[0])
}

func TestNearestFloat(t *testing.T) {
	for _, text := range []string{"0", "0.1", "-2.35", "123456789012.345", "0.000000000000001", "1e-22", "1e22", "0.1234567890123456789", "-99999999999999.9"} {
		d := dec(text)
		assert.Equal(t, d.InexactFloat64(), nearestFloat(d), text)
	}
}

// Every line of this study is worth half a cent beyond a whole one, in every
// year of its age: 10.125 × 3^k. Each is settled by the ledger alone.
func TestLinesOnTheEdgeAreSettled(t *testing.T) {
	b := newStudy(12, "0")
	y := b.system("roof", "5", func(y *System) {
		y.First = []Item{b.perArea("0.005").as(Fees), b.item("2000.125").as(Fees)}
		y.Annual = []Item{b.growing(b.item("10.125"), "2").as(Maintenance), b.growing(b.item("-0.125"), "2").as(Energy)}
		every := b.growing(b.item("1.125"), "2").as(Fees)
		every.Every, every.KeepsAge = 2, true
		y.Periodic = []Item{every}
		y.Removal = []Item{b.item("0.375").as(Disposal)}
		y.Recoat = &Recoating{AtMost: 1, Life: b.in("recoat", Years, "3"), Costs: []Item{b.item("7.625").as(Fees)}}
	})
	b.alternative("roof", y, nil)
	w, err := b.s.Roofs([]Ref{b.s.Area})
	require.NoError(t, err)
	out := make([]RoofCost, 1)
	for _, area := range []string{"1", "3", "101"} {
		require.NoError(t, w.Costs([]decimal.Decimal{dec(area)}, []bool{true}, out))
		_, certified := w.k.Cents(0)
		assert.False(t, certified, "float64 cannot tell")
		_, certified = w.k.costs(0, w.settle)
		assert.True(t, certified, "every line is settled")
		own := b.area(area).evaluate().Alternatives[0]
		assert.Equal(t, own.LCC.Shift(2).IntPart(), out[0].LCC)
		assert.Equal(t, own.First.Shift(2).IntPart(), out[0].First)
	}
}

// What a plan is made of is that of the roof's own ledger, whatever roof came
// before it; only an alternative that waits too long is left out.
func TestOutlaysAreTheLedgerAtEachRoof(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		if d.upTo(3) == 0 {
			Derive(s, d.upTo(1000))
		}
		for i, n := 0, len(s.Alternatives); i < n; i++ { // the same, put off
			later := s.Alternatives[i]
			later.BaseCase, later.Wait = false, &Wait{On: d.upTo(len(s.Systems) - 1), Years: d.upTo(min(s.Period-1, 9))}
			s.Alternatives = append(s.Alternatives, later)
		}
		refs := columns(s, d)
		w, err := s.Roofs(refs)
		if err != nil {
			t.Fatalf("%v", err)
		}
		out := make([]Outlay, len(s.Alternatives))
		for i := range out {
			out[i].Paid, out[i].Worked = make([]int64, 6), make([]bool, 6)
		}
		for range 4 {
			v, values, given := s.Likely(), make([]decimal.Decimal, len(refs)), make([]bool, len(refs))
			for i, r := range refs {
				if given[i] = d.upTo(3) > 0; given[i] {
					values[i] = v[r].Mul(decimal.New(int64(70+d.upTo(60)), -2))
					v[r] = values[i]
				}
			}
			outlaysAsEvaluated(t, s, v, w.Outlays(values, given, out), out)
		}
	})
}

// outlaysAsEvaluated evaluates every alternative by itself.
func outlaysAsEvaluated(t *rapid.T, s *Study, v Vector, err error, out []Outlay) {
	failed := false
	for i := range s.Alternatives {
		alone := *s
		alone.Alternatives = s.Alternatives[i : i+1]
		own, ownErr := alone.EvaluateAt(v)
		if err != nil {
			failed = failed || ownErr != nil
			continue
		}
		if (ownErr != nil) != out[i].TooLate {
			t.Fatalf("alternative %d is too late: %v, on its own: %v", i, out[i].TooLate, ownErr)
		}
		if ownErr != nil {
			continue
		}
		want := Outlay{LCC: own.Alternatives[0].LCC.Shift(s.About.Digits).IntPart(), Paid: make([]int64, 6), Worked: make([]bool, 6)}
		for _, line := range own.Alternatives[0].Ledger {
			switch line.Kind {
			case FirstCost, Replacement, Recoat, Removal:
				if line.Time.Year() < 6 {
					want.Paid[line.Time.Year()] += line.Amount.Shift(s.About.Digits).IntPart()
				}
			}
		}
		for _, e := range own.Alternatives[0].Interventions {
			if e.Year < 6 {
				want.Worked[e.Year] = true
			}
		}
		if !assert.ObjectsAreEqual(want, out[i]) {
			t.Fatalf("alternative %d: %+v, on its own %+v", i, out[i], want)
		}
	}
	if err != nil && !failed {
		t.Fatalf("among many: %v, on its own nothing", err)
	}
}

// What is settled for one roof is settled at its own rates: 20.25 a year is
// 10.125 after the first at 100 %, on the edge, and 20.25 at nothing.
func TestLinesAreSettledAtTheRoofsOwnRate(t *testing.T) {
	b := newStudy(3, "0")
	b.alternative("roof", b.system("roof", "5", func(y *System) {
		y.First = []Item{b.item("0.125").as(Fees)}
		y.Annual = []Item{b.item("20.25").as(Maintenance)}
	}), nil)
	w, err := b.s.Roofs([]Ref{b.s.Rate})
	require.NoError(t, err)
	out := make([]RoofCost, 1)
	for _, c := range []struct {
		rate string
		lcc  int64
	}{{"0", 13 + 3*2025}, {"1", 13 + 1013 + 506 + 253}, {"0", 13 + 3*2025}} {
		require.NoError(t, w.Costs([]decimal.Decimal{dec(c.rate)}, []bool{true}, out))
		assert.Equal(t, c.lcc, out[0].LCC, c.rate)
	}
}

// The ratio and the tie in whole numbers are those of decimals.
func TestRatiosInMinorUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amount := rapid.OneOf(rapid.Int64Range(-MaxMinor, MaxMinor), rapid.Int64Range(-1000, 1000))
		saving, extra := amount.Draw(t, "saving"), amount.Draw(t, "extra")
		want := sir(decimal.Zero, decimal.NewFromInt(saving), decimal.NewFromInt(extra), decimal.Zero)
		got := sirMinor(saving, extra)
		if got.Reason != want.Reason || !got.Value.Equal(want.Value) {
			t.Fatalf("%d/%d is %v, expected %v", saving, extra, got, want)
		}
		lowest := amount.Draw(t, "lowest")
		margin := max(saving, -saving)
		if rapid.Bool().Draw(t, "near") {
			margin = decimal.NewFromInt(max(lowest, -lowest)).Mul(TieShare).IntPart() + rapid.Int64Range(0, 2).Draw(t, "beside")
		}
		if isTieMinor(margin, lowest) != IsTie(decimal.NewFromInt(margin), decimal.NewFromInt(lowest)) {
			t.Fatalf("a margin of %d over %d", margin, lowest)
		}
	})
}

// Amounts near the greatest that a line may have, of which so many add up to
// 2⁶⁴ cents, do not wrap around to nothing: 128 items in each of 128 years.
func TestSumsOfRoofsDoNotWrapAround(t *testing.T) {
	s := &Study{Period: 128, Inflation: NoRef, About: About{Digits: 2, BaseDate: "2026-01-01"}}
	s.Rate = s.Add(Input{Path: "rate", Unit: Rate})
	s.Area = s.Add(Input{Path: "area", Unit: Area, Likely: one})
	large := s.Add(Input{Path: "large", Unit: Money, Likely: decimal.New(1<<50, -2)})
	life := s.Add(Input{Path: "life", Unit: Years, Likely: decimal.NewFromInt(200)})
	y := System{Key: "a", Name: "A", Life: life, Residual: Residual{Mode: NoResidual}}
	for range 128 {
		y.Annual = append(y.Annual, Item{Name: "large", Category: Maintenance, Price: large, Quantity: NoRef, Growth: NoRef})
	}
	s.Systems, s.Alternatives = []System{y}, []Alternative{{Name: "A", BaseCase: true}}
	require.NoError(t, s.Check())
	w, err := s.Roofs([]Ref{large})
	require.NoError(t, err)
	costs := make([]RoofCost, 1)
	assert.EqualError(t, w.Costs([]decimal.Decimal{{}}, []bool{false}, costs), s.TooLarge(0).Error())
	// 128 × 128 × 1.00 = 16,384.00
	require.NoError(t, w.Costs([]decimal.Decimal{one}, []bool{true}, costs))
	assert.Equal(t, int64(1_638_400), costs[0].LCC)
}
