package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
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
