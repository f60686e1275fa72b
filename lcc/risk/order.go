package risk

import "slices"

// The quantiles that are asked of a sample, in ascending order.
var asked = [...]float64{0.001, 0.05, 0.5, 0.95, 0.999}

// arrange puts a sample in such an order that each order statistic which an
// asked quantile needs stands at its place, what is less before it and what
// is greater after it: what sorting does, without the rest of its work.
func arrange(x []float64) {
	var ranks []int
	for _, p := range asked {
		i, _ := rank(p, len(x))
		ranks = append(ranks, i, min(i+1, len(x)-1))
	}
	arrangeFor(x, 0, ranks)
}

// rank is the order statistic at or below a quantile of n, and how far the
// quantile lies towards the next.
func rank(p float64, n int) (int, float64) {
	at := float64(p * float64(n-1))
	i := int(at)
	return i, at - float64(i)
}

// few is a size at which sorting is quicker than dividing on.
const few = 32

// arrangeFor arranges x, which begins at rank first of the whole, for the ascending
// ranks that lie in it.
func arrangeFor(x []float64, first int, ranks []int) {
	for len(ranks) > 0 {
		if len(x) <= few {
			slices.Sort(x)
			return
		}
		less, more := divide(x)
		below, _ := slices.BinarySearch(ranks, first+less)
		above, _ := slices.BinarySearch(ranks, first+more)
		arrangeFor(x[:less], first, ranks[:below])
		x, first, ranks = x[more:], first+more, ranks[above:]
	}
}

// divide puts what is less than a middling value first and what is greater
// last; x[less:more] equals it.
func divide(x []float64) (less, more int) {
	pivot := median(median(x[0], x[len(x)/8], x[len(x)/4]), median(x[len(x)*3/8], x[len(x)/2], x[len(x)*5/8]), median(x[len(x)*3/4], x[len(x)*7/8], x[len(x)-1]))
	less, more = 0, len(x)
	for i := 0; i < more; {
		switch v := x[i]; {
		case v < pivot:
			x[i], x[less] = x[less], v
			less++
			i++
		case v > pivot:
			more--
			x[i], x[more] = x[more], v
		default:
			i++
		}
	}
	return less, more
}

func median(a, b, c float64) float64 { return max(min(a, b), min(max(a, b), c)) }
