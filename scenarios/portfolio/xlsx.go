package portfolio

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"slices"
	"strings"

	"roofyears/scenarios"
)

// The limits of a workbook. The parts that are not needed, such as pictures,
// are not unpacked at all.
const (
	MaxWorkbook = 256 << 20 // bytes of the file
	MaxSheetRow = 1_048_576 // the last row of a sheet, by the format
	maxSheet    = 2 << 30   // bytes of a sheet, unpacked
	maxTexts    = 256 << 20 // bytes of the texts that cells share, unpacked
	mostTexts   = 8 << 20   // of them
	maxListing  = 16 << 20  // bytes of a part that says what others are, unpacked
	maxRatio    = 200       // how many times its packed bytes a part may unpack to
	freeRatio   = 1 << 20   // bytes to which any part may unpack
)

// Sized is a file of which any part can be read: a workbook has its table of
// contents at its end. [bytes.Reader] and [io.SectionReader] are.
type Sized interface {
	io.ReaderAt
	Size() int64 // bytes
}

// workbook is a package of parts in a zip file, ECMA-376 part 2, that holds a
// spreadsheet, part 1 section 18.
type workbook struct {
	t      *Table
	parts  map[string]*zip.File // by name, in lower case
	texts  []string             // that cells share
	styles []cellForm           // by number
	from   dayZero
}

// openXLSX reads the head of a sheet: of the one that is named, or of the first
// that is not hidden. Nothing of a workbook is run, and no formula calculated:
// a cell is what was stored when the workbook was saved.
func (t *Table) openXLSX(in io.Reader, o Options) error {
	file, err := t.sized(in)
	if err != nil {
		return err
	}
	w := &workbook{t: t}
	if err := w.unpack(file); err != nil {
		return err
	}
	main, err := w.main()
	if err != nil {
		return err
	}
	part, err := w.find(main, o.Sheet)
	if err != nil {
		return err
	}
	s, err := w.openSheet(part)
	if err != nil {
		return err
	}
	return s.head()
}

// sized gives a file as a whole; what can only be read on is held in memory.
func (t *Table) sized(in io.Reader) (Sized, error) {
	file, whole := in.(Sized)
	if !whole {
		all, err := io.ReadAll(io.LimitReader(in, MaxWorkbook+1))
		if err != nil {
			return nil, err
		}
		file = bytes.NewReader(all)
	}
	if file.Size() > MaxWorkbook {
		return nil, t.unreadable(0, "the workbook has over %d MiB, the most that is read: save the table as CSV UTF-8", MaxWorkbook>>20)
	}
	return file, nil
}

// compound begins a compound file, which an old workbook is, and the envelope
// of one with a password.
var compound = []byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}

// unpack lists the parts.
func (w *workbook) unpack(file Sized) error {
	start := make([]byte, len(compound))
	n, err := file.ReadAt(start, 0)
	switch {
	case err != nil && !errors.Is(err, io.EOF):
		return err
	case n == 0:
		return w.t.unreadable(0, "the file is empty, expected a workbook")
	case bytes.Equal(start, compound):
		return w.t.unreadable(0, "the workbook is an old .xls or has a password: save it as .xlsx without a password")
	}
	z, err := zip.NewReader(file, file.Size())
	if err != nil {
		return w.t.unreadable(0, "the file is no .xlsx workbook: %v", err)
	}
	w.parts = make(map[string]*zip.File, len(z.File))
	for _, f := range z.File {
		name := partName("", f.Name)
		if w.parts[name] != nil {
			return w.t.unreadable(0, "the workbook has two parts %q", f.Name)
		}
		w.parts[name] = f
	}
	return nil
}

