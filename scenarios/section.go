package scenarios

import (
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// section is a mapping with known keys. Whoever reads it asks for the keys;
// unknown ones are told when it is opened.
type section struct {
	r      *reader
	at     place
	path   string
	where  string // where its keys belong, as inSystem
	values map[string]*node
	keys   map[string]place
	meant  map[string]bool // keys that an unknown one was likely meant for
}

// section opens a mapping. The words say where its keys belong, as "in a
// system". It is not ok when the node is no mapping; a nil node was told.
func (r *reader) section(n *node, path, where string, known []string) (*section, bool) {
	if n == nil {
		return nil, false
	}
	if n.shape != mapping {
		r.wrongShape(n, path, expectKeys(known))
		return nil, false
	}
	s := &section{r: r, at: n.place, path: path, where: where, values: map[string]*node{}, keys: map[string]place{}, meant: map[string]bool{}}
	for i, key := range n.keys {
		if slices.Contains(known, key.text) {
			s.values[key.text], s.keys[key.text] = n.values[i], key.place
			continue
		}
		r.fail(key.place, path, s.unknown(n, i, where, known))
	}
	return s, true
}

// unknown words the finding, with the key that was likely meant.
func (s *section) unknown(n *node, i int, where string, known []string) message {
	key := n.keys[i].text
	if n.braces && isDigits(key) {
		return commaInNumber(key)
	}
	if s.r.full() {
		return unknownKey(key, where, known, "", "")
	}
	meant := firstIn(synonyms[key], known)
	home := ""
	if meant == "" {
		home = homeOf(key)
	}
	if word, _, several := strings.Cut(key, " "); several && n.values[i].shape == null && slices.Contains(known, word) {
		s.meant[word] = true
		return colonForgotten(key, word)
	}
	if meant == "" && home == "" {
		meant = nearest(strings.ReplaceAll(strings.ToLower(key), "-", "_"), known)
	}
	s.meant[meant] = true
	m := unknownKey(key, where, known, meant, home)
	if n.braces && n.values[i].shape == null && m.hint == "" {
		m.hint = hintQuoteComma
	}
	return m
}

func isDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

func (s *section) has(key string) bool { return s.values[key] != nil }

// place is where a key stands that is there.
func (s *section) place(key string) place { return s.keys[key] }

func (s *section) sub(key string) string {
	if s.path == "" {
		return key
	}
	return s.path + "." + key
}

// get gives the value of a key: nil when the key is not there, or when its
// value is missing or was told as an error.
func (s *section) get(key string) *node {
	n := s.values[key]
	switch {
	case n == nil || n.shape == broken:
		return nil
	case n.shape == null:
		s.r.fail(n.place, s.sub(key), missingValueOf(s.r.about(s.where, key)))
		return nil
	}
	return n
}

// need is get for a key that must be there.
func (s *section) need(key string) *node {
	if !s.has(key) {
		s.lacks(missingKey(key, s.r.about(s.where, key)), key)
		return nil
	}
	return s.get(key)
}

// lacks tells that none of some keys is there, unless a key that was told as
// unknown was likely meant for one of them.
func (s *section) lacks(m message, keys ...string) {
	if !slices.ContainsFunc(keys, func(key string) bool { return s.meant[key] }) {
		s.r.fail(s.at, s.path, m)
	}
}

// line reads one line of text; "" when the key is not there or is wrong.
func (s *section) line(key string) string { return s.r.line(s.get(key), s.sub(key)) }

// needLine is line for a key that must be there.
func (s *section) needLine(key string) string { return s.r.line(s.need(key), s.sub(key)) }

// maxText is the longest text in characters.
const maxText = 10_000

func (r *reader) line(n *node, path string) string { return r.lineUpTo(n, path, maxText) }

// lineUpTo is line with another limit in characters.
func (r *reader) lineUpTo(n *node, path string, most int) string {
	if n == nil {
		return ""
	}
	if n.shape != scalar {
		r.wrongShape(n, path, expectText)
		return ""
	}
	text := strings.TrimSpace(n.text)
	if m, ok := checkLine(text, most); !ok {
		r.fail(n.place, path, m)
		return ""
	}
	if n.joined > 0 {
		r.joined = append(r.joined, joinedText{n.place, path, text})
	}
	return text
}

// checkLine tells what is wrong with one line of text of at most so many
// characters.
func checkLine(text string, most int) (m message, ok bool) {
	switch i := strings.IndexFunc(text, hidden); {
	case text == "":
		return emptyText(), false
	case len(text) > most && len([]rune(text)) > most:
		return textTooLong(most), false
	case i >= 0 && strings.ContainsAny(text, "\n\r"):
		return severalLines(), false
	case i >= 0:
		return hiddenCharacter([]rune(text[i:])[0]), false
	}
	return message{}, true
}

// word reads one of some words; the place in the list, −1 when it is not there.
func (s *section) word(key string, words []string) int {
	n := s.get(key)
	if n == nil {
		return -1
	}
	return s.r.oneOf(n, s.sub(key), words)
}

// oneOf reads one of some words; the place in the list, −1 when it is none.
func (r *reader) oneOf(n *node, path string, words []string) int {
	if n.shape != scalar {
		r.wrongShape(n, path, expectOneOf(words))
		return -1
	}
	i := slices.Index(words, n.text)
	if i < 0 {
		r.fail(n.place, path, notOneOf(n.text, words, nearest(strings.ToLower(n.text), words)))
	}
	return i
}

// yes reads true or false; false when the key is not there.
func (s *section) yes(key string) bool {
	n := s.get(key)
	if n == nil {
		return false
	}
	v, _ := s.r.boolean(n, s.sub(key))
	return v
}

// boolean reads true or false; not ok when it is neither.
func (r *reader) boolean(n *node, path string) (value, ok bool) {
	switch {
	case n.shape != scalar:
		r.wrongShape(n, path, expectBoolean)
	case n.plain && (n.text == "true" || n.text == "false"):
		return n.text == "true", true
	default:
		r.fail(n.place, path, notBoolean(n.text))
	}
	return false, false
}

// whole reads a whole number that is no estimate, and keeps it as a setting.
// It is not ok when the number is not there or is wrong.
func (s *section) whole(key string, low, high int, label string) (int, bool) {
	n := s.need(key)
	if n == nil {
		return 0, false
	}
	v, ok := s.r.wholeNumber(n, s.sub(key), low, high)
	if ok {
		s.r.settings = append(s.r.settings, Setting{Path: s.sub(key), Label: label, Value: strconv.Itoa(v)})
		s.r.places[s.sub(key)] = n.place
	}
	return v, ok
}

func (r *reader) wholeNumber(n *node, path string, low, high int) (int, bool) {
	expected := expectWhole(low, high)
	if n.shape != scalar {
		r.wrongShape(n, path, expected)
		return 0, false
	}
	number, m, ok := parseNumber(n.text)
	m.expected = expected
	switch {
	case !ok:
	case number.percent || number.unit != "":
		m = noUnitHere(n.text, number.value, expected)
	case !number.value.IsInteger():
		m = notWhole(n.text, expected)
	case number.value.LessThan(decimal.NewFromInt(int64(low))) || number.value.GreaterThan(decimal.NewFromInt(int64(high))):
		m = notBetween(n.text, expected)
	default:
		return int(number.value.IntPart()), true
	}
	r.fail(n.place, path, m)
	return 0, false
}

// list gives the entries of a list; none when it is not there or is wrong.
func (s *section) list(key string, most int) []*node {
	n := s.get(key)
	switch {
	case n == nil:
		return nil
	case n.shape != list:
		s.r.wrongShape(n, s.sub(key), expectList)
		return nil
	case len(n.values) > most:
		s.r.fail(n.place, s.sub(key), tooMany(len(n.values), most))
		return nil
	}
	return n.values
}

// entry is the path of the i-th entry of a list, i counting from 0.
func entry(path string, i int) string { return path + "[" + strconv.Itoa(i+1) + "]" }

// wrongShape tells a list or mapping that stands where something else should.
func (r *reader) wrongShape(n *node, path, expected string) {
	switch n.shape {
	case broken:
	case null:
		r.fail(n.place, path, missingValueOf(expected))
	default:
		r.fail(n.place, path, wrongShape(n.shape, n.text, expected))
	}
}
