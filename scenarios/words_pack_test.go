package scenarios

import (
	"strings"
	"testing"
)

// A length has a unit of its own, whatever the plan area is measured in.
func TestPackInOtherTellsWhoseUnit(t *testing.T) {
	for _, c := range []struct{ text, unit, of, want string }{
		{"1 ft", "m", "m", "counts per m, as the quantity is measured"},
		{"5 gal", "L", "m2", "counts per L, as the plan area is measured"},
		{"5 gal", "L", "", "counts per L, as the plan area is measured"},
	} {
		if got := packInOther(c.text, c.unit, c.of).what; !strings.Contains(got, c.want) {
			t.Errorf("%s: %q does not say %q", c.text, got, c.want)
		}
	}
}
