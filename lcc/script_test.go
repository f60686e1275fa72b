package lcc_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/report"
	"roofyears/report/html/browsertest"
)

// scripted is how many random studies the page's own evaluator does.
const scripted = 1200

// doAll evaluates every study of the page. Figures come back as text: they are
// whole numbers of any length.
const doAll = `JSON.parse(document.getElementById('studies').textContent).map((s) =>
	lifeCycle.evaluate(s, s.values).map((o) => Object.fromEntries(Object.entries(o).map(([k, x]) => [k, String(x)]))))`

// The evaluator of the page gives what the ledger gives, for any study.
func TestScriptAgreesWithTheLedger(t *testing.T) {
	studies := make([]*lcc.Study, scripted)
	for i := range studies {
		studies[i] = lcc.RandomStudy(uint64(i))
		if i%4 == 1 {
			lcc.Derive(studies[i], i)
			require.NoError(t, studies[i].Check())
		}
		if i%10 == 9 {
			extreme(studies[i], i/10)
		}
	}
	studies = append(studies, lcc.WholeLifeStudies(t)...)
	var structures []report.Structure
	for _, s := range studies {
		structures = append(structures, report.StructureOf(s))
	}
	outcomes := browsertest.Eval[[][]map[string]string](browsertest.Open(t, evaluatorPage(t, structures), browsertest.Options{}), doAll)
	require.Len(t, outcomes, len(studies))
	saw := map[string]int{}
	for i, s := range studies {
		r, err := s.Evaluate()
		require.NoError(t, err)
		require.Len(t, outcomes[i], len(r.Alternatives))
		for j := range r.Alternatives {
			note(saw, s, &r.Alternatives[j])
			if !assert.Equal(t, figures(s, &r.Alternatives[j]), outcomes[i][j], "study %d, alternative %d: %s, %s, %d years", i, j, s.Basis, s.Timing, s.Period) {
				return
			}
		}
	}
	for _, kind := range []string{"real", "nominal", "end-of-year", "mid-year", "wait", "base case", "residual value", "credit"} {
		assert.Greater(t, saw[kind], 50, "alternatives with %s", kind)
	}
}

// extreme gives a study a discount rate at the edges of what is allowed: the
// greatest, nearly the least where that makes no present value of more digits
// than the ledger keeps, and rates so small that a closed form would fail.
func extreme(s *lcc.Study, n int) {
	rates := []string{"10", "0.0000000000009", "-0.00000000001", "-0.49"}
	if s.Period > 40 {
		rates = rates[:3]
	}
	s.Inputs[s.Rate].Likely = decimal.RequireFromString(rates[n%len(rates)])
}

// note counts what an alternative has, so that the test is known to meet it.
func note(saw map[string]int, s *lcc.Study, o *lcc.Outcome) {
	saw[s.Basis.String()]++
	saw[s.Timing.String()]++
	for kind, is := range map[string]bool{"wait": o.Alternative.Wait != nil, "base case": o.Alternative.BaseCase,
		"residual value": !o.Residual.PV.IsZero(), "credit": o.LCC.IsNegative()} {
		if is {
			saw[kind]++
		}
	}
}

// evaluatorPage is a page with the evaluator and the studies.
func evaluatorPage(t *testing.T, studies []report.Structure) string {
	t.Helper()
	script, err := os.ReadFile("../report/html/assets/evaluate.js")
	require.NoError(t, err)
	data, err := json.Marshal(studies)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "evaluate.html")
	page := fmt.Sprintf("<!DOCTYPE html><meta charset=utf-8><script type=application/json id=studies>%s</script><script>%s</script>", data, script)
	require.NoError(t, os.WriteFile(path, []byte(page), 0o600))
	return path
}

// figures are an outcome's figures, from its ledger, in minor units.
func figures(s *lcc.Study, o *lcc.Outcome) map[string]string {
	minor := func(d decimal.Decimal) string { return d.Shift(s.About.Digits).String() }
	sums := map[string]decimal.Decimal{"first": {}, "later": {}, "upkeep": {}, "residual": {}}
	for _, line := range o.Ledger {
		part := "later"
		switch {
		case line.Time == 0:
			part = "first"
		case line.Kind == lcc.ResidualValue:
			part = "residual"
		case line.Kind == lcc.Annual || line.Kind == lcc.Periodic:
			part = "upkeep"
		}
		sums[part] = sums[part].Add(line.PV)
	}
	out := map[string]string{"lcc": minor(o.LCC), "worth": minor(o.AnnualWorth)}
	for part, sum := range sums {
		out[part] = minor(sum)
	}
	if o.AgainstBase != nil {
		out["savings"] = minor(o.AgainstBase.NetSavings)
	}
	return out
}
