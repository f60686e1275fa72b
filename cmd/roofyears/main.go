// Command roofyears answers an owner's question about a roof: keep it,
// restore it, roof over it or tear it off, by life-cycle cost.
package main

import (
	"os"
)

func main() {
	os.Exit(run(os.Args, stream{os.Stdin, os.Stdout, os.Stderr}))
}
