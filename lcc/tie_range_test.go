package lcc

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Where a study is refused, no alternative is the lowest, and none passes
// another. A film of 20 that is worn at 8 by 1 a year lasts 12 years.
func TestAHoldEndsWhereTheStudyIsRefused(t *testing.T) {
	for _, c := range []struct {
		name      string
		wait      int // on the coating, in years
		low, high string
		from, to  string
		edges     [2]Edge
	}{
		{"film", 0, "0", "200", "8", "200", [2]Edge{Beyond, Asked}},
		{"least", 0, "0", "80", "0", "20", [2]Edge{Asked, Beyond}},
		{"wear", 0, "0.01", "10", "0.01", "10", [2]Edge{}},
		{"film", 3, "0", "200", "11", "200", [2]Edge{Last, Asked}},
		{"least", 3, "0", "80", "0", "17", [2]Edge{Asked, Last}},
		{"wear", 3, "0.01", "10", "0.01", "4", [2]Edge{Asked, Last}},
		{"new life", 0, "1", "40", "1", "40", [2]Edge{}},
	} {
		s, at := coated(t)
		if c.wait > 0 {
			s.Alternatives = append(s.Alternatives, Alternative{Name: "Wait", Start: 1, Wait: &Wait{On: 0, Years: c.wait}})
		}
		h := heldAt(t, s, at[c.name], c.low, c.high)
		assert.Equal(t, []string{c.from, c.to}, []string{h.Low.String(), h.High.String()}, "%s, %d", c.name, c.wait)
		assert.Equal(t, c.edges, [2]Edge{h.LowEdge, h.HighEdge}, "%s, %d", c.name, c.wait)
		endsInLaw(t, s, &h)
	}
}

// So it does where a stated life is waited on.
func TestAHoldEndsAtAWait(t *testing.T) {
	s, at := coated(t)
	s.Alternatives = append(s.Alternatives, Alternative{Name: "Wait", Wait: &Wait{On: 1, Years: 3}})
	h := heldAt(t, s, at["new life"], "1", "40")
	assert.Equal(t, []string{"3", "40"}, []string{h.Low.String(), h.High.String()})
	assert.Equal(t, [2]Edge{Last, Asked}, [2]Edge{h.LowEdge, h.HighEdge})
	endsInLaw(t, s, &h)
}

func heldAt(t *testing.T, s *Study, in Ref, low, high string) Hold {
	t.Helper()
	r, err := s.Evaluate()
	require.NoError(t, err)
	h, err := r.Hold(in, 0, []int{1}, dec(low), dec(high))
	require.NoError(t, err)
	for _, tie := range h.Ties {
		assert.True(t, tie.At.GreaterThan(h.Low) && tie.At.LessThan(h.High), "a tie at %s", tie.At)
	}
	return h
}

// endsInLaw evaluates a study by the ledger on both sides of the ends that are
// not those asked for.
func endsInLaw(t *testing.T, s *Study, h *Hold) {
	t.Helper()
	evaluates := func(x decimal.Decimal) bool {
		v := s.Likely()
		v[h.In] = x
		_, err := s.EvaluateAt(v)
		return err == nil
	}
	step := dec("0.001")
	for _, end := range []struct {
		at, out decimal.Decimal
		edge    Edge
	}{{h.Low, step.Neg(), h.LowEdge}, {h.High, step, h.HighEdge}} {
		assert.True(t, evaluates(end.at.Sub(end.out)), "inside %s", end.at)
		if end.edge != Asked {
			assert.False(t, evaluates(end.at.Add(end.out)), "outside %s", end.at)
			assert.Equal(t, end.edge == Last, evaluates(end.at), "at %s", end.at)
		}
	}
}
