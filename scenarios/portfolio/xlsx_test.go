package portfolio

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// The parts of a workbook, as small as they may be: a prefix at the main names
// and an absolute target, which some writers have.
const (
	partRels  = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="/xl/workbook.xml"/></Relationships>`
	partBook  = `<x:workbook xmlns:x="http://purl.oclc.org/ooxml/spreadsheetml/main" xmlns:r="http://purl.oclc.org/ooxml/officeDocument/relationships"><x:sheets><x:sheet name="Hidden" sheetId="1" state="hidden" r:id="h"/><x:sheet name="Roofs" sheetId="2" r:id="s"/></x:sheets></x:workbook>`
	partLinks = `<Relationships><Relationship Id="s" Type="http://purl.oclc.org/ooxml/officeDocument/relationships/worksheet" Target="worksheets/Sheet2.xml"/>` +
		`<Relationship Id="h" Type="t/worksheet" Target="worksheets\sheet1.xml"/><Relationship Id="t" Type="t/sharedStrings" Target="sharedStrings.xml"/><Relationship Id="f" Type="t/styles" Target="styles.xml"/></Relationships>`
	partTexts  = `<sst><si><t>id</t></si><si><r><rPr><b/></rPr><t>no</t></r><r><t xml:space="preserve">te </t></r><rPh sb="0" eb="1"><t>aid</t></rPh></si><si><t>007</t></si></sst>`
	partStyles = `<styleSheet><numFmts><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd;@"/><numFmt numFmtId="165" formatCode="0.0%"/><numFmt numFmtId="166" formatCode="[$USD] #,##0.00 &quot;dry&quot;"/><numFmt numFmtId="167" formatCode="[h]:mm"/></numFmts>` +
		`<cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="166"/><xf numFmtId="9"/><xf numFmtId="20"/><xf numFmtId="167"/></cellXfs></styleSheet>`
	hiddenSheet = `<worksheet><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>id</t></is></c></row><row><c t="str"><v>of the hidden sheet</v></c></row></sheetData></worksheet>`
)

// packed makes a workbook of a sheet's rows, and of what follows them.
func packed(t testing.TB, rows string, after ...string) []byte {
	t.Helper()
	return zipped(t, map[string]string{
		"_rels/.rels": partRels, "xl/workbook.xml": partBook, "xl/_rels/workbook.xml.rels": partLinks, "xl/sharedStrings.xml": partTexts,
		"xl/styles.xml": partStyles, "xl/worksheets/sheet1.xml": hiddenSheet,
		"xl/worksheets/sheet2.xml": `<?xml version="1.0"?><x:worksheet xmlns:x="http://purl.oclc.org/ooxml/spreadsheetml/main"><x:sheetData>` + rows + `</x:sheetData>` + strings.Join(after, "") + `</x:worksheet>`,
	})
}

