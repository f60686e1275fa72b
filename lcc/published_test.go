package lcc

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/checks"
)

// The published check cases: what books, standards and exercises print, held
// against what the engine gives. testdata/published/README.md tells the
// format. A case file, a case or a value that is not compared is a failure.

const publishedDir = "../testdata/published"

func TestPublished(t *testing.T) {
	compared := 0
	for _, file := range publishedFiles(t) {
		for _, c := range file.Cases {
			t.Run(c.ID, func(t *testing.T) {
				n, problems := c.check()
				for _, p := range problems {
					t.Error(p)
				}
				compared += n
				t.Logf("%s: %d published values compared", c.Title, n)
			})
		}
	}
	t.Logf("%d published values compared", compared)
}

// publishedLeftOut is testdata/published/left-out.json.
type publishedLeftOut struct {
	Run          int                          `json:"run"`           // cases that are run
	Values       int                          `json:"values"`        // published values that they compare
	Cases        map[string]string            `json:"cases"`         // cases left out: id to reason
	SingleValues map[string]map[string]string `json:"single_values"` // left out of cases that are run
}

// Everything published is either run or left out by name, and both are counted.
func TestPublishedCasesAreRunOrLeftOutByName(t *testing.T) {
	var out publishedLeftOut
	checks.Read(t, filepath.Join(publishedDir, "left-out.json"), &out)
	run, values := map[string]bool{}, 0
	for _, file := range publishedFiles(t) {
		for _, c := range file.Cases {
			assert.Falsef(t, run[c.ID], "case %q stands twice", c.ID)
			run[c.ID] = true
			values += len(c.Expected)
		}
	}
	assert.Len(t, run, out.Run, "cases run")
	assert.Equal(t, out.Values, values, "published values")
	prose, err := os.ReadFile(filepath.Join(publishedDir, "LEFT-OUT.md"))
	require.NoError(t, err)
	for id, reason := range out.Cases {
		assert.Falsef(t, run[id], "case %q is both run and left out", id)
		assert.NotEmptyf(t, reason, "case %q is left out without a reason", id)
		assert.Containsf(t, string(prose), "`"+id+"`", "case %q is not in LEFT-OUT.md", id)
	}
	for id, keys := range out.SingleValues {
		assert.Truef(t, run[id], "a value of %q is left out, which is not run", id)
		for key, reason := range keys {
			assert.NotEmptyf(t, reason, "%s: %q is left out without a reason", id, key)
			assert.Containsf(t, string(prose), "`"+key+"`", "%s: %q is not in LEFT-OUT.md", id, key)
		}
	}
}

// publishedFiles reads every case file; each has a source and cases.
func publishedFiles(t *testing.T) []publishedFile {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(publishedDir, "*.json"))
	require.NoError(t, err)
	var files []publishedFile
	for _, path := range paths {
		name := filepath.Base(path)
		if name == "left-out.json" {
			continue
		}
		var file publishedFile
		checks.Read(t, path, &file)
		require.NotEmptyf(t, file.Source, "%s names no source", name)
		require.NotEmptyf(t, file.Cases, "%s has no cases", name)
		files = append(files, file)
	}
	require.NotEmpty(t, files, "no case files")
	return files
}
