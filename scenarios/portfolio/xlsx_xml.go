package portfolio

import (
	"bufio"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
)

// elements reads a part element by element, a bounded piece at a time.
type elements struct {
	d     *xml.Decoder
	meter *metered
	depth int
}

// maxDepth is how deep elements of a part may be nested; a cell of rich text is
// nine deep.
const maxDepth = 64

var errDeep = fmt.Errorf("its elements are nested over %d deep", maxDepth)

func (e *elements) next() (xml.Token, error) {
	e.meter.left = MaxRow
	token, err := e.d.Token()
	switch token.(type) {
	case xml.StartElement:
		e.depth++
	case xml.EndElement:
		e.depth--
	}
	if e.depth > maxDepth {
		return nil, errDeep
	}
	return token, err
}

// text gives the text of an element that was begun, to its end: what stands in
// itself, or in the elements t within, without the reading aid rPh, section
// 18.4.6.
func (e *elements) text(own bool) (string, error) {
	var b []byte
	aid, inText := 0, own
	for begun := e.depth; e.depth >= begun; {
		token, err := e.next()
		if err != nil {
			return "", err
		}
		switch token := token.(type) {
		case xml.StartElement:
			if aid == 0 && token.Name.Local == "rPh" {
				aid = e.depth
			}
			inText = own || aid == 0 && token.Name.Local == "t"
		case xml.EndElement:
			if inText = own; e.depth < aid {
				aid = 0
			}
		case xml.CharData:
			if inText {
				b = append(b, token...)
			}
		}
		if len(b) > MaxRow {
			return "", errLongRow
		}
	}
	return string(b), nil
}

// escaped is a character that XML cannot hold, as a workbook writes it, section
// 22.9.2.19.
var escaped = regexp.MustCompile(`_x[0-9a-fA-F]{4}_`)

func unescaped(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	return escaped.ReplaceAllStringFunc(s, func(code string) string {
		n, _ := strconv.ParseUint(code[2:6], 16, 32) // four hexadecimal digits
		return string(rune(n))
	})
}

// elementsOf begins to read a part.
func elementsOf(part io.Reader) *elements {
	meter := &metered{part, MaxRow}
	return &elements{d: xml.NewDecoder(bufio.NewReaderSize(meter, readAhead)), meter: meter}
}

// readTexts reads the texts that cells share, section 18.4.9.
func (w *workbook) readTexts(name string) error {
	part, err := w.open(name, maxTexts)
	if part == nil {
		return err
	}
	defer part.Close()
	for e := elementsOf(part); ; {
		token, err := e.next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if start, ok := token.(xml.StartElement); ok && err == nil && start.Name.Local == "si" {
			var text string
			text, err = e.text(false)
			w.texts = append(w.texts, unescaped(text))
		}
		if err != nil {
			return w.damaged(name, err)
		}
		if len(w.texts) > mostTexts {
			return w.t.unreadable(0, "the workbook has over %d different texts, the most that is read: save the table as CSV UTF-8", mostTexts)
		}
	}
}
