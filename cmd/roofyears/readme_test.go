package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// insteadOf says how a line of the README is run, where it cannot be as it
// stands. Every other line runs as it stands.
var insteadOf = map[string]string{
	"go run ./cmd/roofyears report example:cold-store -o cold-store.html": `(cd "$ROOT" && go run ./cmd/roofyears report example:cold-store -o "$OLDPWD/cold-store.html")`,
	"bash .ci/test":                                   ": # it runs this test",
	"go install ./cmd/roofyears":                      `(cd "$ROOT" && GOBIN="$OLDPWD" go install ./cmd/roofyears) && ./roofyears version`,
	"roofyears new --example portfolio template.yaml": "rm template.yaml && roofyears new --example portfolio template.yaml", // one is given
	"roofyears new study.yaml":                        "roofyears new --example cold-store study.yaml",                       // the starter has no take-off
}

// givenToReadme are the files that the README's lines take as given.
const givenToReadme = `mkdir studies
roofyears new studies/one.yaml 2>/dev/null
roofyears new --example portfolio template.yaml 2>/dev/null
mv portfolio.csv roofs.csv
for i in 1 2 3 4 5; do echo '{"id": "'$i'", "roof.area": "'$i'2000 ft2"}'; done > rows.ndjson
`

// described takes what is said about a line of the README from behind it.
var described = regexp.MustCompile(`^(.*?\S)\s{2,}\S.*$`)

// readmeBlocks are the README's blocks of command lines, line by line. A line that begins
// with a space goes on with what is said about the one above.
func readmeBlocks(t *testing.T) [][]string {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	var out [][]string
	for i, block := range strings.Split(string(text), "\n```") {
		if i%2 == 0 || !strings.HasPrefix(block, "\n") { // a block of another language
			continue
		}
		var lines []string
		for _, line := range strings.Split(strings.ReplaceAll(block, " \\\n  ", " "), "\n")[1:] {
			if strings.TrimSpace(line) == "" || line[0] == ' ' {
				continue
			}
			if m := described.FindStringSubmatch(line); m != nil {
				line = m[1]
			}
			lines = append(lines, line)
		}
		out = append(out, lines)
	}
	return out
}

// The two commands that the README begins with run in the project's folder, and
// leave nothing there that a commit would take up.
func TestWhatReadmeWritesIsIgnored(t *testing.T) {
	ignored, err := os.ReadFile("../../.gitignore")
	require.NoError(t, err)
	written := regexp.MustCompile(` -o (\S+)`).FindAllStringSubmatch(strings.Join(readmeBlocks(t)[0], "\n"), -1)
	require.NotEmpty(t, written)
	for _, file := range written {
		assert.Contains(t, strings.Split(string(ignored), "\n"), "/"+file[1])
	}
}

// Every command line of the README runs.
func TestReadmeRuns(t *testing.T) {
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	used := map[string]bool{}
	ran := 0
	for _, block := range readmeBlocks(t) {
		script := givenToReadme
		for _, line := range block {
			if other, is := insteadOf[line]; is {
				used[line], line = true, other
			}
			script += line + "\n"
			ran++
		}
		out, err := shell(t.TempDir(), script, "ROOT="+root)
		assert.NoError(t, err, "%s\n%s", script, out)
	}
	assert.Greater(t, ran, 20)
	for line := range insteadOf {
		assert.True(t, used[line], "the README has no line %q any more", line)
	}
}

// Every command stands in the README's list of them.
func TestReadmeNamesEveryCommand(t *testing.T) {
	named := ""
	for _, block := range readmeBlocks(t) {
		named += strings.Join(block, "\n") + "\n"
	}
	for _, o := range helpOf(newApp(stream{})) {
		assert.Contains(t, named, name+" "+o.name, "add %q to the list of commands under Use in README.md", name+" "+o.name)
	}
}
