package lcc

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
)

// publishedFile is one publication with its cases.
type publishedFile struct {
	Source string          `json:"source"`
	Cases  []publishedCase `json:"cases"`
}

// publishedCase is one published example.
type publishedCase struct {
	ID         string                     `json:"id"`
	Title      string                     `json:"title"`
	Place      string                     `json:"place"` // within the publication
	Kind       string                     `json:"kind"`  // how Inputs are read: see publishedKinds
	Convention string                     `json:"convention"`
	Inputs     json.RawMessage            `json:"inputs"`
	Expected   map[string]json.RawMessage `json:"expected"`  // what is printed, by the name of what the engine gives
	Tolerance  json.RawMessage            `json:"tolerance"` // a number, or numbers by name
	Note       string                     `json:"note"`
}

// publishedReader gives what the engine says under the name of a figure: a
// decimal.Decimal, or a string for a selection.
type publishedReader func(key string) (any, error)

// publishedKinds says how the inputs of a case are read.
var publishedKinds = map[string]func(json.RawMessage) (publishedReader, error){
	"factors": factorReader,
	"study":   studyReader,
	"studies": studiesReader,
}

// check compares a case, and tells how many values it compared and what is
// wrong with them or with the case.
func (c publishedCase) check() (compared int, problems []string) {
	bad := func(format string, args ...any) { problems = append(problems, fmt.Sprintf(format, args...)) }
	if c.ID == "" || c.Title == "" || c.Convention == "" {
		bad("id, title or convention is missing")
	}
	open, ok := publishedKinds[c.Kind]
	if !ok {
		bad("there is no kind %q", c.Kind)
		return 0, problems
	}
	read, err := open(c.Inputs)
	if err != nil {
		bad("inputs: %v", err)
		return 0, problems
	}
	tolerances, err := readTolerances(c.Tolerance)
	if err != nil {
		bad("tolerance: %v", err)
		return 0, problems
	}
	for _, key := range slices.Sorted(maps.Keys(c.Expected)) {
		if err := compareFigure(read, key, c.Expected[key], &tolerances); err != nil {
			bad("%s: %v", key, err)
			continue
		}
		compared++
	}
	for _, key := range tolerances.unused() {
		bad("tolerance %q belongs to no expected value", key)
	}
	if len(c.Expected) == 0 {
		bad("nothing is expected")
	}
	return compared, problems
}

// compareFigure compares one published value with the engine's.
func compareFigure(read publishedReader, key string, published json.RawMessage, tolerances *publishedTolerances) error {
	plain, minus := strings.CutPrefix(key, "-")
	got, err := read(plain)
	if err != nil {
		return err
	}
	number, ok := got.(decimal.Decimal)
	if !ok {
		return compareText(got, published)
	}
	if minus { // the publication prints costs as negative
		number = number.Neg()
	}
	var want decimal.Decimal
	if err := json.Unmarshal(published, &want); err != nil || published[0] == '"' || string(published) == "null" {
		return fmt.Errorf("published is %s, no number", published)
	}
	tolerance, err := tolerances.of(key)
	if err != nil {
		return err
	}
	if off := number.Sub(want).Abs(); off.GreaterThan(tolerance) {
		return fmt.Errorf("the engine gives %s, published is %s: %s apart, over %s", number.Round(12), want, off.Round(12), tolerance)
	}
	return nil
}

// compareText compares a selection, which has no tolerance.
func compareText(got any, published json.RawMessage) error {
	var want string
	if err := json.Unmarshal(published, &want); err != nil || want == "" {
		return fmt.Errorf("published is %s, no selection", published)
	}
	if got != want {
		return fmt.Errorf("the engine gives %q, published is %q", got, want)
	}
	return nil
}

// publishedTolerances is a tolerance for all values, or by the whole key, the name
// after its last dot or the factor before its first comma.
type publishedTolerances struct {
	all  *decimal.Decimal
	some map[string]decimal.Decimal
	used map[string]bool
}

func readTolerances(raw json.RawMessage) (publishedTolerances, error) {
	t := publishedTolerances{used: map[string]bool{"*": false}}
	if len(raw) == 0 {
		return publishedTolerances{}, nil
	}
	if raw[0] == '{' {
		t.used = map[string]bool{}
		return t, json.Unmarshal(raw, &t.some)
	}
	t.all = new(decimal.Decimal)
	return t, json.Unmarshal(raw, t.all)
}

func (t *publishedTolerances) of(key string) (decimal.Decimal, error) {
	if t.all != nil {
		t.used["*"] = true
		return *t.all, nil
	}
	measure := key[strings.LastIndex(key, ".")+1:]
	factor, _, _ := strings.Cut(key, ",")
	for _, name := range []string{key, measure, factor} {
		if tolerance, ok := t.some[name]; ok {
			t.used[name] = true
			return tolerance, nil
		}
	}
	return decimal.Zero, fmt.Errorf("it has no tolerance")
}

// unused names the tolerances that no value asked for.
func (t *publishedTolerances) unused() []string {
	var out []string
	if t.all != nil && !t.used["*"] {
		out = append(out, "*")
	}
	for name := range t.some {
		if !t.used[name] {
			out = append(out, name)
		}
	}
	return out
}
