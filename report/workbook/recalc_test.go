package workbook

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/report"
)

// randomCount is how many random studies are recalculated.
const randomCount = 50

// randomTrials are workbooks of random studies as they are written, and each
// again with other inputs put in.
func randomTrials(t *testing.T) (plain, moved []trial) {
	for seed := uint64(1); len(plain) < randomCount; seed++ {
		r, err := randomStudy(seed).Evaluate()
		require.NoError(t, err, "seed %d", seed)
		study := report.Study{Result: r}
		tr := plainly(t, fmt.Sprintf("random study %d", seed), study)
		plain = append(plain, tr)
		moved = append(moved, otherInputs(t, tr, study, rand.New(rand.NewPCG(seed, 2))))
	}
	return plain, moved
}

// otherInputs is a trial with as many inputs changed as keep the years of
// work; what it must come to is the engine's own study of those inputs.
func otherInputs(t *testing.T, tr trial, study report.Study, dice *rand.Rand) trial {
	s := study.Result.Study
	now, out := study.Result, trial{name: tr.name + ", other inputs", file: tr.file, inputs: map[string]string{}}
	for i := range s.Inputs {
		ref := lcc.Ref(i)
		if s.IsDerived(ref) || dice.IntN(3) == 0 {
			continue
		}
		v := slices.Clone(now.Inputs)
		v[ref] = other(&s.Inputs[i], v[ref], dice)
		next, err := s.EvaluateAt(v)
		if err != nil || !sameYears(now, next) || fits(report.Study{Result: next}, nil) != nil {
			continue
		}
		now = next
		out.inputs[tr.want.inputs[i]] = v[ref].String()
	}
	require.NotEmpty(t, out.inputs, out.name)
	study.Result = now
	var rates []decimal.Decimal
	for _, point := range tr.want.curve {
		rates = append(rates, point.Rate)
	}
	curve, err := curveAt(now, rates)
	require.NoError(t, err)
	out.want = lay(study, curve)
	sameFormulas(t, tr.want, out.want)
	return out
}

// other is another value of an input.
func other(in *lcc.Input, v decimal.Decimal, dice *rand.Rand) decimal.Decimal {
	switch in.Unit {
	case lcc.Rate:
		return v.Add(decimal.New(dice.Int64N(401)-200, -4))
	case lcc.Years:
		return v.Sub(decimal.New(dice.Int64N(99), -2)) // often the same years
	}
	return v.Mul(decimal.New(500+dice.Int64N(1000), -3)).Round(3)
}

func sameYears(a, b *lcc.Result) bool {
	for i := range a.Alternatives {
		if !slices.Equal(a.Alternatives[i].Spells, b.Alternatives[i].Spells) {
			return false
		}
	}
	return true
}

// sameFormulas asserts that inputs change values, never formulas or places.
func sameFormulas(t *testing.T, a, b *book) {
	require.Len(t, b.order, len(a.order))
	for k := range a.order {
		require.Len(t, b.order[k].cells, len(a.order[k].cells), a.order[k].name)
		for r, line := range a.order[k].cells {
			require.Len(t, b.order[k].cells[r], len(line), a.order[k].name)
			for c := range line {
				assert.Equal(t, line[c].formula, b.order[k].cells[r][c].formula, "%s!%s", a.order[k].name, here(r+1, c+1))
			}
		}
	}
}

func TestRandomStudiesRecalculate(t *testing.T) {
	plain, moved := randomTrials(t)
	for _, e := range engines {
		t.Run(e.name, func(t *testing.T) {
			t.Logf("%d formulas of %d workbooks compared", recalculated(t, e, append(slices.Clone(plain), moved...)), len(plain)+len(moved))
		})
	}
}

func TestRandomStudiesAreOfAllKinds(t *testing.T) {
	seen := map[string]int{}
	for seed := uint64(1); seed <= randomCount; seed++ {
		s := randomStudy(seed)
		r, err := s.Evaluate()
		require.NoError(t, err)
		var refusal Refusal
		require.False(t, errors.As(fits(report.Study{Result: r}, nil), &refusal), "seed %d: %v", seed, refusal)
		count := func(kind string, is bool) {
			if is {
				seen[kind]++
			}
		}
		count("nominal", s.Basis == lcc.Nominal)
		count("real", s.Basis == lcc.Real)
		count("mid-year", s.Timing == lcc.MidYear)
		count("no base case", s.BaseCase() < 0)
		count("derived", len(s.Derived) > 0)
		count("packs", slices.ContainsFunc(s.Derived, func(d lcc.Derivation) bool { return d.Pack.IsPositive() }))
		count("escalation by year", slices.ContainsFunc(s.Escalation[:], func(l lcc.Series) bool { return len(l) > 1 }))
		for i := range r.Alternatives {
			o := &r.Alternatives[i]
			count("wait", o.Alternative.Wait != nil)
			count("ruled out", !o.Alternative.Eligible())
			count("used up", len(r.UsedUp(i)) > 0)
			for _, p := range o.Spells {
				count("recoat", p.Begin == lcc.Recoated)
			}
			for _, l := range o.Ledger {
				count("ageing", l.Origin().Growth != lcc.NoRef)
				count(l.Kind.String(), true)
			}
			if c := o.AgainstBase; c != nil {
				count("ratio", c.SIR.Defined())
				count("no ratio", !c.SIR.Defined())
				count("no return", c.SIR.Defined() && !c.AIRR.Defined())
				count("payback", c.Simple.Defined())
				count("turns again", c.Simple.Reversal > 0)
				count("not reached", c.Simple.Reason == lcc.NotReached)
			}
		}
	}
	for _, kind := range []string{"nominal", "real", "mid-year", "no base case", "derived", "packs", "escalation by year", "wait", "ruled out", "used up", "recoat", "ageing",
		"first", "replacement", "removal", "annual", "periodic", "residual", "ratio", "no ratio", "no return", "payback", "turns again", "not reached"} {
		assert.Positive(t, seen[kind], kind)
	}
	t.Log(seen)
}
