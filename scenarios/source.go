package scenarios

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// MaxSize is the largest study file that is read, in bytes (4 MiB).
const MaxSize = 4 << 20

// Source is a study file as given.
type Source struct {
	Name string // file name, as messages show it
	Text []byte // its bytes; at most MaxSize+1 when it comes from Load

	// Open reads a file that the study names, by its path from the folder of
	// the study, at most MaxLogo+1 bytes of it. With nil such files are not
	// looked at: only their names are checked.
	Open func(name string) ([]byte, error)
}

// Load reads a file, or standard input when path is "-". The error is an
// *fs.PathError: a missing file, a directory, a failure of the disk. A file
// over MaxSize is cut one byte later, and Read then tells that it is too large.
func Load(path string) (Source, error) {
	if path == "-" {
		return LoadFrom("standard input", os.Stdin)
	}
	f, err := os.Open(path)
	if err != nil {
		return Source{}, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil {
		return Source{}, err
	} else if info.IsDir() {
		return Source{}, &fs.PathError{Op: "read", Path: path, Err: errors.New(isDirectory)}
	}
	return LoadFrom(path, f)
}

// Beside reads files beside a study file for Source.Open: ordinary files in its
// folder or below, never one that a link or a path leads out of it to. For
// standard input, "-", every file is an error.
func Beside(path string) func(name string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if path == "-" {
			return nil, errNoFolder
		}
		folder, err := os.OpenRoot(filepath.Dir(path))
		if err != nil {
			return nil, err
		}
		defer folder.Close()
		return readSmall(folder.Stat, folder.Open, name)
	}
}

// LoadLogo reads a file for ParseLogo, from anywhere, at most one byte over
// MaxLogo. The error is an *fs.PathError.
func LoadLogo(path string) ([]byte, error) { return readSmall(os.Stat, os.Open, path) }

// readSmall reads an ordinary file up to one byte over MaxLogo; a device or a
// pipe is not opened, since that may wait for ever.
func readSmall(stat func(string) (fs.FileInfo, error), open func(string) (*os.File, error), name string) ([]byte, error) {
	info, err := stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, &fs.PathError{Op: "read", Path: name, Err: errNotOrdinary}
	}
	f, err := open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, MaxLogo+1))
}

// LoadFrom reads a study file from a stream, with the limit of Load. The name
// is what messages call it, and what an error names when the stream fails.
func LoadFrom(name string, in io.Reader) (Source, error) {
	text, err := io.ReadAll(io.LimitReader(in, MaxSize+1))
	if err != nil {
		var known *fs.PathError
		if !errors.As(err, &known) {
			err = &fs.PathError{Op: "read", Path: name, Err: err}
		}
		return Source{}, err
	}
	return Source{Name: name, Text: text}, nil
}
