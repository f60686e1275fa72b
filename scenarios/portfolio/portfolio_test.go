package portfolio

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios"
)

func template(t *testing.T, name string) *scenarios.File {
	t.Helper()
	src, found := scenarios.Example(name)
	require.True(t, found)
	file, _ := scenarios.Read(src)
	require.NotNil(t, file)
	return file
}

// all reads a table whole: its rows, and what ended it.
func all(text string, o Options) (head []string, rows []Row, err error) {
	t, err := Open("roofs", strings.NewReader(text), o)
	if err != nil {
		return nil, nil, err
	}
	for {
		row, err := t.Next()
		if errors.Is(err, io.EOF) {
			return t.Head, rows, nil
		}
		if err != nil {
			return t.Head, rows, err
		}
		rows = append(rows, row)
	}
}

func TestCSVIsReadAsItIsWritten(t *testing.T) {
	head, rows, err := all("\ufeffid, name\r\n\"a \"\"1\"\"\",\"two\r\nlines\"\r\n\r\nb,\r\n", Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"id", "name"}, head)
	assert.Equal(t, []Row{{Line: 2, Cells: []string{`a "1"`, "two\nlines"}}, {Line: 5, Cells: []string{"b", ""}}}, rows)

	head, rows, err = all("id;note\na;1,5\n", Options{Separator: ';'})
	require.NoError(t, err)
	assert.Equal(t, []string{"id", "note"}, head)
	assert.Equal(t, []string{"a", "1,5"}, rows[0].Cells)
}

func TestTablesThatCannotBeRead(t *testing.T) {
	long := strings.Repeat("x", MaxRow+readAhead)
	for _, c := range []struct {
		format     Format
		text, said string
	}{
		{CSV, "", "roofs: the table is empty, expected a line of heads"},
		{CSV, "id;roof.area\na;1\n", "roofs:1: the head is one column with semicolons in it: if they divide it, say --separator ';', and --decimal , where numbers have a decimal comma"},
		{CSV, "id\troof.area\n", "roofs:1: the head is one column with tabs in it: if they divide it, say --separator tab, and --decimal , where numbers have a decimal comma"},
		{CSV, "\xff\xfei\x00d\x00", "roofs:1: the table is UTF-16, expected UTF-8: save it as CSV UTF-8"},
		{CSV, "PK\x03\x04", "roofs: the table is a workbook or another zip file, expected text: say --in xlsx if it is a workbook"},
		{CSV, "id,,x\n", "roofs:1: a column has no head"},
		{CSV, "id,name\rr1,X\r", "roofs:1: the lines end with a carriage return alone, so that all of the table is one line: save it with the line ends of Windows or of Unix"},
		{CSV, "id,x,x\n", `roofs:1: the column "x" stands there twice`},
		{CSV, "id" + strings.Repeat(",x", MaxColumns) + "\n", ""},
		{CSV, "id,x\"\n", "roofs:1: a quote stands in a cell that does not begin with one: write the cell in quotes, and quotes in it twice"},
		{CSV, "id,x\na,\"bc\nd,e\n", "roofs:2: a cell in quotes is not closed, or goes on after its closing quote, at line 3"},
		{CSV, "id,x\na,\"" + long, fmt.Sprintf("roofs: a row is longer than %d bytes, the most that is read; is a quote not closed?", MaxRow)},
		{NDJSON, "\n \n", "roofs: the table is empty, expected a JSON object a line"},
		{NDJSON, `{"id":"a"}]`, "roofs:1: the first line gives the columns, but something follows the JSON object"},
		{NDJSON, `{"id":"a` + "\xfe" + `"}`, "roofs:1: the first line gives the columns, but the line is not UTF-8"},
		{NDJSON, "[1]", "roofs:1: the first line gives the columns, but the line is no JSON object"},
		{NDJSON, `{"id":"` + long + `"}`, fmt.Sprintf("roofs:1: the line is longer than %d bytes, the most that is read", MaxRow)},
	} {
		_, _, err := all(c.text, Options{Format: c.format})
		var known *Unreadable
		require.ErrorAs(t, err, &known, "%.40q", c.text)
		if c.said != "" {
			assert.Equal(t, c.said, known.Error())
		}
	}
	var heads []string
	for i := range MaxColumns + 1 {
		heads = append(heads, fmt.Sprint("c", i))
	}
	_, _, err := all(strings.Join(heads, ",")+"\n", Options{})
	assert.EqualError(t, err, "roofs:1: 1001 columns, at most 1000 are read")
}

