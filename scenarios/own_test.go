package scenarios

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// wholeFiles are the examples and all good files.
func wholeFiles(t *testing.T) map[string]*File {
	t.Helper()
	out := map[string]*File{}
	for _, name := range ExampleNames() {
		src, _ := Example(name)
		out[name], _ = Read(src)
	}
	paths, err := filepath.Glob("../testdata/scenarios/good/*.yaml")
	require.NoError(t, err)
	for _, path := range paths {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		out[path], _ = Read(Source{Name: path, Text: text})
	}
	require.Greater(t, len(out), 8)
	return out
}

// A file that is written again with nothing changed is the same study.
func TestOwnFileIsTheSameStudy(t *testing.T) {
	for name, f := range wholeFiles(t) {
		require.NotNil(t, f, name)
		text, err := f.Own(f.Study.About.Title, nil, nil)
		require.NoError(t, err, name)
		again, diagnostics := Read(Source{Name: name, Text: text})
		require.NotNil(t, again, "%s: %s\n%s", name, told(diagnostics), text)
		assert.Equal(t, f.Study, again.Study, name)
		assert.Equal(t, f.TakeOff, again.TakeOff, name)
		twice, err := again.Own(f.Study.About.Title, nil, nil)
		require.NoError(t, err)
		assert.Equal(t, string(text), string(twice), name)
	}
}

// What a file says of one input is changed, and its title; nothing else is.
func TestOwnFileHasTheNumbersOfItsRoof(t *testing.T) {
	for name, f := range wholeFiles(t) {
		tried := 0
		for i := range f.Study.Inputs {
			in := lcc.Ref(i)
			if f.Settable(in) != nil || f.Weighed(in) {
				continue
			}
			tried++
			want := f.Study.Inputs[i].Likely.Mul(decimal.New(101, -2))
			text, err := f.Own(`“9”: a # b, {c}`, map[lcc.Ref]decimal.Decimal{in: want}, nil)
			require.NoError(t, err)
			again, diagnostics := Read(Source{Name: name, Text: text})
			require.NotNil(t, again, "%s: %s", name, told(diagnostics))
			assert.Equal(t, `“9”: a # b, {c}`, again.Study.About.Title)
			assert.True(t, again.Study.Inputs[i].Likely.Equal(want), f.Study.Inputs[i].Path)
		}
		assert.Positive(t, tried, name)
	}
	src, _ := Example(PortfolioExample)
	f, _ := Read(src)
	text, err := f.Own("a", nil, nil)
	require.NoError(t, err)
	assert.NotContains(t, string(text), "portfolio:", "what it says of tables is no matter of one roof")
}
