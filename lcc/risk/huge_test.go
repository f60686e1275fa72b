package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/lcc"
)

// A trial whose cost float64 cannot hold is told, not counted.
func TestACostBeyondFloatIsRefused(t *testing.T) {
	t.Parallel()
	s := twins()
	s.Period = 200
	s.Escalation[lcc.Construction] = lcc.Series{s.Add(lcc.Input{Path: "construction", Unit: lcc.Rate, Likely: dec("10")})}
	_, err := Run(s, Options{Trials: 100, Seed: 1})
	assert.ErrorContains(t, err, `in trial 1, alternative "A" costs over 1 followed by 100 zeros USD`)
}
