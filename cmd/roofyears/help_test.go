package main

import (
	"io"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// beforeExamples are what has to be there before the examples of a command run.
var beforeExamples = map[string]string{
	"check":   "roofyears new study.yaml",
	"takeoff": "roofyears new --example cold-store study.yaml",
	"verify":  "roofyears report example:cold-store -o cold-store.html",
}

// shell runs command lines in a folder; whatever fails ends them.
func shell(folder, lines string, env ...string) (string, error) {
	bash := exec.Command("bash", "-e", "-u", "-o", "pipefail", "-c", lines)
	bash.Dir, bash.Env = folder, append(bash.Environ(), env...)
	out, err := bash.CombinedOutput()
	return string(out), err
}

// Every command's help begins with a worked example, and every example that
// stands there runs.
func TestExamplesOfTheHelpRun(t *testing.T) {
	app := newApp(stream{strings.NewReader(""), io.Discard, io.Discard})
	all := helpOf(app)
	for i, o := range all {
		t.Run(o.name, func(t *testing.T) {
			require.NotEmpty(t, o.examples, "the help of %s has no example: begin its description with %q", o.name, examplePrompt)
			assert.True(t, strings.HasPrefix(app.Commands[i].Description, examplePrompt))
			for _, example := range o.examples {
				assert.Contains(t, example, name+" "+o.name)
				out, err := shell(t.TempDir(), beforeExamples[o.name]+"\n"+example)
				assert.NoError(t, err, "%s\n%s", example, out)
			}
		})
	}
	names := namesOf(all)
	for command := range beforeExamples {
		assert.Contains(t, names, command)
	}
}
