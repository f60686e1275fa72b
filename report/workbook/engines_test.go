package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// engine recalculates workbooks: it gives the files that it writes, in the
// order of those that it reads.
type engine struct {
	name    string
	convert func(t *testing.T, files []string) []string
}

// engines are two spreadsheet programs that know nothing of each other.
var engines = []engine{{"LibreOffice", libreOffice}, {"Gnumeric", gnumeric}}

// libreOffice converts all files in one call, which costs seconds however many
// they are.
func libreOffice(t *testing.T, files []string) []string {
	profile, into := t.TempDir(), t.TempDir()
	args := []string{"-env:UserInstallation=file://" + profile, "--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", into}
	out, err := exec.Command("soffice", append(args, files...)...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	made := make([]string, len(files))
	for i, file := range files {
		made[i] = filepath.Join(into, filepath.Base(file))
	}
	return made
}

func gnumeric(t *testing.T, files []string) []string {
	into := t.TempDir()
	made := make([]string, len(files))
	for i, file := range files {
		made[i] = filepath.Join(into, filepath.Base(file))
		out, err := exec.Command("ssconvert", "--recalc", "--export-type=Gnumeric_Excel:xlsx2", file, made[i]).CombinedOutput()
		require.NoError(t, err, "%s", out)
	}
	return made
}

// trial is a workbook that is to be recalculated, and the one whose values it
// must come to.
type trial struct {
	name   string
	file   []byte
	inputs map[string]string // numbers to put into named cells before
	broken string            // a cell of the first ledger whose formula is put out; "" is none
	want   *book
}

var (
	cachedValue = regexp.MustCompile(`(<f[^>]*>[^<]*</f>)<v>[^<]*</v>`)
	formulaCell = regexp.MustCompile(`<f[ >]`)
)

// bare is a workbook without a single value of a formula, so that what a
// program shows of one it has computed; and with other inputs.
func (tr trial) bare(t *testing.T) []byte {
	cells := tr.want.inputCells()
	in, err := zip.NewReader(bytes.NewReader(tr.file), int64(len(tr.file)))
	require.NoError(t, err)
	var out bytes.Buffer
	to := zip.NewWriter(&out)
	formulas := 0
	for _, part := range in.File {
		from, err := part.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(from)
		require.NoError(t, err)
		if strings.HasPrefix(part.Name, "xl/worksheets/sheet") {
			formulas += len(formulaCell.FindAll(text, -1))
			text = cachedValue.ReplaceAll(text, []byte("$1"))
			require.NotRegexp(t, `</f><v>`, string(text))
		}
		if part.Name == tr.want.part(tr.want.input) {
			text = edited(t, text, tr.inputs, cells)
		}
		if tr.broken != "" && part.Name == tr.want.part(tr.want.ledgers[0].sheet) {
			at := regexp.MustCompile(`(<c r="` + tr.broken + `"[^>]*>)<f>[^<]*</f>`)
			require.Len(t, at.FindAll(text, -1), 1)
			text = at.ReplaceAll(text, []byte("$1<v>0</v>"))
		}
		w, err := to.Create(part.Name)
		require.NoError(t, err)
		_, err = w.Write(text)
		require.NoError(t, err)
	}
	require.Positive(t, formulas)
	require.NoError(t, to.Close())
	return out.Bytes()
}

// edited puts other numbers into cells of a sheet, as whoever types them does.
func edited(t *testing.T, text []byte, inputs, cells map[string]string) []byte {
	for name, value := range inputs {
		cell, ok := cells[name]
		require.True(t, ok, "there is no cell named %s", name)
		at := regexp.MustCompile(`(<c r="` + cell + `"[^>]*>)<v>[^<]*</v>`)
		require.Len(t, at.FindAll(text, -1), 1, "%s holds no number", cell)
		text = at.ReplaceAll(text, []byte("${1}<v>"+value+"</v>"))
	}
	return text
}

// run has an engine compute trials and looks at what comes out.
func (e engine) run(t *testing.T, trials []trial, look func(trial, *excelize.File)) {
	dir := t.TempDir()
	var files []string
	for i, tr := range trials {
		file := filepath.Join(dir, fmt.Sprintf("trial-%d.xlsx", i))
		require.NoError(t, os.WriteFile(file, tr.bare(t), 0o600))
		files = append(files, file)
	}
	for i, file := range e.convert(t, files) {
		f, err := excelize.OpenFile(file)
		require.NoError(t, err, trials[i].name)
		look(trials[i], f)
		require.NoError(t, f.Close())
	}
}

// recalculated has an engine compute trials and compares every cell; it gives
// how many formulas were compared.
func recalculated(t *testing.T, e engine, trials []trial) int {
	compared := 0
	e.run(t, trials, func(tr trial, f *excelize.File) { compared += tr.want.compare(t, e.name+", "+tr.name, f) })
	return compared
}

// part is the name of a sheet's part of the file.
func (b *book) part(s *sheet) string {
	return fmt.Sprintf("xl/worksheets/sheet%d.xml", 1+slices.Index(b.order, s))
}

// inputCells are the cells of the inputs by their names.
func (b *book) inputCells() map[string]string {
	out := map[string]string{}
	for i, name := range b.inputs {
		out[name] = here(firstInput+i, inValue)
	}
	return out
}

// compare compares every cell of a workbook with what it should hold, and
// gives how many formulas there were.
func (b *book) compare(t *testing.T, name string, f *excelize.File) int {
	compared, wrong := 0, 0
	for _, s := range b.order {
		rows, err := f.GetRows(s.name, excelize.Options{RawCellValue: true})
		require.NoError(t, err, name)
		for r, line := range s.cells {
			for c, want := range line {
				got := ""
				if r < len(rows) && c < len(rows[r]) {
					got = rows[r][c]
				}
				if want.formula != "" {
					compared++
				}
				if why := want.differs(got, b.cur.Digits); why != "" && wrong < 5 {
					wrong++
					t.Errorf("%s: %s!%s =%s: %s", name, s.name, here(r+1, c+1), want.formula, why)
				}
			}
		}
	}
	return compared
}

// differs says how what a program shows differs from what a cell should hold;
// "" when it does not. Money is the same to its last digit; other numbers are
// to ten digits.
func (c cell) differs(got string, digits int32) string {
	switch want := c.value.(type) {
	case nil:
		if got != "" {
			return fmt.Sprintf("got %q in an empty cell", got)
		}
	case string:
		if got != want {
			return fmt.Sprintf("got %q, want %q", got, want)
		}
	case decimal.Decimal:
		number, err := decimal.NewFromString(got)
		if err != nil {
			return fmt.Sprintf("got %q, want %s", got, want)
		}
		off := number.Sub(want).Abs()
		allowed := want.Abs().Mul(decimal.New(1, -10)).Add(decimal.New(1, -10))
		if f := c.style.form; f == money || f == moneySign {
			allowed = decimal.New(1, -digits-4) // far less than a unit, more than binary dust
		}
		if off.GreaterThan(allowed) {
			return fmt.Sprintf("got %s, want %s", number, want)
		}
	}
	return ""
}
