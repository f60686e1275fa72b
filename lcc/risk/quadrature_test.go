package risk

import "math"

// integral is ∫f from a to b by the double exponential rule (Takahasi and
// Mori 1974, from memory): f may be steep at either end, not within.
func integral(f func(float64) float64, a, b float64) float64 {
	const step, reach = 1.0 / 64, 4.0
	sum := 0.0
	for t := -reach; t <= reach; t += step {
		// The share of the way from the nearer end, which keeps its digits.
		s := math.Pi / 2 * math.Sinh(t)
		share := 1 / (1 + math.Exp(2*math.Abs(s)))
		x := a + (b-a)*share
		if s > 0 {
			x = b - (b-a)*share
		}
		weight := math.Pi / 2 * math.Cosh(t) / (math.Cosh(s) * math.Cosh(s)) / 2
		if x > a && x < b {
			sum += weight * f(x)
		}
	}
	return sum * step * (b - a)
}

// across is the integral over several stretches that join.
func across(f func(float64) float64, ends ...float64) float64 {
	sum := 0.0
	for i := range ends[1:] {
		if ends[i] < ends[i+1] {
			sum += integral(f, ends[i], ends[i+1])
		}
	}
	return sum
}

// overQuantiles is the mean of f over a distribution, by the middles of n
// slices of equal probability: for an f that jumps.
func overQuantiles(q quantiler, n int, f func(float64) float64) float64 {
	sum := 0.0
	for i := range n {
		sum += f(q.Quantile((float64(i) + 0.5) / float64(n)))
	}
	return sum / float64(n)
}
