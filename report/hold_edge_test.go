package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/lcc"
)

// An end at which the study is refused is told: below it no alternative is
// the lowest.
func TestHoldSentenceWhereTheStudyIsRefused(t *testing.T) {
	for _, c := range []struct {
		name      string
		hold      *lcc.Hold
		low, high lcc.Edge
		want      string
	}{
		{"the first refused, below", held(restoreLife, "3", "20", nil, tie(keepIt, "12")), lcc.Beyond, lcc.Asked, "is more than 3 years and at most 12 years (it is 10 years)"},
		{"the last allowed, below", held(restoreLife, "3", "20", nil, tie(keepIt, "12")), lcc.Last, lcc.Asked, "is at least 3 years and at most 12 years (it is 10 years)"},
		{"the first refused, above", held(restoreLife, "1", "20", tie(keepIt, "7"), nil), lcc.Asked, lcc.Beyond, "is at least 7 years and less than 20 years (it is 10 years)"},
		{"the last allowed, above a step", held(restoreLife, "1", "20", step(keepIt, "7", "-4", "5"), nil), lcc.Asked, lcc.Last, "is more than 7 years and at most 20 years (it is 10 years)"},
	} {
		c.hold.LowEdge, c.hold.HighEdge = c.low, c.high
		assert.Contains(t, asked(t).holdSentence(c.hold, restoreIt), c.want, c.name)
	}
}
