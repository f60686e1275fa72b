package lcc

import (
	"bytes"
	"fmt"
	"math"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// R's polyroot finds all complex roots of a polynomial, by the method of
// Jenkins and Traub (Algorithm 419, Communications of the ACM 15, 1972); it
// shares no line with the search for break-even values.

// polyroot gives the real roots of Σ c[i]·x^i. Before they are compared, R
// improves each by Newton's method, since polyroot itself stops early.
func polyroot(t *testing.T, coefficients []float64) []float64 {
	t.Helper()
	path, err := exec.LookPath("Rscript")
	require.NoError(t, err, "these tests compare with R: install the Debian package r-base-core")
	texts := make([]string, len(coefficients))
	for i, c := range coefficients {
		texts[i] = strconv.FormatFloat(c, 'g', 17, 64)
	}
	script := fmt.Sprintf(`
		a <- c(%s); k <- seq_along(a) - 1
		z <- polyroot(a)
		x <- Re(z)[abs(Im(z)) < 1e-5 * Mod(z)]
		for (i in 1:4) x <- x - colSums(a * outer(k, x, function(k, x) x^k)) / colSums(a * k * outer(pmax(k - 1, 0), x, function(k, x) x^k))
		cat(format(x, digits = 17), sep = "\n")
		cat("\n")`, strings.Join(texts, ", "))
	cmd := exec.Command(path, "--vanilla", "-")
	cmd.Stdin = strings.NewReader(script)
	var said, complained bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &complained
	require.NoError(t, cmd.Run(), complained.String())
	var out []float64
	for _, word := range strings.Fields(said.String()) {
		x, err := strconv.ParseFloat(word, 64)
		require.NoError(t, err, said.String())
		out = append(out, x)
	}
	require.NotEmpty(t, out, "R printed nothing")
	return out
}

// ratesOf turns roots into rates within a range, from low to high, once each.
func ratesOf(roots []float64, rate func(float64) float64, low, high float64) []float64 {
	var out []float64
	for _, x := range roots {
		if x <= 0 {
			continue
		}
		if r := rate(x); r >= low && r <= high {
			out = append(out, r)
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(a-b) < 1e-12 })
}

// sameAsPolyroot compares ties with the rates that R finds.
func sameAsPolyroot(t *testing.T, want []float64, found []Tie) {
	t.Helper()
	require.Len(t, found, len(want), "R finds %v, the search %+v", want, found)
	for i, rate := range want {
		assert.InDelta(t, rate, found[i].At.InexactFloat64(), 1e-9, "of %v", want)
	}
}

// undulating is a difference of payments of a degree that changes sign often:
// a product of factors (1 − root·x^gap) and of a harmless rest.
func undulating(degree, gap int, roots ...string) []decimal.Decimal {
	sparse := polynomial("1000000", roots...)
	spread := make([]decimal.Decimal, (len(sparse)-1)*gap+1)
	for i, c := range sparse {
		spread[i*gap] = c
	}
	// times Σ (0.9 x)^i up to the degree: no positive root of its own.
	out := make([]decimal.Decimal, degree+1)
	factor := one
	for i := 0; i+len(spread) <= len(out); i++ {
		for j, c := range spread {
			out[i+j] = out[i+j].Add(c.Mul(factor))
		}
		factor = factor.Mul(dec("0.9"))
	}
	for i := range out {
		out[i] = out[i].Round(2)
	}
	return out
}

// payments are differences of two alternatives by year.
var payments = map[string][]decimal.Decimal{
	"degree 3":                    polynomial("1000000", "1.02", "1.05", "1.09"),
	"degree 5, two out of range":  polynomial("1000000", "1.01", "1.04", "1.08", "1.4", "0.7"),
	"degree 20, sparse":           undulating(20, 5, "1.1", "1.3", "1.5"),
	"degree 40, sparse":           undulating(40, 10, "1.2", "1.6", "2.2"),
	"degree 40, full":             undulating(40, 6, "1.12", "1.4", "1.7"),
	"degree 40, one tie":          undulating(40, 1, "1.07"),
	"degree 40, no tie in range":  undulating(40, 2, "0.3", "4"),
	"degree 12, negative and not": polynomial("100000", "0.97", "1.13", "1.03"),
}

func TestBreakEvenDiscountRatesAgreeWithPolyroot(t *testing.T) {
	for name, c := range payments {
		t.Run(name, func(t *testing.T) {
			b := tiesAt("0.03", 1, c)
			r := b.evaluate()
			low, high := -0.1, 0.3
			found := b.ties(t, b.s.Rate, "-0.1", "0.3")
			stream := r.difference(0, 1)
			var yearly []float64
			for h := 0; h < len(stream); h += 2 {
				yearly = append(yearly, stream[h])
			}
			// A root x is a discount factor 1/(1+d).
			sameAsPolyroot(t, ratesOf(polyroot(t, yearly), func(x float64) float64 { return 1/x - 1 }, low, high), found)
		})
	}
}

func TestBreakEvenEscalationsAgreeWithPolyroot(t *testing.T) {
	for name, c := range payments {
		for _, discount := range []string{"0", "0.04", "-0.01"} {
			t.Run(name+" at "+discount, func(t *testing.T) {
				b := tiesAt(discount, 1, c)
				b.escalate(Energy, "0.025")
				for i := range b.s.Systems {
					for j := range b.s.Systems[i].First {
						b.s.Systems[i].First[j].Category = Energy
					}
				}
				found := b.ties(t, b.s.Escalation[Energy][0], "-0.1", "0.3")
				// A root y is a yearly growth 1+e; what is paid in year t is worth (1+d)^−t.
				var yearly []float64
				for year, v := range c {
					yearly = append(yearly, v.InexactFloat64()*math.Pow(1+dec(discount).InexactFloat64(), -float64(year)))
				}
				sameAsPolyroot(t, ratesOf(polyroot(t, yearly), func(y float64) float64 { return y - 1 }, -0.1, 0.3), found)
			})
		}
	}
}

// Mid-year costs make half powers: a polynomial in the root of the factor, of
// twice the degree.
func TestBreakEvenRatesOfMidYearCostsAgreeWithPolyroot(t *testing.T) {
	b := newStudy(20, "0.03")
	b.s.Timing = MidYear
	kept := b.system("kept", "100", func(y *System) {
		y.InPlace, y.Annual = true, []Item{b.growing(b.item("1000").as(Fees), "0.09")}
	})
	b.alternative("kept", kept, nil)
	b.lumpSums("work", map[int]string{0: "5000", 7: "21000", 15: "12000"})
	r := b.evaluate()
	c := r.difference(0, 1)
	found := b.ties(t, b.s.Rate, "-0.1", "0.5")
	require.NotEmpty(t, found)
	sameAsPolyroot(t, ratesOf(polyroot(t, c[:2*b.s.Period+1]), func(x float64) float64 { return 1/(x*x) - 1 }, -0.1, 0.5), found)
}

// What grows with age and with the years has its own polynomial: 1000 in year
// k of age is 1000·(1+g)^(k−1).
func TestBreakEvenGrowthsAgreeWithPolyroot(t *testing.T) {
	for _, lump := range []string{"9000", "20000", "60000"} {
		b := newStudy(25, "0.05")
		growing := b.growing(b.item("1000").as(Fees), "0.02")
		b.alternative("kept", b.system("kept", "100", func(y *System) { y.InPlace, y.Annual = true, []Item{growing} }), nil)
		b.lumpSums("work", map[int]string{0: lump})
		found := b.ties(t, growing.Growth, "-0.3", "0.3")
		require.Len(t, found, 1)
		yearly := make([]float64, 25)
		for k := range yearly {
			yearly[k] = 1000 * math.Pow(1.05, -float64(k+1))
		}
		yearly[0] -= dec(lump).InexactFloat64()
		sameAsPolyroot(t, ratesOf(polyroot(t, yearly), func(y float64) float64 { return y - 1 }, -0.3, 0.3), found)
	}
}
