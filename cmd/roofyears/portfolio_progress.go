package main

import (
	"io"
	"os"
	"sync/atomic"
	"time"

	"github.com/schollz/progressbar/v3"
)

// watchedInput counts what is read of a table of roofs.
type watchedInput struct {
	io.Reader
	read atomic.Int64 // bytes
	size int64        // bytes; 0 when it is not known
}

// watch begins to count. The size of an ordinary file is known.
func watch(in io.Reader) roofInput {
	w := &watchedInput{Reader: in}
	f, ok := in.(*os.File)
	if !ok {
		return w
	}
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return w
	}
	w.size = info.Size()
	return &watchedFile{w, f}
}

// roofInput is an input that is being counted.
type roofInput interface {
	io.Reader
	counted() *watchedInput
}

func (w *watchedInput) counted() *watchedInput { return w }

func (w *watchedInput) Read(b []byte) (int, error) {
	n, err := w.Reader.Read(b)
	w.read.Add(int64(n))
	return n, err
}

// watchedFile is a file of which a reader may ask any part.
type watchedFile struct {
	*watchedInput
	f *os.File
}

// Size is the size in bytes.
func (w *watchedFile) Size() int64 { return w.size }

// ReadAt reads a part.
func (w *watchedFile) ReadAt(b []byte, at int64) (int, error) {
	n, err := w.f.ReadAt(b, at)
	w.read.Add(int64(n))
	return n, err
}

// progress shows on a terminal how far a run is. None of its methods does
// anything for nil.
type progress struct {
	bar   *progressbar.ProgressBar
	in    *watchedInput
	out   io.Writer
	drawn bool
}

// progress begins to show how far a run is: on standard error when that is a
// terminal, unless the rows go to the same screen.
func (c commands) progress(in roofInput, output string) *progress {
	toScreen := (output == "" || output == "-") && isTerminal(c.std.out)
	if toScreen || !isTerminal(c.std.err) || os.Getenv("TERM") == "dumb" {
		return nil
	}
	p := &progress{in: in.counted(), out: c.std.err}
	options := []progressbar.Option{
		progressbar.OptionSetWriter(c.std.err), progressbar.OptionThrottle(100 * time.Millisecond),
		progressbar.OptionSetSpinnerChangeInterval(0), // no drawing but by step
		progressbar.OptionSetDescription("roofs"), progressbar.OptionSetWidth(20),
	}
	size := p.in.size
	if size == 0 { // a count of roofs, since nobody knows of how many
		size = -1
		options = append(options, progressbar.OptionShowCount(), progressbar.OptionShowIts(), progressbar.OptionSetItsString("roofs"))
	}
	p.bar = progressbar.NewOptions64(size, options...)
	return p
}

// step shows that so many roofs more are done. A failure to draw is no failure
// of the run.
func (p *progress) step(roofs int) {
	if p == nil {
		return
	}
	p.drawn = true
	switch {
	case p.in.size > 0:
		_ = p.bar.Set64(min(p.in.read.Load(), p.in.size-1)) // reading is ahead of the roofs
	default:
		_ = p.bar.Add(roofs)
	}
}

// end takes the line away.
func (p *progress) end() {
	if p != nil && p.drawn {
		_ = p.bar.Clear()
		p.drawn = false
	}
}

// above gives a writer of messages that stand above the line.
func (p *progress) above(w io.Writer) io.Writer {
	if p == nil {
		return w
	}
	return p
}

// Write takes the line away and writes a message; the next step draws it again.
func (p *progress) Write(b []byte) (int, error) {
	p.end()
	return p.out.Write(b)
}