func TestRowsThatCannotBeRead(t *testing.T) {
	for _, c := range []struct {
		format     Format
		text, said string
	}{
		{CSV, "id,x\na\n", "roofs:2: the number of cells is 1, expected 2 as the head has"},
		{CSV, "id,x\na,b,c\n", "roofs:2: the number of cells is 3, expected 2 as the head has"},
		{CSV, "id,x\na,b\"c\n", "roofs:2: a quote stands in a cell that does not begin with one: write the cell in quotes, and quotes in it twice"},
		{CSV, "id,x\na,\xff\n", "roofs:2: x: the cell is not UTF-8"},
		{CSV, "id,x\na," + strings.Repeat("x", MaxCell+1) + "\n", "roofs:2: x: the cell has 4097 bytes, at most 4096 are read"},
		{NDJSON, `{"id":"a"}` + "\n" + `{"id":"b","x":1}`, `roofs:2: x: "1": the key is not in the first line, which gives the columns`},
		{NDJSON, `{"id":"a"}` + "\n" + `{"id":"b","id":"c"}`, `roofs:2: the key "id" stands in it twice`},
		{NDJSON, `{"id":"a"}` + "\n" + `{"id":["b"]}`, `roofs:2: the value of "id" is a list or an object, expected a text, a number or null`},
		{NDJSON, `{"id":"a"}` + "\n" + `{"id":"b"} {}`, "roofs:2: something follows the JSON object"},
		{NDJSON, `{"id":"a"}` + "\n" + `{"id":"b"}]{"id":"c"}`, "roofs:2: something follows the JSON object"},
		{NDJSON, `{"id":"a"}` + "\n" + `{"id":"b"} }`, "roofs:2: something follows the JSON object"},
		{NDJSON, `{"id":"a"}` + "\n" + `{"id":"b` + "\xff" + `"}`, "roofs:2: the line is not UTF-8"},
	} {
		_, rows, err := all(c.text, Options{Format: c.format})
		require.NoError(t, err)
		bad := rows[len(rows)-1].Bad
		require.NotNil(t, bad, "%.40q", c.text)
		assert.Equal(t, c.said, bad.String())
	}
}

// A quote too many costs its own row, not those after it.
func TestAStrayQuoteCostsItsRow(t *testing.T) {
	_, rows, err := all("id,x\na,12\" pipe\nb,\"two\nlines\"\nc\"d,1\ne,2\n", Options{})
	require.NoError(t, err)
	require.Len(t, rows, 4)
	for i, line := range []int{2, 3, 5, 6} {
		assert.Equal(t, line, rows[i].Line)
		assert.Equal(t, i%2 == 0, rows[i].Bad != nil, "line %d", line)
	}
	assert.Equal(t, []string{"e", "2"}, rows[3].Cells)
}

func TestNDJSONKeepsTheTextOfNumbers(t *testing.T) {
	head, rows, err := all(`{"id":"a","n":1.10,"m":null}`+"\n\n"+`{"m":"x","id":7}`, Options{Format: NDJSON})
	require.NoError(t, err)
	assert.Equal(t, []string{"id", "n", "m"}, head)
	assert.Equal(t, []Row{{Line: 1, Cells: []string{"a", "1.10", ""}}, {Line: 3, Cells: []string{"7", "", "x"}}}, rows)
}

func TestColumnsThatAreNone(t *testing.T) {
	for _, c := range []struct {
		example, head, said string
		m                   map[string]string
	}{
		{example: "school", head: "roof.area", said: `roofs: there is no column "id", which tells the roofs apart; say --map HEAD=id if another one does`},
		{example: "school", head: "id,roof.aera", said: `roofs: "roof.aera" is no input of the template; did you mean "roof.area"?`},
		{example: "school", head: "id,x.y", said: `roofs: "x.y" is no input of the template`},
		{example: "school", head: "id,size", m: map[string]string{"size": "roof.aera"}, said: `roofs: "roof.aera" is no input of the template; did you mean "roof.area"?`},
		{example: "school", head: "id,size", m: map[string]string{"Size": "roof.area"}, said: `roofs: there is no column "Size" to map; there are "id", "size"`},
		{example: "school", head: "id,size,roof.area", m: map[string]string{"size": "roof.area"}, said: `roofs: the columns "size" and "roof.area" are both roof.area`},
		{example: "cold-store", head: "id,survey.roof_surface", said: `roofs: the column "survey.roof_surface" cannot be set: it follows from `},
	} {
		table, err := Open("roofs", strings.NewReader(c.head+"\n"), Options{})
		require.NoError(t, err)
		_, err = Compile([]Template{{File: template(t, c.example)}}, table, Meaning{Map: c.m})
		require.Error(t, err, c.head)
		assert.True(t, strings.HasPrefix(err.Error(), c.said), err.Error())
	}
}

