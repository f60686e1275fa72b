package scenarios

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
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

// plainValue is the value of a scalar without quotes. An infinite number is one
// beyond every limit.
func plainValue(text string) any {
	if v, known := yamlSimple[text]; known {
		return v
	}
	unsigned, negative := strings.TrimPrefix(text, "+"), strings.HasPrefix(text, "-")
	switch {
	case yamlWhole.MatchString(text), yamlFloat.MatchString(text):
		v, err := json.Marshal(json.Number(normal(unsigned)))
		if err != nil {
			panic(err)
		}
		return json.Number(v)
	case yamlOctal.MatchString(text), yamlHex.MatchString(text):
		var n int
		if _, err := fmt.Sscan(text, &n); err != nil {
			panic(err)
		}
		return json.Number(fmt.Sprint(n))
	case yamlInf.MatchString(text) && negative:
		return json.Number("-1e400")
	case yamlInf.MatchString(text):
		return json.Number("1e400")
	}
	return text
}

// normal writes a number of YAML as JSON does: 012 as 12, .5 as 0.5, 5. as 5.
func normal(text string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(text, "-"); negative {
		sign, text = "-", rest
	}
	mantissa, exponent := text, ""
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		mantissa, exponent = text[:i], text[i:]
	}
	whole, fraction, _ := strings.Cut(mantissa, ".")
	if whole = strings.TrimLeft(whole, "0"); whole == "" {
		whole = "0"
	}
	if fraction != "" {
		fraction = "." + fraction
	}
	return sign + whole + fraction + exponent
}

// seenAs is what an editor makes of a YAML node, with the keys as texts.
func seenAs(n *yaml.Node) any {
	switch n.Kind {
	case yaml.DocumentNode:
		return seenAs(n.Content[0])
	case yaml.AliasNode:
		return seenAs(n.Alias)
	case yaml.SequenceNode:
		out := []any{}
		for _, v := range n.Content {
			out = append(out, seenAs(v))
		}
		return out
	case yaml.MappingNode:
		out := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			out[n.Content[i].Value] = seenAs(n.Content[i+1])
		}
		return out
	}
	if n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		return n.Value
	}
	return plainValue(n.Value)
}

// edited is what an editor makes of a file; not ok when YAML itself tells what
// is wrong.
func edited(text string) (v any, ok bool) {
	n, err := load(text)
	if err != nil || len(n.Content) == 0 {
		return nil, false
	}
	return seenAs(n), true
}

// editedFile is edited of a file, with or without quotes that it should have.
func editedFile(t *testing.T, file string) (any, bool) {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	text, _, _, ok := decode(data)
	if !ok {
		return nil, false
	}
	return edited(text)
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
	assert.NotContains(t, string(Schema()), `":"`, "a description that says nothing")
}

func TestSchemaAcceptsWhatIsRead(t *testing.T) {
	s := compiled(t)
	examples, err := filepath.Glob("examples/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, examples)
	for _, file := range slices.Concat(examples, files(t, "good"), files(t, "odd"), files(t, "published")) {
		v, ok := editedFile(t, file)
		require.True(t, ok, file)
		err := s.Validate(v)
		if filepath.Base(file) == "text-with-comma.yaml" { // read with a warning; an editor sees keys without values there
			assert.Error(t, err)
			continue
		}
		assert.NoError(t, err, file)
	}
}
