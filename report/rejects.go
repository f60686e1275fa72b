package report

import "strconv"

// Reject says why a row of a table of roofs was not done.
type Reject struct {
	File   string
	Line   int
	Column string // "" when it is about the whole row
	Value  string // of the cell
	Reason string
}

// AppendRejectHead appends the head of a table of rejects as CSV, with a byte
// order mark.
func AppendRejectHead(b []byte) []byte {
	return append(b, "\ufefffile,line,column,value,reason\n"...)
}

// AppendReject appends a row of it; its texts are harmless as those of
// WriteTakeOffCSV are.
func AppendReject(b []byte, r Reject) []byte {
	b = append(append(b, csvText(r.File)...), ',')
	b = strconv.AppendInt(b, int64(r.Line), 10)
	for _, text := range []string{r.Column, r.Value, r.Reason} {
		b = append(append(b, ','), csvText(text)...)
	}
	return append(b, '\n')
}
