package lcc

import "github.com/shopspring/decimal"

// Result is what an evaluation of a study gives. Every figure in it is a
// ledger line, a sum of ledger lines or a stated function of them.
type Result struct {
	Study        *Study
	Inputs       Vector             // what it was evaluated at
	Rate         decimal.Decimal    // the discount rate
	Area         decimal.Decimal    // plan area of the roof, in the study's unit
	Alternatives []Outcome          // in the order of the study
	Crossovers   []Crossover        // in the range RateRange, by rate
	RateRange    [2]decimal.Decimal // the discount rates looked at: least and greatest
	Answer       Answer
}

// Outcome is what one alternative costs.
type Outcome struct {
	Alternative   *Alternative
	Spells        []Spell
	Ledger        []Line
	LCC           decimal.Decimal                // sum of the present values, residual value deducted
	AnnualWorth   decimal.Decimal                // LCC × capital recovery: the level yearly cost of the same worth
	WorthPerArea  decimal.Decimal                // annual worth per unit of plan area
	First         decimal.Decimal                // what falls at time 0
	ByCategory    [NumCategories]decimal.Decimal // present values
	Residual      Residue
	Interventions []Intervention
	AgainstBase   *Comparison // nil for the base case, and where the study has none
}

// Residue is the residual value at the end of the study period, as a
// positive credit; zero when nothing is left.
type Residue struct {
	Year       int
	Amount, PV decimal.Decimal
}

// Intervention is work on the roof at a whole year: a system installed
// (with the removal of the one it follows) or recoated.
type Intervention struct {
	Year       int             // 0 to N − 1
	Recoat     bool            // else an installation
	System     int             // index in Study.Systems
	Amount, PV decimal.Decimal // the sums of its ledger lines; a credit is negative
}

// Evaluate does the plain study: every input at its likely value. It fails
// where EvaluateAt does.
func (s *Study) Evaluate() (*Result, error) { return s.EvaluateAt(s.Likely()) }

// EvaluateAt does the study at a vector, exactly. It fails when the study's
// structure is unsound, when an input is out of its range (see Check and
// Input.Unit), or when a wait is longer than the life of what is waited on.
func (s *Study) EvaluateAt(v Vector) (*Result, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	v, err := s.filled(v)
	if err != nil {
		return nil, err
	}
	if err := s.checkVector(v); err != nil {
		return nil, err
	}
	r := &Result{Study: s, Inputs: v, Rate: v[s.Rate], Area: v[s.Area]}
	keeper := s.keeperAt(v)
	for i := range s.Alternatives {
		lines, spells, err := keeper.book(i)
		if err != nil {
			return nil, err
		}
		r.Alternatives = append(r.Alternatives, r.outcome(&s.Alternatives[i], lines, spells))
	}
	if base := s.BaseCase(); base >= 0 {
		for i := range r.Alternatives {
			if i != base {
				c := r.compare(&r.Alternatives[base], &r.Alternatives[i])
				r.Alternatives[i].AgainstBase = &c
			}
		}
	}
	r.RateRange = s.rateRange(v)
	r.Crossovers = r.crossovers()
	r.Answer = r.answer()
	return r, nil
}

// outcome sums a ledger.
func (r *Result) outcome(a *Alternative, lines []Line, spells []Spell) Outcome {
	o := Outcome{Alternative: a, Spells: spells, Ledger: lines, LCC: total(lines), First: firstOf(lines), Residual: Residue{Year: r.Study.Period}}
	for _, line := range lines {
		if line.Kind == ResidualValue {
			o.Residual.Amount = o.Residual.Amount.Sub(line.Amount)
			o.Residual.PV = o.Residual.PV.Sub(line.PV)
			continue
		}
		o.ByCategory[line.Category] = o.ByCategory[line.Category].Add(line.PV)
	}
	worth := o.LCC.Mul(CapitalRecovery(r.Rate, r.Study.Period))
	o.AnnualWorth = toMinor(worth, r.Study.About.Digits)
	o.WorthPerArea = toMinor(quo(worth, r.Area), r.Study.About.Digits)
	o.Interventions = interventions(lines, spells)
	return o
}

// firstOf sums what falls at time 0: the first cost.
func firstOf(lines []Line) decimal.Decimal {
	sum := decimal.Zero
	for _, line := range lines {
		if line.Time == 0 {
			sum = sum.Add(line.Amount)
		}
	}
	return sum
}

// interventions sums what is paid at the start of each spell, with the
// removal of what was left for it.
func interventions(lines []Line, spells []Spell) []Intervention {
	var out []Intervention
	for _, p := range spells {
		if p.Begin == Kept {
			continue
		}
		e := Intervention{Year: p.From, Recoat: p.Begin == Recoated, System: p.System}
		for _, line := range lines {
			if line.Time == YearEnd(p.From) && line.Kind.paidWith(e.Recoat) {
				e.Amount = e.Amount.Add(line.Amount)
				e.PV = e.PV.Add(line.PV)
			}
		}
		out = append(out, e)
	}
	return out
}

// paidWith tells whether lines of this kind are paid with an intervention.
// At most one intervention is made in a year, since lives last a year or more.
func (k Kind) paidWith(recoat bool) bool {
	if recoat {
		return k == Recoat
	}
	return k == FirstCost || k == Replacement || k == Removal
}

// Difference is LCC(a) − LCC(b).
func (r *Result) Difference(a, b int) decimal.Decimal {
	return r.Alternatives[a].LCC.Sub(r.Alternatives[b].LCC)
}
