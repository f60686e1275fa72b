package main

import (
	"encoding/json"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every module that go.mod requires, every package that .ci/test installs and
// every one of npm has a row in the table of dependencies, which says why.
func TestEveryDependencyHasItsReason(t *testing.T) {
	_, table, found := strings.Cut(string(mustRead(t, "../../DEVELOPERS.md")), "\n## Dependencies, and why\n")
	require.True(t, found)
	rows := regexp.MustCompile(`(?m)^\| ([^|]+) \| [^|]{10,} \|$`).FindAllStringSubmatch(table, -1)
	named := map[string]bool{}
	for _, row := range rows {
		for _, name := range strings.Split(row[1], ", ") {
			named[name] = true
		}
	}
	for kind, names := range map[string][]string{"go.mod": required(t), ".ci/test": installed(t), "npm": fetched(t)} {
		require.NotEmpty(t, names, kind)
		for _, name := range names {
			assert.True(t, named[name], "%s of %s is not in the table of dependencies in DEVELOPERS.md: say what it is for", name, kind)
			delete(named, name)
		}
	}
	assert.Empty(t, named, "the table of dependencies in DEVELOPERS.md names what nothing needs")
}

// required are the modules and tools that go.mod names itself.
func required(t *testing.T) []string {
	t.Helper()
	out, err := exec.Command("go", "mod", "edit", "-json").Output()
	require.NoError(t, err)
	var mod struct {
		Require []struct {
			Path     string
			Indirect bool
		}
		Tool []struct{ Path string }
	}
	require.NoError(t, json.Unmarshal(out, &mod))
	var names []string
	for _, r := range mod.Require {
		if !r.Indirect {
			names = append(names, r.Path)
		}
	}
	for _, tool := range mod.Tool {
		names = append(names, tool.Path)
	}
	return names
}

// installed are the Debian packages that .ci/test installs: what follows the
// command in a call of need.
func installed(t *testing.T) []string {
	t.Helper()
	var names []string
	for _, call := range regexp.MustCompile(`(?m)^need \S+ ([^#\n]+)`).FindAllStringSubmatch(string(mustRead(t, "../../.ci/test")), -1) {
		names = append(names, strings.Fields(call[1])...)
	}
	return names
}

// fetched are the packages of npm.
func fetched(t *testing.T) []string {
	t.Helper()
	var names []string
	for _, file := range []string{"browsertest/axe", "assets/bundle"} {
		var list struct{ Dependencies, DevDependencies map[string]string }
		require.NoError(t, json.Unmarshal(mustRead(t, "../../report/html/"+file+"/package.json"), &list))
		for _, set := range []map[string]string{list.Dependencies, list.DevDependencies} {
			for name := range set {
				names = append(names, name)
			}
		}
	}
	return names
}
