package main

import (
	"os"
	"os/exec"
	"slices"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"roofyears/report/html/browsertest"
)

// withBrowser runs the tests with one browser for all pages, and a folder for
// the programs that they build.
type withBrowser struct{ m *testing.M }

func (w withBrowser) Run() int {
	var err error
	if programs, err = os.MkdirTemp("", "roofyears-programs-"); err != nil {
		panic(err)
	}
	defer os.RemoveAll(programs)
	if slices.Contains(os.Args, "-test.fuzzworker") {
		return w.m.Run() // one of many, which opens no page
	}
	return browsertest.Main(w.m)
}

func TestMain(m *testing.M) {
	testscript.Main(withBrowser{m}, map[string]func(){
		name: func() { os.Exit(run(os.Args, stream{os.Stdin, os.Stdout, os.Stderr})) },
	})
}

// TestScripts runs the command scripts: what is typed, what comes back on
// which stream, and the exit code.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/scripts",
		Setup: func(env *testscript.Env) error { // for scripts that empty the PATH
			path, err := exec.LookPath(name)
			env.Setenv("ROOFYEARS", path)
			return err
		},
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
		},
	})
}
