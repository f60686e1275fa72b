package scenarios

import (
	"errors"
	"io"
	"io/fs"
	"os"
)

// MaxSize is the largest study file that is read, in bytes (4 MiB).
const MaxSize = 4 << 20

// Source is a study file as given.
type Source struct {
	Name string // file name, as messages show it
	Text []byte // its bytes; at most MaxSize+1 when it comes from Load
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

// LoadFrom reads a study file from a stream, with the limit of Load. The name
// is what messages call it.
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
