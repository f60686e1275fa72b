// Package html writes a document as one self-contained page: no network
// request of any kind, a strict policy, charts drawn by an embedded library
// from plain data. Text of the study never becomes markup or script.
package html

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"roofyears/report"
)

//go:embed assets/echarts.min.js.gz
var chartLibraryGz []byte

//go:embed assets/chart_text.js
var chartTextScript string

//go:embed assets/boot.js
var drawScript string

// bootScript draws the charts.
var bootScript = chartTextScript + drawScript

//go:embed assets/page.css
var styleSheet string

//go:embed page.gohtml
var pageText string

// chartLibrary unpacks the chart library once.
var chartLibrary = sync.OnceValues(func() (string, error) {
	r, err := gzip.NewReader(bytes.NewReader(chartLibraryGz))
	if err != nil {
		return "", err
	}
	b, err := io.ReadAll(r)
	return strings.TrimSpace(string(b)), err
})

var pageTemplate = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page").Parse(pageText))
})

// page is what the template sees.
type page struct {
	Doc           *report.Document
	Sections      []section
	Appendices    []section // after everything else
	Policy        string
	Style         template.CSS
	Library, Boot template.JS
	Charts        []chartData
	Carried       *carriedStudy // nil when the document carries no study
	Letterhead    *letterhead   // nil when there is none
	Save          template.JS
	WhatIf        *whatIf // nil when the document lets nothing be moved
	Sifts         []siftData
	Sift          template.JS // "" when no table can be sifted
}

type section struct {
	ID, Heading string
	Blocks      []block
	Appendix    bool
	Live        bool
}

// block holds one block of a section; one of its fields is set.
type block struct {
	Paragraph *paragraph
	List      *list
	Table     *table
	Figure    *figure
	Timeline  *timeline
	Fold      *fold
	WhatIf    bool
}

type paragraph struct {
	Class, Text string
	Callout     bool
}

type list struct {
	Callout bool
	Items   []string
}

type fold struct {
	ID, Summary string
	Blocks      []block
}

// chartData is the options of one chart, as JSON fit for a script element.
type chartData struct {
	ID      string
	Options template.JS
}

// Write writes the page of a document, all of it or, but for a failure of w,
// nothing. It fails where the embedded files cannot be read or w fails.
func Write(w io.Writer, doc *report.Document) error {
	library, err := chartLibrary()
	if err != nil {
		return fmt.Errorf("unpacking the chart library: %w", err)
	}
	style := pageStyle(doc)
	p := page{Doc: doc, Letterhead: letterheadOf(doc), Style: template.CSS(style), Library: template.JS(library), Boot: template.JS(bootScript), Save: template.JS(saveScript)}
	l := &layout{doc: doc}
	for _, s := range doc.Sections {
		blocks, err := l.blocks(s.Blocks)
		if err != nil {
			return err
		}
		shown := section{s.ID, s.Heading, blocks, s.Appendix, s.Live}
		if s.Appendix {
			p.Appendices = append(p.Appendices, shown)
			continue
		}
		p.Sections = append(p.Sections, shown)
	}
	p.Charts, p.WhatIf, p.Sifts = l.charts, l.live, l.sifts
	scripts := append([]string{library, bootScript, saveScript}, p.WhatIf.scripts()...)
	if len(p.Sifts) > 0 {
		p.Sift, scripts = template.JS(siftScript), append(scripts, siftScript)
	}
	if p.Carried, err = carry(doc.Proof); err != nil {
		return err
	}
	p.Policy = policy(style, scripts...)
	var out bytes.Buffer
	if err := pageTemplate().Execute(&out, p); err != nil {
		return err
	}
	_, err = out.WriteTo(w)
	return err
}

// policy allows this page its own style sheet and scripts, by their hashes,
// and nothing else.
func policy(style string, scripts ...string) string {
	hash := func(s string) string {
		sum := sha256.Sum256([]byte(s))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	var hashes []string
	for _, s := range scripts {
		hashes = append(hashes, hash(s))
	}
	return fmt.Sprintf("default-src 'none'; script-src %s; style-src %s; img-src data:; base-uri 'none'; form-action 'none'",
		strings.Join(hashes, " "), hash(style))
}

// layout turns blocks into what the template shows.
type layout struct {
	doc    *report.Document
	charts []chartData
	live   *whatIf
	sifts  []siftData
}

func (l *layout) blocks(in []report.Block) ([]block, error) {
	var out []block
	for _, b := range in {
		item, err := l.block(b)
		if err != nil {
			return nil, err
		}
		out = append(out, item)
	}
	return out, nil
}

func (l *layout) block(b report.Block) (block, error) {
	switch b := b.(type) {
	case report.Paragraph:
		return block{Paragraph: l.paragraph(b)}, nil
	case report.List:
		return block{List: l.list(b)}, nil
	case report.Table:
		return block{Table: l.table(b)}, l.sift(b)
	case report.Figure:
		return l.figure(b)
	case report.Timeline:
		return block{Timeline: drawTimeline(b)}, nil
	case report.Fold:
		blocks, err := l.blocks(b.Blocks)
		return block{Fold: &fold{b.ID, isolated(b.Summary), blocks}}, err
	case report.WhatIf:
		return l.whatIf(b)
	}
	return block{}, fmt.Errorf("a page cannot show a %T", b)
}

func (l *layout) paragraph(b report.Paragraph) *paragraph {
	p := &paragraph{Text: isolated(b.Text), Callout: isCallout(b.Role)}
	if b.Role == report.Answer {
		p.Class = "answer"
	}
	if b.Role == report.Aside {
		p.Class = "aside"
	}
	return p
}

func (l *layout) list(b report.List) *list {
	out := &list{Callout: isCallout(b.Role)}
	for _, item := range b.Items {
		out.Items = append(out.Items, isolated(item))
	}
	return out
}

func isCallout(r report.Role) bool { return r == report.Remark || r == report.Caution }
