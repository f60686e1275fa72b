package risk

import (
	"math"

	"roofyears/lcc"
)

// quantiler is a distribution by its inverse.
type quantiler interface {
	Quantile(p float64) float64
}

// distributionOf gives the distribution of an uncertain input; nil when the
// input is certain.
func distributionOf(in *lcc.Input) quantiler {
	low, likely, high := in.Low.InexactFloat64(), in.Likely.InexactFloat64(), in.High.InexactFloat64()
	spread := in.Spread.InexactFloat64()
	switch in.Shape {
	case lcc.Triangular:
		return triangle{low, likely, high}
	case lcc.PERT:
		return newPERT(low, likely, high)
	case lcc.Uniform:
		return even{low, high}
	case lcc.Weibull:
		return weibull{scale: likely / gamma(1+1/spread), shape: spread}
	case lcc.Normal:
		return normal{likely, spread}
	case lcc.Lognormal:
		// Of the variable itself: variance = (exp(σ²) − 1)·mean².
		ratio := spread / likely
		sigma := math.Sqrt(log1p(float64(ratio * ratio)))
		return lognormal{normal{log(likely) - float64(sigma*sigma/2), sigma}}
	}
	return nil
}

// triangle is the triangular distribution.
type triangle struct{ low, likely, high float64 }

func (d triangle) Quantile(p float64) float64 {
	width := d.high - d.low
	if rise := d.likely - d.low; p < rise/width {
		return d.low + math.Sqrt(p*width*rise)
	}
	return d.high - math.Sqrt((1-p)*width*(d.high-d.likely))
}

// even is the uniform distribution.
type even struct{ low, high float64 }

func (d even) Quantile(p float64) float64 { return d.low + float64(p*(d.high-d.low)) }

// weibull is the Weibull distribution, (−ln(1−p))^(1/shape) times its scale.
type weibull struct{ scale, shape float64 }

func (d weibull) Quantile(p float64) float64 { return d.scale * pow(-log1p(-p), 1/d.shape) }

// lognormal is the distribution of what has a normal logarithm.
type lognormal struct{ of normal }

func (d lognormal) Quantile(p float64) float64 { return exp(d.of.Quantile(p)) }

// Quantile is the value of an uncertain input with the share p of its
// distribution below it, 0 < p < 1; of a certain one, its likely value.
func Quantile(in *lcc.Input, p float64) float64 {
	d := distributionOf(in)
	if d == nil {
		return in.Likely.InexactFloat64()
	}
	return d.Quantile(p)
}
