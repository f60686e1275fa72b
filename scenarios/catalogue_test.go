package scenarios

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// refusedElsewhere are refusals without a file in testdata/scenarios/bad, by
// what their line has, and why.
var refusedElsewhere = map[string]string{
	"aliasesTooLong(maxAliased)":      "a file of over 100,000 nodes: limits_test.go",
	"message{what: err.Error()}":      "cannot come: the units of a measure are of one dimension",
	"return number{}, notNumber":      "cannot come: the text has the form of a number",
	"notYAML(err.Error())":            "cannot come: the library tells a place of all that it refuses",
	"cooling_degree_days\", out":      "cannot come: degree-days were read within their limits",
	"refuse(\"\", outsideOfSense(err": "cannot come: the highest values were checked before",
	"tooMany(len(lines), most)":       "lines given by a flag: letterhead_test.go",
	"tooLarge(), false":               "a file that is too large: limits_test.go",
	"r.fail(at, \"\", m)":             "a file that is no text: source_test.go",
}

// Every refusal of the reader has a file in the catalogue of errors, with its
// text, and every warning one in testdata/scenarios/odd. What the files do not
// reach is told by its line.
func TestEveryRefusalHasAFile(t *testing.T) {
	profile := filepath.Join(t.TempDir(), "cover")
	cmd := exec.Command("go", "test", "-count=1", "-run", "^(TestBadFilesAreRefused|TestOddFilesAreReadWithWarnings)$", "-coverprofile", profile, ".")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	refusal, refusals := refusals(t), 0
	for file, of := range blocks(t, profile) {
		if strings.Contains(strings.TrimPrefix(file, "roofyears/scenarios/"), "/") {
			continue
		}
		for i, line := range strings.Split(string(sourceOf(t, filepath.Base(file))), "\n") {
			at := refusal.FindStringIndex(line)
			if at == nil || strings.HasPrefix(line, "func ") {
				continue
			}
			refusals++
			if excused(line) {
				continue
			}
			assert.True(t, of.reach(i+1, at[0]+1), "%s:%d: no file in testdata/scenarios/bad or odd brings this about: %s", filepath.Base(file), i+1, strings.TrimSpace(line))
		}
	}
	assert.Greater(t, refusals, 250)
	assert.Greater(t, len(files(t, "bad")), 300)
}

// refusals finds the lines that tell something of the file: the calls that put
// a diagnostic on the list, and those of a wording in voice*.go.
func refusals(t *testing.T) *regexp.Regexp {
	t.Helper()
	wordings := []string{"fail", "lacks", "wrongShape", "refuse", "warn", "suspect"}
	names, err := filepath.Glob("voice*.go")
	require.NoError(t, err)
	for _, name := range names {
		for _, m := range regexp.MustCompile(`(?m)^func (\w+)\(.*\) message {`).FindAllSubmatch(sourceOf(t, name), -1) {
			wordings = append(wordings, string(m[1]))
		}
	}
	require.Greater(t, len(wordings), 120)
	return regexp.MustCompile(`\b(` + strings.Join(wordings, "|") + `)\(`)
}

func excused(line string) bool {
	for part := range refusedElsewhere {
		if strings.Contains(line, part) {
			return true
		}
	}
	return false
}

func sourceOf(t *testing.T, file string) []byte {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	return text
}

// block is a stretch of statements, and whether they ran.
type block struct {
	from, to place
	ran      bool
}

type covered []block

// reach tells whether what stands at a place ran.
func (c covered) reach(line, col int) bool {
	for _, b := range c {
		after := line > b.from.line || line == b.from.line && col >= b.from.col
		before := line < b.to.line || line == b.to.line && col <= b.to.col
		if after && before && b.ran {
			return true
		}
	}
	return false
}

// blocks reads a cover profile, file:line.col,line.col statements count.
func blocks(t *testing.T, profile string) map[string]covered {
	t.Helper()
	f, err := os.Open(profile)
	require.NoError(t, err)
	defer f.Close()
	form := regexp.MustCompile(`^(.*):(\d+)\.(\d+),(\d+)\.(\d+) \d+ (\d+)$`)
	out := map[string]covered{}
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		m := form.FindStringSubmatch(lines.Text())
		if m == nil {
			continue // the mode
		}
		var n [5]int
		for i := range n {
			n[i], err = strconv.Atoi(m[i+2])
			require.NoError(t, err, fmt.Sprint(m))
		}
		out[m[1]] = append(out[m[1]], block{place{n[0], n[1]}, place{n[2], n[3]}, n[4] > 0})
	}
	require.NoError(t, lines.Err())
	require.NotEmpty(t, out)
	return out
}
