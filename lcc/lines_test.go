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
	})
}
