// Package checks is what the tests of several rooms share: published check
// cases, read strictly, and one seed for property tests. No program links it.
//
// Importing it gives the property tests of a package that seed, so that they
// draw the same cases on every machine; others are drawn with -rapid.seed N.
package checks

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"testing"

	_ "pgregory.net/rapid" // whose flag is set here
)

func init() {
	if err := flag.Set("rapid.seed", "20261001"); err != nil {
		panic(err)
	}
}

// Read reads a JSON file of published cases. A key that is not known, or
// anything after the value, fails the test.
func Read(t testing.TB, path string, into any) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err == nil {
		err = Strict(data, into)
	}
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
}

// Strict reads one JSON value in which every key is known, and nothing after it.
func Strict(data []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return err
	}
	if d.More() {
		return errors.New("something follows the JSON value")
	}
	return nil
}
