package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		name: func() { os.Exit(run(os.Args, stream{os.Stdin, os.Stdout, os.Stderr})) },
	})
}

// TestScripts runs the command scripts: what is typed, what comes back on
// which stream, and the exit code.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "../../testdata/scripts",
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
		},
	})
}
