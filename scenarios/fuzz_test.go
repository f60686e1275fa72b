package scenarios

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever the bytes, reading ends, and says why when there is no study; a
// study that was read can be evaluated.
func FuzzRead(f *testing.F) {
	for _, folder := range []string{"good", "odd", "bad"} {
		for _, file := range files(f, folder) {
			text, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(text)
		}
	}
	f.Add(manyUnused(f, maxTold+1))
	f.Fuzz(func(t *testing.T, text []byte) {
		file, diagnostics := Read(Source{Name: "fuzz.yaml", Text: text})
		failed := false
		for _, d := range diagnostics {
			assert.NotEmpty(t, d.String())
			failed = failed || d.Severity == Error
		}
		assert.Equal(t, file == nil, failed)
		if file != nil {
			require.NoError(t, file.Study.Check())
			_, err := file.Study.Evaluate()
			assert.NoError(t, err)
		}
	})
}
