package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"github.com/urfave/cli/v2"

	"roofyears/scenarios"
)

// newCommand writes a study file to start from.
func (c commands) newCommand() *cli.Command {
	return &cli.Command{
		Name:      "new",
		Usage:     "write a commented study file to start from",
		UsageText: name + " new [--example NAME] FILE",
		Description: "Example: " + name + " new study.yaml\n" +
			"An existing file is left alone. Examples: " + strings.Join(scenarios.ExampleNames(), ", ") + ".",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "example", Usage: "start from the embedded example `NAME` instead of the starter"},
		},
		Action: func(ctx *cli.Context) error {
			path, err := oneFile(ctx)
			if err != nil {
				return err
			}
			if strings.HasPrefix(path, examplePrefix) {
				return usageError{"new", fmt.Sprintf("%q would be read as an embedded example; name an ordinary file", path)}
			}
			src := scenarios.Starter()
			if wanted := ctx.String("example"); wanted != "" {
				if src, err = c.source(examplePrefix + wanted); err != nil {
					return err
				}
			}
			if path != "-" {
				if _, err := os.Lstat(path); err == nil {
					return fmt.Errorf("%s exists already; it was left as it is", path)
				} else if !errors.Is(err, fs.ErrNotExist) {
					return err
				}
			}
			err = c.write(path, "", func(w io.Writer) error { _, err := w.Write(src.Text); return err })
			if err == nil && path != "-" {
				fmt.Fprintf(c.std.err, "wrote %s; next: %s compare %s\n", path, name, path)
			}
			return err
		},
	}
}
