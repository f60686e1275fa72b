package risk

import "math"

// pert is the beta distribution over low to high whose shape parameters are
// a = 1 + 4(likely−low)/(high−low) and b = 1 + 4(high−likely)/(high−low), which
// are 1 to 5 and 6 together; its mean is (low + 4·likely + high)/6.
type pert struct {
	low, width, a, b float64
	scale            float64 // 1/B(a, b), of the density
}

func newPERT(low, likely, high float64) pert {
	d := pert{low: low, width: high - low}
	d.a, d.b = 1+4*(likely-low)/d.width, 1+4*(high-likely)/d.width
	d.scale = gamma(d.a+d.b) / float64(gamma(d.a)*gamma(d.b))
	return d
}

// Quantile finds the quantile from the nearer end, where it has most digits.
func (d pert) Quantile(p float64) float64 {
	if p < 0.5 {
		return d.low + float64(d.width*d.share(p, d.a, d.b))
	}
	return d.low + float64(d.width*(1-d.share(1-p, d.b, d.a)))
}

// share is the x with the share p of the beta distribution below it, 0 < p ≤ ½,
// by Newton's steps, within an interval that is halved where they would leave
// it.
func (d pert) share(p, a, b float64) float64 {
	low, high := 0.0, 1.0
	x := min(0.5, pow(float64(p*a)/d.scale, 1/a)) // as if the density had no second factor
	for range 100 {
		over := d.below(x, a, b) - p
		if over > 0 {
			high = x
		} else {
			low = x
		}
		next := x - over/float64(d.scale*pow(x, a-1)*pow(1-x, b-1))
		if !(next > low && next < high) {
			next = float64((low + high) / 2)
		}
		if math.Abs(next-x) <= float64(x*0x1p-51) {
			return next
		}
		x = next
	}
	return x
}

// below is the share of the beta distribution below x: the regularized
// incomplete beta function, by the series with positive terms of [NIST 8.17.8],
// for x from the end where it converges well.
func (d pert) below(x, a, b float64) float64 {
	if x > 0.6 {
		return 1 - d.below(1-x, b, a)
	}
	term, sum := 1.0, 1.0
	for n := 0.0; term > sum*0x1p-54; n++ {
		term = float64(term * x * (a + b + n) / (a + 1 + n))
		sum += term
	}
	return float64(d.scale * pow(x, a) * pow(1-x, b) / a * sum)
}
