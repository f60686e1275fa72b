package lcc

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// ledgerCosts are the life-cycle costs of a study at a vector.
func ledgerCosts(t fatal, s *Study, v Vector) []decimal.Decimal {
	r, err := s.EvaluateAt(v)
	if err != nil {
		t.Fatalf("%v", err)
	}
	var out []decimal.Decimal
	for _, o := range r.Alternatives {
		out = append(out, o.LCC)
	}
	return out
}

func sameCosts(a, b []decimal.Decimal) bool {
	return slices.EqualFunc(a, b, func(x, y decimal.Decimal) bool { return x.Equal(y) })
}

// anyValue draws a value of an input, in its range or, now and then, out of it.
func anyValue(d dice, s *Study, in Ref) decimal.Decimal {
	m := maker{dice: d, builder: &builder{s}, long: s.Period > 60}
	switch s.Inputs[in].Unit {
	case Rate:
		if d.upTo(9) == 9 {
			return []decimal.Decimal{dec("-0.5"), dec("10.001"), dec("-7")}[d.upTo(2)]
		}
		return m.rate()
	case Years:
		if d.upTo(9) == 9 {
			return []decimal.Decimal{dec("0"), dec("-2.5"), dec("1000000.5")}[d.upTo(2)]
		}
		return dec(m.life())
	case Area:
		return decimal.New(int64(d.upTo(500_000)), -1)
	}
	return dec(m.amount())
}

// A sweeper gives the ledger's life-cycle costs to the minor unit, wherever
// it is set to, one input after another; a value that is refused leaves it as
// it was.
func TestSweeperAgreesWithTheLedger(t *testing.T) {
	var set, refused counter
	checkStudiesAndChoices(t, 3, func(t *rapid.T, d dice, s *Study) {
		w, err := evaluated(t, s).Sweeper()
		if err != nil {
			t.Fatalf("%v", err)
		}
		v := s.Likely()
		for range 6 {
			in := Ref(d.upTo(len(s.Inputs) - 1))
			x := anyValue(d, s, in)
			next := slices.Clone(v)
			next[in] = x
			_, bad := s.EvaluateAt(next)
			err := w.Set(in, x)
			if (err == nil) != (bad == nil) {
				t.Fatalf("%s at %s: the sweeper says %v, the ledger %v", s.Inputs[in].Path, x, err, bad)
			}
			if err != nil {
				refused.add("value")
			} else {
				set.add("value")
				v = next
			}
			got, err := w.Costs()
			if err != nil {
				t.Fatalf("%v", err)
			}
			if want := ledgerCosts(t, s, v); !sameCosts(got, want) {
				t.Fatalf("%s at %s (%v): %s by the sweeper, %s by the ledger", s.Inputs[in].Path, x, err, got, want)
			}
		}
	})
	t.Cleanup(func() {
		assert.Greater(t, set.of["value"], 500)
		assert.Greater(t, refused.of["value"], 20)
	})
}

// checkStudiesAndChoices is checkStudies for a property that draws more.
func checkStudiesAndChoices(t *testing.T, hundreds int, property func(*rapid.T, dice, *Study)) {
	checkChoices(t, hundreds, func(t *rapid.T, d dice) { property(t, d, randomStudy(d)) })
}

// waiting is a study whose second alternative waits 6 years on a roof that
// lasts 8.
func waiting() (b *builder, life Ref) {
	b = newStudy(20, "0.03")
	kept := b.system("kept", "8", func(y *System) { y.InPlace, y.Annual = true, []Item{b.item("1000").as(Maintenance)} })
	roof := b.system("roof", "15", func(y *System) { y.First = []Item{b.item("50000")} })
	b.s.Systems[kept].Then = roof
	b.alternative("keep", kept, nil)
	b.alternative("wait", roof, func(a *Alternative) { a.Wait = &Wait{On: kept, Years: 6} })
	return b, b.s.Systems[kept].Life
}

func TestSweeperRefusesAWaitLongerThanALife(t *testing.T) {
	b, life := waiting()
	w, err := b.evaluate().Sweeper()
	require.NoError(t, err)
	plain, err := w.Costs()
	require.NoError(t, err)
	assert.ErrorContains(t, w.Set(life, dec("5.9")), `alternative "wait" waits 6 years on "kept", which lasts 5.9`)
	assert.ErrorContains(t, w.Set(life, quo(dec("5"), dec("3"))), `alternative "wait" waits 6 years on "kept", which lasts 1.6666`)
	assert.NotContains(t, w.Set(life, quo(dec("5"), dec("3"))).Error(), "1.66666")
	again, err := w.Costs()
	require.NoError(t, err)
	assert.True(t, sameCosts(plain, again), "%s, then %s", plain, again)
	require.NoError(t, w.Set(life, dec("6")), "a wait of the whole life is none too long")
	v := b.s.Likely()
	v[life] = dec("6")
	at6, err := w.Costs()
	require.NoError(t, err)
	assert.True(t, sameCosts(ledgerCosts(mustPass{}, b.s, v), at6))
	assert.False(t, sameCosts(plain, at6), "a life of 6 years instead of 8 costs the same")
}

// A sweeper does not write into the result that it starts from.
func TestSweeperLeavesTheResultAlone(t *testing.T) {
	r := restoreOrTearOff().evaluate()
	before := slices.Clone(r.Inputs)
	w, err := r.Sweeper()
	require.NoError(t, err)
	for i := range r.Inputs {
		require.NoError(t, w.Set(Ref(i), r.Inputs[i].Mul(dec("1.01"))))
	}
	assert.Equal(t, before, r.Inputs)
}

// A step between half cents: where the kernel cannot vouch for a cent, the
// ledger is asked, at the sweeper's own vector.
func TestSweeperAsksTheLedgerForHalfCents(t *testing.T) {
	b := newStudy(1, "0")
	item := b.item("1")
	b.alternative("roof", b.system("roof", "1", func(y *System) { y.First = []Item{item.as(Fees)} }), nil)
	w, err := b.evaluate().Sweeper()
	require.NoError(t, err)
	for amount, want := range map[string]string{"0.125": "0.13", "1.005": "1.01", "-2.675": "-2.68", "0.1249999999": "0.12"} {
		require.NoError(t, w.Set(item.Price, dec(amount)))
		costs, err := w.Costs()
		require.NoError(t, err)
		assert.Equal(t, want, costs[0].String(), "of %s", amount)
	}
}

// The rate curve is the sweep over the rates that a result looks at.
func TestRateCurveAgreesWithTheLedger(t *testing.T) {
	r := restoreOrTearOff().evaluate()
	curve, err := r.RateCurve(dec("0.005"))
	require.NoError(t, err)
	require.Len(t, curve, 25)
	for i, p := range curve {
		assert.True(t, p.Rate.Equal(dec("0.005").Mul(decimal.NewFromInt(int64(i)))), "%s", p.Rate)
		assert.True(t, sameCosts(ledgerCosts(mustPass{}, r.Study, r.withRate(p.Rate)), p.LCC), "at %s", p.Rate)
	}
}
