package scenarios

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLoad(t *testing.T) {
	path := filepath.Join(t.TempDir(), "study.yaml")
	require.NoError(t, os.WriteFile(path, []byte("roofyears: 1\n"), 0o600))
	src, err := Load(path)
	require.NoError(t, err)
	assert.Equal(t, Source{Name: path, Text: []byte("roofyears: 1\n")}, src)
}

func TestLoadReadsStandardInput(t *testing.T) {
	in, err := os.Open(filepath.Join(testdata, "good", "json.yaml"))
	require.NoError(t, err)
	defer in.Close()
	defer func(before *os.File) { os.Stdin = before }(os.Stdin)
	os.Stdin = in
	src, err := Load("-")
	require.NoError(t, err)
	assert.Equal(t, "standard input", src.Name)
	f, diagnostics := Read(src)
	require.NotNil(t, f, told(diagnostics))
}

func TestLoadTellsFailuresByPath(t *testing.T) {
	var failure *fs.PathError
	_, err := Load(filepath.Join(t.TempDir(), "none.yaml"))
	require.ErrorAs(t, err, &failure)
	assert.ErrorIs(t, err, fs.ErrNotExist)

	_, err = Load(t.TempDir())
	require.ErrorAs(t, err, &failure)
	assert.ErrorContains(t, err, "directory")

	_, err = LoadFrom("a stream", iotest.ErrReader(errors.New("gone")))
	require.ErrorAs(t, err, &failure)
	assert.Equal(t, "a stream", failure.Path)
}

func TestLoadStopsOneByteOverTheLimit(t *testing.T) {
	src, err := LoadFrom("big", strings.NewReader(strings.Repeat("#", MaxSize+5)))
	require.NoError(t, err)
	assert.Len(t, src.Text, MaxSize+1)
	f, diagnostics := Read(src)
	assert.Nil(t, f)
	require.Len(t, diagnostics, 1)
	assert.Contains(t, diagnostics[0].What, "4 MiB")
}

// A file reads the same with a byte order mark and with any line end.
func TestMarkAndLineEndsDoNotMatter(t *testing.T) {
	src, err := Load(filepath.Join(testdata, "good", "check-50000.yaml"))
	require.NoError(t, err)
	plain, _ := Read(src)
	require.NotNil(t, plain)
	for _, text := range [][]byte{
		append([]byte("\xef\xbb\xbf"), src.Text...),
		bytes.ReplaceAll(src.Text, []byte("\n"), []byte("\r\n")),
		bytes.ReplaceAll(src.Text, []byte("\n"), []byte("\r")),
	} {
		f, diagnostics := Read(Source{Name: src.Name, Text: text})
		require.NotNil(t, f, told(diagnostics))
		assert.Equal(t, plain.Study, f.Study)
	}
}

// The place of an error is right after any line end and behind any letters.
func TestPlacesCountLinesAndCharacters(t *testing.T) {
	for _, end := range []string{"\n", "\r\n", "\r"} {
		text := strings.Join([]string{"\xef\xbb\xbfroofyears: 1", "# ", "study: {title: Dépôt 屋根, periot: 3}", ""}, end)
		_, diagnostics := Read(Source{Name: "x", Text: []byte(text)})
		assert.Contains(t, told(diagnostics), "x:3:26: error: study: the key \"periot\"")
		assert.Contains(t, told(diagnostics), "\n    3 | study: {title: Dépôt 屋根, periot: 3}\n      |                          ^\n")
	}
}

func TestBytesThatAreNotText(t *testing.T) {
	for text, want := range map[string]string{
		"roofyears: 1\n\x00":              "x:2:1: error: not UTF-8 text as a study file has it: the character U+0000",
		"\xfe\xff\x00r":                   "x:1:1: error: the file is UTF-16 or UTF-32, not UTF-8 text",
		"\xff\xfe\x00\x00":                "x:1:1: error: the file is UTF-16 or UTF-32, not UTF-8 text",
		"\x00\x00\xfe\xff":                "x:1:1: error: the file is UTF-16 or UTF-32, not UTF-8 text",
		"# é\r\n# \xe9":                   "x:2:3: error: not UTF-8 text: the byte 0xE9",
		"a: \xed\xa0\x80":                 "x:1:4: error: not UTF-8 text: the byte 0xED",
		"a: b\x7f":                        "x:1:5: error: not UTF-8 text as a study file has it: the character U+007F",
		"a: \u0085":                       "x:1:4: error: not UTF-8 text as a study file has it: the character U+0085",
		"a: \ufeff":                       "x:1:4: error: not UTF-8 text as a study file has it: the character U+FEFF",
		"\xef\xbb\xbf\xef\xbb\xbfroof: 1": "x:1:1: error: not UTF-8 text as a study file has it: the character U+FEFF",
	} {
		f, diagnostics := Read(Source{Name: "x", Text: []byte(text)})
		assert.Nil(t, f)
		require.Len(t, diagnostics, 1, "%q", text)
		assert.Equal(t, want, strings.SplitN(diagnostics[0].String(), "\n", 2)[0])
	}
}