// reading reads one row of the school.
func reading(t *testing.T, head, row string, m Meaning) (*Roof, *Reject) {
	t.Helper()
	table, err := Open("roofs", strings.NewReader(head+"\n"+row+"\n"), Options{Separator: ';'})
	require.NoError(t, err)
	c, err := Compile([]Template{{File: template(t, "school")}}, table, m)
	require.NoError(t, err)
	read, err := table.Next()
	require.NoError(t, err)
	roof := &Roof{}
	return roof, c.Roof(read, roof)
}

func TestRoofIsReadFromItsCells(t *testing.T) {
	roof, bad := reading(t, "No.;name;area;study.discount_rate;built", "7;Hall; 1200,5 ;;1999", Meaning{Map: map[string]string{"No.": "id", "area": "roof.area"}, DecimalComma: true})
	require.Nil(t, bad)
	assert.Equal(t, []any{"7", "Hall", []string{"1999"}, []bool{true, false}}, []any{roof.ID, roof.Name, roof.Free, roof.Given})
	assert.Equal(t, "1200.5", roof.Values[0].String())

	for row, said := range map[string]string{
		" ;1;":   `roofs:2: id: " ": the roof has no id`,
		"a;0;":   `roofs:2: roof.area: "0" is out of range, expected an area over 0`,
		"a;1,5;": `write 1.5, with a decimal point; if all numbers have a decimal comma, say --decimal ,`,
		"a;1;3":  `roofs:2: study.discount_rate: "3" has no percent sign`,
	} {
		_, bad := reading(t, "id;roof.area;study.discount_rate", row, Meaning{})
		require.NotNil(t, bad, row)
		assert.Contains(t, bad.String(), said)
	}
	_, bad = reading(t, "id;roof.area", "a;1.5", Meaning{DecimalComma: true})
	require.NotNil(t, bad)
	assert.Equal(t, `roofs:2: roof.area: "1.5" has a point, expected a decimal comma and no other mark`, bad.String())
	for row, said := range map[string]string{
		"a;,5;":      `roofs:2: roof.area: ",5" is not a number, expected an area over 0 and at most 10^12 with its unit, such as 48000 ft2 or 4500 m2: write a zero before the comma, as 0,5`,
		"a;5,;":      `roofs:2: roof.area: "5," is not a number, expected an area over 0 and at most 10^12 with its unit, such as 48000 ft2 or 4500 m2: write digits after the comma, or no comma`,
		"a;-1,5;":    `roofs:2: roof.area: "-1,5" is out of range, expected an area over 0 and at most 10^12 with its unit, such as 48000 ft2 or 4500 m2`,
		"a;1,234,5;": `roofs:2: roof.area: "1,234,5" has several commas, expected a decimal comma and no other mark`,
		"a;1;4,5":    `roofs:2: study.discount_rate: "4,5" has no percent sign: it would be 450%, expected a rate over -50% and at most 1000%, such as 3% or 0,03: did you mean 4,5%?`,
	} {
		_, bad := reading(t, "id;roof.area;study.discount_rate", row, Meaning{DecimalComma: true})
		require.NotNil(t, bad, row)
		assert.Equal(t, said, bad.String())
	}
}

// A decimal comma is that of findings too, where they are numbers: 12,5 % is
// an eighth. Words keep what marks they have.
func TestFindingsHaveTheDecimalMarkOfTheTable(t *testing.T) {
	file := template(t, "school")
	read := func(head, cell string) (*Roof, *Reject) {
		table, err := Open("roofs", strings.NewReader("id;"+head+"\na;"+cell+"\n"), Options{Separator: ';'})
		require.NoError(t, err)
		c, err := Compile([]Template{{File: file}}, table, Meaning{DecimalComma: true})
		require.NoError(t, err)
		row, err := table.Next()
		require.NoError(t, err)
		roof := &Roof{}
		return roof, c.Roof(row, roof)
	}
	for _, c := range []struct{ head, cell, text string }{
		{"findings.wet_share", " 12,5%", "12.5%"},
		{"findings.load_reserve", "0,4 kN/m2", "0.4 kN/m2"},
		{"findings.rust.scaled", "0,125", "0.125"},
		{"findings.wet_limit.share", "25%", "25%"},
		{"findings.deck", "a,b.c", "a,b.c"},
	} {
		roof, bad := read(c.head, c.cell)
		require.Nil(t, bad, c.head)
		assert.Equal(t, []string{c.text}, roof.Texts, c.head)
	}
	_, bad := read("findings.wet_share", "12.5%")
	require.NotNil(t, bad)
	assert.Equal(t, `roofs:2: findings.wet_share: "12.5%" has a point, expected a decimal comma and no other mark`, bad.String())
}

