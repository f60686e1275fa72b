package scenarios

import (
	"encoding/json"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Values as a schema sees them. YAML makes a number of 2.20 and a text of 3 %
// or of 300 um, so a number is a JSON number within limits or a text of a
// pattern. Conditions on numbers and on texts do not disturb each other.

// scalars are the types of a text: the reader takes 2026 for a title too.
var scalars = []string{"string", "number", "boolean"}

// unseen are the characters that hidden tells, for a class of a pattern.
const unseen = "\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069"

// text is one line of at most so many characters.
func text(most int) *schema {
	return &schema{Type: scalars, Pattern: `^\s*[^\s` + unseen + `][^` + unseen + `]*\s*$`, MaxLength: most}
}

// line is text of the usual length, which root defines.
func line(says string) *schema { return &schema{Description: says, Ref: "#/$defs/text"} }

// sourced is the source that an estimate or a cost may name.
var sourced = line("where this is from: a document, a quote, a person, a date")

// word is one of some words.
func word(says string, words []string) *schema {
	s := &schema{Description: says, Type: "string"}
	for _, w := range words {
		s.Enum = append(s.Enum, w)
	}
	return s
}

// yesNo is true or false.
func yesNo(says string) *schema {
	return &schema{Description: says + ": " + expectBoolean, Type: "boolean"}
}

// day is a day of the calendar; that a month has so many days is not in it.
func day(says string) *schema {
	return &schema{
		Description: says + ", as 2026-10-01", Type: "string",
		Pattern: `^\s*[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])\s*$`,
	}
}

// wholeNumber is a whole number between limits, both 0 or more.
func wholeNumber(says string, low, high int) *schema {
	return &schema{
		Description: says + ": " + expectWhole(low, high), Type: []string{"integer", "string"},
		Minimum: json.Number(strconv.Itoa(low)), Maximum: json.Number(strconv.Itoa(high)),
		Pattern: `^\s*(?:` + fromZero + `)\s*$`,
	}
}

// The digits of a number in a text, as numberPattern reads them.
const (
	tenToThe   = `(?:[eE][+-]?[0-9]+)?`
	fraction10 = `(?:\.[0-9]+(?:_[0-9]+)*)?`
	unsigned   = `(?:0|[1-9][0-9]*(?:_[0-9]+)*)` + fraction10 + tenToThe
	overZero   = `\+?(?:[1-9][0-9]*(?:_[0-9]+)*` + fraction10 + `|0\.[0_]*[1-9][0-9_]*)` + tenToThe
	fromZero   = `\+?` + unsigned + `|-0(?:\.[0_]+)?` + tenToThe
	anySign    = `[+-]?` + unsigned
)

// schema is one number of the measure. It has no description: editors would show
// that in place of what the key says.
func (k measure) schema() *schema {
	s := &schema{Type: "string", Pattern: k.pattern()}
	if !slices.Contains(k.units, "") {
		return s
	}
	s.Type = []string{"number", "string"}
	low, lowOpen, high, highOpen := k.low, k.lowOpen, k.high, false
	if one := decimal.NewFromInt(1); k.unit == lcc.Rate || k.share { // 3 stands for 300 %, which is written so
		if low.LessThanOrEqual(one.Neg()) {
			low, lowOpen = one.Neg(), true
		}
		if high.GreaterThanOrEqual(one) {
			high, highOpen = one, true
		}
	}
	if s.Minimum = json.Number(low.String()); lowOpen {
		s.Minimum, s.ExclusiveMinimum = "", s.Minimum
	}
	if s.Maximum = json.Number(high.String()); highOpen {
		s.Maximum, s.ExclusiveMaximum = "", s.Maximum
	}
	return s
}

// pattern is how the measure is written in a text.
func (k measure) pattern() string {
	digits := fromZero
	switch {
	case k.low.IsNegative():
		digits = anySign
	case k.lowOpen || k.low.IsPositive():
		digits = overZero
	}
	return `^\s*(?:` + digits + `)` + k.suffix() + `\s*$`
}

// suffix is what may follow the digits: a percent sign or a unit in any of its
// spellings.
func (k measure) suffix() string {
	if k.unit == lcc.Rate || k.share {
		return `(?:\s*%)?`
	}
	var spellings []string
	for _, written := range slices.Sorted(maps.Keys(unitNames)) {
		if written != "" && slices.Contains(k.units, unitNames[written]) {
			spellings = append(spellings, regexp.QuoteMeta(written))
		}
	}
	switch {
	case len(spellings) == 0:
		return ""
	case slices.Contains(k.units, ""):
		return `(?:\s*(?:` + strings.Join(spellings, "|") + `))?`
	}
	return `\s*(?:` + strings.Join(spellings, "|") + `)`
}

// spreadSchema is a standard deviation in the unit of the measure: over 0, and
// with no other limit.
func (k measure) spreadSchema() *schema {
	k.low, k.lowOpen, k.high = decimal.Zero, true, decimal.New(1, maxDigits+maxExponent)
	s := k.schema()
	s.Maximum, s.Description = "", "standard deviation, over 0 and in the unit of the mean"
	return s
}

// number is a number of a measure that is no estimate.
func (b *schemas) number(says, name string, k measure) *schema {
	b.define(name, k, k.schema)
	return b.refer(says, name, k)
}

// refer refers to a definition and says what may stand there.
func (b *schemas) refer(says, name string, k measure) *schema {
	return &schema{Description: says + ": " + k.expected, Ref: "#/$defs/" + name}
}

// define makes a definition, once a name.
func (b *schemas) define(name string, k measure, make func() *schema) {
	if before, there := b.measures[name]; there {
		if before.expected != k.expected {
			b.mistake("two measures are called %q in the schema: %s; %s", name, before.expected, k.expected)
		}
		return
	}
	if b.measures == nil {
		b.measures = map[string]measure{}
	}
	b.measures[name] = k
	b.defs = append(b.defs, member{name, make()})
}
