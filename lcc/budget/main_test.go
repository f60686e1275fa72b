package budget

import (
	"flag"
	"os"
	"testing"
)

// TestMain gives the property tests one seed, so that they draw the same
// problems on every machine, and has them draw more of them than the library
// would. Others are drawn with -rapid.seed N.
func TestMain(m *testing.M) {
	flag.Parse()
	for name, set := range map[string][2]string{"rapid.seed": {"0", "20261001"}, "rapid.checks": {"100", "500"}} {
		if value := flag.Lookup(name).Value; value.String() == set[0] {
			if err := value.Set(set[1]); err != nil {
				panic(err)
			}
		}
	}
	os.Exit(m.Run())
}
