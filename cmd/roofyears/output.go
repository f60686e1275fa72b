package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"golang.org/x/term"

	"roofyears/report/text"
)

// output writes a result to standard output, or to a file when a name is
// given: aside first, then renamed into place, so that a failure leaves what
// was there before and no half-written file.
func (c commands) output(path string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if path == "" || path == "-" {
		_, err := b.WriteTo(c.std.out)
		return err
	}
	return replaceFile(path, b.Bytes())
}

// replaceFile writes a file whole or not at all. A link keeps pointing where
// it does; a device, a pipe or a folder is refused.
func replaceFile(path string, data []byte) (err error) {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	mode := os.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		if !info.Mode().IsRegular() {
			return fmt.Errorf("%s is no ordinary file; the result was not written", path)
		}
		mode = info.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".roofyears-*")
	if err != nil {
		return fmt.Errorf("writing %s: %w", path, cause(err))
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
			err = fmt.Errorf("writing %s: %w", path, cause(err))
		}
	}()
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(mode), f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	return err
}

// cause takes the temporary file's name out of an error.
func cause(err error) error {
	var known *os.PathError
	if errors.As(err, &known) {
		return known.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}

// widest is how wide running text grows on a wide terminal.
const widest = 100

// terminal says how to lay out text for standard output.
func (c commands) terminal() text.Options {
	f, ok := c.std.out.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return text.Options{}
	}
	o := text.Options{Colour: os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"}
	if width, _, err := term.GetSize(int(f.Fd())); err == nil {
		o.Width = min(width, widest)
	}
	return o
}
