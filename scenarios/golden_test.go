package scenarios

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the .want files of testdata/scenarios")

const testdata = "../testdata/scenarios"

// files lists the study files of a folder of testdata/scenarios.
func files(t testing.TB, folder string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(testdata, folder, "*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, found)
	return found
}

// read reads a file under its own name, without the folder.
func read(t testing.TB, file string) (*File, []Diagnostic) {
	t.Helper()
	src, err := Load(file)
	require.NoError(t, err)
	src.Name, src.Open = filepath.Base(file), Beside(file)
	return Read(src)
}

func told(diagnostics []Diagnostic) string {
	var b strings.Builder
	for _, d := range diagnostics {
		b.WriteString(d.String() + "\n")
	}
	return b.String()
}

// golden compares text with the .want file beside a study file.
func golden(t *testing.T, file, got string) {
	t.Helper()
	want := strings.TrimSuffix(file, ".yaml") + ".want"
	if *update {
		require.NoError(t, os.WriteFile(want, []byte(got), 0o644))
	}
	expected, err := os.ReadFile(want)
	require.NoError(t, err)
	assert.Equal(t, string(expected), got)
}

func TestBadFilesAreRefused(t *testing.T) {
	for _, file := range files(t, "bad") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			f, diagnostics := read(t, file)
			assert.Nil(t, f)
			require.NotEmpty(t, diagnostics)
			for _, d := range diagnostics {
				assert.Equal(t, Error, d.Severity)
			}
			golden(t, file, told(diagnostics))
		})
	}
}

func TestOddFilesAreReadWithWarnings(t *testing.T) {
	for _, file := range files(t, "odd") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			f, diagnostics := read(t, file)
			require.NotNil(t, f, told(diagnostics))
			require.NotEmpty(t, diagnostics)
			require.Len(t, f.Warnings, len(diagnostics))
			for _, d := range diagnostics {
				assert.Equal(t, Warn, d.Severity)
				assert.Positive(t, d.Line)
			}
			golden(t, file, told(diagnostics))
		})
	}
}

func TestGoodFilesAreReadWithoutAWord(t *testing.T) {
	for _, file := range files(t, "good") {
		f, diagnostics := read(t, file)
		assert.Empty(t, told(diagnostics))
		require.NotNil(t, f, file)
		_, err := f.Study.Evaluate()
		assert.NoError(t, err, file)
	}
}

// Every .want file belongs to a study file.
func TestNoWantIsLeftOver(t *testing.T) {
	for _, folder := range []string{"bad", "odd"} {
		wants, err := filepath.Glob(filepath.Join(testdata, folder, "*.want"))
		require.NoError(t, err)
		assert.Len(t, wants, len(files(t, folder)))
	}
}
