package workbook

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Gnumeric reads the charts too, with their titles.
func TestGnumericReadsTheCharts(t *testing.T) {
	tr := plainly(t, "cold-store", example(t, "cold-store"))
	file, made := filepath.Join(t.TempDir(), "in.xlsx"), filepath.Join(t.TempDir(), "out.gnumeric")
	require.NoError(t, os.WriteFile(file, tr.file, 0o600))
	out, err := exec.Command("ssconvert", file, made).CombinedOutput()
	require.NoError(t, err, "%s", out)
	packed, err := os.Open(made)
	require.NoError(t, err)
	defer packed.Close()
	plain, err := gzip.NewReader(packed)
	require.NoError(t, err)
	text, err := io.ReadAll(plain)
	require.NoError(t, err)
	charts := 0
	for _, s := range tr.want.order {
		charts += len(s.charts)
	}
	require.Positive(t, charts)
	assert.Equal(t, charts, strings.Count(string(text), "<gnm:SheetObjectGraph "))
	for _, title := range []string{"What the life-cycle costs are made of", "Life-cycle cost at other discount rates"} {
		assert.Contains(t, string(text), title)
	}
}

// The years of the chart of costs so far begin with the base date and end with the study period; without both ends a program
// may count round steps back from the end and begin before the base date.
func TestYearsOfTheChartAreThoseOfTheStudy(t *testing.T) {
	tr := plainly(t, "cold-store", example(t, "cold-store"))
	z, err := zip.NewReader(bytes.NewReader(tr.file), int64(len(tr.file)))
	require.NoError(t, err)
	found := false
	for _, f := range z.File {
		if !strings.HasPrefix(f.Name, "xl/charts/") {
			continue
		}
		r, err := f.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		if strings.Contains(string(text), "Cost so far, year by year") {
			found = true
			assert.Contains(t, string(text), `<scaling><orientation val="minMax"></orientation><max val="30"></max><min val="0"></min></scaling>`)
		}
	}
	assert.True(t, found)
}
