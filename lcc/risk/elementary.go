package risk

import "math"

// The functions of the standard library have other last digits on another
// processor, some on another one of the same kind. Those that a draw depends on
// are worked out here with additions, products, quotients and square roots
// alone, each rounded by itself, so that a seed gives the same futures
// everywhere. They are a few units in the last place off at most.

// ln 2 in two parts, the first with zeros at its end: few times it is exact.
const (
	ln2High = 0.693147180369123816490
	ln2Low  = 1.90821492927058770002e-10
)

// exp is eˣ, by the series of what is left of x beside whole multiples of ln 2;
// 0 and +∞ beyond float64.
func exp(x float64) float64 {
	if math.Abs(x) > 800 {
		return max(0, math.Copysign(math.Inf(1), x))
	}
	n := math.Round(x / math.Ln2)
	rest := x - float64(n*ln2High) - float64(n*ln2Low)
	sum := 1.0
	for k := 15.0; k >= 1; k-- { // 0.35¹⁶ ÷ 16! is under 10⁻²⁰
		sum = 1 + float64(rest*sum)/k
	}
	return math.Ldexp(sum, int(n))
}

// log is the natural logarithm of x > 0.
func log(x float64) float64 {
	f, n := math.Frexp(x)
	if f < math.Sqrt2/2 {
		f, n = float64(2*f), n-1
	}
	whole := float64(n)
	return float64(whole*ln2High) + (float64(whole*ln2Low) + logOfRatio((f-1)/(f+1)))
}

// log1p is ln(1 + x) for x > −1, which keeps the digits of a small x.
func log1p(x float64) float64 {
	if math.Abs(x) > 0.3 {
		return log(1 + x)
	}
	return logOfRatio(x / (2 + x))
}

// logOfRatio is ln((1+s)/(1−s)) = 2(s + s³/3 + s⁵/5 + …), |s| under 0.18.
func logOfRatio(s float64) float64 {
	square, sum := float64(s*s), 0.0
	for k := 27.0; k >= 1; k -= 2 { // 0.18²⁸ is under 10⁻²⁰
		sum = float64(sum*square) + 1/k
	}
	return float64(2 * s * sum)
}

// pow is xʸ for x ≥ 0 and y > 0.
func pow(x, y float64) float64 {
	if x == 0 {
		return 0
	}
	return exp(float64(y * log(x)))
}

// sin is the sine of an angle of at most one radian, either way.
func sin(x float64) float64 {
	square, sum := float64(x*x), 0.0
	for k := 21.0; k >= 1; k -= 2 {
		sum = 1 - float64(square*sum)/float64((k+1)*(k+2))
	}
	return float64(x * sum)
}

// gamma is Γ(x) for 1 ≤ x ≤ 60, by Stirling's series where that is good
// [NIST 5.11.1] and the recurrence down from there.
func gamma(x float64) float64 {
	down := 1.0
	for ; x < 15; x++ {
		down = float64(down * x)
	}
	square := float64(x * x)
	series := (1.0/12 - (1.0/360-(1.0/1260-(1.0/1680-1.0/1188/square)/square)/square)/square) / x
	const halfLogTau = 0.918938533204672741780329736406 // ln √(2π)
	return exp(float64((x-0.5)*log(x))-x+halfLogTau+series) / down
}
