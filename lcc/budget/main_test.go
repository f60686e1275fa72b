package budget

import (
	"flag"

	_ "roofyears/lcc/checks" // one seed
)

// The property tests draw more problems than the library would.
func init() {
	if err := flag.Set("rapid.checks", "500"); err != nil {
		panic(err)
	}
}
