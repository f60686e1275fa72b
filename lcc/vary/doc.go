// Package vary asks what would change the answer of a study: it moves one
// input or two along a range, moves every input between its low and its high
// value, and finds the values at which the answer gives way to another.
//
// Everything it tells is evaluated on the study's own structure at other
// vectors; life-cycle costs have the ledger's cents.
package vary

import "github.com/shopspring/decimal"

// lowest finds the cheapest of some alternatives; −1 when there are none. A
// tie goes to the one that stands first, as in the answer.
func lowest(costs []decimal.Decimal, among []int) int {
	best := -1
	for _, a := range among {
		if best < 0 || costs[a].LessThan(costs[best]) {
			best = a
		}
	}
	return best
}
