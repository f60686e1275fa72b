package plan

import (
	"strings"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/budget"
	"roofyears/scenarios"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// read reads a study file that is sound.
func read(t require.TestingT, text string) *scenarios.File {
	f, diagnostics := scenarios.Read(scenarios.Source{Name: "study.yaml", Text: []byte(text)})
	require.NotNil(t, f, "%v", diagnostics)
	return f
}

// exampleText is the embedded template for many roofs, with replacements.
func exampleText(t require.TestingT, replace ...string) string {
	src, ok := scenarios.Example(scenarios.PortfolioExample)
	require.True(t, ok)
	for i := 0; i < len(replace); i += 2 {
		require.Contains(t, string(src.Text), replace[i])
	}
	study, _, found := strings.Cut(string(src.Text), "\n# What the trust has")
	require.True(t, found, "what the example says of tables comes last, so that tests can add alternatives")
	return strings.NewReplacer(replace...).Replace(study + "\n")
}

func template(t require.TestingT, study *lcc.Study, years int) *Template {
	made, err := NewTemplate(study, years)
	require.NoError(t, err)
	return made
}

// row is what differs of a roof, by path.
type row map[string]string

// table makes the roofs of some rows; rules may be fewer than rows.
func table(t require.TestingT, made *Template, rows []row, rules ...Rules) []Roof {
	var paths []string
	for _, r := range rows {
		for path := range r {
			paths = append(paths, path)
		}
	}
	var refs []lcc.Ref
	for _, path := range paths {
		ref := made.study.Find(path)
		require.NotEqual(t, lcc.NoRef, ref, path)
		refs = append(refs, ref)
	}
	p, err := made.Pricer(refs)
	require.NoError(t, err)
	var roofs []Roof
	for i, r := range rows {
		values, given := make([]decimal.Decimal, len(refs)), make([]bool, len(refs))
		for j, path := range paths {
			if text, has := r[path]; has {
				values[j], given[j] = dec(text), true
			}
		}
		var own Rules
		if i < len(rules) {
			own = rules[i]
		}
		roof, err := p.Roof(values, given, own)
		require.NoError(t, err)
		roofs = append(roofs, roof)
	}
	return roofs
}

func money(amounts ...int64) []budget.Limit {
	var limits []budget.Limit
	for _, a := range amounts {
		limits = append(limits, budget.AtMost(a))
	}
	return limits
}

func choose(t require.TestingT, roofs []Roof, years int, limits Limits) Plan {
	p, err := Choose(roofs, years, limits)
	require.NoError(t, err)
	return p
}
