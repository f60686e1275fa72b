package lcc

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Laws of one ledger: it foots, everything falls when the method lets it
// fall, and the spells of an alternative join.

type fatal interface{ Fatalf(string, ...any) }

func TestEveryLedgerFoots(t *testing.T) {
	checkStudies(t, 4, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for i := range r.Alternatives {
			foots(t, s, &r.Alternatives[i])
		}
	})
}

// foots adds up a ledger in every way in which it is shown.
func foots(t fatal, s *Study, o *Outcome) {
	var lines, first, credits, creditAmounts decimal.Decimal
	for _, line := range o.Ledger {
		lines = lines.Add(line.PV)
		if line.Time == 0 {
			first = first.Add(line.PV) // at time 0 a cost is worth what it is
		}
		if line.Kind == ResidualValue {
			credits, creditAmounts = credits.Sub(line.PV), creditAmounts.Sub(line.Amount)
		}
		for _, money := range []decimal.Decimal{line.Base, line.Amount, line.PV, line.Current} {
			if !money.Equal(money.Truncate(s.About.Digits)) {
				t.Fatalf("a line is not in whole minor units: %+v", line)
			}
		}
	}
	var categories, interventions decimal.Decimal
	for _, c := range o.ByCategory {
		categories = categories.Add(c)
	}
	for _, e := range o.Interventions {
		if e.Year == 0 {
			interventions = interventions.Add(e.Amount)
		}
	}
	cumulative := o.Cumulative(s.Period)
	for name, pair := range map[string][2]decimal.Decimal{
		"the lines and the life-cycle cost":              {lines, o.LCC},
		"the categories less residual and the LCC":       {categories.Sub(o.Residual.PV), o.LCC},
		"the lines at time 0 and the first cost":         {first, o.First},
		"the interventions of year 0 and the first cost": {interventions, o.First},
		"the residual lines and the residual value":      {credits, o.Residual.PV},
		"the residual amounts and the residual value":    {creditAmounts, o.Residual.Amount},
		"the cumulated cost of year 0 and first cost":    {cumulative[0], o.First},
		"the cumulated cost of year N and the LCC":       {cumulative[s.Period], o.LCC},
	} {
		if !pair[0].Equal(pair[1]) {
			t.Fatalf("%s differ: %s and %s", name, pair[0], pair[1])
		}
	}
	if len(cumulative) != s.Period+1 || o.Residual.Year != s.Period {
		t.Fatalf("%d years cumulated, residual value in year %d of %d", len(cumulative), o.Residual.Year, s.Period)
	}
}

func TestInterventionsHoldAllInvestmentButResidualValue(t *testing.T) {
	checkStudies(t, 2, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for i := range r.Alternatives {
			o := &r.Alternatives[i]
			var pv decimal.Decimal
			for _, e := range o.Interventions {
				pv = pv.Add(e.PV)
			}
			if want := investment(o).Add(o.Residual.PV); !pv.Equal(want) {
				t.Fatalf("interventions are worth %s, investment-related costs %s", pv, want)
			}
		}
	})
}

func TestPaidInHoldsEveryCostAndNoResidualValue(t *testing.T) {
	checkStudies(t, 2, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for i := range r.Alternatives {
			want := make([]decimal.Decimal, s.Period+1)
			for _, line := range r.Alternatives[i].Ledger {
				money := line.Amount
				if s.Basis == Nominal || s.Inflation != NoRef {
					money = line.Current
				}
				if line.Kind != ResidualValue {
					year := int(math.Ceil(float64(line.Time) / 2))
					want[year] = want[year].Add(money)
				}
			}
			got := r.PaidIn(i)
			for year := range want {
				if len(got) != len(want) || !got[year].Equal(want[year]) {
					t.Fatalf("year %d: paid %s, the lines say %s", year, got, want)
				}
			}
		}
	})
}

func TestNothingFallsOutsideItsTime(t *testing.T) {
	checkStudies(t, 4, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for _, a := range r.Alternatives {
			inTime(t, s, a.Ledger)
		}
	})
}

