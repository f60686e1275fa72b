package portfolio

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"roofyears/lcc"
	"roofyears/scenarios"
)

// The columns that are no inputs.
const (
	ID       = "id"       // needed, no two alike
	Name     = "name"     // what people call the roof
	InColumn = "template" // the name of the template that the roof is laid on
)

// Template is a study that roofs are laid on. The first one of a list has no
// name and is that of rows which name none.
type Template struct {
	Name string
	File *scenarios.File
}

// Columns say what the columns of a table stand for.
type Columns struct {
	Lays []Lay    // by template
	Free []string // heads of the columns that are carried through
	// Named tells that a column names templates.
	Named bool

	table              string
	head               []string
	comma              bool  // numbers have a decimal comma
	cells              bool  // numbers are those of a workbook
	id, name, template int   // −1: there is none
	free               []int // columns of Free
	asked              []int // columns of Meaning.Asked; −1: there is none
	inputs             []int // columns that are inputs or findings of some template
}

// Lay says what columns stand for in one template.
type Lay struct {
	Name  string
	File  *scenarios.File
	Refs  []lcc.Ref // inputs that differ from roof to roof
	Texts []string  // paths of findings that do
	// Weighed tells that the template has to be read again for each roof, see
	// scenarios.File.Weighed.
	Weighed bool

	refs, texts []int // columns of Refs and Texts
	cells       []*scenarios.Cell
	numbers     []bool         // of Texts: a number, with a decimal mark
	others      []int          // columns that are inputs of other templates only
	why         map[int]string // of those that this one has but that cannot be set: why
}

// Meaning says what people call things otherwise: the path, id, name or
// template that a head stands for, and how numbers are written. It goes before
// what the templates say.
type Meaning struct {
	Map          map[string]string
	DecimalComma bool
	// Asked are further names of columns that the caller reads itself. They are
	// carried through too.
	Asked []string
	// Idle tells that the caller reads none of them this time, so that a head
	// which is nearly such a name is an ordinary one.
	Idle bool
}

// Compile finds what the columns of a table stand for in some templates, at
// least one. The error says which head is none, or lacks, and what was likely
// meant.
func Compile(templates []Template, t *Table, m Meaning) (*Columns, error) {
	c := &Columns{table: t.name, head: t.Head, comma: m.DecimalComma, cells: t.cells, id: -1, name: -1, template: -1, asked: slices.Repeat([]int{-1}, len(m.Asked))}
	meant, err := meanings(templates, t, m)
	if err != nil {
		return nil, err
	}
	for _, template := range templates {
		c.Lays = append(c.Lays, Lay{Name: template.Name, File: template.File})
	}
	taken := map[string]string{} // heads by what they stand for
	for i, head := range t.Head {
		path, mapped := meant[head]
		if !mapped {
			path = head
		}
		if other, twice := taken[path]; twice {
			return nil, t.unreadable(0, "the columns %q and %q are both %s", other, head, path)
		}
		taken[path] = head
		if at := slices.Index(m.Asked, path); at >= 0 {
			c.asked[at] = i
			c.Free, c.free = append(c.Free, head), append(c.free, i)
			continue
		}
		near := m.Asked
		if m.Idle {
			near = nil
		}
		if err := c.column(t, i, path, mapped, near); err != nil {
			return nil, err
		}
	}
	if c.id < 0 {
		return nil, t.unreadable(0, "there is no column %q, which tells the roofs apart; say --map HEAD=id if another one does", ID)
	}
	if c.Named = c.template >= 0; !c.Named && len(templates) > 1 {
		return nil, t.unreadable(0, "there is no column %q, which says what template a roof is laid on; say --map HEAD=template if another one does", InColumn)
	}
	return c, nil
}

// meanings are what heads stand for by the command line, which must have them,
// and by the templates, where they do.
func meanings(templates []Template, t *Table, m Meaning) (map[string]string, error) {
	for head := range m.Map {
		if !slices.Contains(t.Head, head) {
			return nil, t.unreadable(0, "there is no column %q to map; %s", head, scenarios.There(t.Head))
		}
	}
	meant := map[string]string{}
	for _, template := range templates {
		for head, path := range template.File.Portfolio.Columns {
			if before, has := meant[head]; has && before != path {
				return nil, t.unreadable(0, "the column %q is %s by one template and %s by another; say --map %q", head, before, path, head+"=PATH")
			}
			meant[head] = path
		}
	}
	maps.Copy(meant, m.Map)
	return meant, nil
}

