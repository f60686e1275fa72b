package units

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/checks"
)

// Loads that a publication prints in two units.
func TestPublishedConversions(t *testing.T) {
	var published struct {
		About       string `json:"about"`
		Conversions []struct {
			ID        string          `json:"id"`
			Given     string          `json:"given"`
			Unit      string          `json:"unit"`
			Printed   decimal.Decimal `json:"printed"`
			Tolerance decimal.Decimal `json:"tolerance"`
			Source    string          `json:"source"`
		} `json:"conversions"`
	}
	checks.Read(t, "../../testdata/published/roof/units.json", &published)
	require.Len(t, published.Conversions, 9)
	for _, c := range published.Conversions {
		require.NotEmpty(t, c.Source, c.ID)
		number, name, _ := strings.Cut(c.Given, " ")
		from, err := Named(name)
		require.NoError(t, err, c.ID)
		to, err := Named(c.Unit)
		require.NoError(t, err, c.ID)
		got, err := Of(dec(number), from).To(to)
		require.NoError(t, err, c.ID)
		off := got.Number.Sub(c.Printed).Abs()
		assert.Truef(t, off.LessThanOrEqual(c.Tolerance), "%s: %s is %s, printed %s", c.ID, c.Given, got, c.Printed)
	}
}
