package contrast

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func colour(t *testing.T, text string) Colour {
	t.Helper()
	c, ok := Parse(text)
	require.True(t, ok, text)
	return c
}

// The ends of the scale are those of WCAG 2.2, definition of "contrast ratio":
// ratios range from 1 to 21.
func TestEndsOfTheScale(t *testing.T) {
	assert.InDelta(t, 21, Ratio(Colour{}, White), 1e-12)
	assert.InDelta(t, 1, Ratio(White, White), 1e-12)
	assert.InDelta(t, 1, White.Luminance(), 1e-12)
	assert.Zero(t, Colour{}.Luminance())
}

// Published ratios on white: W3C, "Techniques for WCAG 2.2", G18 and the
// understanding of 1.4.3, name #767676 as the lightest grey that passes with
// 4.54:1 and #777777 as failing with 4.48:1 (values from memory). Pure red has
// (1 + 0.05) / (0.2126 + 0.05) = 3.998, by the definition.
func TestKnownRatios(t *testing.T) {
	assert.InDelta(t, 4.54, Ratio(colour(t, "#767676"), White), 0.005)
	assert.InDelta(t, 4.48, Ratio(colour(t, "#777777"), White), 0.005)
	assert.InDelta(t, 1.05/0.2626, Ratio(colour(t, "#ff0000"), White), 1e-12)
	assert.InDelta(t, 1.05/0.7652, Ratio(colour(t, "#00ff00"), White), 1e-12)
	assert.InDelta(t, 1.05/0.1222, Ratio(colour(t, "#0000ff"), White), 1e-12)
}

func TestParse(t *testing.T) {
	assert.Equal(t, Colour{0x1b, 0x4d, 0x7e}, colour(t, "#1B4d7e"))
	assert.Equal(t, "#1b4d7e", colour(t, "#1B4D7E").String())
	for _, text := range []string{"", "#", "1b4d7e", "#1b4d7", "#1b4d7e0", "#1b4d7g", "#+12345", "#-12345", "#1_2345", "#0x123", "red", "#1b4d7e ", "#１２３４５６"} {
		_, ok := Parse(text)
		assert.False(t, ok, text)
	}
}

// What is lightened can be read, and one step less could not.
func TestLightenedByAsLittleAsWillDo(t *testing.T) {
	paper := colour(t, "#15191d")
	random := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		c := Colour{uint8(random.IntN(256)), uint8(random.IntN(256)), uint8(random.IntN(256))}
		light := Lighten(c, paper)
		assert.GreaterOrEqual(t, Ratio(light, paper), Least, c)
		if Ratio(c, paper) >= Least {
			assert.Equal(t, c, light, "what can be read is left as it is")
			continue
		}
		assert.Less(t, Ratio(light, paper), Least+0.3, c)
	}
	assert.Equal(t, White, Lighten(colour(t, "#777777"), White), "white itself is not enough there")
}
