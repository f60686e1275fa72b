package portfolio

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"
)

// cellForm is what the format of a cell makes of its number.
type cellForm int

const (
	plainForm cellForm = iota
	percentForm
	dateForm
)

// formats are the formats of cells, ECMA-376 part 1 section 18.8.
type formats struct {
	Own []struct {
		ID   int    `xml:"numFmtId,attr"`
		Code string `xml:"formatCode,attr"`
	} `xml:"numFmts>numFmt"`
	Cells []struct {
		Format int `xml:"numFmtId,attr"`
	} `xml:"cellXfs>xf"`
}

func (w *workbook) readForms(name string) error {
	var f formats
	if err := w.listing(name, &f); err != nil {
		return err
	}
	own := map[int]cellForm{}
	for _, format := range f.Own {
		own[format.ID] = formOf(format.Code)
	}
	for _, cell := range f.Cells {
		form, has := own[cell.Format]
		if !has {
			form = builtIn(cell.Format)
		}
		w.styles = append(w.styles, form)
	}
	return nil
}

// builtIn is the form of a format that has a number only, section 18.8.30: of
// dates and times 14 to 22, those of East Asian calendars 27 to 36 and 50 to
// 58, and 45 and 47; 46 is an elapsed time, which is a number.
func builtIn(id int) cellForm {
	switch {
	case id == 9 || id == 10:
		return percentForm
	case id >= 14 && id <= 22, id >= 27 && id <= 36, id == 45, id == 47, id >= 50 && id <= 58:
		return dateForm
	}
	return plainForm
}

// literal is what stands in a format for itself: quoted, escaped, a width, a
// fill, or a colour, a currency or a condition in brackets.
var (
	elapsed = regexp.MustCompile(`(?i)\[(h+|m+|s+)\]`)
	literal = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^\]]*\]`)
)

// formOf reads a format, section 18.8.31; its first part is that of positive
// numbers.
func formOf(code string) cellForm {
	timed := elapsed.MatchString(code)
	code, _, _ = strings.Cut(literal.ReplaceAllString(code, ""), ";")
	switch {
	case timed || strings.EqualFold(code, "general"):
		return plainForm
	case strings.ContainsAny(code, "yYmMdDhHsS"):
		return dateForm
	case strings.Contains(code, "%"):
		return percentForm
	}
	return plainForm
}

// dayZero is the day that dates are counted from.
type dayZero time.Time

// dayZeroOf gives the day before the first, section 18.17.4: of 1900, taking in
// that the format counts a 29 February of that year, or of 1904.
func dayZeroOf(from1904 string) dayZero {
	if from1904 == "1" || from1904 == "true" {
		return dayZero(time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC))
	}
	return dayZero(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC))
}

// text tells a date as 2026-10-12, with a time of the day where it has one, and
// a part of a day as a time, to the second. Before March 1900 nobody knows
// which day a number is, and after 9999 there is none.
func (from dayZero) text(days float64) (string, bool) {
	if days < 0 || days >= 1 && days < 61 && time.Time(from).Year() < 1900 {
		return "", false
	}
	seconds := math.Round(days * 86400)
	at := time.Time(from).AddDate(0, 0, int(min(seconds, 1e12))/86400).Add(time.Duration(math.Mod(seconds, 86400)) * time.Second)
	switch {
	case at.Year() > 9999:
		return "", false
	case days < 1:
		return at.Format(time.TimeOnly), true
	case math.Mod(seconds, 86400) == 0:
		return at.Format(time.DateOnly), true
	}
	return at.Format("2006-01-02T15:04:05"), true
}

// numberText is the text of a number that a workbook stores. A spreadsheet
// holds numbers in binary and stores up to 17 digits of them: it stores 3.05
// as 3.0499999999999998, or as 3.05. The text is the shortest that means the
// same binary number, which is what was typed if that had up to 15 digits.
func numberText(stored string, form cellForm, from dayZero) (text, bad string) {
	f, err := strconv.ParseFloat(stored, 64)
	if err != nil || strings.Trim(stored, "0123456789+-.eE") != "" {
		return "", "the cell holds " + strconv.Quote(stored) + ", which is no number"
	}
	if form == dateForm {
		text, known := from.text(f)
		if !known {
			return "", "the cell is a date before March 1900 or after 9999"
		}
		return text, ""
	}
	layout := byte('f')
	if f != 0 && (math.Abs(f) < 1e-9 || math.Abs(f) >= 1e21) {
		layout = 'e'
	}
	text = strconv.FormatFloat(f, layout, -1, 64)
	if form == percentForm {
		return decimal.RequireFromString(text).Shift(2).String() + "%", ""
	}
	return text, ""
}
