package scenarios

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"path"
	"path/filepath"
)

// The limits of a logo. A page carries it once, a third longer in base64.
const (
	MaxLogo    = 32 << 10 // bytes of the file
	LeastPixel = 16       // pixels of its width and of its height
	MostPixel  = 2000
)

// Logo is a picture that was decoded as a whole, so that a browser can show it.
type Logo struct {
	Name  string // its path from the folder of the study; "" from ParseLogo
	Type  string // image/png or image/jpeg, by its content
	Bytes []byte // the file as it is
}

// pictures are the formats that are read, by how their files begin.
var pictures = []struct {
	mark, kind string
	config     func(io.Reader) (image.Config, error)
	decode     func(io.Reader) (image.Image, error)
}{
	{"\x89PNG\r\n\x1a\n", "image/png", png.DecodeConfig, png.Decode},
	{"\xff\xd8\xff", "image/jpeg", jpeg.DecodeConfig, jpeg.Decode},
}

// logo reads the name of a logo, and the file when it may be opened; nil when
// there is none or something is wrong with it.
func (s *section) logo() *Logo {
	name := s.line("logo")
	if name == "" {
		return nil
	}
	at, sub := s.values["logo"].place, s.sub("logo")
	if !filepath.IsLocal(name) {
		s.r.fail(at, sub, logoElsewhere(name))
		return nil
	}
	if s.r.open == nil {
		return nil
	}
	data, err := s.r.open(path.Clean(name))
	if err != nil {
		s.r.fail(at, sub, logoUnread(name, err))
		return nil
	}
	logo, m, ok := readLogo(data)
	if !ok {
		s.r.fail(at, sub, m)
		return nil
	}
	logo.Name = path.Clean(name)
	return logo
}

// ParseLogo reads the file of a logo. The error says what was found and
// expected.
func ParseLogo(data []byte) (*Logo, error) {
	logo, m, ok := readLogo(data)
	if !ok {
		return nil, m.asError()
	}
	return logo, nil
}

// readLogo looks at the size that a picture declares before it decodes it,
// and decodes it before it is trusted to be whole.
func readLogo(data []byte) (*Logo, message, bool) {
	switch {
	case len(data) == 0:
		return nil, logoEmpty(), false
	case len(data) > MaxLogo:
		return nil, logoTooLarge(), false
	}
	for _, p := range pictures {
		if !bytes.HasPrefix(data, []byte(p.mark)) {
			continue
		}
		size, err := p.config(bytes.NewReader(data))
		if err != nil {
			return nil, logoDamaged(err), false
		}
		if min(size.Width, size.Height) < LeastPixel || max(size.Width, size.Height) > MostPixel {
			return nil, logoSize(size.Width, size.Height), false
		}
		if _, err := p.decode(bytes.NewReader(data)); err != nil {
			return nil, logoDamaged(err), false
		}
		return &Logo{Type: p.kind, Bytes: data}, message{}, true
	}
	return nil, notPicture(), false
}

// Why a file beside the study cannot be read.
var (
	errNoFolder    = errors.New(noFolder)
	errNotOrdinary = errors.New(notOrdinary)
)

// reason is an error of a file without what was done to it, and where.
func reason(err error) error {
	var known *fs.PathError
	if errors.As(err, &known) {
		return known.Err
	}
	return err
}
