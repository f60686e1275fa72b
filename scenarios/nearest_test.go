package scenarios

import "testing"

// Paths that share no more than their section are not alike.
func TestNearestLooksPastTheSection(t *testing.T) {
	names := []string{"study.discount_rate", "roof.area", "study.analysis_year"}
	for given, want := range map[string]string{
		"study.period":         "",
		"roof.quantities.seam": "",
		"study.discount":       "study.discount_rate",
		"roof.aera":            "roof.area",
	} {
		if got := nearest(given, names); got != want {
			t.Errorf("nearest to %s is %q, not %q", given, got, want)
		}
	}
}
