package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"roofyears/scenarios/portfolio"
)

// templateNames are the files of templates and their names; the first one, of rows
// that name none, has none.
type templateNames struct{ names, paths []string }

// templateFiles reads NAME=FILE of templates beside the first one.
func templateFiles(first string, others []string) (templateNames, error) {
	n := templateNames{[]string{""}, []string{first}}
	for _, pair := range others {
		name, path, _ := strings.Cut(pair, "=")
		switch {
		case strings.TrimSpace(name) == "" || path == "":
			return n, usageError{"portfolio", fmt.Sprintf("--template is %q, expected NAME=FILE", pair)}
		case slices.Contains(n.names, strings.TrimSpace(name)):
			return n, usageError{"portfolio", fmt.Sprintf("--template names %q twice", name)}
		case path == "-":
			return n, usageError{"portfolio", "--template needs a file; standard input can be TEMPLATE or ROOFS"}
		}
		n.names, n.paths = append(n.names, strings.TrimSpace(name)), append(n.paths, path)
	}
	return n, nil
}

// templates reads the files, with their logos or without; what is wrong with
// any of them is told.
func (c commands) templates(n templateNames, logo bool) ([]portfolio.Template, error) {
	var out []portfolio.Template
	var bad error
	for i, path := range n.paths {
		file, err := c.read(path, logo)
		switch {
		case errors.Is(err, errInput):
			bad = err
		case err != nil:
			return nil, err
		}
		out = append(out, portfolio.Template{Name: n.names[i], File: file})
	}
	return out, bad
}