// A column that one template cannot have set is one of the others all the same;
// a roof on that template has an empty cell there.
func TestColumnsThatOneOfTheTemplatesSets(t *testing.T) {
	derived := template(t, "cold-store").Source
	text, _, _ := strings.Cut(string(derived.Text), "\nfindings:")
	_, rest, _ := strings.Cut(string(derived.Text)[len(text)+1:], "\nsystems:")
	derived.Text = []byte(text + "\nsystems:" + rest)
	bare, told := scenarios.Read(derived)
	require.NotNil(t, bare, "%v", told)
	both := []Template{{File: template(t, "school")}, {Name: "B", File: bare}}
	open := func(text string) *Table {
		table, err := Open("roofs", strings.NewReader(text), Options{})
		require.NoError(t, err)
		return table
	}
	table := open("id,template,roof.area,findings.deck\na,,1000,steel\nb,B,,\nc,B,900,\nd,B,,wood\n")
	c, err := Compile(both, table, Meaning{})
	require.NoError(t, err)
	assert.Equal(t, []string{"roof.area", "findings.deck"}, c.Inputs())
	var got []string
	counts, roof := make([]int, 2), &Roof{}
	for range 4 {
		row, err := table.Next()
		require.NoError(t, err)
		said := "done"
		if bad := c.Roof(row, roof); bad != nil {
			said = bad.String()
		} else {
			c.Empty(roof, row, counts)
		}
		got = append(got, said)
	}
	assert.Equal(t, []string{"done", "done"}, got[:2])
	assert.Contains(t, got[2], `roofs:4: roof.area: "900": the column cannot be set in the roof's template, so its cell must be empty: it follows from `)
	assert.Contains(t, got[3], `roofs:5: findings.deck: "wood": the column cannot be set in the roof's template, so its cell must be empty: it is a finding, but the template has no findings`)
	assert.Equal(t, []int{0, 0}, counts, "no value of a template holds in such a cell")

	_, err = Compile([]Template{{File: bare}, {Name: "C", File: bare}}, open("id,template,roof.area\n"), Meaning{})
	assert.ErrorContains(t, err, `roofs: the column "roof.area" cannot be set in the template "cold-store.yaml": it follows from `)
	_, err = Compile([]Template{{File: template(t, "school")}, {Name: "B", File: bare}}, open("id,template,survey.wet.aera\n"), Meaning{})
	assert.ErrorContains(t, err, `"survey.wet.aera" is no input of the template; did you mean "survey.wet.area"?`)
}

// Blanks around an id tell no two roofs apart.
func TestBlanksAreNoneOfAnId(t *testing.T) {
	table, err := Open("roofs", strings.NewReader("id,x\n1,a\n 1 ,b\n\t2,c\n  ,d\n , e\n"), Options{})
	require.NoError(t, err)
	c, err := Compile([]Template{{File: template(t, "school")}}, table, Meaning{})
	require.NoError(t, err)
	var got []string
	for seen, roof := NewSeen(), (&Roof{}); ; {
		row, err := table.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		c.Once(&row, seen)
		if bad := c.Roof(row, roof); bad != nil {
			got = append(got, bad.Reason)
			continue
		}
		got = append(got, roof.ID)
	}
	assert.Equal(t, []string{"1", "the id stands in line 2 already", "2", "the roof has no id", "the roof has no id"}, got)
}

func TestSeenTellsTheLineOfAnId(t *testing.T) {
	s := NewSeen()
	for i := range 1000 {
		assert.Zero(t, s.Line(fmt.Sprint(i), i+2))
	}
	assert.Equal(t, 9, s.Line("7", 2000))
	assert.Equal(t, 9, s.Line("7", 3000), "the first line")
}
