# Mean, standard deviation and quantiles of distributions, from what a study
# file states of them. Moments are integrals over R's densities; quantiles are
# R's, but for the triangular distribution, which R has not.
# `at`, the probabilities, is set beforehand.
options(digits = 17, warn = 2)

# moment is the integral of f times the density over stretches between
# quantiles, exact to 1e-13 of the size given.
moment <- function(f, density, ends, size) {
  stretch <- function(from, to)
    integrate(function(x) f(x) * density(x), from, to, rel.tol = 1e-12, abs.tol = 1e-13 * size, subdivisions = 1000)$value
  sum(mapply(stretch, head(ends, -1), tail(ends, -1)))
}

# say prints one line. The quantile function takes the lower or the upper tail;
# bends are where the density is bent.
say <- function(name, density, quantile, bends = NULL) {
  lower <- c(0, 1e-12, 1e-9, 1e-6, 1e-4, 0.02, 0.1, 0.3, 0.5, 0.7, 0.9, 0.98)
  upper <- c(1e-4, 1e-6, 1e-9, 1e-12, 1e-16, 1e-20)
  ends <- sort(unique(c(quantile(lower, TRUE), quantile(upper, FALSE), bends)))
  ends <- ends[is.finite(ends)]
  middle <- quantile(0.5, TRUE)
  spread <- quantile(0.9, TRUE) - quantile(0.1, TRUE)
  mean <- middle + moment(function(x) x - middle, density, ends, spread)
  variance <- moment(function(x) (x - mean)^2, density, ends, spread^2)
  cat(name, format(c(mean, sqrt(variance), quantile(at, TRUE))), "\n")
}

triangular <- function(name, low, mode, high) {
  width <- high - low
  say(name,
    function(x) ifelse(x < mode | mode == high, 2 * (x - low) / (width * (mode - low)), 2 * (high - x) / (width * (high - mode))),
    function(p, lower.tail) {
      below <- if (lower.tail) p else 1 - p
      above <- if (lower.tail) 1 - p else p
      ifelse(below * width < mode - low, low + sqrt(below * width * (mode - low)), high - sqrt(above * width * (high - mode)))
    }, mode)
}

pert <- function(name, low, mode, high) {
  width <- high - low
  a <- 1 + 4 * (mode - low) / width
  b <- 1 + 4 * (high - mode) / width
  say(name, function(x) dbeta((x - low) / width, a, b) / width,
    function(p, lower.tail) low + width * qbeta(p, a, b, lower.tail = lower.tail))
}

uniform <- function(name, low, likely, high)
  say(name, function(x) dunif(x, low, high), function(p, lower.tail) qunif(p, low, high, lower.tail = lower.tail))

weibull <- function(name, mean, shape) {
  scale <- mean / gamma(1 + 1 / shape)
  say(name, function(x) dweibull(x, shape, scale), function(p, lower.tail) qweibull(p, shape, scale, lower.tail = lower.tail))
}

normal <- function(name, mean, sd)
  say(name, function(x) dnorm(x, mean, sd), function(p, lower.tail) qnorm(p, mean, sd, lower.tail = lower.tail))

lognormal <- function(name, mean, sd) {
  of_log <- sqrt(log(1 + (sd / mean)^2))
  mean_of_log <- log(mean^2 / sqrt(mean^2 + sd^2))
  say(name, function(x) dlnorm(x, mean_of_log, of_log),
    function(p, lower.tail) qlnorm(p, mean_of_log, of_log, lower.tail = lower.tail))
}