// meantFor is the name of those asked for that a head spells otherwise, as
// Must do does; "" when there is none.
func (c *Columns) meantFor(head string, asked []string) string {
	spelt := strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(head))
	if slices.Contains(asked, spelt) {
		return spelt
	}
	return ""
}

// column finds what one column stands for; asked are the names that a head may
// not be nearly.
func (c *Columns) column(t *Table, i int, path string, mapped bool, asked []string) error {
	switch path {
	case ID:
		c.id = i
		return nil
	case Name:
		c.name = i
		return nil
	case InColumn:
		c.template = i
		return nil
	}
	var found bool
	var told error
	for at := range c.Lays {
		is, err := c.Lays[at].column(i, path)
		if err != nil && told == nil {
			told = t.unreadable(0, "the column %q cannot be set%s: it %s", t.Head[i], c.inTemplate(at), err)
		}
		found = found || is
	}
	switch {
	case found:
		c.inputs = append(c.inputs, i)
	case told != nil:
		return told
	case mapped || strings.Contains(path, "."):
		return t.unreadable(0, "%q is no input of the template%s", path, c.near(path))
	case c.meantFor(path, asked) != "":
		meant := c.meantFor(path, asked)
		return t.unreadable(0, "the column %q would be carried through, and nothing bound by it; call it %q, or say --map %q", path, meant, path+"="+meant)
	default:
		c.Free, c.free = append(c.Free, t.Head[i]), append(c.free, i)
		for at := range c.Lays {
			c.Lays[at].others = c.Lays[at].others[:len(c.Lays[at].others)-1]
		}
	}
	return nil
}

// inTemplate names a template where there are several; "" where there is one.
func (c *Columns) inTemplate(at int) string {
	switch {
	case len(c.Lays) == 1:
		return ""
	case c.Lays[at].Name == "":
		return fmt.Sprintf(" in the template %q", c.Lays[at].File.Source.Name)
	}
	return fmt.Sprintf(" in the template %q", c.Lays[at].Name)
}

// column tells whether a column can be set, as an input or a finding of the
// template. The error says why not, where the template has it all the same: a
// roof on this template has an empty cell there.
func (l *Lay) column(i int, path string) (bool, error) {
	in := l.File.Study.Find(path)
	is, err := l.File.Finding(path)
	if in != lcc.NoRef {
		is, err = true, l.File.Settable(in)
	}
	switch {
	case !is || err != nil:
		if l.others = append(l.others, i); err != nil {
			if l.why == nil {
				l.why = map[int]string{}
			}
			l.why[i] = err.Error()
		}
	case in != lcc.NoRef:
		l.Refs, l.refs, l.cells = append(l.Refs, in), append(l.refs, i), append(l.cells, l.File.Cell(in))
		l.Weighed = l.Weighed || l.File.Weighed(in)
	default:
		l.Texts, l.texts, l.numbers = append(l.Texts, path), append(l.texts, i), append(l.numbers, scenarios.FindingIsNumber(path))
	}
	return is && err == nil, err
}

// near names the path that was likely meant.
func (c *Columns) near(path string) string {
	var paths []string
	for _, l := range c.Lays {
		for _, in := range l.File.Study.Inputs {
			paths = append(paths, in.Path)
		}
		paths = append(paths, l.File.FindingPaths()...)
	}
	if near := scenarios.Nearest(path, paths); near != "" {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

// Inputs are the heads of the columns that are inputs or findings.
func (c *Columns) Inputs() []string {
	var out []string
	for _, i := range c.inputs {
		out = append(out, c.head[i])
	}
	return out
}

// AskedHeads are the heads of the columns of Meaning.Asked that there are.
func (c *Columns) AskedHeads() []string {
	var out []string
	for _, i := range c.asked {
		if i >= 0 {
			out = append(out, c.head[i])
		}
	}
	return out
}

// Nearly are heads that are carried through although, but for capitals, they
// are the name of a column that the table lacks; with that name.
func (c *Columns) Nearly() (heads, meant []string) {
	for _, name := range []struct {
		name string
		at   int
	}{{Name, c.name}, {InColumn, c.template}} { // without an id no table is read
		for _, head := range c.Free {
			if name.at < 0 && strings.EqualFold(head, name.name) {
				heads, meant = append(heads, head), append(meant, name.name)
			}
		}
	}
	return heads, meant
}
