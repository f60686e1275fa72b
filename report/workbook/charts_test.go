package workbook

import (
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
