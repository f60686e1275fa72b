package html

import (
	"math"
	"strconv"
	"strings"

	"roofyears/report"
)

// axis places values from lo to hi on a drawing from start to end, which is
// less than start where values grow upwards. Ticks stand at the multiples of
// step within lo and hi.
type axis struct {
	lo, hi, start, end float64
	step               float64
	kind               report.CellKind
}

// newAxis takes a step of 1, 2 or 5 times a power of ten that makes at most
// so many steps. Without an extent of its own it goes one unit up.
func newAxis(lo, hi float64, steps int, kind report.CellKind) axis {
	if !(hi > lo) {
		hi = lo + max(1, math.Abs(lo)/1000)
	}
	step := niceStep((hi - lo) / float64(steps))
	if kind == report.YearCell {
		step = max(step, 1)
	}
	return axis{lo: lo, hi: hi, step: step, kind: kind}
}

// niceStep rounds up to 1, 2 or 5 times a power of ten.
func niceStep(v float64) float64 {
	power := math.Floor(math.Log10(v))
	for _, digit := range []float64{1, 2, 5} {
		if step := scaled(digit, power); v <= step*(1+1e-9) {
			return step
		}
	}
	return scaled(1, power+1)
}

// scaled gives digit times ten to the power, the float nearest to it: a
// negative power of ten is none itself.
func scaled(digit, power float64) float64 {
	if power < 0 {
		return digit / math.Pow(10, -power)
	}
	return digit * math.Pow(10, power)
}

// widened moves the ends out to whole steps.
func (a axis) widened() axis {
	a.lo, a.hi = math.Floor(a.lo/a.step+1e-9)*a.step, math.Ceil(a.hi/a.step-1e-9)*a.step
	return a
}

// over places the axis on the drawing.
func (a axis) over(start, end float64) axis {
	a.start, a.end = start, end
	return a
}

// at gives the place of a value.
func (a axis) at(v float64) float64 { return a.start + float64((v-a.lo)/(a.hi-a.lo)*(a.end-a.start)) }

// holds tells whether a value is within the axis.
func (a axis) holds(v float64) bool { return v >= a.lo && v <= a.hi }

// ticks gives the multiples of the step, each computed from its number so
// that errors do not add up.
func (a axis) ticks() []float64 {
	first, last := math.Ceil(a.lo/a.step-1e-9), math.Floor(a.hi/a.step+1e-9)
	var out []float64
	for n := 0.0; n <= min(last-first, 100); n++ {
		out = append(out, (first+n)*a.step)
	}
	return out
}

// label writes a tick as the boot script does, with more decimals only where
// neighbours would read the same.
func (a axis) label(v float64, cur report.Currency) string {
	switch a.kind {
	case report.MoneyCell, report.RoughCell:
		text := compact(math.Abs(v), a.step)
		if v < 0 && strings.ContainsAny(text, "123456789") {
			return "-" + cur.Sign() + text
		}
		return cur.Sign() + text
	case report.RateCell:
		return trimmed(v*100, 2, a.step*100) + "%"
	}
	return trimmed(v, 2, a.step)
}

// compact writes thousands as k, millions as M, thousand millions as B.
func compact(v, step float64) string {
	for _, unit := range []struct {
		size float64
		name string
	}{{1e9, "B"}, {1e6, "M"}, {1e3, "k"}} {
		if v >= unit.size {
			return trimmed(v/unit.size, 3, step/unit.size) + unit.name
		}
	}
	return trimmed(v, 2, step)
}

// trimmed writes a number without trailing zeros, to the given decimals or to
// those of the step, if these are more.
func trimmed(v float64, decimals int, step float64) string {
	decimals = max(decimals, int(math.Ceil(-float64(math.Log10(step))-1e-9)))
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "" || text == "-" || text == "-0" {
		return "0"
	}
	return text
}

// floats gives values as places in a picture; they are never shown.
func floats[N interface{ InexactFloat64() float64 }](values []N) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = v.InexactFloat64()
	}
	return out
}

// extent gives the least and the greatest value, zero included.
func extent(series []report.Series) (lo, hi float64) {
	for _, s := range series {
		for _, v := range floats(s.Values) {
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	return lo, hi
}
