package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"

	"golang.org/x/term"

	"roofyears/report/text"
)

// write writes a result to standard output, or to a file when a name is
// given: aside first, then renamed into place, so that a failure leaves what
// was there before and no half-written file. A file that was read to make the
// result is never written over.
func (c commands) write(path string, write func(io.Writer) error) error {
	if err := c.took.refuse("", path); err != nil {
		return err
	}
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if path == "" || path == "-" {
		_, err := b.WriteTo(c.std.out)
		return err
	}
	if err := replaceFile(path, b.Bytes()); err != nil {
		return err
	}
	c.wrote(path)
	return nil
}

// wrote says that a file was written.
func (c commands) wrote(path string) {
	fmt.Fprintf(c.std.err, "wrote %s\n", printable(path))
}

// replaceFile writes a file whole or not at all; see openAside.
func replaceFile(path string, data []byte) error {
	f, err := openAside(path)
	if err != nil {
		return err
	}
	if _, err := f.Write(data); err != nil {
		f.discard()
		return err
	}
	return f.commit()
}

// aside is a file that is written beside the one that it is to replace.
type aside struct {
	f    *os.File
	name string      // as the user gave it
	path string      // links followed
	mode os.FileMode // of the file that was there before; 0 when there was none
}

// openAside begins to write a file, which is there whole once it is committed,
// and is what it was before when it is discarded. A link keeps pointing where
// it does; a device, a pipe, a folder, a link to nothing or a file that may not
// be written is refused.
func openAside(path string) (*aside, error) {
	a, made := &aside{name: path, path: path}, os.FileMode(0o666)
	if _, err := os.Lstat(path); err == nil {
		info, err := os.Stat(path)
		if err != nil {
			return nil, fmt.Errorf("writing %s: %w", path, cause(err))
		}
		if a.mode = info.Mode(); !a.mode.IsRegular() { // the link /dev/stdout leads to a pipe that has no name
			return nil, fmt.Errorf("%s is no ordinary file; the result was not written", path)
		}
		if a.path, err = filepath.EvalSymlinks(path); err != nil {
			return nil, fmt.Errorf("writing %s: %w", path, cause(err))
		}
		if a.mode = a.mode.Perm(); a.mode&0o222 == 0 || !writable(a.path) {
			return nil, fmt.Errorf("%s may not be written; it was left as it is", a.path)
		}
		made = a.mode
	}
	var err error
	if a.f, err = createBeside(a.path, made); err != nil {
		return nil, fmt.Errorf("writing %s: %w", a.path, cause(err))
	}
	return a, nil
}

// createBeside makes a new file in the folder of another. As with every new file,
// the system takes from its mode what the user's mask forbids.
func createBeside(path string, mode os.FileMode) (*os.File, error) {
	for {
		name := fmt.Sprintf(".roofyears-%08x", rand.Uint32())
		f, err := os.OpenFile(filepath.Join(filepath.Dir(path), name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}

// writable tells whether a file may be written: renaming alone would put
// another in the place of one that belongs to somebody else.
func writable(path string) bool {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	return err == nil && f.Close() == nil || !errors.Is(err, fs.ErrPermission)
}

// Write writes on.
func (a *aside) Write(b []byte) (int, error) {
	n, err := a.f.Write(b)
	if err != nil {
		err = fmt.Errorf("writing %s: %w", a.path, cause(err))
	}
	return n, err
}

// commit puts the file into its place.
func (a *aside) commit() error {
	var err error
	if a.mode != 0 {
		err = a.f.Chmod(a.mode)
	}
	if err = errors.Join(err, a.f.Sync(), a.f.Close()); err == nil {
		err = os.Rename(a.f.Name(), a.path)
	}
	if err != nil {
		os.Remove(a.f.Name())
		return fmt.Errorf("writing %s: %w", a.path, cause(err))
	}
	return nil
}

// discard leaves things as they were.
func (a *aside) discard() {
	a.f.Close()
	os.Remove(a.f.Name())
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
	f, ok := terminalOf(c.std.out)
	if !ok {
		return text.Options{}
	}
	o := text.Options{Colour: os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"}
	if width, _, err := term.GetSize(int(f.Fd())); err == nil {
		o.Width = min(width, widest)
	}
	return o
}

// terminalOf gives the terminal that a stream is, if it is one.
func terminalOf(w io.Writer) (*os.File, bool) {
	if seen, ok := w.(*watched); ok {
		w = seen.Writer
	}
	f, ok := w.(*os.File)
	return f, ok && term.IsTerminal(int(f.Fd()))
}

func isTerminal(w io.Writer) bool {
	_, is := terminalOf(w)
	return is
}
