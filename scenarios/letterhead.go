package scenarios

import (
	"fmt"

	"roofyears/scenarios/contrast"
)

// The limits of a letterhead, in entries of a list and in characters.
const (
	MaxContact     = 8   // lines of contact
	MaxContactLine = 80  // characters of one
	MaxNote        = 6   // paragraphs of a note
	MaxParagraph   = 600 // characters of one
)

// Letterhead is what the preparer adds to a page in their own name, but for
// the logo. No figure depends on it.
type Letterhead struct {
	Accent  string   // colour of links and rules, #rrggbb in small letters; "" for the page's own
	Heading string   // colour of headings, likewise
	Contact []string // lines; none when there are none
	Note    []string // paragraphs; none when there is none
}

// letterheadOf reads the letterhead.
func (r *reader) letterheadOf(n *node) {
	s, ok := r.section(n, "letterhead", underLetterhead, letterKeys)
	if !ok {
		return
	}
	r.logo = s.logo()
	if c, ok := r.section(s.get("colours"), "letterhead.colours", inColours, colourKeys); ok {
		r.letterhead.Accent, r.letterhead.Heading = c.colour("accent"), c.colour("heading")
	}
	r.letterhead.Contact = r.lines(s.list("contact", MaxContact), s.sub("contact"), MaxContactLine)
	r.letterhead.Note = s.note()
}

// note reads a paragraph or a list of them.
func (s *section) note() []string {
	n, sub := s.values["note"], s.sub("note")
	switch {
	case n == nil:
		return nil
	case n.shape == list:
		return s.r.lines(s.list("note", MaxNote), sub, MaxParagraph)
	case n.shape == mapping || n.shape == null:
		s.r.wrongShape(n, sub, expectNote)
		return nil
	}
	if text := s.r.lineUpTo(n, sub, MaxParagraph); text != "" {
		return []string{text}
	}
	return nil
}

// lines reads lines of text of at most so many characters each.
func (r *reader) lines(nodes []*node, path string, most int) []string {
	var out []string
	for i, n := range nodes {
		if text := r.lineUpTo(n, entry(path, i), most); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// colour reads a colour; "" when the key is absent or wrong. Without quotes a
// colour is a comment, so that its value is missing.
func (s *section) colour(key string) string {
	n := s.values[key]
	if n == nil {
		return ""
	}
	if n.shape != scalar {
		s.r.wrongShape(n, s.sub(key), expectColour)
		return ""
	}
	c, m, ok := readColour(n.text)
	if !ok {
		s.r.fail(n.place, s.sub(key), m)
	}
	return c
}

// readColour reads a colour that can be read on white paper.
func readColour(text string) (string, message, bool) {
	c, ok := contrast.Parse(text)
	if !ok {
		return "", notColour(text), false
	}
	if ratio := contrast.Ratio(c, contrast.White); ratio < contrast.Least {
		return "", tooPale(text, ratio), false
	}
	return c.String(), message{}, true
}

// ParseColour reads a colour of a letterhead as study files write it, and
// gives it in small letters. The error says what was found and expected.
func ParseColour(text string) (string, error) {
	c, m, ok := readColour(text)
	if !ok {
		return "", m.asError()
	}
	return c, nil
}

// CheckContact tells what a study file could not have as lines of contact.
func CheckContact(lines []string) error { return checkLines(lines, MaxContact, MaxContactLine) }

// CheckNote tells what a study file could not have as paragraphs of a note.
func CheckNote(paragraphs []string) error { return checkLines(paragraphs, MaxNote, MaxParagraph) }

func checkLines(lines []string, most, longest int) error {
	if len(lines) > most {
		return tooMany(len(lines), most).asError()
	}
	for _, text := range lines {
		if m, ok := checkLine(text, longest); !ok {
			return fmt.Errorf("%s: %w", quote(text), m.asError())
		}
	}
	return nil
}
