package risk

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

var comparedAt = []float64{0.001, 0.01, 0.05, 0.1, 0.25, 0.4, 0.5, 0.6, 0.75, 0.9, 0.95, 0.99, 0.999}

// distributionsInR gives mean, standard deviation and quantiles of a
// distribution from what a study file states, by R's functions: moments by
// integration over the density, quantile to quantile.
const distributionsInR = `
options(digits = 17, warn = 2)
at <- c(%s)
moment <- function(f, d, q) {
  ends <- unique(c(q(c(0, 1e-9, 1e-4, 0.02, 0.1, 0.3, 0.5, 0.7, 0.9, 0.98), TRUE), q(c(1e-4, 1e-9, 1e-14, 1e-22), FALSE)))
  ends <- ends[is.finite(ends)]
  sum(mapply(function(a, b) integrate(function(x) f(x) * d(x), a, b, rel.tol = 1e-11, abs.tol = 0, subdivisions = 2000)$value,
             head(ends, -1), tail(ends, -1)))
}
say <- function(name, d, q) {
  mean <- moment(function(x) x, d, q)
  cat(name, format(c(mean, sqrt(moment(function(x) (x - mean)^2, d, q)), q(at, TRUE))), "\n")
}
triangular <- function(name, a, m, b) say(name,
  function(x) ifelse(x < m, 2 * (x - a) / ((b - a) * (m - a)), 2 * (b - x) / ((b - a) * (b - m))),
  function(p, low) {
    below <- if (low) p else 1 - p
    above <- if (low) 1 - p else p
    sort(unique(c(if (low && length(p) != length(at)) m, ifelse(below * (b - a) < m - a, a + sqrt(below * (b - a) * (m - a)), b - sqrt(above * (b - a) * (b - m))))))
  })
pert <- function(name, a, m, b) {
  s <- 1 + 4 * (m - a) / (b - a); t <- 1 + 4 * (b - m) / (b - a)
  say(name, function(x) dbeta((x - a) / (b - a), s, t) / (b - a), function(p, low) a + (b - a) * qbeta(p, s, t, lower.tail = low))
}
uniform <- function(name, a, m, b) say(name, function(x) dunif(x, a, b), function(p, low) qunif(p, a, b, lower.tail = low))
weibull <- function(name, mean, shape) {
  scale <- mean / gamma(1 + 1 / shape)
  say(name, function(x) dweibull(x, shape, scale), function(p, low) qweibull(p, shape, scale, lower.tail = low))
}
normal <- function(name, mean, sd) say(name, function(x) dnorm(x, mean, sd), function(p, low) qnorm(p, mean, sd, lower.tail = low))
lognormal <- function(name, mean, sd) {
  s <- sqrt(log(1 + (sd / mean)^2)); m <- log(mean^2 / sqrt(mean^2 + sd^2))
  say(name, function(x) dlnorm(x, m, s), function(p, low) qlnorm(p, m, s, lower.tail = low))
}
`

// inR asks R about estimates.
func inR(t *testing.T, all []estimate) map[string][]float64 {
	t.Helper()
	var script strings.Builder
	fmt.Fprintf(&script, distributionsInR, strings.Trim(fmt.Sprint(comparedAt), "[]"))
	for i, e := range all {
		if e.shape.HasRange() {
			fmt.Fprintf(&script, "%s('d%d', %s, %s, %s)\n", e.shape, i, e.low, e.likely, e.high)
		} else {
			fmt.Fprintf(&script, "%s('d%d', %s, %s)\n", e.shape, i, e.likely, e.spread)
		}
	}
	return askR(t, strings.Replace(script.String(), strings.Trim(fmt.Sprint(comparedAt), "[]"), strings.Join(strings.Fields(strings.Trim(fmt.Sprint(comparedAt), "[]")), ", "), 1))
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

// same asserts that numbers agree to 10⁻⁹ of them; of a number near 0, of the
// scale it is measured by.
func same(t *testing.T, want, got, scale float64, what string, of estimate) {
	t.Helper()
	assert.InDelta(t, want, got, 1e-9*math.Max(math.Abs(want), scale), "%s of %s", what, of)
}

func TestDistributionsAsInR(t *testing.T) {
	t.Parallel()
	all := everyShape()
	answers := inR(t, all)
	for i, e := range all {
		want := answers[fmt.Sprintf("d%d", i)]
		require.Len(t, want, 2+len(comparedAt), e.String())
		mean, sd := momentsOfQuantiles(e)
		same(t, want[0], mean, 0, "mean", e)
		same(t, want[1], sd, 0, "standard deviation", e)
		q := e.distribution()
		for j, p := range comparedAt {
			same(t, want[2+j], q.Quantile(p), 0, fmt.Sprintf("quantile at %v", p), e)
		}
	}
}

// What a file states of a distribution is what integration over R's density
// gives: mean and shape of a Weibull, mean and standard deviation of a normal
// and of a lognormal itself, not of its logarithm.
func TestDistributionsHaveTheStatedMoments(t *testing.T) {
	t.Parallel()
	all := everyShape()
	answers := inR(t, all)
	stated := 0
	for i, e := range all {
		in := e.input(lcc.Money)
		r := answers[fmt.Sprintf("d%d", i)]
		require.Len(t, r, 2+len(comparedAt), e.String())
		mean, sd := momentsOfQuantiles(e)
		if e.shape == lcc.PERT {
			same(t, in.Low.Add(in.Likely.Mul(dec("4"))).Add(in.High).Div(dec("6")).InexactFloat64(), mean, 0, "mean", e)
		}
		if e.shape.HasRange() {
			continue
		}
		stated++
		same(t, in.Likely.InexactFloat64(), mean, 0, "stated mean", e)
		same(t, in.Likely.InexactFloat64(), r[0], 0, "mean in R", e)
		if e.shape != lcc.Weibull {
			same(t, in.Spread.InexactFloat64(), sd, 0, "stated standard deviation", e)
			same(t, in.Spread.InexactFloat64(), r[1], 0, "standard deviation in R", e)
			continue
		}
		// On Weibull paper quantiles lie on a line whose slope is the shape.
		q := e.distribution()
		onPaper := func(p float64) float64 { return math.Log(-math.Log1p(-p)) }
		slope := (onPaper(0.9) - onPaper(0.1)) / (math.Log(q.Quantile(0.9)) - math.Log(q.Quantile(0.1)))
		same(t, in.Spread.InexactFloat64(), slope, 0, "shape", e)
	}
	assert.Equal(t, 14, stated)
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
