package roofbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"maps"
	"slices"
)

// rowsPart is the part of the roofs: the one that may be large.
const rowsPart = "xl/worksheets/sheet1.xml"

// zipPackage writes the parts of a workbook in one order: that of the roofs first,
// straight to where it goes, and the others, which come in any order, by name.
type zipPackage struct {
	out  *zip.Writer
	rest map[string]*bytes.Buffer
}

func newPackage(out io.Writer) *zipPackage {
	return &zipPackage{zip.NewWriter(out), map[string]*bytes.Buffer{}}
}

// Create begins a part.
func (p *zipPackage) Create(name string) (io.Writer, error) {
	if name == rowsPart {
		return p.out.Create(name)
	}
	p.rest[name] = &bytes.Buffer{}
	return p.rest[name], nil
}

// AddFS is not used for a workbook.
func (p *zipPackage) AddFS(fs.FS) error { return errors.ErrUnsupported }

// Close writes the parts that wait.
func (p *zipPackage) Close() error {
	for _, name := range slices.Sorted(maps.Keys(p.rest)) {
		part, err := p.out.Create(name)
		if err != nil {
			return err
		}
		if _, err := p.rest[name].WriteTo(part); err != nil {
			return err
		}
	}
	return p.out.Close()
}
