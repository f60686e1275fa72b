package risk

import "math"

// rational is a quotient of two polynomials, the highest powers first.
type rational struct{ over, under [8]float64 }

func (r *rational) at(x float64) float64 {
	over, under := 0.0, 0.0
	for i := range r.over {
		over = float64(over*x) + r.over[i]
		under = float64(under*x) + r.under[i]
	}
	return over / under
}

// The approximations of PPND16 [Wichura]: in the middle, further out, far out.
var (
	normalMiddle = rational{
		[8]float64{2509.0809287301226727, 33430.575583588128105, 67265.770927008700853, 45921.953931549871457, 13731.693765509461125, 1971.5909503065514427, 133.14166789178437745, 3.387132872796366608},
		[8]float64{5226.495278852854561, 28729.085735721942674, 39307.89580009271061, 21213.794301586595867, 5394.1960214247511077, 687.1870074920579083, 42.313330701600911252, 1},
	}
	normalOut = rational{
		[8]float64{7.7454501427834140764e-4, 0.0227238449892691845833, 0.24178072517745061177, 1.27045825245236838258, 3.64784832476320460504, 5.7694972214606914055, 4.6303378461565452959, 1.42343711074968357734},
		[8]float64{1.05075007164441684324e-9, 5.475938084995344946e-4, 0.0151986665636164571966, 0.14810397642748007459, 0.68976733498510000455, 1.6763848301838038494, 2.05319162663775882187, 1},
	}
	normalFar = rational{
		[8]float64{2.01033439929228813265e-7, 2.71155556874348757815e-5, 0.0012426609473880784386, 0.026532189526576123093, 0.29656057182850489123, 1.7848265399172913358, 5.4637849111641143699, 6.6579046435011037772},
		[8]float64{2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5, 7.868691311456132591e-4, 0.0148753612908506148525, 0.13692988092273580531, 0.59983220655588793769, 1},
	}
)

// normal is a normal distribution.
type normal struct{ mean, sd float64 }

func (d normal) Quantile(p float64) float64 { return d.mean + float64(d.sd*normalScore(p)) }

// normalScore is the standard normal's quantile, 0 < p < 1 [Wichura].
func normalScore(p float64) float64 {
	q := p - 0.5
	if math.Abs(q) <= 0.425 {
		return float64(q * normalMiddle.at(0.180625-float64(q*q)))
	}
	r := math.Sqrt(-log(min(p, 1-p)))
	if r <= 5 {
		return math.Copysign(normalOut.at(r-1.6), q)
	}
	return math.Copysign(normalFar.at(r-5), q)
}

// normalShare is the share of a standard normal below a score: by the series of
// [NIST 7.6.2] near the middle, and the continued fraction of [NIST 7.9]
// further out, where the series would cancel.
func normalShare(z float64) float64 {
	const (
		from   = 2    // where the fraction takes over
		depth  = 150  // of it; there it is good to the last digits
		beyond = 38.5 // nothing is left in float64
	)
	x := math.Abs(z)
	if x >= beyond {
		return max(0, math.Copysign(1, z))
	}
	square := float64(x * x)
	density := float64(exp(-square/2) / rootTau)
	if x < from {
		term, sum := x, x
		for k := 3.0; term > sum*0x1p-54; k += 2 {
			term = float64(term*square) / k
			sum += term
		}
		return 0.5 + math.Copysign(float64(density*sum), z)
	}
	below := x
	for k := float64(depth); k >= 1; k-- {
		below = x + k/below
	}
	if z > 0 {
		return 1 - density/below
	}
	return density / below
}

// rootTau is √(2π).
const rootTau = 2.50662827463100050241576528481
