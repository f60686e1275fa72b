package portfolio

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"unicode/utf8"
)

// openNDJSON reads the keys of the first line: the head. A later line may leave
// keys out, which is a missing cell; a key that is not in the head is an error
// of its row.
func (t *Table) openNDJSON(in io.Reader, _ Options) error {
	buffer := bufio.NewReaderSize(in, readAhead)
	if err := t.skipMark(buffer); err != nil {
		return err
	}
	lines := bufio.NewScanner(buffer)
	lines.Buffer(make([]byte, 0, readAhead), MaxRow)
	line := 0
	next := func() ([]byte, error) {
		for lines.Scan() {
			line++
			if text := bytes.TrimSpace(lines.Bytes()); len(text) > 0 {
				return text, nil
			}
		}
		if errors.Is(lines.Err(), bufio.ErrTooLong) {
			return nil, t.unreadable(line+1, "the line is longer than %d bytes, the most that is read", MaxRow)
		}
		if err := lines.Err(); err != nil {
			return nil, err
		}
		return nil, io.EOF
	}
	text, err := next()
	if errors.Is(err, io.EOF) {
		return t.unreadable(0, "the table is empty, expected a JSON object a line")
	}
	if err != nil {
		return err
	}
	keys, cells, bad := object(text)
	if bad != "" {
		return t.unreadable(line, "the first line gives the columns, but %s", bad)
	}
	t.Head = keys
	first := &Row{Line: line, Cells: cells}
	t.checkCells(first)
	t.next = func() (Row, error) {
		if row := first; row != nil {
			first = nil
			return *row, nil
		}
		text, err := next()
		if err != nil {
			return Row{}, err
		}
		return t.objectRow(line, text), nil
	}
	return t.checkHead(line)
}

// objectRow puts the values of an object under the heads.
func (t *Table) objectRow(line int, text []byte) Row {
	row := Row{Line: line, Cells: make([]string, len(t.Head))}
	keys, values, bad := object(text)
	if bad != "" {
		row.Bad = t.reject(line, "", "", bad)
	}
	for i, key := range keys {
		at := slices.Index(t.Head, key)
		if at < 0 {
			row.Bad = t.reject(line, key, values[i], "the key is not in the first line, which gives the columns")
			continue
		}
		row.Cells[at] = values[i]
	}
	if row.Bad == nil {
		t.checkCells(&row)
	}
	return row
}

// object reads an object of texts, numbers and null, in the order of its keys.
// Numbers keep their text; null is a missing cell. A decoder would put one
// character for all bytes that are not UTF-8, so that two ids became one.
func object(text []byte) (keys, values []string, bad string) {
	if !utf8.Valid(text) {
		return nil, nil, "the line is not UTF-8"
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	if start, err := d.Token(); err != nil || start != json.Delim('{') {
		return nil, nil, "the line is no JSON object"
	}
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return keys, values, "the line is no JSON object: " + err.Error()
		}
		value, err := d.Token()
		if err != nil {
			return keys, values, "the line is no JSON object: " + err.Error()
		}
		name := key.(string) // a decoder gives no other key
		if slices.Contains(keys, name) {
			return keys, values, fmt.Sprintf("the key %q stands in it twice", name)
		}
		cell, ok := scalarText(value)
		if !ok {
			return keys, values, fmt.Sprintf("the value of %q is a list or an object, expected a text, a number or null", name)
		}
		keys, values = append(keys, name), append(values, cell)
	}
	if _, err := d.Token(); err != nil {
		return keys, values, "the line is no JSON object: " + err.Error()
	}
	if len(bytes.TrimSpace(text[d.InputOffset():])) > 0 {
		return keys, values, "something follows the JSON object"
	}
	return keys, values, ""
}

func scalarText(value json.Token) (string, bool) {
	switch v := value.(type) {
	case nil:
		return "", true
	case string:
		return v, true
	case json.Number:
		return v.String(), true
	case bool:
		return fmt.Sprint(v), true
	}
	return "", false
}
