// Package verify compares a page with the page that its own study gives, and
// names every difference. It knows what a page is built of and what a browser
// adds when it saves one; it computes nothing.
package verify

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"unicode/utf8"

	"roofyears/report"
	"roofyears/report/html"
)

// MaxSize is the largest page that is read, in bytes (64 MiB).
const MaxSize = 64 << 20

// The bounds of what is parsed; pages stay far below them.
const (
	maxTags       = 1 << 20 // "<" in the file
	maxAttributes = 4 << 20 // "=" in the file
	maxReopened   = 8 << 20 // tags times formatting tags: a parser may open each of these again at each tag
)

// formatting finds the tags that a parser opens again at every paragraph when
// they are not closed, each of them. Links are not among them: a link ends the
// one before it.
var formatting = regexp.MustCompile(`(?i)<(?:b|big|code|em|font|i|s|small|strike|strong|tt|u)[\s/>]`)

// Page is a page that carries a study.
type Page struct {
	Carried report.Proof
	Sum     string // SHA-256 that the page gives for its study
	Drawn   int    // charts that a browser has drawn; its pictures are not compared
	root    *node
	live    map[string]bool // the charts of which it has no other picture
}

// errNotOurs is a file that verify cannot say anything about.
var errNotOurs = errors.New("it carries no study, so it is no page of this program, or its study was taken out")

// errMany is a page that has nothing to be made again from.
var errMany = errors.New("it is a page about many roofs, which carries no study; the page of each roof carries the roof’s own, and can be verified")

// isMany tells a page about many roofs, whatever its size.
func isMany(page []byte) bool {
	return bytes.Contains(page, []byte(`<section id="`+report.ManyID+`"`)) && !bytes.Contains(page, []byte(`id="`+html.CarriedID+`"`))
}

// Read reads a page and the study it carries.
func Read(page []byte) (*Page, error) {
	page = bytes.TrimPrefix(page, []byte("\uFEFF")) // which some editors put first, and browsers do not show
	if isMany(page) {
		return nil, errMany
	}
	if err := sizes(page); err != nil {
		return nil, err
	}
	var r reading
	root, err := r.parse(page)
	if err != nil {
		return nil, err
	}
	holder := root.find(func(n *node) bool { return n.attr("id") == html.CarriedID })
	if holder == nil {
		return nil, errNotOurs
	}
	p := &Page{root: root, live: liveCharts(root, r.drawn)}
	p.Drawn = len(p.live)
	if p.Carried, p.Sum, err = html.ReadCarried(holder.ownText()); err != nil {
		return nil, fmt.Errorf("the study it carries cannot be read: %w", err)
	}
	return p, nil
}

// Logo is the picture that the page shows as the preparer's logo, as bytes; nil
// when there is none, or no picture in its place.
func (p *Page) Logo() []byte {
	img := p.root.find(func(n *node) bool { return n.tag == "img" && n.attr("id") == html.LogoID })
	if img == nil {
		return nil
	}
	return html.PictureBytes(img.attr("src"))
}

// liveCharts are the charts that a browser has drawn in place of the picture
// that they come with.
func liveCharts(root *node, drawn []string) map[string]bool {
	live := map[string]bool{}
	for _, chart := range drawn {
		plot := root.find(func(n *node) bool { return n.attr("data-chart") == chart })
		live[chart] = plot != nil && !slices.ContainsFunc(plot.kids, isStill)
	}
	return live
}

// sizes refuses what no page of ours is, before it costs memory.
func sizes(page []byte) error {
	switch {
	case len(page) > MaxSize:
		return fmt.Errorf("it has more than %d MiB", MaxSize>>20)
	case len(page) == 0:
		return errors.New("it is empty")
	case !utf8.Valid(page):
		return errors.New("it is not UTF-8 text")
	}
	tags, attributes := bytes.Count(page, []byte("<")), bytes.Count(page, []byte("="))
	if tags > maxTags || attributes > maxAttributes || tags*len(formatting.FindAllIndex(page, maxTags)) > maxReopened {
		return errors.New("it has more parts than any page of this program")
	}
	return nil
}

// Intact tells whether the carried study has the digest the page gives for it.
func (p *Page) Intact() bool { return p.Sum == html.SHA256(p.Carried.File.Text) }

// Compare compares the page with what the program writes for the carried
// study. No difference means that every figure, word, chart and script of the
// page is what the study gives. Of very many differences it names the first;
// total counts them all.
func (p *Page) Compare(written []byte) (first []Difference, total int, err error) {
	r := reading{live: p.live}
	want, err := r.parse(written)
	if err != nil {
		return nil, 0, err
	}
	var c comparison
	c.node(want, p.root)
	return c.found, c.total, nil
}
