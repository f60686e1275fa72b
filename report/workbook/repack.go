package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"slices"
	"strings"
	"time"
)

// repack writes a zip archive again, with its parts in order: the library
// leaves their order, and that of the entries of one of them, to chance.
func repack(w io.Writer, packed []byte) error {
	in, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		return err
	}
	slices.SortFunc(in.File, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	out := zip.NewWriter(w)
	for _, part := range in.File {
		from, err := part.Open()
		if err != nil {
			return err
		}
		text, err := io.ReadAll(from)
		if err != nil {
			return err
		}
		switch {
		case part.Name == "[Content_Types].xml":
			text = sorted(text)
		case strings.HasPrefix(part.Name, "xl/worksheets/sheet"):
			text = drawings(arrays(text))
		}
		to, err := out.CreateHeader(&zip.FileHeader{Name: part.Name, Method: zip.Deflate, Modified: firstZip})
		if err != nil {
			return err
		}
		if _, err := to.Write(text); err != nil {
			return err
		}
	}
	return out.Close()
}

var braced = regexp.MustCompile(`<c r="([A-Z]+[0-9]+)"([^>]*)><f>\{([^<]*)\}</f>`)

// arrays marks formulas in braces as formulas of arrays, which the library can
// not do in a stream: without the mark, Gnumeric takes one line of a column.
func arrays(text []byte) []byte {
	return braced.ReplaceAll(text, []byte(`<c r="$1"$2><f t="array" ref="$1">$3</f>`))
}

var drawn = regexp.MustCompile(`<drawing xmlns:relationships="[^"]*" relationships:id="`)

// drawings names the charts of a sheet with the prefix that the sheet declares
// at its start: the library declares another one, and then Gnumeric, which
// reads the first, leaves the charts out.
func drawings(text []byte) []byte {
	return drawn.ReplaceAll(text, []byte(`<drawing r:id="`))
}

// firstZip is the first day that a zip archive can tell.
var firstZip = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// sorted puts the entries of the list of parts in order.
func sorted(text []byte) []byte {
	start := bytes.Index(text, []byte("<Default"))
	if o := bytes.Index(text, []byte("<Override")); o >= 0 && (start < 0 || o < start) {
		start = o
	}
	end := bytes.LastIndex(text, []byte("</Types>"))
	if start < 0 || end < start {
		return text
	}
	entries := strings.SplitAfter(string(text[start:end]), ">")
	entries = slices.DeleteFunc(entries, func(e string) bool { return e == "" || strings.HasPrefix(e, "</") })
	for i, e := range entries {
		if !strings.HasSuffix(e, "/>") {
			entries[i] = strings.TrimSuffix(e, ">") + "/>"
		}
	}
	slices.Sort(entries)
	return slices.Concat(text[:start], []byte(strings.Join(entries, "")), text[end:])
}
