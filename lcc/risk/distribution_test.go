package risk

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

const comparedAt = "0.001 0.01 0.05 0.1 0.25 0.4 0.5 0.6 0.75 0.9 0.95 0.99 0.999"

//go:embed testdata/distributions.R
var distributionsInR string

// known is what R says of a distribution.
type known struct {
	mean, sd  float64
	at        []float64 // probabilities
	quantiles []float64
}

// inR asks R about estimates.
func inR(t *testing.T, all []estimate) []known {
	t.Helper()
	probabilities := strings.Fields(comparedAt)
	var script strings.Builder
	fmt.Fprintf(&script, "at <- c(%s)\n%s", strings.Join(probabilities, ", "), distributionsInR)
	for i, e := range all {
		if e.shape.HasRange() {
			fmt.Fprintf(&script, "%s('%d', %s, %s, %s)\n", e.shape, i, e.low, e.likely, e.high)
		} else {
			fmt.Fprintf(&script, "%s('%d', %s, %s)\n", e.shape, i, e.likely, e.spread)
		}
	}
	answers := askR(t, script.String())
	out := make([]known, len(all))
	for i, e := range all {
		a := answers[strconv.Itoa(i)]
		require.Len(t, a, 2+len(probabilities), "R on %s", e)
		out[i] = known{mean: a[0], sd: a[1], quantiles: a[2:]}
		for _, p := range probabilities {
			out[i].at = append(out[i].at, dec(p).InexactFloat64())
		}
	}
	return out
}

// momentsOfQuantiles gives mean and standard deviation by integration over
// the quantile function, in stretches that end where it is bent.
func momentsOfQuantiles(e estimate) (mean, sd float64) {
	q, bend := e.distribution(), 0.5
	if e.shape == lcc.Triangular {
		in := e.input(lcc.Money)
		bend = in.Likely.Sub(in.Low).Div(in.High.Sub(in.Low)).InexactFloat64()
	}
	mean = across(q.Quantile, 0, bend, 1)
	square := across(func(u float64) float64 { return (q.Quantile(u) - mean) * (q.Quantile(u) - mean) }, 0, bend, 1)
	return mean, math.Sqrt(square)
}

// same asserts that numbers agree to 10⁻⁹ of them.
func same(t *testing.T, want, got float64, what string, of estimate) {
	t.Helper()
	assert.InDelta(t, want, got, 1e-9*math.Abs(want), "%s of %s", what, of)
}

func TestDistributionsAsInR(t *testing.T) {
	t.Parallel()
	all := everyShape()
	for i, r := range inR(t, all) {
		e := all[i]
		mean, sd := momentsOfQuantiles(e)
		same(t, r.mean, mean, "mean", e)
		same(t, r.sd, sd, "standard deviation", e)
		q := e.distribution()
		for j, p := range r.at {
			same(t, r.quantiles[j], q.Quantile(p), fmt.Sprintf("quantile at %v", p), e)
		}
	}
}

// What a file states of a distribution is what integration over R's density
// gives: the mean of a Weibull, mean and standard deviation of a normal and of
// a lognormal itself, not of its logarithm.
func TestStatedMomentsAsInR(t *testing.T) {
	t.Parallel()
	var byMean []estimate
	for _, e := range everyShape() {
		if !e.shape.HasRange() {
			byMean = append(byMean, e)
		}
	}
	for i, r := range inR(t, byMean) {
		e := byMean[i]
		stated := e.input(lcc.Money)
		mean, sd := momentsOfQuantiles(e)
		same(t, stated.Likely.InexactFloat64(), r.mean, "mean in R", e)
		same(t, stated.Likely.InexactFloat64(), mean, "mean", e)
		if e.shape != lcc.Weibull {
			same(t, stated.Spread.InexactFloat64(), r.sd, "standard deviation in R", e)
			same(t, stated.Spread.InexactFloat64(), sd, "standard deviation", e)
		}
	}
}

// On Weibull paper, ln(−ln(1−p)) over the logarithm of the quantile, the
// distribution is a line whose slope is the shape.
func TestWeibullShapeIsTheSlopeOnWeibullPaper(t *testing.T) {
	t.Parallel()
	height := func(p float64) float64 { return math.Log(-math.Log1p(-p)) }
	for _, shape := range []float64{0.8, 1, 2, 4, 5, 10} {
		e := estimate{shape: lcc.Weibull, likely: "22", spread: decOf(shape).String()}
		q := e.distribution()
		slope := (height(0.95) - height(0.05)) / math.Log(q.Quantile(0.95)/q.Quantile(0.05))
		same(t, shape, slope, "shape", e)
	}
}

// The mean that gave the distribution its use in project planning (Malcolm et
// al. 1959, from memory).
func TestPERTMeanWeighsTheModeFourfold(t *testing.T) {
	t.Parallel()
	for _, mode := range []float64{2, 2.003, 3.3, 5, 7.97, 8} {
		e := estimate{shape: lcc.PERT, low: "2", high: "8", likely: decOf(mode).String()}
		mean, _ := momentsOfQuantiles(e)
		same(t, (2+4*mode+8)/6, mean, "mean", e)
	}
}

// A plain value is not drawn.
func TestPlainValueHasNoDistribution(t *testing.T) {
	t.Parallel()
	in := lcc.Input{Unit: lcc.Years, Likely: dec("22")}
	assert.Nil(t, distributionOf(&in))
	b := newBuilder(10)
	in.Path = "life"
	b.s.Add(in)
	assert.Empty(t, newSampler(b.s, 1).inputs)
}
