package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
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
			file, _ := scenarios.Read(src)
			logo, err := logoBeside(path, file)
			if err != nil {
				return err
			}
			err = c.write(path, "", func(w io.Writer) error { _, err := w.Write(src.Text); return err })
			if err == nil && logo != "" {
				err = replaceFile(logo, file.Logo.Bytes)
			}
			if err == nil && path != "-" {
				fmt.Fprintf(c.std.err, "wrote %s; next: %s compare %s\n", path, name, path)
			}
			return err
		},
	}
}

// logoBeside is where the logo of a new study file goes; "" when it has none,
// when it is there already, or when the study goes to standard output. Another
// file of that name is left alone.
func logoBeside(study string, file *scenarios.File) (string, error) {
	if study == "-" || file == nil || file.Logo == nil {
		return "", nil
	}
	path := filepath.Join(filepath.Dir(study), file.Logo.Name)
	there, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return path, nil
	case err == nil && bytes.Equal(there, file.Logo.Bytes):
		return "", nil
	case err != nil:
		return "", err
	}
	return "", fmt.Errorf("%s, the logo of the study, exists already; it was left as it is", path)
}
