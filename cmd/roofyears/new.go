package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
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
			also, err := besideNew(path, ctx.String("example"), file)
			if err != nil {
				return err
			}
			for _, name := range slices.Sorted(maps.Keys(also)) { // the study last: what is there of a run that failed is taken as it is
				if err := replaceFile(name, also[name]); err != nil {
					return err
				}
				c.wrote(name)
			}
			err = c.write(path, func(w io.Writer) error { _, err := w.Write(src.Text); return err })
			if err == nil && path != "-" {
				c.tellNext(path, ctx.String("example"))
			}
			return err
		},
	}
}

// tellNext tells what to do with a study file that was written.
func (c commands) tellNext(study, example string) {
	next := "compare " + study
	if table, has := scenarios.ExampleTable(example); has {
		next = fmt.Sprintf("portfolio %s %s", study, filepath.Join(filepath.Dir(study), table.Name))
	}
	fmt.Fprintf(c.std.err, "next: %s %s\n", name, printable(next))
}

// besideNew are the files that go beside a new study file, its logo and its
// table of roofs, by where they go: none when the study goes to standard output,
// and none that is there already. Another file of that name is left alone.
func besideNew(study, example string, file *scenarios.File) (map[string][]byte, error) {
	wanted := map[string][]byte{}
	if study == "-" {
		return wanted, nil
	}
	if file != nil && file.Logo != nil {
		wanted[file.Logo.Name] = file.Logo.Bytes
	}
	if table, has := scenarios.ExampleTable(example); has {
		wanted[table.Name] = table.Text
	}
	out := map[string][]byte{}
	for name, data := range wanted {
		path := filepath.Join(filepath.Dir(study), name)
		there, err := os.ReadFile(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			out[path] = data
		case err != nil:
			return nil, err
		case !bytes.Equal(there, data):
			return nil, fmt.Errorf("%s, which belongs to the study, exists already; it was left as it is", path)
		}
	}
	return out, nil
}
