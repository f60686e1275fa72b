package main

import (
	"fmt"
	"io"
	"runtime"
	"runtime/debug"

	"github.com/urfave/cli/v2"

	"roofyears/lcc"
)

// versionCommand tells which program and which method this is.
func (c commands) versionCommand() *cli.Command {
	return &cli.Command{
		Name:      "version",
		Usage:     "tell the version, the edition of the method and, if asked, the licences of what is linked in",
		UsageText: name + " version [--notices]",
		Description: "Example: " + name + " version\n" +
			"Example: " + name + " version --notices\n" +
			"Two programs of the same edition of the method give the same figures of a study.",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "notices", Usage: "write the licence of this program and of every library in it and in its pages"},
		},
		Action: func(ctx *cli.Context) error {
			if err := noFile(ctx); err != nil {
				return err
			}
			return c.write("", func(w io.Writer) error {
				if ctx.Bool("notices") {
					return writeNotices(w)
				}
				_, err := fmt.Fprintf(w, "%s %s\nmethod edition %s\nbuilt with %s for %s/%s\n", name, version(), lcc.Edition, runtime.Version(), runtime.GOOS, runtime.GOARCH)
				return err
			})
		},
	}
}

// version is the module's version as the build knows it.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}

// noFile refuses what stands after the flags of a command that reads no file.
func noFile(ctx *cli.Context) error {
	if ctx.Args().Present() {
		return usageError{ctx.Command.Name, fmt.Sprintf("%s reads no file, found %q", ctx.Command.Name, ctx.Args().First())}
	}
	return nil
}
