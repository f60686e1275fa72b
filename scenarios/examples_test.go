package scenarios

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

func TestExampleNames(t *testing.T) {
	assert.Equal(t, []string{"cold-store", "portfolio", "school"}, ExampleNames())
	for _, name := range []string{"", "starter", "../examples/school", "no-such"} {
		_, ok := Example(name)
		assert.False(t, ok, name)
	}
}

// evaluated reads an embedded study, which must be without a warning.
func evaluated(t *testing.T, src Source) *lcc.Result {
	t.Helper()
	f, diagnostics := Read(src)
	require.NotNil(t, f, told(diagnostics))
	assert.Empty(t, told(diagnostics))
	result, err := f.Study.Evaluate()
	require.NoError(t, err)
	return result
}

func nameOf(r *lcc.Result, alternative int) string {
	return r.Alternatives[alternative].Alternative.Name
}

// In the one example restoring wins by far, in the other it loses clearly: to
// a tear-off, and to patching too.
func TestWinnersOfTheExamples(t *testing.T) {
	store, _ := Example("cold-store")
	r := evaluated(t, store)
	assert.Len(t, r.Alternatives, 4)
	assert.Equal(t, "Restore", nameOf(r, r.Answer.Lowest))
	assert.False(t, r.Answer.Tie)

	school, _ := Example("school")
	r = evaluated(t, school)
	assert.Len(t, r.Alternatives, 4)
	assert.Equal(t, "Tear off and replace", nameOf(r, r.Answer.Lowest))
	assert.False(t, r.Answer.Tie)
	assert.Equal(t, "Restore", nameOf(r, 1))
	assert.True(t, r.Difference(1, 0).IsPositive())
	assert.False(t, r.Alternatives[2].Alternative.Eligible())
}

func TestStarterIsComplete(t *testing.T) {
	r := evaluated(t, Starter())
	assert.Equal(t, "starter.yaml", Starter().Name)
	assert.Zero(t, r.Study.BaseCase())
}
