package risk

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// samples of every kind that tempts a division: equal, few values, in order,
// in reverse, tiny.
func samples(n int) map[string][]float64 {
	r := rand.New(rand.NewPCG(1, uint64(n)))
	out := map[string][]float64{}
	for _, kind := range []string{"drawn", "equal", "few values", "in order", "in reverse", "organ pipe"} {
		x := make([]float64, n)
		for i := range x {
			switch kind {
			case "drawn":
				x[i] = r.NormFloat64()
			case "few values":
				x[i] = float64(r.IntN(3))
			case "in order":
				x[i] = float64(i)
			case "in reverse":
				x[i] = float64(n - i)
			case "organ pipe":
				x[i] = float64(min(i, n-i))
			}
		}
		out[kind] = x
	}
	return out
}

func TestArrangedSamplesHaveTheQuantilesOfSortedOnes(t *testing.T) {
	for _, n := range []int{1, 2, 3, 31, 33, 100, 1000, 20_000} {
		for kind, x := range samples(n) {
			sorted := slices.Clone(x)
			slices.Sort(sorted)
			arrange(x)
			for _, p := range asked {
				assert.Equal(t, quantile(sorted, p), quantile(x, p), "%s, %d, %v", kind, n, p)
			}
			slices.Sort(x)
			assert.Equal(t, sorted, x, "%s, %d: another sample", kind, n)
		}
	}
}

func BenchmarkQuantiles(b *testing.B) {
	x := samples(100_000)["drawn"]
	y := make([]float64, len(x))
	for name, order := range map[string]func([]float64){"arranged": arrange, "sorted": slices.Sort[[]float64]} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				copy(y, x)
				order(y)
			}
		})
	}
}
