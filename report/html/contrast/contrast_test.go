package contrast

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The ends of the scale are those of the definition. #767676 on white is the lightest grey that
// passes and #777777 the darkest that does not: W3C, Understanding SC 1.4.3 names "#777777" with
// "4.47:1" as a failure that must not be rounded up.
func TestRatio(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{
		{"#000000", "#ffffff", 21}, {"#ffffff", "#000000", 21}, {"#1b4d7e", "#1b4d7e", 1},
		{"#777777", "#ffffff", 4.47}, {"#767676", "#FFFFFF", 4.54},
	} {
		a, err := Parse(c.a)
		require.NoError(t, err)
		b, err := Parse(c.b)
		require.NoError(t, err)
		assert.InDelta(t, c.want, Ratio(a, b), 0.01, "%s on %s", c.a, c.b)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, bad := range []string{"", "#fff", "123456", "#12345g", "#1234567", "#+12345", "red"} {
		_, err := Parse(bad)
		assert.Error(t, err, bad)
	}
}

func TestOver(t *testing.T) {
	white := Colour{1, 1, 1}
	assert.Equal(t, Colour{0.75, 0.75, 0.75}, Colour{}.Over(white, 0.25))
	assert.Equal(t, Colour{}, Colour{}.Over(white, 1))
	assert.Equal(t, white, Colour{}.Over(white, 0))
}