// partName is the name by which a part is found, of a target that a part in a
// folder names.
func partName(folder, target string) string {
	target = strings.ReplaceAll(target, `\`, "/")
	if !strings.HasPrefix(target, "/") {
		target = path.Join(folder, target)
	}
	return strings.ToLower(strings.TrimPrefix(path.Clean(target), "/"))
}

// open begins to read a part; a part that is not there gives nil.
func (w *workbook) open(name string, most uint64) (io.ReadCloser, error) {
	f := w.parts[name]
	if f == nil {
		return nil, nil
	}
	size := f.UncompressedSize64
	if size > most || size > freeRatio && size/maxRatio > f.CompressedSize64 {
		return nil, w.t.unreadable(0, "the part %q unpacks to %d bytes from %d, at most %d and %d times as many are read", f.Name, size, f.CompressedSize64, most, maxRatio)
	}
	part, err := f.Open()
	if err != nil {
		return nil, w.damaged(name, err)
	}
	return part, nil
}

func (w *workbook) damaged(name string, err error) error {
	return w.t.unreadable(0, "the part %q of the workbook cannot be read: %v", name, err)
}

// listing reads a part that says what others are, into a struct; a part that
// is not there leaves it as it is.
func (w *workbook) listing(name string, into any) error {
	part, err := w.open(name, maxListing)
	if part == nil {
		return err
	}
	defer part.Close()
	if err := xml.NewDecoder(part).Decode(into); err != nil {
		return w.damaged(name, err)
	}
	return nil
}

// links are what a part points to, ECMA-376 part 2 section 9.3.
type links struct {
	Links []struct {
		ID     string `xml:"Id,attr"`
		Type   string `xml:"Type,attr"`
		Target string `xml:"Target,attr"`
	} `xml:"Relationship"`
}

// linked gives what a part points to: names and kinds of parts, by id. A kind
// is the end of its type, since there are two spellings of the rest.
func (w *workbook) linked(name string) (names, kinds map[string]string, err error) {
	var l links
	folder, file := path.Split(name)
	err = w.listing(folder+"_rels/"+file+".rels", &l)
	names, kinds = map[string]string{}, map[string]string{}
	for _, link := range l.Links {
		names[link.ID], kinds[link.ID] = partName(folder, link.Target), path.Base(link.Type)
	}
	return names, kinds, err
}

// main finds the part that lists the sheets.
func (w *workbook) main() (string, error) {
	names, kinds, err := w.linked("")
	if err != nil {
		return "", err
	}
	for id, kind := range kinds {
		if kind == "officeDocument" && path.Ext(names[id]) == ".xml" && w.parts[names[id]] != nil {
			return names[id], nil
		}
	}
	return "", w.t.unreadable(0, "the zip file holds no .xlsx workbook: save the table as .xlsx or as CSV UTF-8")
}

// sheets are what a workbook says of itself, section 18.2.
type sheets struct {
	Properties struct {
		From1904 string `xml:"date1904,attr"`
	} `xml:"workbookPr"`
	Sheets []struct {
		Name  string     `xml:"name,attr"`
		State string     `xml:"state,attr"` // "", visible, hidden or veryHidden
		All   []xml.Attr `xml:",any,attr"`
	} `xml:"sheets>sheet"`
}

// find reads what holds for all sheets, and finds the part of one.
func (w *workbook) find(main, wanted string) (string, error) {
	var book sheets
	if err := w.listing(main, &book); err != nil {
		return "", err
	}
	names, kinds, err := w.linked(main)
	if err != nil {
		return "", err
	}
	w.from = dayZeroOf(book.Properties.From1904)
	var there []string
	found := ""
	for _, sheet := range book.Sheets {
		at := slices.IndexFunc(sheet.All, func(a xml.Attr) bool { return a.Name.Local == "id" })
		if at < 0 || kinds[sheet.All[at].Value] != "worksheet" {
			continue
		}
		there = append(there, sheet.Name)
		if found == "" && (sheet.Name == wanted || wanted == "" && (sheet.State == "" || sheet.State == "visible")) {
			found = names[sheet.All[at].Value]
		}
	}
	switch {
	case found != "":
	case len(there) == 0:
		return "", w.t.unreadable(0, "the workbook has no sheet of cells: save the table as .xlsx or as CSV UTF-8")
	case wanted == "":
		return "", w.t.unreadable(0, "the workbook has no sheet that is not hidden; %s: say --sheet", scenarios.There(there))
	default:
		return "", w.t.unreadable(0, "there is no sheet %q; %s", wanted, scenarios.There(there))
	}
	if err := w.readTexts(ofKind(names, kinds, "sharedStrings")); err != nil {
		return "", err
	}
	return found, w.readForms(ofKind(names, kinds, "styles"))
}

func ofKind(names, kinds map[string]string, wanted string) string {
	for id, kind := range kinds {
		if kind == wanted {
			return names[id]
		}
	}
	return ""
}
