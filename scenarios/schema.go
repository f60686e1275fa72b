package scenarios

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
)

// Schema writes the JSON Schema (2020-12) of the study file, by which editors
// complete and check one. It is made from the reader's own lists of keys and
// words and from its measures, so that it accepts whatever the reader reads
// without a warning, but for spaces around a quoted word. It cannot see what
// concerns several places of a file, nor the size of a number in a text such
// as 300 um; the reader tells that.
func Schema() []byte {
	var b schemas
	root := b.root()
	root.Schema = "https://json-schema.org/draft/2020-12/schema"
	root.Description = "a study file of roofyears, format " + Format
	root.Defs = b.defs
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(root); err != nil {
		panic(err) // it holds texts and numbers only
	}
	return shown(out.Bytes())
}

// shown escapes the characters that nobody sees, which a pattern may hold.
func shown(text []byte) []byte {
	var out bytes.Buffer
	for _, c := range string(text) {
		if hidden(c) && c != '\n' {
			fmt.Fprintf(&out, `\u%04x`, c)
		} else {
			out.WriteRune(c)
		}
	}
	return out.Bytes()
}

// SchemaComment is a comment at the top of a study file by which editors find
// its schema.
func SchemaComment(path string) string { return "# yaml-language-server: $schema=" + path }

// schema is what may stand at one place of a file: the keywords of JSON Schema
// that are used here, in the order in which they are written.
type schema struct {
	Schema      string `json:"$schema,omitempty"`
	Description string `json:"description,omitempty"`
	Ref         string `json:"$ref,omitempty"`

	Type  any   `json:"type,omitempty"` // a word or a list of them
	Const any   `json:"const,omitempty"`
	Enum  []any `json:"enum,omitempty"`

	Minimum          json.Number `json:"minimum,omitempty"`
	ExclusiveMinimum json.Number `json:"exclusiveMinimum,omitempty"`
	Maximum          json.Number `json:"maximum,omitempty"`
	ExclusiveMaximum json.Number `json:"exclusiveMaximum,omitempty"`
	Pattern          string      `json:"pattern,omitempty"`
	MaxLength        int         `json:"maxLength,omitempty"`

	Items    *schema `json:"items,omitempty"`
	MinItems int     `json:"minItems,omitempty"`
	MaxItems int     `json:"maxItems,omitempty"`

	Properties           members             `json:"properties,omitempty"`
	PatternProperties    members             `json:"patternProperties,omitempty"`
	AdditionalProperties *bool               `json:"additionalProperties,omitempty"`
	MinProperties        int                 `json:"minProperties,omitempty"`
	MaxProperties        int                 `json:"maxProperties,omitempty"`
	Required             []string            `json:"required,omitempty"`
	DependentRequired    map[string][]string `json:"dependentRequired,omitempty"`

	AllOf []*schema `json:"allOf,omitempty"`
	AnyOf []*schema `json:"anyOf,omitempty"`
	OneOf []*schema `json:"oneOf,omitempty"`
	Not   *schema   `json:"not,omitempty"`
	If    *schema   `json:"if,omitempty"`
	Then  *schema   `json:"then,omitempty"`
	Else  *schema   `json:"else,omitempty"`

	Defs members `json:"$defs,omitempty"`
}

// member is a schema under a name.
type member struct {
	name string
	is   *schema
}

// members are written in their order, which is that of the reader's lists.
type members []member

// MarshalJSON writes the members as one object.
func (m members) MarshalJSON() ([]byte, error) {
	out := []byte{'{'}
	for i, x := range m {
		if i > 0 {
			out = append(out, ',')
		}
		for j, part := range []any{x.name, x.is} {
			var b bytes.Buffer
			enc := json.NewEncoder(&b)
			enc.SetEscapeHTML(false)
			if err := enc.Encode(part); err != nil {
				return nil, err
			}
			if j == 1 {
				out = append(out, ':')
			}
			out = append(out, b.Bytes()...)
		}
	}
	return append(out, '}'), nil
}

// schemas is the making of the schema of a file.
type schemas struct {
	defs     members
	measures map[string]measure // by the name of their definition
	sections [][]string         // lists of keys that have a schema
	says     descriptions
	mistakes []string // what whoever adds a key has to do; a test wants none
}

// descriptions say in a sentence what each key is, by where it belongs and its
// name.
type descriptions map[[2]string]string

func (d *descriptions) add(where string, keys []string, is keyed) {
	if *d == nil {
		*d = descriptions{}
	}
	for _, key := range keys {
		if v := is[key]; v != nil {
			(*d)[[2]string{where, key}] = v.Description + v.words()
		}
	}
}

// words lists the words that may stand at a key, if they are few.
func (s *schema) words() string {
	const most = 14
	var words []string
	for _, v := range s.Enum[:min(len(s.Enum), most)] {
		if word, ok := v.(string); ok {
			words = append(words, word)
		}
	}
	if len(words) < len(s.Enum) || len(words) == 0 {
		return ""
	}
	return "; " + expectOneOf(words)
}

// about says what a key is, in the words of the schema.
func (r *reader) about(where, key string) string {
	if r.described == nil {
		var b schemas
		b.root()
		r.described = b.says
	}
	return r.described[[2]string{where, key}]
}

// keyed says what may stand at the keys of a section.
type keyed map[string]*schema

// section is the schema of a mapping with known keys, in their order.
func (b *schemas) section(where string, keys []string, is keyed, needs ...string) *schema {
	b.sections = append(b.sections, keys)
	return b.form(where, keys, is, needs...)
}

// form is section for one of several forms, which has some of the keys only.
func (b *schemas) form(where string, keys []string, is keyed, needs ...string) *schema {
	s := &schema{Type: "object", AdditionalProperties: new(bool), Required: needs}
	b.says.add(where, keys, is)
	for _, key := range keys {
		v := is[key]
		switch {
		case v == nil:
			v = &schema{}
			b.mistake("the key %q %s has no schema: say what it is and what may stand there in scenarios/schema_….go", key, where)
		case v.Description == "":
			b.mistake("the key %q %s has no description: say in a short sentence what it is, with its unit, in scenarios/schema_….go", key, where)
		}
		s.Properties = append(s.Properties, member{key, v})
	}
	for key := range is {
		if !slices.Contains(keys, key) {
			b.mistake("the key %q %s has a schema, but the reader does not know it: take it out of scenarios/schema_….go or add it in keys.go", key, where)
		}
	}
	return s
}

func (b *schemas) mistake(format string, about ...any) {
	b.mistakes = append(b.mistakes, fmt.Sprintf(format, about...))
}

// says gives a schema a description, which editors show beside the key.
func says(text string, s *schema) *schema {
	out := *s
	out.Description = text
	return &out
}

// also adds conditions that all have to hold.
func (s *schema) also(conditions ...*schema) *schema {
	s.AllOf = append(s.AllOf, conditions...)
	return s
}

// named is a mapping with names of the user's own.
func named(pattern string, each *schema, least, most int) *schema {
	return &schema{
		Type: "object", PatternProperties: members{{pattern, each}}, AdditionalProperties: new(bool),
		MinProperties: least, MaxProperties: most,
	}
}

// listOf is a list of at most so many entries.
func listOf(each *schema, least, most int) *schema {
	return &schema{Type: "array", Items: each, MinItems: least, MaxItems: most}
}
