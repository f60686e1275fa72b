package report

import "fmt"

// Letterhead is what the preparer adds in their own name. It is words and
// looks: no figure depends on it.
type Letterhead struct {
	Accent  string   `json:"accent,omitempty"`  // colour of links and rules on white, #rrggbb; "" for the page's own
	Heading string   `json:"heading,omitempty"` // colour of headings, likewise
	Contact []string `json:"contact,omitempty"` // lines
	Note    []string `json:"note,omitempty"`    // paragraphs
}

// Over is a letterhead with what this one has in place of what the other has.
func (l Letterhead) Over(other Letterhead) Letterhead {
	if l.Accent != "" {
		other.Accent = l.Accent
	}
	if l.Heading != "" {
		other.Heading = l.Heading
	}
	if len(l.Contact) > 0 {
		other.Contact = l.Contact
	}
	if len(l.Note) > 0 {
		other.Note = l.Note
	}
	return other
}

// Logo is the preparer's picture.
type Logo struct {
	Type  string // image/png or image/jpeg
	Bytes []byte
	Alt   string // says what it is to who does not see it; Build gives it
}

// letterhead is that of the file under that of the flags.
func (t *teller) letterhead() Letterhead { return t.Options.Letterhead.Over(t.Letterhead) }

// logo is the logo with its words; nil when there is none.
func (t *teller) logo() *Logo {
	if t.Logo == nil {
		return nil
	}
	return &Logo{Type: t.Logo.Type, Bytes: t.Logo.Bytes, Alt: "Logo of " + t.preparer()}
}

// preparer names who prepared the study as well as it can be named.
func (t *teller) preparer() string {
	if by := t.study.About.PreparedBy; by != "" {
		return by
	}
	if lines := t.letterhead().Contact; len(lines) > 0 {
		return lines[0]
	}
	return "the preparer"
}

// noteID is the section of the preparer's note.
const noteID = "note"

// noteSections hold the preparer's note, in a section of its own that says
// whose words it holds; none without a note.
func (t *teller) noteSections() []Section {
	note := t.letterhead().Note
	if len(note) == 0 {
		return nil
	}
	s := Section{ID: noteID, Heading: "A note from the preparer"}
	for _, text := range note {
		s.Blocks = append(s.Blocks, Paragraph{Text: text})
	}
	s.Blocks = append(s.Blocks, Paragraph{Role: Aside,
		Text: fmt.Sprintf("These are the words of %s. They are no part of the computation, and nothing has checked them.", t.preparer())})
	return []Section{s}
}
