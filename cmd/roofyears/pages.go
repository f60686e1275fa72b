package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/urfave/cli/v2"
)

// pages writes the page of each study into a folder, on all processors. What
// there is to say stands in the order of the files. A study with errors keeps
// none of the others from being done.
func (c commands) pages(ctx *cli.Context, folder string, paths []string) error {
	for _, flag := range []string{"output", "pdf"} {
		if ctx.String(flag) != "" {
			return usageError{"report", fmt.Sprintf("--into writes a page for each study; --%s is for one", flag)}
		}
	}
	targets, err := pageNames(folder, paths)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	for _, path := range paths {
		c.took.add(os.Stat(path)) // before the first page is written
	}
	said, failed := make([]bytes.Buffer, len(paths)), make([]error, len(paths))
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i := range paths {
		free <- struct{}{}
		all.Go(func() {
			one := commands{stream{in: c.std.in, out: c.std.out, err: &said[i]}, c.took}
			failed[i] = one.pageInto(ctx, paths[i], targets[i])
			<-free
		})
	}
	all.Wait()
	for i := range said {
		if _, err := said[i].WriteTo(c.std.err); err != nil {
			return err
		}
	}
	return worst(failed)
}

// worst is the failure that a run ends with: a failure of the machine before
// one of the input.
func worst(failed []error) error {
	var input error
	for _, err := range failed {
		switch {
		case errors.Is(err, errInput):
			input = err
		case err != nil:
			return err
		}
	}
	return input
}

// pageNames gives each study's page a name of its own in the folder.
func pageNames(folder string, paths []string) ([]string, error) {
	if len(paths) == 0 {
		return nil, usageError{"report", "report --into needs the study files to make pages of"}
	}
	from := map[string]string{}
	var out []string
	for _, path := range paths {
		base := filepath.Base(strings.TrimPrefix(path, examplePrefix))
		for _, ending := range []string{".yaml", ".yml", ".json"} {
			base = strings.TrimSuffix(base, ending)
		}
		if base == "-" {
			return nil, usageError{"report", "report --into names pages after files; standard input has no name"}
		}
		target := filepath.Join(folder, base+".html")
		if other, taken := from[strings.ToLower(target)]; taken {
			return nil, usageError{"report", fmt.Sprintf("%q and %q would both be written to %s", other, path, target)}
		}
		from[strings.ToLower(target)] = path
		out = append(out, target)
	}
	return out, nil
}

func (c commands) pageInto(ctx *cli.Context, path, target string) error {
	study, err := c.reportStudy(ctx, path)
	if err != nil {
		return err
	}
	page, err := written(ctx, study)
	if err != nil {
		return err
	}
	if err := c.took.refuse("report", target); err != nil {
		return err
	}
	if err := replaceFile(target, page); err != nil {
		return err
	}
	c.wrote(target)
	return nil
}
