package risk_test

import (
	"fmt"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"roofyears/lcc/risk"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// exampleRoofs are so many roofs of the example of a table of roofs, which is
// gone through again and again, each with draws of its own.
func exampleRoofs(t testing.TB, n int) (*scenarios.File, *portfolio.Columns, []risk.Roof) {
	src, ok := scenarios.Example(scenarios.PortfolioExample)
	require.True(t, ok)
	file, diagnostics := scenarios.Read(src)
	require.NotNil(t, file, "%v", diagnostics)
	rows, ok := scenarios.ExampleTable(scenarios.PortfolioExample)
	require.True(t, ok)
	table, err := portfolio.Open(rows.Name, strings.NewReader(string(rows.Text)), portfolio.Options{Format: portfolio.CSV, Separator: ','})
	require.NoError(t, err)
	columns, err := portfolio.Compile(file, table, portfolio.Meaning{})
	require.NoError(t, err)
	var roofs []risk.Roof
	for row, err := table.Next(); err == nil; row, err = table.Next() {
		var roof portfolio.Roof
		require.Nil(t, columns.Roof(row, &roof))
		roofs = append(roofs, risk.Roof{Key: risk.RoofKey(roof.ID), Values: roof.Values, Given: roof.Given})
	}
	for i := len(roofs); i < n; i++ {
		roof := roofs[i%40]
		roof.Key = risk.RoofKey(fmt.Sprint(i))
		roofs = append(roofs, roof)
	}
	return file, columns, roofs[:n]
}

// simulateAll does roofs on all processors, in batches.
func simulateAll(t testing.TB, r *risk.Roofs, roofs []risk.Roof, batch int) ([]risk.RoofRisk, *risk.RoofsResult) {
	out := make([]risk.RoofRisk, len(roofs))
	var workers []*risk.RoofsWorker
	var next atomic.Int64
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		w, err := r.Worker()
		require.NoError(t, err)
		workers = append(workers, w)
		all.Go(func() {
			for {
				to := int(next.Add(int64(batch)))
				from := to - batch
				if from >= len(roofs) {
					return
				}
				w.Do(roofs[from:min(to, len(roofs))], out[from:min(to, len(roofs))])
			}
		})
	}
	all.Wait()
	result, err := r.Result(workers...)
	require.NoError(t, err)
	return out, result
}

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
	file, columns, roofs := exampleRoofs(b, 10_000)
	for i := range roofs {
		roofs[i].Choices = []int{i % 4}
	}
	r, err := risk.NewRoofs(file.Study, columns.Refs, risk.RoofsOptions{Trials: 1000, Seed: 1, Choices: 1})
	require.NoError(b, err)
	before := processorTime(b)
	for b.Loop() {
		_, result := simulateAll(b, r, roofs, 256)
		require.Equal(b, len(roofs), result.Roofs)
	}
	b.ReportMetric((processorTime(b)-before).Seconds()/float64(b.N), "cpu-s/op")
}
