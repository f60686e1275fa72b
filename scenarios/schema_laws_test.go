package scenarios

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"
)

// changing is one random change of a file that is read.
type changing struct {
	*rapid.T
	scalars []*yaml.Node // of all files, to be put in the place of another
}

// oddScalars are values at the edges of what is read.
var oddScalars = []string{
	"0", "1", "-1", "-0", "+5", "0.5", "1e3", "5e-2", "1_000", "012", "0x1F", "0%", "-0%", "3%", "3 %", "-3%", "100%", "101%",
	"1000%", "5 ft", "5ft", "5 m", "0 m2", "12 ft2", "12 ft²", "0 mil", "-1 mil", "12 mil", "300 um", "1/8 in", "1 1/4 in", "0/3 in",
	"24 h", "5 gal", "20 L", "60 ft/gal", "6 psf", "-6 psf", "2.4 lb/in", "true", "True", "none", "takeoff", "prorated", "area",
	"2026-10-01", "#1b4d7e", "1:12", "4%", "5 deg", "USD", "null", "text", "two words",
}

// nodesOf lists what is in a tree, from outside in.
func nodesOf(n *yaml.Node, list []*yaml.Node) []*yaml.Node {
	list = append(list, n)
	for _, inner := range n.Content {
		list = nodesOf(inner, list)
	}
	return list
}

// copied is a tree of its own, since a tree cannot hold itself. Aliases keep
// pointing where they do.
func copied(n *yaml.Node) *yaml.Node {
	out := *n
	out.Content = nil
	for _, inner := range n.Content {
		out.Content = append(out.Content, copied(inner))
	}
	return &out
}

// change changes one node of a tree: another value, a key less, a key from
// elsewhere.
func (c *changing) change(root *yaml.Node) {
	nodes := nodesOf(root, nil)
	n := nodes[rapid.IntRange(1, len(nodes)-1).Draw(c.T, "node")]
	other := nodes[rapid.IntRange(1, len(nodes)-1).Draw(c.T, "other")]
	switch {
	case n.Kind == yaml.MappingNode && len(n.Content) > 0 && rapid.Bool().Draw(c.T, "less"):
		i := 2 * rapid.IntRange(0, len(n.Content)/2-1).Draw(c.T, "key")
		n.Content = slices.Delete(n.Content, i, i+2)
	case n.Kind == yaml.MappingNode && other.Kind == yaml.MappingNode && len(other.Content) > 0:
		i := 2 * rapid.IntRange(0, len(other.Content)/2-1).Draw(c.T, "key")
		n.Content = append(n.Content, copied(other.Content[i]), copied(other.Content[i+1]))
	case n.Kind == yaml.ScalarNode && rapid.Bool().Draw(c.T, "odd"):
		*n = yaml.Node{Kind: yaml.ScalarNode, Value: rapid.SampledFrom(oddScalars).Draw(c.T, "value")}
	case n.Kind == yaml.ScalarNode:
		from := c.scalars[rapid.IntRange(0, len(c.scalars)-1).Draw(c.T, "from")]
		*n = yaml.Node{Kind: yaml.ScalarNode, Value: from.Value, Style: from.Style}
	default:
		*n = *copied(other)
	}
}

