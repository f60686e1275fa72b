//go:build unix

package risk_test

import (
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/risk"
)

// processorTime is what the process has used so far, of all processors: on a
// busy machine it says more than the clock.
func processorTime(b *testing.B) time.Duration {
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkRoofsRisk draws 1,000 trials of 10,000 roofs like those of the
// example, with four alternatives over 40 years, on all processors.
func BenchmarkRoofsRisk(b *testing.B) {
	file, refs, roofs := exampleRoofs(b, 10_000)
	for i := range roofs {
		roofs[i].Choices = []int{i % 4}
	}
	r, err := risk.NewRoofs(file.Study, refs, risk.RoofsOptions{Trials: 1000, Seed: 1, Choices: 1})
	require.NoError(b, err)
	timesRoofs(b, r, roofs)
}

// BenchmarkRoofsRiskOwnFactors is a tenth of that with a growth of repair costs
// that each roof draws for itself, so that no factor table serves two roofs or
// two trials.
func BenchmarkRoofsRiskOwnFactors(b *testing.B) {
	file, refs, roofs := exampleRoofs(b, 1_000)
	growth := &file.Study.Inputs[file.Study.Find("systems.existing.annual_costs[1].growth")]
	growth.Shape, growth.Low, growth.High = lcc.Triangular, growth.Likely.Neg(), growth.Likely.Add(growth.Likely)
	r, err := risk.NewRoofs(file.Study, refs, risk.RoofsOptions{Trials: 1000, Seed: 1})
	require.NoError(b, err)
	timesRoofs(b, r, roofs)
}

// timesRoofs simulates roofs again and again, and tells the time of all
// processors beside that of the clock.
func timesRoofs(b *testing.B, r *risk.Roofs, roofs []risk.Roof) {
	b.Helper()
	before := processorTime(b)
	for b.Loop() {
		_, result := simulateAll(b, r, roofs, 256)
		require.Equal(b, len(roofs), result.Roofs)
	}
	b.ReportMetric((processorTime(b)-before).Seconds()/float64(b.N), "cpu-s/op")
}
