package budget

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// askSolver has GLPK's integer solver, which shares no line with this program,
// solve a problem, and returns the cost it finds least; false if it finds
// that there is no plan. With whole set to false options may be split.
func askSolver(t *testing.T, p Problem, whole bool) (float64, bool) {
	t.Helper()
	path, err := exec.LookPath("glpsol")
	require.NoError(t, err, "this test compares with the solver glpsol: install the Debian package glpk-utils")
	dir := t.TempDir()
	model, solution := filepath.Join(dir, "model.lp"), filepath.Join(dir, "solution")
	require.NoError(t, os.WriteFile(model, []byte(asLP(p)), 0o600))
	args := []string{"--lp", model, "--write", solution}
	if !whole {
		args = append(args, "--nomip")
	}
	said, err := exec.Command(path, args...).CombinedOutput()
	require.NoError(t, err, string(said))
	written, err := os.ReadFile(solution)
	require.NoError(t, err, string(said))
	return solutionOf(t, string(written))
}

// solutionOf reads the line that says how the run ended: "s mip rows columns
// status objective", or "s bas rows columns primal dual objective".
func solutionOf(t *testing.T, written string) (float64, bool) {
	for line := range strings.Lines(written) {
		words := strings.Fields(line)
		if len(words) == 0 || words[0] != "s" {
			continue
		}
		if words[4] == "n" {
			return 0, false
		}
		require.Contains(t, []string{"o", "f"}, words[4], line)
		objective, err := strconv.ParseFloat(words[len(words)-1], 64)
		require.NoError(t, err, line)
		return objective, true
	}
	require.Fail(t, "glpsol wrote no status", written)
	return 0, false
}

// asLP writes a problem in the LP format of linear programs: a variable of 0
// or 1 for each option.
func asLP(p Problem) string {
	var b strings.Builder
	line := func(start string, coefficient func(o Option) int64, end string, roofs ...int) {
		fmt.Fprintf(&b, " %s:", start)
		for _, i := range roofs {
			for j, o := range p.Roofs[i].Options {
				fmt.Fprintf(&b, " + %d x%d_%d\n", coefficient(o), i, j)
			}
		}
		fmt.Fprintf(&b, " %s\n", end)
	}
	every := make([]int, len(p.Roofs))
	for i := range every {
		every[i] = i
	}
	b.WriteString("Minimize\n")
	line("cost", func(o Option) int64 { return o.Cost }, "", every...)
	b.WriteString("Subject To\n")
	for i := range p.Roofs {
		line(fmt.Sprint("roof", i), func(Option) int64 { return 1 }, "= 1", i)
	}
	for y, limit := range p.Budgets {
		line(fmt.Sprint("money", y), func(o Option) int64 { return at(o.FirstCost, y) }, fmt.Sprint("<= ", limit.Most), every...)
	}
	for y, limit := range p.Crews {
		line(fmt.Sprint("area", y), func(o Option) int64 { return at(o.Area, y) }, fmt.Sprint("<= ", limit.Most), every...)
	}
	b.WriteString("Binary\n")
	for i, roof := range p.Roofs {
		for j := range roof.Options {
			fmt.Fprintf(&b, " x%d_%d\n", i, j)
		}
	}
	b.WriteString("End\n")
	return b.String()
}

func at(amounts []int64, year int) int64 {
	if year < len(amounts) {
		return amounts[year]
	}
	return 0
}

// rounded has amounts of hundreds of units, as the solver reckons in floating
// point with a tolerance of a ten-millionth.
func rounded(p Problem) Problem {
	small := func(amounts []int64) {
		for y := range amounts {
			amounts[y] /= 100_000
		}
	}
	for i := range p.Roofs {
		for j := range p.Roofs[i].Options {
			o := &p.Roofs[i].Options[j]
			o.Cost /= 100_000
			small(o.FirstCost)
		}
	}
	for y := range p.Budgets {
		p.Budgets[y].Most /= 100_000
	}
	return p
}

func TestAgainstAnotherSolver(t *testing.T) {
	r := rand.New(rand.NewPCG(20261001, 2))
	infeasible := 0
	for k := range 50 {
		s := shape{roofs: 8 + r.IntN(15), options: 2 + r.IntN(3), years: 2 + r.IntN(3), spread: k%3 == 0, crews: k%3 == 1, tight: 0.1 + 0.8*r.Float64()}
		p := rounded(s.draw(uint64(k)))
		if k%5 == 0 { // some must be done
			for i := range len(p.Roofs) / 2 {
				p.Roofs[i].Options = p.Roofs[i].Options[1:]
			}
		}
		t.Run(fmt.Sprintf("%d: %+v", k, s), func(t *testing.T) {
			want, found := askSolver(t, p, true)
			a := choose(t, p)
			if !found {
				infeasible++
				assert.Equal(t, Infeasible, a.State)
				return
			}
			require.Equal(t, Optimal, a.State)
			assert.InDelta(t, want, float64(a.Cost), 0.01)
			assert.True(t, keeps(p, a.Plan))
		})
	}
	assert.Positive(t, infeasible, "some problems must have no plan")
	assert.Less(t, infeasible, 15)
}

// The relaxation is as good as the linear program that may split options:
// its best multipliers have the same value ([Geoffrion]).
func TestMultipliersAgainstAnotherSolver(t *testing.T) {
	for seed := range uint64(5) {
		for _, s := range []shape{
			{roofs: 200, options: 2, years: 5, spread: true, tight: 0.5},
			{roofs: 100, options: 5, years: 5, crews: true, tight: 0.4},
		} {
			p := rounded(s.draw(seed))
			want, found := askSolver(t, p, false)
			require.True(t, found)
			m, _ := newModel(p, yearsOf(p))
			got := newSearch(m, DefaultEffort).raise(m.root())
			assert.LessOrEqual(t, got.value, want*(1+1e-9))
			assert.InEpsilon(t, want, got.value, 2e-5, "seed %d, %+v", seed, s)
			assert.LessOrEqual(t, float64(got.bound()), math.Ceil(want*(1+1e-9)))
		}
	}
}
