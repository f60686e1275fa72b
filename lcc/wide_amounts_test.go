package lcc

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// This file sorts last on purpose: while its test fails, it leaves a search
// behind that never ends and takes a processor from the tests after it.

// Amounts beyond float64 are infinite in the search for crossovers: it has
// to end all the same.
func TestAmountsBeyondFloat64DoNotHoldUpTheSearch(t *testing.T) {
	b := newStudy(20, "0.03")
	yearly := b.system("yearly", "300", func(y *System) { y.InPlace, y.Annual = true, []Item{b.item("1e310").as(Fees)} })
	once := b.system("once", "7", func(y *System) { y.First = []Item{b.item("1e310").as(Fees)} })
	b.alternative("yearly", yearly, nil)
	b.alternative("once", once, nil)
	done := make(chan struct{})
	go func() {
		defer close(done)
		_, _ = b.s.Evaluate() // an error is as good
	}()
	select {
	case <-done:
	case <-time.After(2 * time.Second):
		assert.Fail(t, "the search for crossovers has not ended after two seconds")
	}
}
