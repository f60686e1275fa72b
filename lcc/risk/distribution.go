package risk

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

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
		return distuv.NewTriangle(low, high, likely, nil)
	case lcc.PERT:
		return newPERT(low, likely, high)
	case lcc.Uniform:
		return distuv.Uniform{Min: low, Max: high}
	case lcc.Weibull:
		return distuv.Weibull{K: spread, Lambda: likely / math.Gamma(1+1/spread)}
	case lcc.Normal:
		return distuv.Normal{Mu: likely, Sigma: spread}
	case lcc.Lognormal:
		// Of the variable itself: variance = (exp(σ²) − 1)·mean².
		ratio := spread / likely
		sigma := math.Sqrt(math.Log1p(ratio * ratio))
		return distuv.LogNormal{Mu: math.Log(likely) - float64(sigma*sigma/2), Sigma: sigma}
	}
	return nil
}

// pert is the beta distribution over low to high whose shape parameters are
// 1 + 4(likely−low)/(high−low) and 1 + 4(high−likely)/(high−low); its mean is
// (low + 4·likely + high)/6.
type pert struct {
	low, width float64
	beta       distuv.Beta
}

func newPERT(low, likely, high float64) pert {
	width := high - low
	return pert{low, width, distuv.Beta{Alpha: 1 + 4*(likely-low)/width, Beta: 1 + 4*(high-likely)/width}}
}

func (d pert) Quantile(p float64) float64 { return d.low + float64(d.width*d.beta.Quantile(p)) }

// Quantile is the value of an uncertain input with the share p of its
// distribution below it, 0 < p < 1; of a certain one, its likely value.
func Quantile(in *lcc.Input, p float64) float64 {
	d := distributionOf(in)
	if d == nil {
		return in.Likely.InexactFloat64()
	}
	return d.Quantile(p)
}