// inTime checks when each kind of line may fall, and that the ledger is in order of time.
func inTime(t fatal, s *Study, ledger []Line) {
	end := Time(2 * s.Period)
	last := Time(0)
	for _, line := range ledger {
		odd := line.Time%2 == 1
		running := line.Kind == Annual || line.Kind == Periodic
		switch {
		case line.Time < last:
			t.Fatalf("out of order: %+v", line)
		case odd != (running && s.Timing == MidYear):
			t.Fatalf("at a half year, or not: %+v", line)
		case running && (line.Time < 1 || line.Time > end):
			t.Fatalf("an annual or periodic cost out of the study: %+v", line)
		case line.Kind == Periodic && line.Time.Year() >= s.Period:
			t.Fatalf("a periodic cost in the last year: %+v", line)
		case line.Kind == FirstCost && line.Time != 0:
			t.Fatalf("a first cost later: %+v", line)
		case (line.Kind == Replacement || line.Kind == Recoat) && (line.Time == 0 || line.Time >= end):
			t.Fatalf("an intervention at time 0 or at the end: %+v", line)
		case line.Kind == Removal && line.Time >= end:
			t.Fatalf("a removal at the end: %+v", line)
		case line.Kind == ResidualValue && line.Time != end:
			t.Fatalf("a residual value before the end: %+v", line)
		case (line.Category == NoCategory) != (line.Kind == ResidualValue):
			t.Fatalf("the category of a residual value: %+v", line)
		}
		last = line.Time
	}
}

func TestSpellsJoinFromTheBaseDateToTheEnd(t *testing.T) {
	checkStudies(t, 4, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for i, a := range r.Alternatives {
			joined(t, s, i, a.Spells, waitOf(s, i))
		}
	})
}

// waitOf is how long an alternative waits as stated; 0 without a wait.
func waitOf(s *Study, alternative int) int {
	if w := s.Alternatives[alternative].Wait; w != nil {
		return w.Years
	}
	return 0
}

// joined checks what one spell has to do with the next; a wait, if there is
// one, ends in the given year.
func joined(t fatal, s *Study, alternative int, spells []Spell, waited int) {
	a := &s.Alternatives[alternative]
	year := 0
	for i, p := range spells {
		waits := i == 0 && a.Wait != nil
		switch {
		case p.From != year || p.Until < p.From || p.Until > s.Period:
			t.Fatalf("spell %d does not join: %+v", i, spells)
		case p.Until == p.From && !(waits && waited == 0):
			t.Fatalf("spell %d has no length: %+v", i, spells)
		case (p.End == AtHorizon) != (i == len(spells)-1) || (p.End == AtHorizon) != (p.Until == s.Period):
			t.Fatalf("spell %d ends the study, or not: %+v", i, spells)
		case waits && (p.System != a.Wait.On || p.Until != waited || p.Begin != Kept):
			t.Fatalf("the wait is not served: %+v", spells)
		case i == 0 && !waits && (p.System != a.Start || (p.Begin == Kept) != s.Systems[a.Start].InPlace):
			t.Fatalf("the alternative starts with another system: %+v", spells)
		case i == 1 && a.Wait != nil && p.System != a.Start:
			t.Fatalf("another system than the awaited one follows: %+v", spells)
		case i > 0 && (p.Begin == Recoated) != (spells[i-1].End == ToRecoat):
			t.Fatalf("spell %d begins otherwise than the one before ends: %+v", i, spells)
		case p.Begin == Recoated && (p.Install != spells[i-1].Install || p.System != spells[i-1].System):
			t.Fatalf("a recoat is no new installation: %+v", spells)
		case p.Begin != Recoated && p.Install != p.From:
			t.Fatalf("spell %d was installed in another year: %+v", i, spells)
		}
		year = p.Until
	}
	if year != s.Period {
		t.Fatalf("the spells end in year %d of %d", year, s.Period)
	}
}

// Whatever lives a simulation draws, the walk of an alternative joins, comes
// to the end, and makes no more recoats than a system allows.
func TestTheWalkJoinsForAnyLives(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		for i := range s.Alternatives {
			var spells []Spell
			waited := waitOf(s, i)
			for w := s.Walk(i); ; {
				slot, more := w.Slot()
				if !more {
					break
				}
				life := []int{1 + d.upTo(2), 1 + d.upTo(30), math.MaxInt}[d.upTo(2)]
				if len(spells) == 0 {
					waited = min(waited, life) // a roof that fails earlier is not waited for
				}
				p := *w.Next(life)
				if p.Slot != slot || slot/2 != p.System {
					t.Fatalf("asked for the life of slot %d, used it for %+v", slot, p)
				}
				spells = append(spells, p)
			}
			joined(t, s, i, spells, waited)
			recoats := 0
			for _, p := range spells {
				if p.Begin != Recoated {
					recoats = 0
					continue
				}
				if recoats++; recoats > s.Systems[p.System].Recoat.AtMost {
					t.Fatalf("%d recoats of %d: %+v", recoats, s.Systems[p.System].Recoat.AtMost, spells)
				}
			}
		}
	})
}

