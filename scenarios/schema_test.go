package scenarios

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
)

// compiled is the schema as an editor has it.
func compiled(t testing.TB) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("study.json", doc))
	s, err := c.Compile("study.json")
	require.NoError(t, err)
	return s
}

// The core schema of YAML 1.2, by which editors tell numbers from texts [YAML
// 1.2.2, 10.3.2].
var (
	yamlWhole  = regexp.MustCompile(`^[-+]?[0-9]+$`)
	yamlOctal  = regexp.MustCompile(`^0o[0-7]+$`)
	yamlHex    = regexp.MustCompile(`^0x[0-9a-fA-F]+$`)
	yamlFloat  = regexp.MustCompile(`^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$`)
	yamlInf    = regexp.MustCompile(`^[-+]?\.(inf|Inf|INF)$`)
	yamlSimple = map[string]any{
		"": nil, "~": nil, "null": nil, "Null": nil, "NULL": nil,
		"true": true, "True": true, "TRUE": true, "false": false, "False": false, "FALSE": false,
	}
)

// plainValue is the value of a scalar without quotes.
func plainValue(text string) any {
	if v, known := yamlSimple[text]; known {
		return v
	}
	switch {
	case yamlWhole.MatchString(text), yamlFloat.MatchString(text):
		return doubled(text)
	case yamlOctal.MatchString(text), yamlHex.MatchString(text):
		n, err := strconv.ParseInt(text, 0, 64)
		if err != nil {
			panic(err)
		}
		return json.Number(strconv.FormatInt(n, 10))
	case yamlInf.MatchString(text):
		return doubled(strings.Replace(text, ".", "", 1))
	}
	return text
}

// doubled is a number as an editor holds it. An infinite one is written as one
// beyond every limit, since JSON has none.
func doubled(text string) json.Number {
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case math.IsInf(v, 1):
		return "1e400"
	case math.IsInf(v, -1):
		return "-1e400"
	case err != nil:
		panic(err)
	}
	return json.Number(strconv.FormatFloat(v, 'g', -1, 64))
}

// seenAs is what an editor makes of a YAML node, with the keys as texts. It is
// not ok when an alias repeats what it stands in.
func seenAs(n *yaml.Node, depth int) (v any, ok bool) {
	switch {
	case depth > maxDepth:
		return nil, false
	case n.Kind == yaml.AliasNode:
		return seenAs(n.Alias, depth+1)
	case n.Kind == yaml.SequenceNode:
		out := []any{}
		for _, entry := range n.Content {
			v, ok := seenAs(entry, depth+1)
			if !ok {
				return nil, false
			}
			out = append(out, v)
		}
		return out, true
	case n.Kind == yaml.MappingNode:
		out := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			v, ok := seenAs(n.Content[i+1], depth+1)
			if !ok {
				return nil, false
			}
			out[n.Content[i].Value] = v
		}
		return out, true
	case n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return n.Value, true
	}
	return plainValue(n.Value), true
}

// edited is what an editor makes of a file; not ok when it is no YAML, which an
// editor tells without a schema.
func edited(t testing.TB, file string) (v any, ok bool) {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	text, _, _, ok := decode(data)
	if !ok {
		return nil, false
	}
	n, err := load(text)
	if err != nil {
		return nil, false
	}
	return seenAs(n.Content[0], 0)
}

func TestEveryKeyHasASchema(t *testing.T) {
	var b schemas
	b.root()
	for _, mistake := range b.mistakes {
		t.Error(mistake)
	}
	for _, h := range append(homes, sectionHome{"beside a finding", statedKeys}, sectionHome{"in an estimate", estimateKeys}) {
		if slices.Equal(h.keys, estimateKeys) || slices.Equal(h.keys, meanKeys) {
			continue // their forms are checked below
		}
		assert.True(t, slices.ContainsFunc(b.sections, func(keys []string) bool { return slices.Equal(keys, h.keys) }),
			"the section %s (%s) has no schema: add it with schemas.section in scenarios/schema_….go", h.where, strings.Join(h.keys, ", "))
	}
	forms := map[string]bool{}
	for _, form := range b.forms("all", measure{shapes: anyShape}) {
		for _, p := range form.Properties {
			forms[p.name] = true
			for _, inner := range p.is.Properties {
				assert.Contains(t, meanKeys, inner.name)
			}
		}
	}
	for _, key := range estimateKeys {
		assert.True(t, forms[key], "the key %q of an estimate stands in no form of schemas.forms", key)
	}
	assert.Len(t, forms, len(estimateKeys))
}

func TestSchemaIsOne(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	meta, err := c.Compile("https://json-schema.org/draft/2020-12/schema")
	require.NoError(t, err)
	assert.NoError(t, meta.Validate(doc))
	assert.Equal(t, Schema(), Schema())
	assert.NotContains(t, string(Schema()), `"description": ":`, "a description that says nothing")
}

func TestSchemaAcceptsWhatIsRead(t *testing.T) {
	s := compiled(t)
	examples, err := filepath.Glob("examples/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, examples)
	for _, file := range slices.Concat(examples, files(t, "good"), files(t, "odd"), files(t, "published")) {
		v, ok := edited(t, file)
		require.True(t, ok, file)
		err := s.Validate(v)
		if filepath.Base(file) == "text-with-comma.yaml" { // read with a warning; an editor sees keys without values there
			assert.Error(t, err)
			continue
		}
		assert.NoError(t, err, file)
	}
}
