package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// released are the systems for which programs are released; .ci/test builds
// them.
var released = []string{"linux", "darwin", "windows"}

// noticeFile is the name of a file with a licence or a notice.
var noticeFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents)`)

// linkedModules gives the folders of the modules that are linked into a program
// for any system, by path.
func linkedModules(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, system := range released {
		list := exec.Command("go", "list", "-deps", "-json=Module", "roofyears/cmd/roofyears")
		list.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=0")
		text, err := list.Output()
		require.NoError(t, err)
		for dec := json.NewDecoder(bytes.NewReader(text)); ; {
			var pkg struct {
				Module *struct {
					Path, Dir string
					Main      bool
				}
			}
			if err := dec.Decode(&pkg); errors.Is(err, io.EOF) {
				break
			} else {
				require.NoError(t, err)
			}
			if m := pkg.Module; m != nil && !m.Main {
				out[m.Path] = m.Dir
			}
		}
	}
	return out
}

// wantedNotices gathers the notices of linked modules, of the standard library
// and of this program, by their file under notices.
func wantedNotices(t *testing.T) map[string]string {
	t.Helper()
	folders := linkedModules(t)
	folders["roofyears"] = filepath.Join("..", "..")
	folders["go"] = runtimeRoot(t)
	wanted := map[string]string{}
	for module, folder := range folders {
		before := len(wanted)
		for _, in := range []string{"", "THIRD_PARTY_LICENSES"} {
			files, err := os.ReadDir(filepath.Join(folder, in))
			if in == "" {
				require.NoError(t, err)
			}
			for _, f := range files {
				if f.IsDir() || in == "" && !noticeFile.MatchString(f.Name()) {
					continue
				}
				text, err := os.ReadFile(filepath.Join(folder, in, f.Name()))
				require.NoError(t, err)
				wanted[filepath.ToSlash(filepath.Join("notices", module, in, f.Name()))] = string(text)
			}
		}
		assert.Greater(t, len(wanted), before, "%s has no licence: may it be linked?", module)
	}
	return wanted
}

// runtimeRoot is where Go itself stands, which is linked in too.
func runtimeRoot(t *testing.T) string {
	t.Helper()
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	return strings.TrimSpace(string(root))
}

// Every module that is linked in has its notices here, as it states them, and
// there is no notice of another. UPDATE_NOTICES=1 gathers them.
func TestNoticesAreThoseOfLinkedModules(t *testing.T) {
	wanted := wantedNotices(t)
	if os.Getenv("UPDATE_NOTICES") != "" {
		require.NoError(t, os.RemoveAll("notices"))
		for file, text := range wanted {
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		}
	}
	const again = "gather the notices with UPDATE_NOTICES=1 go test ./cmd/roofyears -run TestNotices, and read what changed"
	for file, text := range wanted {
		here, err := os.ReadFile(file)
		if assert.NoError(t, err, again) {
			assert.True(t, text == string(here), "%s is not as its module states it: %s", file, again)
		}
	}
	require.NoError(t, filepath.WalkDir("notices", func(file string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			assert.Contains(t, wanted, filepath.ToSlash(file), "a notice of what is not linked in: %s", again)
		}
		return err
	}))
}

// The chart bundle's licences name each package that is bundled, as the lock
// file has them.
func TestNoticesNameTheChartBundle(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, writeNotices(&out))
	var lock struct {
		Packages map[string]struct{ Version string }
	}
	text, err := os.ReadFile("../../report/html/assets/bundle/package-lock.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &lock))
	bundled := 0
	for path, p := range lock.Packages {
		pkg, is := strings.CutPrefix(path, "node_modules/")
		if !is || strings.Contains(pkg, "esbuild") { // it makes the bundle and is not in it
			continue
		}
		bundled++
		assert.Regexp(t, regexp.QuoteMeta(pkg)+` +`+regexp.QuoteMeta(p.Version), out.String(), "the notice of the chart bundle does not name %s %s", pkg, p.Version)
	}
	assert.GreaterOrEqual(t, bundled, 3)
	for _, said := range []string{"Apache License", "BSD 3-Clause License", "0BSD", "Permission to use, copy, modify, and/or distribute this software"} {
		assert.Contains(t, out.String(), said)
	}
}

// What is released is what the notices were gathered for.
func TestReleasedSystemsAreBuilt(t *testing.T) {
	script, err := os.ReadFile("../../.ci/test")
	require.NoError(t, err)
	var built []string
	for _, m := range regexp.MustCompile(`\b([a-z]+)/(?:amd64|arm64)\b`).FindAllStringSubmatch(string(script), -1) {
		if !slices.Contains(built, m[1]) {
			built = append(built, m[1])
		}
	}
	assert.ElementsMatch(t, released, built)
	assert.Contains(t, released, runtime.GOOS)
}