func zipped(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, text := range parts {
		part, err := z.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(part, text)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

// workbookRows reads a workbook as all does.
func workbookRows(file []byte, sheet string) (head []string, rows []Row, err error) {
	return all(string(file), Options{Format: XLSX, Sheet: sheet})
}

// A head of four columns, and a row of one cell in the third.
const sheetHead = `<row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2" t="s"><v>1</v></c><c r="C2" t="inlineStr"><is><t>roof.area</t></is></c><c r="D2"><v>2026</v></c></row>`

func TestCellsAreWhatWasStored(t *testing.T) {
	for cell, want := range map[string]string{
		`<c r="C9"><v>3.05</v></c>`:                                         "3.05",
		`<c r="C9"><v>3.0499999999999998</v></c>`:                           "3.05",
		`<c r="C9" t="n"><v>0.10000000000000001</v></c>`:                    "0.1",
		`<c r="C9"><v>2.9999999999999999E-2</v></c>`:                        "0.03",
		`<c r="C9"><v>1E+15</v></c>`:                                        "1000000000000000",
		`<c r="C9"><v>1e-20</v></c>`:                                        "1e-20",
		`<c r="C9"><v>-5</v></c>`:                                           "-5",
		`<c r="C9" s="4"><v>0.03</v></c>`:                                   "3%",
		`<c r="C9" s="2"><v>3.2500000000000001E-2</v></c>`:                  "3.25%",
		`<c r="C9" s="2"><v>1.5</v></c>`:                                    "150%",
		`<c r="C9" s="3"><v>3.05</v></c>`:                                   "3.05",
		`<c r="C9" s="1"><v>46307</v></c>`:                                  "2026-10-12",
		`<c r="C9" s="1"><v>46307.604166666664</v></c>`:                     "2026-10-12T14:30:00",
		`<c r="C9" s="5"><v>0.60416666666666663</v></c>`:                    "14:30:00",
		`<c r="C9" s="6"><v>1.5</v></c>`:                                    "1.5",
		`<c r="C9" t="d"><v>2026-10-12</v></c>`:                             "2026-10-12",
		`<c r="C9" t="b"><v>1</v></c>`:                                      "true",
		`<c r="C9" t="s"><v>2</v></c>`:                                      "007",
		`<c r="C9" t="s"><v>1</v></c>`:                                      "note ",
		`<c r="C9"><f>1+1</f><v>2</v></c>`:                                  "2",
		`<c r="C9" t="str"><f>""</f><v></v></c>`:                            "",
		`<c r="C9" t="str"><f>A1</f><v>=1+1</v></c>`:                        "=1+1",
		`<c r="C9" t="inlineStr"><is><t>0.10000000000000001</t></is></c>`:   "0.10000000000000001",
		`<c r="C9" t="inlineStr"><is><t>a_x000D_&lt;b_x005F_x</t></is></c>`: "a\r<b_x",
		`<c r="C9" t="inlineStr"><is><t>@SUM(A1)</t></is></c>`:              "@SUM(A1)",
		`<c r="C9" s="99"/>`:                                                "",
	} {
		head, rows, err := workbookRows(packed(t, sheetHead+`<row r="9" hidden="1"><c r="A9"><v>7</v></c>`+cell+`</row>`), "")
		require.NoError(t, err, cell)
		assert.Equal(t, []string{"id", "note", "roof.area", "2026"}, head)
		assert.Equal(t, []Row{{Line: 9, Cells: []string{"7", "", want, ""}}}, rows, cell)
	}
}

func TestCellsThatCannotBeRead(t *testing.T) {
	for cell, said := range map[string]string{
		`<c r="C9" t="e"><v>#DIV/0!</v></c>`:                                  `roofs:9: roof.area: the cell holds the error "#DIV/0!"`,
		`<c r="C9"><f>A1+1</f></c>`:                                           `roofs:9: roof.area: the cell is a formula without a stored value: open the workbook in a spreadsheet program and save it`,
		`<c r="C9"><f>A1+1</f><v></v></c>`:                                    `roofs:9: roof.area: the cell is a formula without a stored value: open the workbook in a spreadsheet program and save it`,
		`<c r="C9"><v>1_000</v></c>`:                                          `roofs:9: roof.area: the cell holds "1_000", which is no number`,
		`<c r="C9"><v>0x1p2</v></c>`:                                          `roofs:9: roof.area: the cell holds "0x1p2", which is no number`,
		`<c r="C9"><v>1e999</v></c>`:                                          `roofs:9: roof.area: the cell holds "1e999", which is no number`,
		`<c r="C9"><v>NaN</v></c>`:                                            `roofs:9: roof.area: the cell holds "NaN", which is no number`,
		`<c r="C9" s="1"><v>60</v></c>`:                                       `roofs:9: roof.area: the cell is a date before March 1900 or after 9999`,
		`<c r="C9" s="1"><v>1e9</v></c>`:                                      `roofs:9: roof.area: the cell is a date before March 1900 or after 9999`,
		`<c r="C9" t="s"><v>3</v></c>`:                                        `roofs:9: roof.area: the cell has a text that the workbook does not hold`,
		`<c r="C9" t="q"><v>3</v></c>`:                                        `roofs:9: roof.area: the cell is of the kind "q", which is not known`,
		`<c r="F9"><v>3</v></c>`:                                              `roofs:9: "3": column F has no head, expected 4 columns as the head has`,
		`<c r="C9" t="str"><v>` + strings.Repeat("x", MaxCell+1) + `</v></c>`: `roofs:9: roof.area: the cell has 4097 bytes, at most 4096 are read`,
	} {
		_, rows, err := workbookRows(packed(t, sheetHead+`<row r="9"><c r="A9"><v>7</v></c>`+cell+`</row><row r="10"><c><v>8</v></c></row>`), "")
		require.NoError(t, err, cell)
		require.Len(t, rows, 2)
		require.NotNil(t, rows[0].Bad, cell)
		assert.Equal(t, said, rows[0].Bad.String())
		assert.Equal(t, "7", rows[0].Cells[0], "by which a second one is found")
		assert.Nil(t, rows[1].Bad, "the rest is read")
	}
}

func TestBlankRowsAreNoneAndSheetsHaveNames(t *testing.T) {
	file := packed(t, `<row r="1"/>`+sheetHead+`<row r="3"><c r="A3" s="1"/><c r="C3" t="str"><f>""</f><v></v></c></row><row r="1048576"><c r="A1048576"><v>7</v></c><c r="XFD1048576" t="str"><v> </v></c></row>`)
	_, rows, err := workbookRows(file, "")
	require.NoError(t, err)
	assert.Equal(t, []Row{{Line: 1048576, Cells: []string{"7", "", "", ""}}}, rows, "blanks beyond the head are nothing")

	head, rows, err := workbookRows(file, "Hidden")
	require.NoError(t, err)
	assert.Equal(t, []string{"id"}, head)
	assert.Equal(t, []Row{{Line: 2, Cells: []string{"of the hidden sheet"}}}, rows)
}

func TestDatesFrom1904(t *testing.T) {
	parts := map[string]string{
		"_rels/.rels": partRels, "xl/workbook.xml": `<workbook><workbookPr date1904="1"/><sheets><sheet name="a" id="s"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": partLinks, "xl/styles.xml": partStyles,
		"xl/worksheets/sheet2.xml": `<worksheet><sheetData><row><c t="str"><v>id</v></c></row><row><c s="1"><v>44845</v></c></row></sheetData></worksheet>`,
	}
	_, rows, err := workbookRows(zipped(t, parts), "")
	require.NoError(t, err)
	assert.Equal(t, []string{"2026-10-12"}, rows[0].Cells)
}

func TestWorkbooksThatCannotBeRead(t *testing.T) {
	deep := strings.Repeat("<a>", maxDepth) + strings.Repeat("</a>", maxDepth)
	wide := func(n int) string {
		return "<row>" + strings.Repeat(`<c t="str"><v>`+noise(40_000)+`</v></c>`, n) + "</row>"
	}
	for _, c := range []struct {
		file        []byte
		sheet, said string
	}{
		{nil, "", "roofs: the file is empty, expected a workbook"},
		{[]byte("id,roof.area\n"), "", "roofs: the file is no .xlsx workbook: zip: not a valid zip file"},
		{append(bytes.Clone(compound), make([]byte, 600)...), "", "roofs: the workbook is an old .xls or has a password: save it as .xlsx without a password"},
		{zipped(t, map[string]string{"content.xml": "<a/>"}), "", "roofs: the zip file holds no .xlsx workbook: save the table as .xlsx or as CSV UTF-8"},
		{packed(t, sheetHead), "Roof", `roofs: there is no sheet "Roof"; there are "Hidden", "Roofs"`},
		{listing(t, `<sheet name="a" id="s" state="hidden"/><sheet name="b" id="s" state="hidden"/>`), "", `roofs: the workbook has no sheet that is not hidden; there are "a", "b": say --sheet`},
		{listing(t, `<sheet name="a" id="s" state="hidden"/>`), "b", `roofs: there is no sheet "b"; there is "a"`},
		{listing(t, ""), "", "roofs: the workbook has no sheet of cells: save the table as .xlsx or as CSV UTF-8"},
		{packed(t, `<row r="5"><c s="1"/></row>`), "", "roofs: the sheet is empty, expected a row of heads"},
		{packed(t, `<row r="2"><c r="B2"><v>1</v></c></row>`), "", "roofs:2: column A has no head: the table begins in column A, and its head is the first row that is not blank"},
		{packed(t, `<row r="2"><c r="A2" t="e"><v>#N/A</v></c></row>`), "", `roofs:2: A: the cell holds the error "#N/A"`},
		{packed(t, `<row><c><v>1</v></c><c><v>1</v></c></row>`), "", `roofs:1: the column "1" stands there twice`},
		{packed(t, sheetHead+`<row r="2"><c><v>1</v></c></row>`), "", `roofs: the rows of the sheet are out of order: "2" after row 2`},
		{packed(t, sheetHead+`<row r="1048577"><c><v>1</v></c></row>`), "", `roofs: the sheet has a row 1048577, at most 1048576 are read`},
		{packed(t, sheetHead+`<row r="3"><c r="B3"><v>1</v></c><c r="A3"><v>1</v></c></row>`), "", `roofs:3: the cells of the row are out of order at "A3"`},
		{packed(t, sheetHead+`<row r="3">`+strings.Repeat("<c/>", maxSheetColumn+1)+`</row>`), "", `roofs:3: the row has over 16384 cells`},
		{packed(t, sheetHead+`<row r="3"><c><v>`+noise(MaxRow+readAhead)+`</v></c></row>`), "", "roofs:3: a cell here or in the next row is longer than 1048576 bytes, the most that is read"},
		{packed(t, sheetHead+`<row r="3"><c><v>`+strings.ReplaceAll(noise(MaxRow+12), "1", "<!---->1")+`</v></c></row>`), "", "roofs:3: a cell here or in the next row is longer than 1048576 bytes, the most that is read"},
		{packed(t, sheetHead+wide(27)), "", "roofs:3: the row is longer than 1048576 bytes, the most that is read"},
		{packed(t, sheetHead+`<row r="3"><c><v>1</c></row>`), "", `roofs: the part "xl/worksheets/sheet2.xml" of the workbook cannot be read: XML syntax error on line 1: element <v> closed by </c>`},
		{packed(t, sheetHead+`<row r="3"><c><v>&bomb;</v></c></row>`), "", `roofs: the part "xl/worksheets/sheet2.xml" of the workbook cannot be read: XML syntax error on line 1: invalid character entity &bomb;`},
		{packed(t, sheetHead+deep), "", `roofs: the part "xl/worksheets/sheet2.xml" of the workbook cannot be read: its elements are nested over 64 deep`},
		{packed(t, sheetHead+`<row r="3"><c><v>1</v></c></row><row r="4"><c><v>2</v></c></row>`, `<mergeCells><mergeCell ref="H1:I9"/><mergeCell ref="B3:B4"/></mergeCells>`), "", "roofs:3: the cells B3:B4 are merged, so that only the first has a value: take them apart and fill each"},
		{packed(t, sheetHead+`<row r="3"><c><v>1</v></c></row><row r="4"><c><v>2</v></c></row>`, `<mergeCells><mergeCell ref="I9:H1"/><mergeCell ref="H4:B3"/></mergeCells>`), "", "roofs:3: the cells H4:B3 are merged, so that only the first has a value: take them apart and fill each"},
		{packed(t, sheetHead+`<row r="3"><c><v>1</v></c></row><row r="4"><c><v>2</v></c></row>`, `<mergeCells><mergeCell ref="B9:C4"/></mergeCells>`), "", "roofs:4: the cells B9:C4 are merged, so that only the first has a value: take them apart and fill each"},
		{packed(t, `<row r="1"><c t="str"><v>Roofs of the district</v></c></row>`+sheetHead, `<mergeCells><mergeCell ref="A1:D1"/></mergeCells>`), "", "roofs:1: the cells A1:D1 are merged, so that only the first has a value: take them apart and fill each"},
	} {
		_, _, err := workbookRows(c.file, c.sheet)
		var known *Unreadable
		require.ErrorAs(t, err, &known, c.said)
		assert.Equal(t, c.said, known.Error())
	}
}

// listing is a workbook with these sheets in its list.
func listing(t *testing.T, list string) []byte {
	return zipped(t, map[string]string{
		"_rels/.rels": partRels, "xl/_rels/workbook.xml.rels": partLinks,
		"xl/workbook.xml": "<workbook><sheets>" + list + "</sheets></workbook>",
	})
}

// noise is digits that do not pack well.
func noise(n int) string {
	r, b := rand.New(rand.NewPCG(1, 1)), make([]byte, n)
	for i := range b {
		b[i] = byte('0' + r.IntN(10))
	}
	return string(b)
}

// bomb is a workbook whose sheet unpacks to so many bytes of blanks.
func bomb(t testing.TB, unpacked int) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	z.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	for name, text := range map[string]string{"_rels/.rels": partRels, "xl/workbook.xml": partBook, "xl/_rels/workbook.xml.rels": partLinks} {
		part, err := z.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(part, text)
		require.NoError(t, err)
	}
	part, err := z.Create("xl/worksheets/sheet2.xml")
	require.NoError(t, err)
	blank := bytes.Repeat([]byte(" "), 1<<20)
	_, err = io.WriteString(part, "<worksheet><sheetData>")
	require.NoError(t, err)
	for range unpacked >> 20 {
		_, err = part.Write(blank)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

// A small file that unpacks to a large sheet is refused before it is unpacked,
// also when it lies about its size.
func TestAZipBombIsRefused(t *testing.T) {
	file := bomb(t, 256<<20)
	assert.Less(t, len(file), 3<<20)
	require.Regexp(t, `^roofs: the part "xl/worksheets/sheet2.xml" unpacks to 268435478 bytes from [0-9]+, at most 2147483648 and 200 times as many are read$`, taken(t, file))

	// The size stands in the table of contents, at the end of the file.
	size := []byte{0x16, 0, 0, 0x10} // 268435478
	at := bytes.LastIndex(file, size)
	require.Positive(t, at)
	copy(file[at:], []byte{0, 0, 1, 0})
	assert.Contains(t, taken(t, file), `the part "xl/worksheets/sheet2.xml" of the workbook cannot be read: zip: not a valid zip file`)
}

// taken reads a workbook that is refused, with a few MiB of memory.
func taken(t *testing.T, file []byte) string {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	table, err := Open("roofs", bytes.NewReader(file), Options{Format: XLSX})
	if err == nil {
		_, err = table.Next()
	}
	runtime.ReadMemStats(&after)
	require.Error(t, err)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(8<<20))
	return err.Error()
}

// What another writer of workbooks makes is read as that one reads it: numbers
// of all sizes, texts that need care, in either way of writing.
func TestAnotherWritersWorkbookIsRead(t *testing.T) {
	values := []any{"id", 7, 0.1, 3.05, -1e-7, 0.123456789012345, 1e17, math.MaxFloat64, "007", "=1+1", "-x", " a ", "a\nb", "<&>\"'", "屋根", true, "#DIV/0!", "1E5"}
	book := excelize.NewFile()
	defer book.Close()
	_, err := book.NewSheet("streamed")
	require.NoError(t, err)
	stream, err := book.NewStreamWriter("streamed")
	require.NoError(t, err)
	for i, row := range [][]any{{"id", "value"}} {
		require.NoError(t, book.SetSheetRow("Sheet1", fmt.Sprint("A", i+1), &row))
		require.NoError(t, stream.SetRow(fmt.Sprint("A", i+1), row))
	}
	for i, v := range values {
		require.NoError(t, book.SetSheetRow("Sheet1", fmt.Sprint("A", i+2), &[]any{i, v}))
		require.NoError(t, stream.SetRow(fmt.Sprint("A", i+2), []any{i, v}))
	}
	require.NoError(t, stream.Flush())
	file, err := book.WriteToBuffer()
	require.NoError(t, err)
	for _, sheet := range []string{"Sheet1", "streamed"} {
		_, rows, err := workbookRows(file.Bytes(), sheet)
		require.NoError(t, err)
		require.Len(t, rows, len(values))
		for i, v := range values {
			want := fmt.Sprint(v)
			if f, ok := v.(float64); ok {
				got, err := strconv.ParseFloat(rows[i].Cells[1], 64)
				require.NoError(t, err)
				assert.Equal(t, f, got)
				want = strconv.FormatFloat(f, 'g', -1, 64)
				if f >= 1e17 || f == -1e-7 {
					continue
				}
			}
			assert.Equal(t, []string{fmt.Sprint(i), want}, rows[i].Cells, sheet)
		}
	}
}

func FuzzXLSX(f *testing.F) {
	f.Add(packed(f, sheetHead+`<row r="9"><c r="A9"><v>7</v></c><c r="C9" s="2"><v>0.03</v></c></row>`, `<mergeCells><mergeCell ref="A1"/></mergeCells>`), "")
	f.Add(packed(f, sheetHead+`<row><c t="s"><v>2</v></c><c t="e"><v>#N/A</v></c><c><f>A1</f></c></row>`), "Hidden")
	f.Add(append(bytes.Clone(compound), make([]byte, 600)...), "")
	f.Add([]byte("PK\x05\x06"+strings.Repeat("\x00", 18)), "")
	f.Fuzz(func(t *testing.T, file []byte, sheet string) {
		head, rows, err := workbookRows(file, sheet)
		var known *Unreadable
		if err != nil && !errors.As(err, &known) {
			t.Fatalf("no reason that a user could read: %v", err)
		}
		checkRead(t, head, rows)
	})
}

// FuzzSheet has only the rows of a sheet drawn, which a zip file would hide.
func FuzzSheet(f *testing.F) {
	f.Add(sheetHead + `<row r="9"><c r="A9"><v>7</v></c><c r="C9" s="2"><v>0.03</v></c></row>`)
	f.Add(sheetHead + `<row><c t="s"><v>2</v></c><c t="e"><v>#N/A</v></c><c><f>A1</f></c></row><mergeCell ref="B3:C9"/>`)
	f.Fuzz(func(t *testing.T, rows string) {
		head, read, err := workbookRows(packed(t, rows), "")
		var known *Unreadable
		if err != nil && !errors.As(err, &known) {
			t.Fatalf("no reason that a user could read: %v", err)
		}
		checkRead(t, head, read)
	})
}

// checkRead tells what holds for every table: rows are as wide as the head, in
// order, with cells within their limit or a reason.
func checkRead(t *testing.T, head []string, rows []Row) {
	line := 0
	for _, row := range rows {
		if row.Line <= line || len(row.Cells) != len(head) {
			t.Fatalf("row %d after %d has %d cells of %d", row.Line, line, len(row.Cells), len(head))
		}
		line = row.Line
		for _, cell := range row.Cells {
			if row.Bad == nil && len(cell) > MaxCell {
				t.Fatalf("a cell of %d bytes", len(cell))
			}
		}
	}
}
