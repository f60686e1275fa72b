package vary

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// many is a study of so many alternatives, each of a system of its own, that
// is followed by those after it.
func many(n int) *builder {
	b := newBuilder(60)
	b.Rate, b.Area = b.fixed("rate", lcc.Rate, "0.03"), b.fixed("area", lcc.Area, "20000")
	for i := range n {
		name := fmt.Sprintf("choice %d", i)
		b.Systems = append(b.Systems, lcc.System{
			Key: name, Life: b.fixed(name+".life", lcc.Years, fmt.Sprint(10+i%20)), Then: min(i+1, n-1),
			First: cost(b.fixed(name+".price", lcc.Price, fmt.Sprint(3+i%7)), b.Area, lcc.Construction),
		})
		b.Alternatives = append(b.Alternatives, lcc.Alternative{Name: name, Start: i})
	}
	return b
}

// BenchmarkHolds looks for the break-even values of all inputs of 50
// alternatives, and tells how often longer it takes to begin anew for each
// pair.
func BenchmarkHolds(b *testing.B) {
	r, err := many(50).Evaluate()
	require.NoError(b, err)
	rivals := Rivals(r, r.Answer.Lowest)
	var anew time.Duration
	for b.Loop() {
		_, err := Holds(r, r.Answer.Lowest, rivals)
		require.NoError(b, err)
		b.StopTimer()
		begun := time.Now()
		for i := range r.Study.Inputs {
			low, high := span(r, lcc.Ref(i))
			for _, rival := range rivals {
				_, err := r.Ties(lcc.Ref(i), min(rival, r.Answer.Lowest), max(rival, r.Answer.Lowest), low, high)
				require.NoError(b, err)
			}
		}
		anew += time.Since(begun)
		b.StartTimer()
	}
	b.ReportMetric(anew.Seconds()/b.Elapsed().Seconds(), "times-anew")
}
