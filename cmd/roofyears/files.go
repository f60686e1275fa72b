package main

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// filesRead are the files that a run has read, which it writes nothing over.
// Of nil, none are known.
type filesRead struct {
	mu    sync.Mutex
	infos []os.FileInfo
}

// add notes a file that is read, from what the system tells of it. What cannot
// be told, a device and a pipe are left out.
func (f *filesRead) add(info os.FileInfo, err error) {
	if f == nil || err != nil || !info.Mode().IsRegular() {
		return
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	f.infos = append(f.infos, info)
}

// addInput notes the file that a study or a table is read from: standard input
// may be one too.
func (c commands) addInput(path string) {
	if path != "-" {
		c.took.add(os.Stat(path))
	} else if in, ok := c.std.in.(*os.File); ok {
		c.took.add(in.Stat())
	}
}

// refuse refuses to write over a file that was read, whatever name leads to it.
func (f *filesRead) refuse(command, path string) error {
	info, err := os.Stat(path)
	if f == nil || path == "-" || err != nil {
		return nil
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, other := range f.infos {
		if os.SameFile(info, other) {
			return usageError{command, fmt.Sprintf("%s is a file that is read; name another one to write", path)}
		}
	}
	return nil
}

// sameFile tells whether two names, or links, lead to one file.
func sameFile(a, b string) bool {
	x, errA := os.Stat(a)
	y, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(x, y)
}

// samePlace tells whether what is written under two names is one file, which
// need not be there yet.
func samePlace(a, b string) bool {
	return filepath.Base(a) == filepath.Base(b) && sameFile(filepath.Dir(a), filepath.Dir(b)) || sameFile(a, b)
}
