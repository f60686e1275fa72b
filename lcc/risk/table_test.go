package risk

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/lcc"
)

// shares gives where a table is looked at, in order: linear through the
// middle, and by powers of ten into both tails, down to 10⁻¹².
func shares() []float64 {
	var all []float64
	for i := 1; i < 2000; i++ {
		all = append(all, float64(i)/3000)
	}
	for e := -12.0; e < -0.31; e += 0.01 {
		p := math.Pow(10, e)
		all = append(all, p, 1-p)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// furthest gives the greatest error of a table, relative to the distance of
// the 5 % and 95 % quantiles, and where it lies.
func furthest(tab *table, exact quantiler, at []float64) (worst, where float64) {
	width := exact.Quantile(0.95) - exact.Quantile(0.05)
	for _, u := range at {
		if off := math.Abs(tab.at(u)-exact.Quantile(u)) / width; !(off <= worst) {
			worst, where = off, u
		}
	}
	return worst, where
}

func TestTableIsNearTheExactQuantile(t *testing.T) {
	for _, e := range everyShape() {
		t.Run(e.String(), func(t *testing.T) {
			t.Parallel()
			exact := e.distribution()
			worst, where := furthest(newTable(exact), exact, shares())
			t.Logf("largest error %.1e of the spread, at %v", worst, where)
			assert.LessOrEqual(t, worst, tableError, "at %v", where)
		})
	}
}

// Within a cell that holds the mode of a triangular distribution a cubic does
// worst: there the quantile is bent. The mode is led through a cell.
func TestTableKeepsToTheBendOfATriangle(t *testing.T) {
	t.Parallel()
	worst := 0.0
	for _, cellOf := range []float64{0.02, 0.255, 0.26, 0.48, 0.73, 0.99} {
		width := math.Ldexp(1, math.Ilogb(math.Min(cellOf, 1-cellOf))-cellBits)
		for part := range 16 {
			mode := cellOf + width*float64(part)/16
			low, high := 100.0, 300.0
			exact := distributionOf(&lcc.Input{Shape: lcc.Triangular, Low: decOf(low), High: decOf(high), Likely: decOf(low + mode*(high-low))})
			var near []float64
			for i := -50; i <= 50; i++ {
				near = append(near, mode+width*float64(i)/50)
			}
			off, where := furthest(newTable(exact), exact, near)
			assert.LessOrEqual(t, off, tableError, "mode at %v of the range, error at %v", mode, where)
			worst = math.Max(worst, off)
		}
	}
	t.Logf("largest error %.1e of the spread", worst)
}

func TestTableRises(t *testing.T) {
	for _, e := range everyShape() {
		t.Run(e.String(), func(t *testing.T) {
			t.Parallel()
			tab := newTable(e.distribution())
			at := shares()
			for i := range sideCells { // across the edge of every cell
				edge := math.Float64frombits(uint64(firstCell+i) << (52 - cellBits))
				for _, u := range []float64{edge, 1 - edge} {
					at = append(at, u*(1-1e-9), u, u*(1+1e-9))
				}
			}
			slices.Sort(at)
			before := math.Inf(-1)
			for _, u := range at {
				x := tab.at(u)
				if slack := 1e-13 * (math.Abs(x) + math.Abs(before)); before > x+slack && !math.IsInf(before, -1) {
					t.Fatalf("falls from %v to %v at %v", before, x, u)
				}
				before = x
			}
		})
	}
}

// At ½ and outside the cells a table asks the distribution itself.
func TestTableIsExactOutsideItsCells(t *testing.T) {
	const outermost = 1.0 / 8192
	at := []float64{0.5}
	for _, p := range []float64{outermost * (1 - 1e-9), 1e-4, 1e-6, 1e-9, 1e-12, 1e-15} {
		at = append(at, p, 1-p)
	}
	for _, e := range everyShape() {
		exact := e.distribution()
		tab := newTable(exact)
		for _, u := range at {
			assert.Equal(t, exact.Quantile(u), tab.at(u), "%s at %v", e, u)
		}
	}
}

// A study file takes any Weibull shape over 0, to 1000; nor is a lognormal
// refused for its standard deviation.
func TestTableOfWildDistributions(t *testing.T) {
	var wild []estimate
	for _, shape := range []string{"0.3", "0.5", "50", "1000"} {
		wild = append(wild, estimate{shape: lcc.Weibull, likely: "22", spread: shape})
	}
	for _, sd := range []string{"2", "5", "10", "100"} {
		wild = append(wild, estimate{shape: lcc.Lognormal, likely: "1", spread: sd})
	}
	for _, e := range wild {
		exact := e.distribution()
		worst, where := furthest(newTable(exact), exact, shares())
		assert.LessOrEqual(t, worst, tableError, "%s at %v", e, where)
	}
}
