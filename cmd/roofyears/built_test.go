package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// programs is the folder of the programs that tests build.
var programs string

// built is the command as a user has it, compiled once.
func built(t testing.TB) string {
	t.Helper()
	path, err := compiled()
	require.NoError(t, err)
	return path
}

var compiled = sync.OnceValues(func() (string, error) { return compile("") })

// compile builds the command for a processor, "" for that of the machine, with
// further flags of the compiler if need be.
func compile(processor string, flags ...string) (string, error) {
	path := filepath.Join(programs, fmt.Sprintf("%s%s%d", name, processor, len(flags)))
	cmd := exec.Command("go", slices.Concat([]string{"build", "-trimpath", "-o", path}, flags, []string{"."})...)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if processor != "" {
		cmd.Env = append(cmd.Env, "GOARCH="+processor)
	}
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return path, nil
}
