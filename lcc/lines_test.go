package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The lines that are counted are those that are written.
func TestLinesAreCounted(t *testing.T) {
	checkChoices(t, 3, func(t *rapid.T, d dice) {
		r := evaluated(t, randomStudy(d))
		written := 0
		for i := range r.Alternatives {
			written += len(r.Alternatives[i].Ledger)
		}
		counted, err := r.Study.Lines(r.Inputs)
		assert.NoError(t, err)
		assert.Equal(t, written, counted)
		assert.LessOrEqual(t, written, r.Study.MostLines())
	})
}

// Three alternatives, each a roof of one cost, done anew in each of ten years;
// the bound allows for two credits at the end of each, which these have not.
func TestMostLinesByHand(t *testing.T) {
	b, _ := lumps("70", "70", "50")
	s := b.evaluate().Study
	v := s.Likely()
	for i := range s.Systems {
		v[s.Systems[i].Life] = one
	}
	counted, err := s.Lines(v)
	assert.NoError(t, err)
	assert.Equal(t, 3*10, counted)
	assert.Equal(t, 3*(10+2), s.MostLines())
}

// By hand: in a study of one year the waited-on roof is removed at once (2 lines),
// the next one installed (2), and credited at the end (2).
func TestMostLinesWithAWaitOfNoYears(t *testing.T) {
	s, at := coated(t)
	s.Period = 1
	cost := Item{Name: "cost", Category: Construction, Price: at["film"], Quantity: NoRef, Growth: NoRef}
	s.Systems[0].First, s.Systems[0].Removal = nil, []Item{cost, cost}
	s.Systems[1].First = []Item{cost, cost}
	s.Alternatives = []Alternative{{Name: "New", Start: 1, Wait: &Wait{On: 0}}}
	lines, err := s.Lines(s.Likely())
	require.NoError(t, err)
	assert.Equal(t, 6, lines)
	assert.LessOrEqual(t, lines, s.MostLines())
}
