package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A search finds the same whatever was looked for before, to the last digit.
func TestASearchLeavesNothingBehind(t *testing.T) {
	var met counter
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		r := evaluated(t, randomStudy(d))
		for range 4 {
			c, kind, ok := drawContest(d, r)
			if !ok {
				return
			}
			found := c.tiesAfterOthers(t)
			assert.Equal(t, c.ties(t), found, c.r.Study.Inputs[c.in].Path)
			for range found {
				met.add(kind)
			}
		}
	})
	t.Cleanup(func() {
		for _, kind := range everyKind {
			assert.Greater(t, met.of[kind], 0, "no tie of %s", kind)
		}
	})
}

// So it does where lives and packs follow from what was looked for.
func TestASearchLeavesNothingDerivedBehind(t *testing.T) {
	s, at := coated(t)
	s.Inputs[at["labour"]].Likely = dec("1.5")
	r := evaluated(t, s)
	met := 0
	for name, high := range map[string]string{"area": "100000", "film": "200", "wear": "10", "solids": "1", "loss": "0.9"} {
		c := contest{r: r, in: at[name], b: 1, low: dec("0.05"), high: dec(high)}
		found := c.tiesAfterOthers(t)
		assert.Equal(t, c.ties(t), found, name)
		met += len(found)
	}
	assert.Positive(t, met)
}

// tiesAfterOthers looks for the ties of a contest after those of every input.
func (c *contest) tiesAfterOthers(t fatal) []Tie {
	search, err := c.r.TieSearch()
	if err != nil {
		t.Fatalf("%v", err)
	}
	for i, now := range c.r.Inputs {
		// An input that cannot be there is refused, and is left alone too.
		_, _ = search.Ties(Ref(i), c.a, c.b, now, now.Add(one))
	}
	found, err := search.Ties(c.in, c.a, c.b, c.low, c.high)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return found
}

// A life that neither of two alternatives comes to live changes nothing: no
// tie, though the two cost the same.
func TestALifeThatIsNotLived(t *testing.T) {
	b, _ := lumps("70", "70", "50")
	r := b.evaluate()
	search, err := r.TieSearch()
	assert.NoError(t, err)
	assert.True(t, search.k.lives(2, b.s.Systems[2].Life))
	assert.False(t, search.k.lives(0, b.s.Systems[2].Life))
	ties, err := search.Ties(b.s.Systems[2].Life, 0, 1, dec("1"), dec("40"))
	assert.NoError(t, err)
	assert.Empty(t, ties)
}
