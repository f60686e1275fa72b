package risk_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/risk"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// exampleRoofs are so many roofs of the example of a table of roofs, which is
// gone through again and again, each with draws of its own.
func exampleRoofs(t testing.TB, n int) (*scenarios.File, []lcc.Ref, []risk.Roof) {
	src, ok := scenarios.Example(scenarios.PortfolioExample)
	require.True(t, ok)
	file, diagnostics := scenarios.Read(src)
	require.NotNil(t, file, "%v", diagnostics)
	rows, ok := scenarios.ExampleTable(scenarios.PortfolioExample)
	require.True(t, ok)
	table, err := portfolio.Open(rows.Name, strings.NewReader(string(rows.Text)), portfolio.Options{Format: portfolio.CSV, Separator: ','})
	require.NoError(t, err)
	columns, err := portfolio.Compile([]portfolio.Template{{File: file}}, table, portfolio.Meaning{})
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
	return file, columns.Lays[0].Refs, roofs[:n]
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

// Not in parallel: it sets the number of processors. All figures are the same
// to the last bit.
func TestRoofsDoNotDependOnBatchesAndProcessors(t *testing.T) {
	const n = 300
	file, refs, roofs := exampleRoofs(t, n)
	for i := range roofs {
		roofs[i].Choices = []int{i%5 - 1}
	}
	r, err := risk.NewRoofs(file.Study, refs, risk.RoofsOptions{Trials: 150, Seed: 9, Choices: 1})
	require.NoError(t, err)
	wantRoofs, want := simulateAll(t, r, roofs, n)
	for _, roof := range wantRoofs {
		require.NoError(t, roof.Err)
	}
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for _, processors := range []int{1, 2, 5} {
		runtime.GOMAXPROCS(processors)
		for _, batch := range []int{1, 7, 64, 256} {
			gotRoofs, got := simulateAll(t, r, roofs, batch)
			assert.Equal(t, wantRoofs, gotRoofs, "%d processors, batches of %d", processors, batch)
			assert.Equal(t, want, got, "%d processors, batches of %d", processors, batch)
		}
	}
	slices.Reverse(roofs)
	slices.Reverse(wantRoofs)
	gotRoofs, got := simulateAll(t, r, roofs, 64)
	assert.Equal(t, wantRoofs, gotRoofs, "in another order")
	assert.Equal(t, want, got, "in another order")
}

// A roof with nothing of its own and the key 0 has the chances of a simulation
// of its study file, whatever the file has: derived inputs, waits, verdicts.
func TestARoofOfItsOwnIsTheSingleFile(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("../../testdata/scenarios/good/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	sources := []scenarios.Source{}
	for _, path := range files {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		sources = append(sources, scenarios.Source{Name: path, Text: text, Open: func(string) ([]byte, error) { return os.ReadFile("../../testdata/scenarios/good/letterhead.png") }})
	}
	for _, name := range scenarios.ExampleNames() {
		source, _ := scenarios.Example(name)
		sources = append(sources, source)
	}
	uncertain, derived := 0, 0
	for _, source := range sources {
		file, diagnostics := scenarios.Read(source)
		require.NotNil(t, file, "%s: %v", source.Name, diagnostics)
		s := file.Study
		derived += len(s.Derived)
		want, err := risk.Run(s, risk.Options{Trials: 200, Seed: 3})
		require.NoError(t, err)
		r, err := risk.NewRoofs(s, nil, risk.RoofsOptions{Trials: 200, Seed: 3})
		require.NoError(t, err)
		got, _ := simulateAll(t, r, []risk.Roof{{Values: lcc.Vector{}}}, 1)
		require.NoError(t, got[0].Err)
		uncertain += len(want.Influences)
		for a, o := range want.Alternatives {
			assert.Equal(t, o.Cheapest, got[0].Cheapest[a], "%s: chance of alternative %d", source.Name, a)
			assert.InEpsilon(t, o.Mean, got[0].Mean[a], 1e-12, "%s: mean of alternative %d", source.Name, a)
		}
	}
	assert.Greater(t, uncertain, 30)
	assert.Greater(t, derived, 10)
}