// The generator is worth its laws only if it reaches the corners of the
// method. This counts what 500 of its studies hold.
func TestTheRandomStudiesReachTheCorners(t *testing.T) {
	seen := map[string]int{}
	for seed := range 500 {
		s := randomStudy(&tape{state: uint64(seed) + 1, endless: true})
		r := evaluated(t, s)
		note := func(what string, is bool) {
			if is {
				seen[what]++
			}
		}
		note("a crossover", len(r.Crossovers) > 0)
		note("mid-year in current money", s.Timing == MidYear && s.Basis == Nominal)
		note("a study of one year", s.Period == 1)
		note("the longest study", s.Period == MaxPeriod)
		note("no discounting", r.Rate.IsZero())
		note("a negative discount rate", r.Rate.IsNegative())
		note("nobody eligible", r.Answer.Lowest < 0)
		for i, a := range r.Alternatives {
			wait := s.Alternatives[i].Wait
			note("a wait of no years", wait != nil && wait.Years == 0)
			note("a wait for a whole life", wait != nil && wait.Years > 0 &&
				r.Inputs[s.Systems[wait.On].Life].Equal(decimal.NewFromInt(int64(wait.Years))))
			if c := a.AgainstBase; c != nil {
				note("a savings-to-investment ratio", c.SIR.Defined())
				note("an adjusted rate of return", c.AIRR.Defined())
				note("a payback", c.Simple.Defined() && c.Discounted.Defined())
				note("a payback that is reversed", c.Discounted.Reversal > 0)
				note("a payback that is not reached", c.Discounted.Reason == NotReached)
			}
			last := a.Spells[len(a.Spells)-1]
			residual := s.Systems[last.System].Residual.Mode
			note("residual value after a recoat", last.Begin == Recoated && residual == Prorated && !a.Residual.Amount.IsZero())
			note("residual value of an installation", last.Begin == Installed && residual == Prorated && !a.Residual.Amount.IsZero())
			note("a residual amount", residual == FixedAmount)
			for _, p := range a.Spells {
				note("an intervention a year before the end", p.End != AtHorizon && p.Until == s.Period-1)
				note("a life that runs out at the end", p.End == AtHorizon && p.Until == p.From+wholeYears(r.Inputs[s.LifeAt(p.Slot)]))
				note("a life under a year", r.Inputs[s.LifeAt(p.Slot)].LessThan(one))
				note("a second recoat", p.Begin == Recoated && p.From-p.Install > wholeYears(r.Inputs[s.LifeAt(2*p.System)]))
			}
			for _, line := range a.Ledger {
				note("a periodic cost in the year of a recoat", line.Kind == Periodic && recoatedIn(a.Spells, line))
				note("a credit at removal", line.Kind == Removal && line.PV.IsNegative())
			}
		}
	}
	for _, what := range []string{
		"a crossover", "mid-year in current money", "a study of one year", "the longest study",
		"no discounting", "a negative discount rate", "nobody eligible", "a wait of no years", "a wait for a whole life",
		"a savings-to-investment ratio", "an adjusted rate of return", "a payback", "a payback that is reversed", "a payback that is not reached",
		"residual value after a recoat", "residual value of an installation", "a residual amount",
		"an intervention a year before the end", "a life that runs out at the end", "a life under a year", "a second recoat",
		"a periodic cost in the year of a recoat", "a credit at removal",
	} {
		assert.GreaterOrEqual(t, seen[what], 3, "%s is hardly ever met", what)
	}
}

func recoatedIn(spells []Spell, line Line) bool {
	for _, p := range spells {
		if p.Begin == Recoated && p.System == line.System && p.From == line.Time.Year() {
			return true
		}
	}
	return false
}