// Whatever the reader takes, so does the schema: it never makes an editor call
// a good file bad.
func TestSchemaIsNeverStricterThanTheReader(t *testing.T) {
	s := compiled(t)
	examples, err := filepath.Glob("examples/*.yaml")
	require.NoError(t, err)
	var texts [][]byte
	var scalars []*yaml.Node
	for _, file := range slices.Concat(examples, files(t, "good")) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		n, err := load(string(text))
		require.NoError(t, err)
		texts = append(texts, text)
		for _, n := range nodesOf(n, nil) {
			if n.Kind == yaml.ScalarNode {
				scalars = append(scalars, n)
			}
		}
	}
	taken, changed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		root, err := load(string(rapid.SampledFrom(texts).Draw(t, "file")))
		require.NoError(t, err)
		(&changing{t, scalars}).change(root)
		text, err := yaml.Marshal(root.Content[0])
		if err != nil { // an alias without its anchor
			return
		}
		changed++
		f, diagnostics := Read(Source{Name: "changed.yaml", Text: text})
		if f == nil || slices.ContainsFunc(diagnostics, isJoined) {
			return
		}
		taken++
		n, err := load(string(text))
		require.NoError(t, err)
		v, ok := seenAs(n.Content[0], 0)
		require.True(t, ok)
		if err := s.Validate(v); err != nil {
			t.Fatalf("read without an error, but the schema refuses it: %v", err)
		}
	})
	t.Logf("%d files changed, %d of them read", changed, taken)
	assert.Positive(t, taken, "none of the changed files is read")
}

// isJoined tells the warning of a text in braces that YAML cuts at its comma.
func isJoined(d Diagnostic) bool { return strings.HasPrefix(d.What, "text in braces with a comma") }

// A key that nobody knows is refused wherever keys are known, by the reader and
// by the schema.
func TestUnknownKeysAreRefusedByBoth(t *testing.T) {
	s := compiled(t)
	examples, err := filepath.Glob("examples/*.yaml")
	require.NoError(t, err)
	for _, file := range slices.Concat(examples, files(t, "good")) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		root, err := load(string(text))
		require.NoError(t, err)
		for _, n := range nodesOf(root, nil) {
			if n.Kind != yaml.MappingNode {
				continue
			}
			before := n.Content
			n.Content = append(slices.Clone(before), &yaml.Node{Kind: yaml.ScalarNode, Value: "no_such_key"}, &yaml.Node{Kind: yaml.ScalarNode, Value: "1"})
			changed, err := yaml.Marshal(root)
			require.NoError(t, err)
			v, ok := seenAs(root.Content[0], 0)
			require.True(t, ok)
			f, _ := Read(Source{Name: "changed.yaml", Text: changed})
			assert.Equal(t, f == nil, s.Validate(v) != nil, "%s: a key unknown at line %d", file, n.Line)
			n.Content = before
		}
	}
}

// A number in a text is taken by the schema as the reader takes it, but for its
// size; without quotes too, where YAML makes a number of it.
func TestNumbersAreSeenAsTheyAreRead(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	require.NoError(t, err)
	var b schemas
	b.root()
	taken := 0
	for name, k := range b.measures {
		if strings.HasPrefix(name, "estimated_") {
			continue
		}
		c := jsonschema.NewCompiler()
		require.NoError(t, c.AddResource("study.json", doc))
		s, err := c.Compile("study.json#/$defs/" + name)
		require.NoError(t, err)
		texts := slices.Clone(oddScalars)
		for _, number := range []string{"0", "-0.00e3", "0.001", "1", "-2.5", "+3.25e2", "1_000.000_1", "0_1", "1__0", "1.", ".5", "1e", "e1"} {
			for unit := range unitNames {
				texts = append(texts, number+" "+unit, number+unit)
			}
		}
		for _, text := range texts {
			_, m, read := k.read(text, false)
			if name == "dimension" {
				r := newReader(Source{})
				_, read = r.dimension(&node{text: text}, "", "ft")
				m.what = told(r.all())
			}
			quoted, plain := s.Validate(text) == nil, s.Validate(plainValue(text)) == nil
			if read {
				taken++
				assert.True(t, quoted && plain || strings.TrimSpace(text) != text, "%s: %q is read, but the schema refuses it", name, text)
			} else if quoted && !strings.Contains(m.what, "out of range") && !strings.Contains(m.what, "has no percent sign") {
				t.Errorf("%s: %q is not read (%s), but the schema takes it", name, text, m.what)
			}
		}
	}
	assert.Greater(t, taken, 1000)
}
