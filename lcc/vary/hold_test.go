package vary

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

func TestRivalsAreTheOthersThatMayBeChosen(t *testing.T) {
	b := roof()
	b.Alternatives[2].RuledOut = &lcc.Ruling{Rule: "a rule", Finding: "a finding"}
	r := b.evaluate(t)
	assert.Equal(t, []int{0, 3}, Rivals(r, 1))
	assert.Equal(t, []int{0, 1, 3}, Rivals(r, 2), "who is ruled out may be asked about")
}

// Every input is looked at over a range that holds its value, and those that
// the study states.
func TestHoldsLookAtEveryInput(t *testing.T) {
	b := roof()
	b.fixed("nothing", lcc.Money, "0")
	b.fixed("credit", lcc.Money, "-300")
	b.fixed("count", lcc.Count, "18")
	b.three("wide", lcc.Rate, "-0.1", "0.02", "0.4")
	r := b.evaluate(t)
	holds, err := Holds(r, r.Answer.Lowest, Rivals(r, r.Answer.Lowest))
	require.NoError(t, err)
	require.Len(t, holds, len(b.Inputs))
	want := map[string][2]string{
		"rate":              {"0", "0.12"},
		"area":              {"20", "200000"},
		"construction":      {"-0.05", "0.15"},
		"existing.life":     {"4", "30"}, // from the wait on it to the study period
		"tear_off.life":     {"1", "44"}, // or twice the life
		"patching":          {"0", "210000"},
		"restoration.price": {"0", "96"},
		"nothing":           {"0", "1000000"},
		"credit":            {"-3000", "0"},
		"count":             {"0", "180"},
		"wide":              {"-0.1", "0.4"},
	}
	for i, h := range holds {
		in := b.Inputs[i]
		assert.Equal(t, lcc.Ref(i), h.In)
		assert.True(t, h.Low.LessThanOrEqual(in.Likely) && h.High.GreaterThanOrEqual(in.Likely), in.Path)
		if ends, listed := want[in.Path]; listed {
			assert.Equal(t, ends, [2]string{h.Low.String(), h.High.String()}, in.Path)
			delete(want, in.Path)
		}
		// The answer holds where the study stands.
		around := false
		for _, s := range h.Within {
			around = around || s.From.LessThanOrEqual(in.Likely) && s.To.GreaterThanOrEqual(in.Likely)
		}
		assert.True(t, around, "%s: %+v", in.Path, h.Within)
	}
	assert.Empty(t, want)
}

// Just within its stretches the alternative costs least of itself and its
// rivals, just outside it does not, by the ledger.
func TestHoldsAgreeWithTheLedger(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	met := 0
	for alternative := range b.Alternatives {
		holds, err := Holds(r, alternative, Rivals(r, alternative))
		require.NoError(t, err)
		for _, h := range holds {
			for _, s := range h.Within {
				for _, end := range []struct {
					tie  *lcc.Tie
					side int64
				}{{s.FromTie, 1}, {s.ToTie, -1}} {
					if end.tie == nil {
						continue
					}
					off := decimal.New(end.side, -3).Mul(decimal.Max(dec("0.01"), end.tie.At.Abs()))
					for within, x := range map[bool]decimal.Decimal{true: end.tie.At.Add(off), false: end.tie.At.Sub(off)} {
						if !within && end.tie.Step && end.side < 0 {
							x = end.tie.At.Add(dec("0.001"))
						}
						at, err := b.at(map[lcc.Ref]decimal.Decimal{h.In: x})
						if err != nil {
							continue // no study there: a wait is longer than a life
						}
						met++
						assert.Equal(t, within, at.Answer.Lowest == alternative, "%s at %s: %s against %s, told %+v",
							b.Inputs[h.In].Path, x, b.Alternatives[alternative].Name, b.Alternatives[at.Answer.Lowest].Name, s)
					}
				}
			}
		}
	}
	assert.Greater(t, met, 20)
}

func TestHoldsAgainstNobodyAreEverywhere(t *testing.T) {
	b := roof()
	b.Alternatives = b.Alternatives[:1]
	r := b.evaluate(t)
	holds, err := Holds(r, 0, Rivals(r, 0))
	require.NoError(t, err)
	for _, h := range holds {
		assert.True(t, h.Always())
	}
}
